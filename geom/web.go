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
	s := webSearch{tree: newEdgeTree(r.loops), body: make([]int, len(r.loops)), width2: math.Inf(1)}
	for i, body := range r.bodies() {
		for _, loop := range body {
			s.body[loop] = i
		}
	}
	s.inside(0)
	return Gap{math.Sqrt(s.width2), s.a, s.b}, !math.IsInf(s.width2, 1)
}

// A webSearch looks for the nearest edges of different loops of one body. The
// way between them runs through material: each piece of air beside a body is
// bounded by one of its loops, so a way from one loop to another crosses
// material from loop to loop somewhere, and the shortest does nothing else.
type webSearch struct {
	tree   *edgeTree
	body   []int // by loop
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
			if e.loop == f.loop || s.body[e.loop] != s.body[f.loop] {
				continue
			}
			if width2, p, q := segments(e.a, e.b, f.a, f.b); width2 < s.width2 {
				s.width2, s.a, s.b = width2, p, q
			}
		}
	}
}
