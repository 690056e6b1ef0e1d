package geom

import "math"

// LeastWeb returns the least width of material between two different loops of
// the region, and where it is; ok is false where no two loops have material
// between them. Air between bodies, and between a hole and an island in it, does
// not count. The work grows about as n log n.
func (r Region) LeastWeb() (web Gap, ok bool) {
	if len(r.loops) < 2 {
		return Gap{}, false
	}
	s := webSearch{tree: newEdgeTree(r.loops), width2: math.Inf(1)}
	s.inside(0)
	return Gap{math.Sqrt(s.width2), s.a, s.b}, !math.IsInf(s.width2, 1)
}

// A webSearch looks for two edges of different loops that have the least
// material between them. The least of all is nearest to nearest, and then the
// way from one to the other starts and ends inside.
type webSearch struct {
	tree   *edgeTree
	width2 float64
	a, b   Point
}

func (s *webSearch) inside(n int32) {
	b := &s.tree.branches[n]
	switch {
	case b.loop >= 0:
		return
	case b.left != 0:
		s.inside(b.left)
		s.inside(b.right)
		s.across(b.left, b.right)
	default:
		s.edges(b, b)
	}
}

func (s *webSearch) across(m, n int32) {
	t := s.tree
	a, b := &t.branches[m], &t.branches[n]
	if a.loop >= 0 && a.loop == b.loop || a.gap2(b.edgeBox) >= s.width2 {
		return
	}
	if a.left == 0 && b.left == 0 {
		s.edges(a, b)
		return
	}
	if a.left == 0 || b.left != 0 && b.size() > a.size() {
		a, b, m, n = b, a, n, m
	}
	near, far := a.left, a.right
	if t.branches[far].gap2(b.edgeBox) < t.branches[near].gap2(b.edgeBox) {
		near, far = far, near
	}
	s.across(near, n)
	s.across(far, n)
}

func (s *webSearch) edges(a, b *edgeBranch) {
	for i := a.from; i < a.to; i++ {
		e := &s.tree.edges[i]
		for j := b.from; j < b.to; j++ {
			f := &s.tree.edges[j]
			if e.loop == f.loop {
				continue
			}
			width2, p, q := segments(e.a, e.b, f.a, f.b)
			if width2 < s.width2 && e.facesIn(p, q) && f.facesIn(q, p) {
				s.width2, s.a, s.b = width2, p, q
			}
		}
	}
}

// facesIn tells whether the way from p on the edge to q, of which p is the
// nearest point of the loop, starts on the left. At a corner the edges on both
// sides are asked: q lies in the cone between their normals.
func (e *loopEdge) facesIn(p, q Point) bool {
	normal := leftOf(e.a, e.b)
	switch p {
	case e.a:
		normal = normal.Add(leftOf(e.before, e.a))
	case e.b:
		normal = normal.Add(leftOf(e.b, e.next))
	}
	return normal.X*(q.X-p.X)+normal.Y*(q.Y-p.Y) > 0
}

// leftOf returns the unit normal to the left of the way from a to b.
func leftOf(a, b Point) Point {
	d := b.Sub(a)
	return Point{-d.Y, d.X}.Scale(1 / d.Len())
}
