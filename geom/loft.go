package geom

import (
	"cmp"
	"fmt"
	"slices"
)

// pairedLoops snaps both ends of a loft. A pair of neighbouring vertices is
// dropped only where it coincides at both ends, so the pairing holds.
func pairedLoops(bottom, top []Contour) (b, t []Loop, err error) {
	if len(bottom) != len(top) {
		return nil, nil, fmt.Errorf("a loft joins %d loops below to %d above", len(bottom), len(top))
	}
	for i := range bottom {
		if len(bottom[i].Points) != len(top[i].Points) {
			return nil, nil, fmt.Errorf("a loft joins a loop of %d points below to one of %d above", len(bottom[i].Points), len(top[i].Points))
		}
		for _, c := range []Contour{bottom[i], top[i]} {
			if err := inExtent(c); err != nil {
				return nil, nil, err
			}
		}
		var lb, lt Loop
		for k := range bottom[i].Points {
			vb, vt := Snap(bottom[i].Points[k]), Snap(top[i].Points[k])
			if n := len(lb); n > 0 && lb[n-1] == vb && lt[n-1] == vt {
				continue
			}
			lb, lt = append(lb, vb), append(lt, vt)
		}
		b, t = append(b, lb), append(t, lt)
	}
	return b, t, nil
}

// proveLoft proves that the walls of a loft meet nothing. In plan the strip
// between paired loops is cut into triangles (b0 b1 t1) and (b0 t1 t0). Both
// ends are proved regions, so each covers the plane 0 or 1 times; the strips
// together cover each point as often as the two ends differ there. If all
// triangles with an area have the same sense, that count is 0 or 1 everywhere,
// so no two of them overlap, and neither do the walls above them.
//
// A triangle without an area in plan stands upright: a corner moved along the
// line of its edge, or not at all. Crossing a leaning wall it would make the
// count at some height 2 or -1, which is ruled out; so it can meet only others
// that stand over the same line. At each height it spans an interval of that
// line, whose ends move evenly from bottom to top. If the intervals on a line
// have one order at the bottom and the same at the top, none beyond the next,
// then they keep it in between.
func proveLoft(bottom, top []Loop) error {
	sense := int64(0)
	var upright []span
	for i, b := range bottom {
		t := top[i]
		for k := range b {
			n := (k + 1) % len(b)
			for _, turn := range [2]int64{orient(b[k], b[n], t[n]), orient(b[k], t[n], t[k])} {
				if turn != 0 && sense != 0 && (turn > 0) != (sense > 0) {
					return folds(b[k])
				}
				if turn != 0 {
					sense = turn
				}
			}
			if orient(b[k], b[n], t[n]) == 0 {
				upright = append(upright, newSpan(b[k], b[n], t[n], t[n]))
			}
			if orient(b[k], t[n], t[k]) == 0 {
				upright = append(upright, newSpan(b[k], b[k], t[k], t[n]))
			}
		}
	}
	return proveUpright(upright)
}

func folds(at Vertex) error {
	p := at.Point()
	return fmt.Errorf("the sloping wall at (%.4f, %.4f) folds over: make the chamfer smaller", p.X, p.Y)
}

// A span is an upright triangle: the line in plan that it stands over, and the
// interval of the line that it spans at the bottom and at the top, one of them
// a point.
type span struct {
	dx, dy, offset int64    // the line's direction without common factor, and its distance times that
	bottom, top    [2]int64 // along the line
	at             Vertex
}

func newSpan(b0, b1, t0, t1 Vertex) span {
	from, to := b0, b1
	if b0 == b1 {
		from, to = t0, t1
	}
	s := span{dx: int64(to.X) - int64(from.X), dy: int64(to.Y) - int64(from.Y), at: b0}
	factor := commonFactor(s.dx, s.dy)
	if before(to, from) {
		factor = -factor
	}
	s.dx, s.dy = s.dx/factor, s.dy/factor
	s.offset = s.dx*int64(from.Y) - s.dy*int64(from.X)
	along := func(p, q Vertex) [2]int64 {
		// The longer coordinate orders points of a line.
		u, v := int64(p.X), int64(q.X)
		if s.dx == 0 {
			u, v = int64(p.Y), int64(q.Y)
		}
		return [2]int64{min(u, v), max(u, v)}
	}
	s.bottom, s.top = along(b0, b1), along(t0, t1)
	return s
}

// commonFactor returns the greatest number that divides both; not both are 0.
func commonFactor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

func proveUpright(spans []span) error {
	slices.SortFunc(spans, func(a, b span) int {
		return cmp.Or(cmp.Compare(a.dx, b.dx), cmp.Compare(a.dy, b.dy), cmp.Compare(a.offset, b.offset),
			cmp.Compare(a.bottom[0]+a.bottom[1], b.bottom[0]+b.bottom[1]), cmp.Compare(a.top[0]+a.top[1], b.top[0]+b.top[1]))
	})
	for i := 1; i < len(spans); i++ {
		a, b := spans[i-1], spans[i]
		if a.dx == b.dx && a.dy == b.dy && a.offset == b.offset && (a.bottom[1] > b.bottom[0] || a.top[1] > b.top[0]) {
			return folds(b.at)
		}
	}
	return nil
}
