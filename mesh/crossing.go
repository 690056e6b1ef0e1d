package mesh

func (s *surface) box(t [3]int32) box {
	p, q, r := &s.points[t[0]], &s.points[t[1]], &s.points[t[2]]
	var b box
	for k := range 3 {
		b.lo[k], b.hi[k] = min(p[k], q[k], r[k]), max(p[k], q[k], r[k])
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
	sideB := s.sides(a, b, shared)
	flat := sideB == [3]int{}
	switch {
	case flat:
		if axis := s.view(a); s.beside(axis, a, b, shared) || s.beside(axis, b, a, shared) {
			return false
		}
	case oneSided(sideB):
		return s.grazes(a, b, sideB, shared)
	}
	sideA := s.sides(b, a, shared)
	if !flat && oneSided(sideA) {
		return s.grazes(b, a, sideA, shared)
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

// sides returns on which side of a's plane the corners of b lie; shared ones lie
// in it.
func (s *surface) sides(a, b [3]int32, shared int) (side [3]int) {
	if s.level(a, b) {
		return side
	}
	for k := shared; k < 3; k++ {
		side[k] = s.side(a[0], a[1], a[2], b[k])
	}
	return side
}

func oneSided(side [3]int) bool {
	return min(side[0], side[1], side[2]) == 0 || max(side[0], side[1], side[2]) == 0 ||
		side[0] == side[1] && side[1] == side[2]
}

// grazes tells whether b, which lies on one side of a's plane, meets a with the
// corners that lie in the plane, other than in a corner they share.
func (s *surface) grazes(a, b [3]int32, side [3]int, shared int) bool {
	var on [3]int32
	n := 0
	for k := shared; k < 3; k++ {
		if side[k] == 0 {
			on[n] = b[k]
			n++
		}
	}
	switch {
	case n == 0:
		return false
	case n == 2:
		return s.liesOn(on[0], on[1], a)
	case shared == 1 && s.segmentsMeet(s.view(a), b[0], on[0], a[1], a[2]):
		return true
	}
	return s.covers(a, on[0])
}

// level tells whether two triangles lie in one plane across an axis, as most
// pairs in printed parts do.
func (s *surface) level(a, b [3]int32) bool {
	for k := range 3 {
		at := s.points[a[0]][k]
		if s.points[b[0]][k] == at && s.points[a[1]][k] == at && s.points[a[2]][k] == at &&
			s.points[b[1]][k] == at && s.points[b[2]][k] == at {
			return true
		}
	}
	return false
}

// beside tells whether all corners of b, which lies in a's plane, that are not
// shared lie strictly outside one edge of a. It is the quick proof for most
// pairs; exactly opposite corners at one point need the long one.
func (s *surface) beside(axis int, a, b [3]int32, shared int) bool {
	sense := s.turn(axis, a[0], a[1], a[2])
	for k := range 3 {
		if shared == 1 && k == 1 {
			continue // the edge opposite the shared corner
		}
		p, q := a[k], a[(k+1)%3]
		out := true
		for _, v := range b[shared:] {
			if s.turn(axis, p, q, v)*sense >= 0 {
				out = false
				break
			}
		}
		if out {
			return true
		}
	}
	return false
}

// pierces tells whether the segment from p to q, on the given sides of t's
// plane, has a point in common with t.
func (s *surface) pierces(p, q int32, sideP, sideQ int, t [3]int32) bool {
	switch {
	case sideP == sideQ && sideP != 0 || !s.segmentBox(p, q).meets(s.box(t)):
		return false
	case sideP == 0 && sideQ == 0:
		return s.liesOn(p, q, t)
	}
	var plus, minus bool
	for k := range 3 {
		side := s.side(p, q, t[k], t[(k+1)%3])
		plus, minus = plus || side > 0, minus || side < 0
	}
	return !plus || !minus
}

// covers tells whether p, in t's plane, lies in t.
func (s *surface) covers(t [3]int32, p int32) bool {
	axis := s.view(t)
	sense := s.turn(axis, t[0], t[1], t[2])
	for k := range 3 {
		if s.turn(axis, t[k], t[(k+1)%3], p)*sense < 0 {
			return false
		}
	}
	return true
}

// liesOn tells whether the segment from p to q, in t's plane, meets t: an end
// inside it, or an edge that it meets.
func (s *surface) liesOn(p, q int32, t [3]int32) bool {
	axis := s.view(t)
	for k := range 3 {
		if s.segmentsMeet(axis, p, q, t[k], t[(k+1)%3]) {
			return true
		}
	}
	return s.covers(t, p)
}

// segmentsMeet tells whether two segments in one plane have a point in common.
func (s *surface) segmentsMeet(axis int, p, q, a, b int32) bool {
	a1, b1 := s.turn(axis, p, q, a), s.turn(axis, p, q, b)
	p1, q1 := s.turn(axis, a, b, p), s.turn(axis, a, b, q)
	if a1 == 0 && b1 == 0 { // on one line
		return s.segmentBox(p, q).meets(s.segmentBox(a, b))
	}
	return a1*b1 <= 0 && p1*q1 <= 0
}

func (s *surface) segmentBox(p, q int32) box {
	return box{s.points[p], s.points[p]}.join(box{s.points[q], s.points[q]})
}
