package mesh

import "fmt"

// pairLimit bounds the pairs of triangles with overlapping boxes that are
// examined: about a minute's work.
const pairLimit = 100_000_000

// examineCrossings finds triangles that cross, touch or cover each other other
// than at shared corners and edges, and tells whether there are none.
func (s *surface) examineCrossings(e *Examination) bool {
	var sound []int32 // triangles with an area
	var boxes []box
	for i, t := range s.triangles {
		if !s.flat(t) {
			sound = append(sound, int32(i))
			boxes = append(boxes, s.box(t))
		}
	}
	if len(sound) == 0 {
		return true
	}
	var same, crossing tally
	done := 0
	whole := newTree(boxes, box{e.Low, e.High}).pairs(func(i, j int32) bool {
		a, b := s.triangles[sound[i]], s.triangles[sound[j]]
		switch shared := share(&a, &b); {
		case shared == 3:
			same.add(boxes[i].middle())
		case s.meet(a, b, shared):
			crossing.add(overlap(boxes[i], boxes[j]).middle())
		}
		done++
		return done < pairLimit
	})
	if !whole {
		e.Unexamined = fmt.Sprintf("whether triangles cross was examined for %d million pairs of them only", pairLimit/1_000_000)
	}
	e.add(SameTriangle, same.count, same.where, "faces lie on each other: pairs of triangles with the same three corners: %d", same.count)
	e.add(Intersection, crossing.count, crossing.where, "surfaces cut, touch or cover each other: pairs of triangles that do: %d", crossing.count)
	return same.count+crossing.count == 0
}

func (s *surface) box(t [3]int32) box {
	b := box{s.points[t[0]], s.points[t[0]]}
	for _, v := range t[1:] {
		b = b.join(box{s.points[v], s.points[v]})
	}
	return b
}

func overlap(a, b box) box {
	for k := range 3 {
		a.lo[k], a.hi[k] = max(a.lo[k], b.lo[k]), min(a.hi[k], b.hi[k])
	}
	return a
}

// share counts the corners that two triangles share and turns both so that one
// shared corner comes first, or, if there are two, the third comes last. Senses
// are kept.
func share(a, b *[3]int32) int {
	var inA, inB [3]bool
	n := 0
	for i := range a {
		for j := range b {
			if a[i] == b[j] {
				inA[i], inB[j] = true, true
				n++
			}
		}
	}
	if n == 1 || n == 2 {
		turnTo(a, inA, n)
		turnTo(b, inB, n)
	}
	return n
}

func turnTo(t *[3]int32, shared [3]bool, n int) {
	for !shared[0] || n == 2 && !shared[1] {
		t[0], t[1], t[2] = t[1], t[2], t[0]
		shared[0], shared[1], shared[2] = shared[1], shared[2], shared[0]
	}
}

// meet tells whether two triangles with an area have a point in common beyond
// the corners they share, which come first.
func (s *surface) meet(a, b [3]int32, shared int) bool {
	if shared == 2 {
		return s.folded(a, b)
	}
	sideB, apart := s.sides(a, b, shared)
	if apart {
		return false
	}
	sideA, apart := s.sides(b, a, shared)
	if apart {
		return false
	}
	// What they have in common ends on an edge of one of them. If they share a
	// corner, it also goes that far from it: to the edge opposite.
	for k := range 3 {
		n := (k + 1) % 3
		if shared == 1 && k != 1 {
			continue
		}
		if s.pierces(a[k], a[n], sideA[k], sideA[n], b) || s.pierces(b[k], b[n], sideB[k], sideB[n], a) {
			return true
		}
	}
	return false
}

// folded tells whether two triangles over one edge lie on each other.
func (s *surface) folded(a, b [3]int32) bool {
	if s.side(a[0], a[1], a[2], b[2]) != 0 {
		return false
	}
	axis := s.view(a)
	return s.turn(axis, a[0], a[1], a[2]) == s.turn(axis, a[0], a[1], b[2])
}

// sides returns on which side of a's plane the corners of b lie, and whether
// all that are not shared lie strictly on one side.
func (s *surface) sides(a, b [3]int32, shared int) (side [3]int, apart bool) {
	sum := 0
	for k := shared; k < 3; k++ {
		side[k] = s.side(a[0], a[1], a[2], b[k])
		sum += side[k]
	}
	return side, sum == 3-shared || sum == shared-3
}

// pierces tells whether the segment from p to q, on the given sides of t's
// plane, has a point in common with t.
func (s *surface) pierces(p, q int32, sideP, sideQ int, t [3]int32) bool {
	if sideP == 0 && sideQ == 0 {
		return s.liesOn(p, q, t)
	}
	if sideP == sideQ {
		return false
	}
	var plus, minus bool
	for k := range 3 {
		side := s.side(p, q, t[k], t[(k+1)%3])
		plus, minus = plus || side > 0, minus || side < 0
	}
	return !plus || !minus
}

// liesOn tells whether the segment from p to q, in t's plane, meets t: an end
// inside it, or an edge that it meets.
func (s *surface) liesOn(p, q int32, t [3]int32) bool {
	axis := s.view(t)
	sense := s.turn(axis, t[0], t[1], t[2])
	inside := true
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		if s.turn(axis, a, b, p)*sense < 0 {
			inside = false
		}
		if s.segmentsMeet(axis, p, q, a, b) {
			return true
		}
	}
	return inside
}

// segmentsMeet tells whether two segments in one plane have a point in common.
func (s *surface) segmentsMeet(axis int, p, q, a, b int32) bool {
	a1, b1 := s.turn(axis, p, q, a), s.turn(axis, p, q, b)
	p1, q1 := s.turn(axis, a, b, p), s.turn(axis, a, b, q)
	if a1 == 0 && b1 == 0 { // on one line
		return s.box2(p, q).meets(s.box2(a, b))
	}
	return a1*b1 <= 0 && p1*q1 <= 0
}

func (s *surface) box2(p, q int32) box {
	return box{s.points[p], s.points[p]}.join(box{s.points[q], s.points[q]})
}
