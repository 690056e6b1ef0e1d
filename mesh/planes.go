package mesh

import (
	"cmp"
	"slices"

	"pintle/geom"
)

// leastPlane is the number of triangles from which a level plane is worth a
// proof of its own.
const leastPlane = 64

// A plane holds all triangles that lie level in one plane across an axis.
// Plates have hundreds of thousands in each of two planes, long and thin, whose
// boxes all overlap: looking at pairs would take the square of their number.
type plane struct {
	axis      int
	at        float64
	triangles []int32
	tree      *tree // of its triangles, made when first asked for
}

// findPlanes proves for each level plane that its triangles do not overlap, and
// returns the planes proved, sorted by axis and place; s.plane tells by triangle
// which it belongs to, or -1. Of planes left out, pairs have to be looked at.
//
// The proof: the edges of the triangles that have no partner in the plane bound
// loops. If these do not meet, they go round places of the plane once at most;
// if the area they go round then equals the sum of all triangles' areas, no
// place is covered twice. All of it takes n log n steps and is exact.
func (s *surface) findPlanes(least int) []plane {
	planes := s.levelPlanes(least)
	s.plane = make([]int32, len(s.triangles))
	for i := range s.plane {
		s.plane[i] = -1
	}
	if s.grid == nil {
		return nil
	}
	for n, p := range planes {
		for _, i := range p.triangles {
			s.plane[i] = int32(n)
		}
	}
	proved := make([]bool, len(planes))
	each(len(planes), func(n int) { proved[n] = s.provePlane(int32(n), &planes[n]) })
	var kept []plane
	for n, p := range planes {
		id := int32(-1)
		if proved[n] {
			id = int32(len(kept))
			kept = append(kept, p)
		}
		for _, i := range p.triangles {
			s.plane[i] = id
		}
	}
	return kept
}

func (s *surface) levelPlanes(least int) []plane {
	type place struct {
		axis int
		at   float64
	}
	index := map[place]int{}
	var planes []plane
	for i, t := range s.triangles {
		a, b, c := s.points[t[0]], s.points[t[1]], s.points[t[2]]
		for k := range 3 {
			if a[k] != b[k] || a[k] != c[k] {
				continue
			}
			if s.flat(t) {
				break
			}
			n, ok := index[place{k, a[k]}]
			if !ok {
				n = len(planes)
				index[place{k, a[k]}] = n
				planes = append(planes, plane{axis: k, at: a[k]})
			}
			planes[n].triangles = append(planes[n].triangles, int32(i))
		}
	}
	planes = slices.DeleteFunc(planes, func(p plane) bool { return len(p.triangles) < least })
	slices.SortFunc(planes, func(p, q plane) int {
		return cmp.Or(cmp.Compare(p.axis, q.axis), cmp.Compare(p.at, q.at))
	})
	return planes
}

func (s *surface) provePlane(id int32, p *plane) bool {
	u, v := (p.axis+1)%3, (p.axis+2)%3
	flat := func(i int32) geom.Vertex { return geom.Vertex{X: s.grid[i][u], Y: s.grid[i][v]} }
	var areas int128
	next := map[int32]int32{} // along edges without a partner in the plane
	var starts []int32
	for _, i := range p.triangles {
		t := s.triangles[i]
		a, b, c := flat(t[0]), flat(t[1]), flat(t[2])
		double := int64(b.X-a.X)*int64(c.Y-a.Y) - int64(b.Y-a.Y)*int64(c.X-a.X)
		areas.addProduct(max(double, -double), 1)
		for k := range t {
			if o := s.opposite[3*int(i)+k]; o >= 0 && s.plane[o/3] == id {
				continue
			}
			if _, twice := next[t[k]]; twice {
				return false
			}
			next[t[k]] = t[(k+1)%3]
			starts = append(starts, t[k])
		}
	}
	var loops []geom.Loop
	for _, start := range starts {
		var loop geom.Loop
		for at := start; ; {
			to, ok := next[at]
			if !ok {
				break
			}
			delete(next, at)
			loop = append(loop, flat(at))
			if at = to; at == start {
				break
			}
		}
		if len(loop) > 0 {
			loops = append(loops, loop)
		}
	}
	covered, err := geom.CoveredArea(loops)
	return err == nil && areas == int128{lo: uint64(covered)}
}

// A contact is a triangle that may meet the triangles of a plane it is not in.
type contact struct{ triangle, plane int32 }

// contacts finds the triangles that reach a proved plane other than with a
// corner or an edge that the plane's triangles have too. Those that do so meet
// nothing else of the plane.
func (s *surface) contacts(planes []plane) []contact {
	if len(planes) == 0 {
		return nil
	}
	marked := make([]uint8, len(s.points)) // bit k: a corner in a proved plane across axis k
	var across [3][]int32
	for n, p := range planes {
		across[p.axis] = append(across[p.axis], int32(n))
		for _, i := range p.triangles {
			for _, v := range s.triangles[i] {
				marked[v] |= 1 << p.axis
			}
		}
	}
	parts := make([][]contact, chunks)
	each(chunks, func(c int) {
		for i := len(s.triangles) * c / chunks; i < len(s.triangles)*(c+1)/chunks; i++ {
			for axis := range 3 {
				parts[c] = s.reach(parts[c], int32(i), axis, planes, across[axis], marked)
			}
		}
	})
	return slices.Concat(parts...)
}

// reach adds the contacts of a triangle with planes across an axis.
func (s *surface) reach(found []contact, i int32, axis int, planes []plane, across []int32, marked []uint8) []contact {
	t := s.triangles[i]
	a, b, c := s.points[t[0]][axis], s.points[t[1]][axis], s.points[t[2]][axis]
	lo, hi := min(a, b, c), max(a, b, c)
	from, _ := slices.BinarySearchFunc(across, lo, func(n int32, at float64) int { return cmp.Compare(planes[n].at, at) })
	for _, n := range across[from:] {
		at := planes[n].at
		if at > hi {
			break
		}
		if own := s.plane[i]; own >= n || lo == hi || s.fits(i, axis, at, lo < at && at < hi, n, marked) {
			continue // what is in two planes is asked for once
		}
		found = append(found, contact{i, n})
	}
	return found
}

// fits tells whether all that a triangle has in a plane is a corner or an edge
// of the plane's triangles.
func (s *surface) fits(i int32, axis int, at float64, through bool, n int32, marked []uint8) bool {
	t := s.triangles[i]
	on, edge, corner := 0, 0, int32(0)
	for k := range 3 {
		if s.points[t[k]][axis] == at {
			on++
			corner = t[k]
			if s.points[t[(k+1)%3]][axis] == at {
				edge = k
			}
		}
	}
	switch {
	case through:
		return false
	case on == 1:
		return marked[corner]>>axis&1 == 1
	}
	o := s.opposite[3*int(i)+edge]
	return o >= 0 && s.plane[o/3] == n
}

// search returns the tree of a plane's triangles.
func (p *plane) search(s *surface) *tree {
	if p.tree == nil {
		p.tree = newTree(s.boxes(p.triangles))
	}
	return p.tree
}
