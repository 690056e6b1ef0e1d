package geom

import "math"

// A Region is a set of simple closed loops, outer ones anticlockwise and holes
// clockwise, none crossing or touching itself or another, properly nested.
// NewRegion proves all of it on the grid. The zero Region is empty.
type Region struct {
	loops []Loop
	verts []Vertex // of all loops, one after the other
	order []int32  // vertices from left to right
	below []int32  // by vertex: the edge directly below it, or -1
}

// NewRegion proves that the loops bound a region: every place is covered once
// or not at all, with the material to the left of each edge. Loops and their
// first vertices stay in the order given; corners of 180 degrees are allowed.
// The error is a *RegionError.
func NewRegion(loops []Loop) (Region, error) {
	if len(loops) == 0 {
		return Region{}, &RegionError{Kind: NoOutline}
	}
	s, err := newSweep(loops, 0, 1)
	if err != nil {
		return Region{}, err
	}
	return s.region(loops), nil
}

// region keeps what the sweep found about loops of the winding numbers 0 and 1.
func (s *sweep) region(loops []Loop) Region {
	r := Region{verts: s.verts, order: s.order, below: s.below, loops: make([]Loop, len(loops))}
	first := 0
	for i, l := range loops {
		last := first + len(l)
		r.loops[i] = s.verts[first:last:last]
		first = last
	}
	return r
}

// Loops returns the loops in the order they were given.
func (r Region) Loops() []Loop { return r.loops }

// Vertices returns the vertices of all loops, one loop after the other: what
// the indices of Triangles and Match mean.
func (r Region) Vertices() []Vertex { return r.verts }

// Holes returns the number of loops that bound a hole.
func (r Region) Holes() int {
	holes := 0
	for _, l := range r.loops {
		if l.doubleArea() < 0 {
			holes++
		}
	}
	return holes
}

// doubleArea returns twice the area in squared grid steps, exactly.
func (r Region) doubleArea() int64 {
	var sum int64
	for _, l := range r.loops {
		sum += l.doubleArea()
	}
	return sum
}

// Outer tells whether the loop runs round material, anticlockwise, and not round
// a hole.
func (l Loop) Outer() bool { return l.doubleArea() > 0 }

// Area returns the area in mm².
func (r Region) Area() float64 { return float64(r.doubleArea()) / (2 * PerMM * PerMM) }

// Bounds returns the smallest and largest x, y in mm; the lower corner is above
// the upper one for no region.
func (r Region) Bounds() (lo, hi Point) {
	lo, hi = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, v := range r.verts {
		p := v.Point()
		lo = Point{min(lo.X, p.X), min(lo.Y, p.Y)}
		hi = Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	return lo, hi
}

// Contains tells whether p lies in the region or on its outline.
func (r Region) Contains(p Vertex) bool {
	winding := 0
	for _, l := range r.loops {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			o := orient(a, b, p)
			switch {
			case o == 0 && min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) && min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y):
				return true
			case a.Y <= p.Y && b.Y > p.Y && o > 0:
				winding++
			case b.Y <= p.Y && a.Y > p.Y && o < 0:
				winding--
			}
		}
	}
	return winding > 0
}

// Match returns for each vertex of b the index of the same point among the
// vertices of a, or -1.
func Match(a, b Region) []int32 {
	match := make([]int32, len(b.verts))
	i := 0
	for _, v := range b.order {
		for i < len(a.order) && before(a.verts[a.order[i]], b.verts[v]) {
			i++
		}
		match[v] = -1
		if i < len(a.order) && a.verts[a.order[i]] == b.verts[v] {
			match[v] = a.order[i]
		}
	}
	return match
}
