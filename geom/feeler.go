package geom

import (
	"math"
	"slices"
)

// A Gap is the least distance between two outlines, and where it is.
type Gap struct {
	Width float64 // mm; 0 where they meet or one lies in the other
	A, B  Point   // the two places nearest each other, mm; one place where they meet
}

// A Feeler measures gaps between a region and others, at rest or moving. It
// holds the outline in a tree of boxes: for n edges it is made in n log n steps,
// and a gap usually takes a few times log n.
type Feeler struct {
	tree  *edgeTree
	outer []Point // one point of each outer loop
}

// NewFeeler returns a feeler for a region, which must not be empty.
func NewFeeler(r Region) *Feeler { return FeelerOf(r.loops) }

// Overturned returns the loops of a region turned over about the x axis, as those
// of a part that stands upside down: (x, y) comes to (x, -y).
func Overturned(loops []Loop) []Loop {
	over := make([]Loop, len(loops))
	for i, l := range loops {
		over[i] = make(Loop, 0, len(l))
		for _, v := range slices.Backward(l) {
			over[i] = append(over[i], Vertex{v.X, -v.Y})
		}
	}
	return over
}

// FeelerOf returns a feeler for loops that bound a region.
func FeelerOf(loops []Loop) *Feeler {
	f := &Feeler{tree: newEdgeTree(loops)}
	for _, l := range loops {
		if l.doubleArea() > 0 {
			f.outer = append(f.outer, l[0].Point())
		}
	}
	return f
}

// GapBelow is Gap for one who asks only for gaps below a width in mm; it
// returns false, soon, where the outlines are that far apart or more.
func (f *Feeler) GapBelow(other *Feeler, m Motion, width float64) (Gap, bool) {
	best := nearest{width2: width * width, move: m.placement()}
	best.between(f.tree, 0, other.tree, 0)
	if best.width2 > 0 && f.tree.meets(best.move.box(other.tree.branches[0].edgeBox)) {
		best.within(f, other, m)
	}
	return Gap{math.Sqrt(best.width2), best.a, best.b}, best.width2 < width*width
}

// Distance returns the least gap between two regions; neither may be empty.
func Distance(a, b Region) Gap { return NewFeeler(a).Gap(NewFeeler(b), Motion{}) }

// Gap returns the least gap between a region and another that is moved. Gap.B
// is the place on the moved one. Regions at rest are judged exactly; a moved
// one is rounded like any float64.
func (f *Feeler) Gap(other *Feeler, m Motion) Gap {
	gap, _ := f.LeastGap(other, []Motion{m})
	return gap
}

// LeastGap returns the least gap over many positions of the other region, and
// the position's index: the first of those with the least width. Positions that
// are clearly wider cost next to nothing. There must be one at least.
func (f *Feeler) LeastGap(other *Feeler, motions []Motion) (gap Gap, at int) {
	best := nearest{width2: math.Inf(1)}
	for i, m := range motions {
		width2 := best.width2
		best.move = m.placement()
		best.between(f.tree, 0, other.tree, 0)
		if best.width2 > 0 {
			best.within(f, other, m)
		}
		if best.width2 < width2 {
			at = i
		}
		if best.width2 == 0 {
			break
		}
	}
	return Gap{math.Sqrt(best.width2), best.a, best.b}, at
}

// nearest is a search for the least distance.
type nearest struct {
	move   placement // of the second tree
	width2 float64   // the least square found
	a, b   Point
}

// within finds an outline that lies in the other region without meeting it.
func (s *nearest) within(f, g *Feeler, m Motion) {
	for _, p := range g.outer {
		if moved := s.move.point(p); f.tree.winding(0, moved) > 0 {
			s.width2, s.a, s.b = 0, moved, moved
			return
		}
	}
	back := m.Back().placement()
	for _, p := range f.outer {
		if g.tree.winding(0, back.point(p)) > 0 {
			s.width2, s.a, s.b = 0, p, p
			return
		}
	}
}

// between searches the edges of two branches, the nearer ones first.
func (s *nearest) between(t *edgeTree, i int32, u *edgeTree, j int32) {
	a, b := &t.branches[i], &u.branches[j]
	if a.gap2(s.move.box(b.edgeBox)) >= s.width2 {
		return
	}
	switch {
	case a.left != 0 && (b.left == 0 || a.size() >= b.size()):
		near, far := a.left, a.right
		moved := s.move.box(b.edgeBox)
		if t.branches[far].gap2(moved) < t.branches[near].gap2(moved) {
			near, far = far, near
		}
		s.between(t, near, u, j)
		s.between(t, far, u, j)
	case b.left != 0:
		near, far := b.left, b.right
		if a.gap2(s.move.box(u.branches[far].edgeBox)) < a.gap2(s.move.box(u.branches[near].edgeBox)) {
			near, far = far, near
		}
		s.between(t, i, u, near)
		s.between(t, i, u, far)
	default:
		for _, f := range u.edges[b.from:b.to] {
			c, d := s.move.point(f.a), s.move.point(f.b)
			for _, e := range t.edges[a.from:a.to] {
				if width2, p, q := segments(e.a, e.b, c, d); width2 < s.width2 {
					s.width2, s.a, s.b = width2, p, q
				}
			}
		}
	}
}

// segments returns the squared distance of the segments from a to b and from c
// to d, and the points nearest each other.
func segments(a, b, c, d Point) (width2 float64, p, q Point) {
	if crossed, at := cross(a, b, c, d); crossed {
		return 0, at, at
	}
	width2 = math.Inf(1)
	keep := func(p1, q1 Point) {
		if v := p1.Sub(q1); v.X*v.X+v.Y*v.Y < width2 {
			width2, p, q = v.X*v.X+v.Y*v.Y, p1, q1
		}
	}
	keep(a, foot(a, c, d))
	keep(b, foot(b, c, d))
	keep(foot(c, a, b), c)
	keep(foot(d, a, b), d)
	return width2, p, q
}

// foot returns the point of the segment from a to b that is nearest to p.
func foot(p, a, b Point) Point {
	d := b.Sub(a)
	t := ((p.X-a.X)*d.X + (p.Y-a.Y)*d.Y) / (d.X*d.X + d.Y*d.Y)
	switch {
	case t <= 0:
		return a
	case t >= 1:
		return b
	}
	return a.Add(d.Scale(t))
}

// cross tells whether two segments cross strictly, and where. Grid points are
// judged exactly, since the products have 48 bits.
func cross(a, b, c, d Point) (bool, Point) {
	side := func(p, q, r Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	toA, toB := side(c, d, a), side(c, d, b)
	toC, toD := side(a, b, c), side(a, b, d)
	if (toA > 0) == (toB > 0) || (toC > 0) == (toD > 0) || toA*toB == 0 || toC*toD == 0 {
		return false, Point{}
	}
	return true, a.Add(b.Sub(a).Scale(toA / (toA - toB)))
}
