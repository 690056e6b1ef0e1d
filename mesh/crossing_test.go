package mesh

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// common lists corner points of what two triangles have in common, by brute
// force: a common point is a mean of either's corners with weights that are not
// negative, and the corners of the set of all weights have as few of them above
// zero as the six equations allow. So each choice of weights is solved for, in
// fractions.
func common(a, b [3][3]int64) [][3]*big.Rat {
	var found [][3]*big.Rat
	for choice := 1; choice < 64; choice++ {
		rows := make([][]*big.Rat, 5) // three coordinates, two sums of weights
		var columns []int
		for c := range 6 {
			if choice>>c&1 == 1 {
				columns = append(columns, c)
			}
		}
		for r := range rows {
			for _, c := range columns {
				var x int64
				switch {
				case r < 3 && c < 3:
					x = a[c][r]
				case r < 3:
					x = -b[c-3][r]
				case (r == 3) == (c < 3):
					x = 1
				}
				rows[r] = append(rows[r], big.NewRat(x, 1))
			}
			rows[r] = append(rows[r], big.NewRat(int64(r/3), 1))
		}
		weights := solve(rows)
		if weights == nil {
			continue
		}
		var p [3]*big.Rat
		for k := range p {
			p[k] = new(big.Rat)
			for i, c := range columns {
				if c < 3 {
					p[k].Add(p[k], new(big.Rat).Mul(weights[i], big.NewRat(a[c][k], 1)))
				}
			}
		}
		found = append(found, p)
	}
	return found
}

// solve returns the only solution without negative numbers, or nil. The last
// column is the right side.
func solve(rows [][]*big.Rat) []*big.Rat {
	n := len(rows[0]) - 1
	for c := range n {
		pivot := c
		for pivot < len(rows) && rows[pivot][c].Sign() == 0 {
			pivot++
		}
		if pivot >= len(rows) {
			return nil
		}
		rows[c], rows[pivot] = rows[pivot], rows[c]
		inverse := new(big.Rat).Inv(rows[c][c])
		for k := range rows[c] {
			rows[c][k] = new(big.Rat).Mul(rows[c][k], inverse)
		}
		for r := range rows {
			if factor := rows[r][c]; r != c && factor.Sign() != 0 {
				for k := range rows[r] {
					rows[r][k] = new(big.Rat).Sub(rows[r][k], new(big.Rat).Mul(factor, rows[c][k]))
				}
			}
		}
	}
	weights := make([]*big.Rat, n)
	for r := range rows {
		switch {
		case r >= n && rows[r][n].Sign() != 0, r < n && rows[r][n].Sign() < 0:
			return nil
		case r < n:
			weights[r] = rows[r][n]
		}
	}
	return weights
}

// beyond tells whether a point is none of those that both triangles have as
// corners, nor between two of them.
func beyond(p [3]*big.Rat, shared [][3]int64) bool {
	to := func(s [3]int64) (d [3]*big.Rat) {
		for k := range d {
			d[k] = new(big.Rat).Sub(big.NewRat(s[k], 1), p[k])
		}
		return d
	}
	if len(shared) == 0 {
		return true
	}
	// p lies between s and t if the vectors from it to them are opposite.
	u, v := to(shared[0]), to(shared[len(shared)-1])
	dot := new(big.Rat)
	for k := range 3 {
		i, j := (k+1)%3, (k+2)%3
		if new(big.Rat).Mul(u[i], v[j]).Cmp(new(big.Rat).Mul(u[j], v[i])) != 0 {
			return true
		}
		dot.Add(dot, new(big.Rat).Mul(u[k], v[k]))
	}
	return dot.Sign() > 0
}

// Two triangles on a small grid, where touching and lying in one plane are
// frequent, against common. The scales make the same decisions need the grid of
// whole numbers, and ones too large for it.
func TestMeetAgainstBruteForce(t *testing.T) {
	const seed = 1
	rnd := rand.New(rand.NewPCG(seed, seed))
	count := map[[2]int]int{}
	for i := range 2500 {
		var corners [6][3]int64
		flat := rnd.IntN(3) == 0
		for c := range corners {
			for k := range 3 {
				corners[c][k] = rnd.Int64N(5)
			}
			if flat {
				corners[c][2] = corners[c][0] + 2*corners[c][1]
			}
		}
		for c := range rnd.IntN(3) {
			corners[3+(c+i)%3] = corners[(2*c+i/3)%3]
		}
		a, b := [3][3]int64(corners[:3]), [3][3]int64(corners[3:])
		var shared [][3]int64
		for _, p := range a {
			if p == b[0] || p == b[1] || p == b[2] {
				shared = append(shared, p)
			}
		}
		want := false
		for _, p := range common(a, b) {
			want = want || beyond(p, shared)
		}
		for _, scale := range [][3]int{{0, 0, 0}, {3, -7, 11}, {60, -90, 3}} {
			soup := make(Soup, 2)
			for c, p := range corners {
				for k, x := range p {
					soup[c/3][c%3][k] = float32(math.Ldexp(float64(x), scale[k]))
				}
			}
			s := weld(soup)
			if len(s.triangles) < 2 || s.flat(s.triangles[0]) || s.flat(s.triangles[1]) {
				break
			}
			if (s.grid == nil) != (scale[0] == 60) {
				t.Fatal("the scale does not choose between the grid and larger numbers as meant")
			}
			u, v := s.triangles[0], s.triangles[1]
			n := share(&u, &v)
			if n == 3 {
				break
			}
			got, swapped := s.meet(u, v, n), s.meet(v, u, n)
			if got != want || swapped != want {
				t.Fatalf("seed %d, case %d, scale %v: %v and %v meet = %t and %t, want %t", seed, i, scale, a, b, got, swapped, want)
			}
			if got {
				count[[2]int{n, 1}]++
			} else {
				count[[2]int{n, 0}]++
			}
		}
	}
	for n := range 3 {
		for met := range 2 {
			if count[[2]int{n, met}] < 100 {
				t.Errorf("only %d cases with %d corners shared, meeting = %d", count[[2]int{n, met}], n, met)
			}
		}
	}
}
