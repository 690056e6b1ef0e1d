package linkage

import "math"

// A matrix is a small dense matrix by rows.
type matrix struct {
	rows, cols int
	at         []float64
}

func newMatrix(rows, cols int) matrix { return matrix{rows, cols, make([]float64, rows*cols)} }

func (m matrix) row(i int) []float64 { return m.at[i*m.cols : (i+1)*m.cols] }

func (m matrix) clone() matrix {
	c := newMatrix(m.rows, m.cols)
	copy(c.at, m.at)
	return c
}

func (m matrix) transposed() matrix {
	t := newMatrix(m.cols, m.rows)
	for i := range m.rows {
		for j, v := range m.row(i) {
			t.at[j*t.cols+i] = v
		}
	}
	return t
}

// solve returns x of m x = b for a square matrix, by elimination with partial
// pivoting, and the sign of the determinant: 0 for a singular matrix, whose x
// is nil.
func (m matrix) solve(b []float64) (x []float64, sign int) {
	a, n := m.clone(), m.rows
	x = append([]float64(nil), b...)
	sign = 1
	for k := range n {
		pivot := k
		for i := k + 1; i < n; i++ {
			if math.Abs(a.row(i)[k]) > math.Abs(a.row(pivot)[k]) {
				pivot = i
			}
		}
		if a.row(pivot)[k] == 0 {
			return nil, 0
		}
		if pivot != k {
			sign = -sign
			p, q := a.row(pivot), a.row(k)
			for j := range p {
				p[j], q[j] = q[j], p[j]
			}
			x[pivot], x[k] = x[k], x[pivot]
		}
		if a.row(k)[k] < 0 {
			sign = -sign
		}
		for i := k + 1; i < n; i++ {
			share := a.row(i)[k] / a.row(k)[k]
			if share == 0 {
				continue
			}
			for j := k; j < n; j++ {
				a.row(i)[j] -= share * a.row(k)[j]
			}
			x[i] -= share * x[k]
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			x[k] -= a.row(k)[j] * x[j]
		}
		x[k] /= a.row(k)[k]
	}
	return x, sign
}

// independent returns the numbers of rows that no combination of the rows before
// them gives, by turning each row square to those kept (Gram and Schmidt, twice
// for rounding); what is left below share of its length counts as nothing.
func (m matrix) independent(share float64) []int {
	var kept []int
	var basis [][]float64
	for i := range m.rows {
		row := append([]float64(nil), m.row(i)...)
		before := norm(row)
		for range 2 {
			for _, b := range basis {
				along := dot(row, b)
				for j := range row {
					row[j] -= along * b[j]
				}
			}
		}
		left := norm(row)
		if left <= share*before || left == 0 {
			continue
		}
		for j := range row {
			row[j] /= left
		}
		basis, kept = append(basis, row), append(kept, i)
	}
	return kept
}

// singular returns the largest and the smallest singular value of a square
// matrix, by turning pairs of its columns square to each other until all are
// (one-sided Jacobi method of Hestenes, from memory).
func (m matrix) singular() (most, least float64) {
	t := m.transposed() // its rows are the columns
	const sweeps, square = 60, 1e-15
	for range sweeps {
		turned := false
		for i := range t.rows {
			for j := range i {
				p, q := t.row(i), t.row(j)
				pp, qq, pq := dot(p, p), dot(q, q), dot(p, q)
				if math.Abs(pq) <= square*math.Sqrt(pp*qq) {
					continue
				}
				turned = true
				zeta := (qq - pp) / (2 * pq)
				tan := math.Copysign(1, zeta) / (math.Abs(zeta) + math.Sqrt(1+zeta*zeta))
				cos := 1 / math.Sqrt(1+tan*tan)
				sin := cos * tan
				for k := range p {
					p[k], q[k] = cos*p[k]-sin*q[k], sin*p[k]+cos*q[k]
				}
			}
		}
		if !turned {
			break
		}
	}
	least = math.Inf(1)
	for i := range t.rows {
		length := norm(t.row(i))
		most, least = max(most, length), min(least, length)
	}
	return most, least
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }
