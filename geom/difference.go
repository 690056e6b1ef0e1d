package geom

import "slices"

// Difference compares the regions below and above an interface between two
// layers. The ceilings are covered only by the one below, the floors only by
// the one above; either may be empty. Edges that both have cancel. It refuses
// bodies that meet in a line or a point only, and outlines that cross or touch
// without sharing their vertices. The error is a *RegionError.
func Difference(below, above Region) (ceilings, floors Region, err error) {
	loops, err := remainder(below, above)
	if err != nil || len(loops) == 0 {
		return Region{}, Region{}, err
	}
	s, err := newSweep(loops, -1, 1)
	if err != nil {
		return Region{}, Region{}, err
	}
	var up, down []Loop
	start := 0
	for _, l := range loops {
		// The lowest edge at the leftmost vertex has the loop above it.
		if s.left(int32(start)) > 0 {
			up = append(up, l)
		} else {
			slices.Reverse(l)
			down = append(down, l)
		}
		start += len(l)
	}
	if len(down) == 0 {
		return s.region(up), Region{}, nil
	}
	if len(up) > 0 {
		if ceilings, err = NewRegion(up); err != nil {
			panic("geom: the ceilings of a proved difference are no region: " + err.Error())
		}
	}
	if floors, err = NewRegion(down); err != nil {
		panic("geom: the floors of a proved difference are no region: " + err.Error())
	}
	return ceilings, floors, nil
}

// CoveredArea returns twice the area in squared steps that loops go round once,
// in either sense, and proves that they meet neither themselves nor each other
// and go round nothing more often. Coordinates may reach 2^29 either way, beyond
// the grid of regions. The error is a *RegionError.
func CoveredArea(loops []Loop) (int64, error) {
	s := &sweep{lo: -1, hi: 1, extent: wideExtent, status: newStatus()}
	if err := s.prove(loops); err != nil {
		return 0, err
	}
	var sum int64
	edge := 0
	for _, l := range loops {
		if s.left(int32(edge)) > 0 {
			sum += l.doubleArea()
		} else {
			sum -= l.doubleArea()
		}
		edge += len(l)
	}
	return sum, nil
}

// left returns the winding number on the left of an edge.
func (s *sweep) left(edge int32) int8 {
	if before(s.verts[edge], s.verts[s.succ[edge]]) {
		return s.above[edge]
	}
	return s.above[edge] + 1 // the right side is above, and one less
}

// remainder sums the edges of below and the reversed edges of above, and links
// what is left to loops.
func remainder(below, above Region) ([]Loop, error) {
	n := int32(len(below.verts))
	verts := slices.Concat(below.verts, above.verts)
	same := Match(below, above) // turned into one index per point
	for j := range same {
		if same[j] < 0 {
			same[j] = n + int32(j)
		}
	}
	succBelow, _ := links(below.loops, int(n))
	succAbove, _ := links(above.loops, len(above.verts))

	out := make([]int32, len(verts)) // by point: where the edge leaving it goes, or -1
	copy(out, succBelow)
	for j := int(n); j < len(out); j++ {
		out[j] = -1
	}
	var kept []int32 // edges of above that do not cancel
	for j := range same {
		a, b := same[j], same[succAbove[j]]
		switch {
		case a < n && succBelow[a] == b:
			out[a] = -1
		case b < n && succBelow[b] == a:
			pair := [2]Point{verts[b].Point(), verts[a].Point()}
			return nil, &RegionError{Kind: LineContact, A: pair, B: [2]Point{pair[1], pair[0]}, At: pair[0]}
		default:
			kept = append(kept, int32(j))
		}
	}
	for _, j := range kept {
		a, b := same[j], same[succAbove[j]]
		if out[b] >= 0 {
			return nil, &RegionError{
				Kind: Coincidence, At: verts[b].Point(),
				A: [2]Point{verts[b].Point(), verts[out[b]].Point()}, B: [2]Point{verts[a].Point(), verts[b].Point()},
			}
		}
		out[b] = a
	}
	return follow(verts, out), nil
}

// follow collects the loops of a set of edges with at most one leaving each
// point, and as many entering as leaving.
func follow(verts []Vertex, out []int32) []Loop {
	var loops []Loop
	for i := range out {
		var loop Loop
		for v := int32(i); out[v] >= 0; {
			loop = append(loop, verts[v])
			v, out[v] = out[v], -1
		}
		if loop != nil {
			loops = append(loops, loop)
		}
	}
	return loops
}
