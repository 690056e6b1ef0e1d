package mesh

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
)

// An exact holds points whose coordinates come from float32 and decides on
// which side of each other they lie. It computes in float64 and trusts the sign
// where the error bound allows (Shewchuk, "Adaptive Precision Floating-Point
// Arithmetic and Fast Robust Geometric Predicates", Discrete Comput. Geom. 18,
// 1997; bounds from memory, taken four times as wide); otherwise in whole
// numbers.
type exact struct {
	points [][3]float64
	grid   [][3]int32 // the points in steps of one power of two, if that fits
}

const (
	bound2 = 16.0 / (1 << 53)
	bound3 = 32.0 / (1 << 53)

	gridBits = 29 // so that differences have 30 bits and products of two 61
)

// lay finds the largest power of two that divides all coordinates.
func (e *exact) lay() {
	least, most := math.MaxInt, math.MinInt
	for _, p := range e.points {
		for _, x := range p {
			if x == 0 {
				continue
			}
			fraction, exponent := math.Frexp(x)
			whole := int64(math.Ldexp(fraction, 24))
			least = min(least, exponent-24+bits.TrailingZeros64(uint64(whole)))
			most = max(most, exponent)
		}
	}
	if most-least > gridBits {
		return
	}
	e.grid = make([][3]int32, len(e.points))
	for i, p := range e.points {
		for k, x := range p {
			e.grid[i][k] = int32(math.Ldexp(x, -least))
		}
	}
}

// side returns on which side of the plane through a, b and c the point d lies:
// the sign of (b-a) x (c-a) . (d-a).
func (e *exact) side(a, b, c, d int32) int {
	o := e.points[a]
	u, v, w := sub(e.points[b], o), sub(e.points[c], o), sub(e.points[d], o)
	m, size := minors(v, w)
	det := u[0]*m[0] + u[1]*m[1] + u[2]*m[2]
	limit := bound3 * (math.Abs(u[0])*size[0] + math.Abs(u[1])*size[1] + math.Abs(u[2])*size[2])
	switch {
	case det > limit:
		return 1
	case det < -limit:
		return -1
	case limit == 0:
		return 0
	}
	if e.grid == nil {
		return e.sideBig(a, b, c, d)
	}
	p, q, r := e.step(a, b), e.step(a, c), e.step(a, d)
	var sum int128
	sum.addProduct(p[0], q[1]*r[2]-q[2]*r[1])
	sum.addProduct(p[1], q[2]*r[0]-q[0]*r[2])
	sum.addProduct(p[2], q[0]*r[1]-q[1]*r[0])
	return sum.sign()
}

// minors returns v x w and the sums of magnitudes that bound its rounding.
func minors(v, w [3]float64) (m, size [3]float64) {
	for k := range 3 {
		i, j := (k+1)%3, (k+2)%3
		p, q := v[i]*w[j], v[j]*w[i]
		m[k], size[k] = p-q, math.Abs(p)+math.Abs(q)
	}
	return m, size
}

// turn returns the sign of the turn from a over b to c, seen along an axis.
func (e *exact) turn(axis int, a, b, c int32) int {
	i, j := (axis+1)%3, (axis+2)%3
	p, q, r := e.points[a], e.points[b], e.points[c]
	left, right := (q[i]-p[i])*(r[j]-p[j]), (q[j]-p[j])*(r[i]-p[i])
	limit := bound2 * (math.Abs(left) + math.Abs(right))
	switch {
	case left-right > limit:
		return 1
	case left-right < -limit:
		return -1
	case limit == 0:
		return 0
	}
	if e.grid == nil {
		u, v := e.stepBig(a, b), e.stepBig(a, c)
		return minorBig(u, v, axis).Sign()
	}
	u, v := e.step(a, b), e.step(a, c)
	return cmp.Compare(u[i]*v[j], u[j]*v[i])
}

// flat tells whether a triangle has no area: its corners turn in no view.
func (e *exact) flat(t [3]int32) bool { return e.view(t) < 0 }

// view returns an axis along which the triangle shows an area, or -1.
func (e *exact) view(t [3]int32) int {
	for axis := range 3 {
		if e.turn(axis, t[0], t[1], t[2]) != 0 {
			return axis
		}
	}
	return -1
}

func (e *exact) step(a, b int32) (d [3]int64) {
	for k := range d {
		d[k] = int64(e.grid[b][k]) - int64(e.grid[a][k])
	}
	return d
}

func (e *exact) sideBig(a, b, c, d int32) int {
	u, v, w := e.stepBig(a, b), e.stepBig(a, c), e.stepBig(a, d)
	sum := new(big.Int)
	for k := range 3 {
		sum.Add(sum, new(big.Int).Mul(u[k], minorBig(v, w, k)))
	}
	return sum.Sign()
}

// stepBig returns b - a in whole numbers of 2^-173, of which every float32 is a
// multiple: its smallest is 2^-149, and 24 bits are split off.
func (e *exact) stepBig(a, b int32) (d [3]*big.Int) {
	whole := func(x float64) *big.Int {
		fraction, exponent := math.Frexp(x)
		n := big.NewInt(int64(math.Ldexp(fraction, 24)))
		return n.Lsh(n, uint(exponent-24+173))
	}
	for k := range d {
		d[k] = whole(e.points[b][k])
		d[k].Sub(d[k], whole(e.points[a][k]))
	}
	return d
}

// minorBig returns one component of v x w.
func minorBig(v, w [3]*big.Int, axis int) *big.Int {
	i, j := (axis+1)%3, (axis+2)%3
	p := new(big.Int).Mul(v[i], w[j])
	return p.Sub(p, new(big.Int).Mul(v[j], w[i]))
}
