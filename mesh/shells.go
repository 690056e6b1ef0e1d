package mesh

import (
	"math"
	"slices"
)

// nestingLimit bounds the triangles looked at to see which shells lie in which:
// some seconds' work.
const nestingLimit = 50_000_000

// A shell is a piece of surface joined over its edges.
type shell struct {
	box
	root      int32
	triangles []int32
	sixVolume float64
	deepest   int32 // a point on it that no other of its points lies left of
}

// examineShells counts the shells, and looks at the closed ones: a shell must
// face outwards where it stands free, and inwards where it bounds a cavity in
// another. Where surfaces cross, nesting says nothing.
func (s *surface) examineShells(e *Examination, clean bool) {
	shells := s.shells()
	e.Shells = len(shells)
	var insideOut, nested tally
	work := 0
	for i := range shells {
		a := &shells[i]
		if s.open[a.root] {
			continue
		}
		p := s.points[a.deepest]
		around := 0.0
		for j := range shells {
			b := &shells[j]
			if i == j || s.open[b.root] || !b.meets(box{p, p}) {
				continue
			}
			if work += len(b.triangles); work > nestingLimit {
				e.Unexamined = "which of the many shells lie inside others was not examined to the end"
				break
			}
			around += s.turns(p, b.triangles)
		}
		switch depth := math.Round(around); {
		case a.sixVolume <= 0 && depth >= 1:
			e.Cavities++
		case a.sixVolume <= 0:
			insideOut.add(p)
		case clean && depth >= 1:
			nested.add(p)
		}
	}
	e.add(InsideOut, insideOut.count, insideOut.where, "%s inside out", are(insideOut.count, "shell"))
	e.add(NestedBody, nested.count, nested.where, "%s inside another: their material overlaps", are(nested.count, "shell"))
}

// shells collects the triangles of each shell, in the order of the first.
func (s *surface) shells() []shell {
	var shells []shell
	index := map[int32]int{}
	for i, t := range s.triangles {
		root := s.shell[i]
		k, ok := index[root]
		if !ok {
			k = len(shells)
			index[root] = k
			shells = append(shells, shell{box: s.box(t), root: root, deepest: t[0]})
		}
		sh := &shells[k]
		sh.box = sh.join(s.box(t))
		sh.triangles = append(sh.triangles, int32(i))
		sh.sixVolume += s.sixVolume(i)
		for _, v := range t {
			if slices.Compare(s.points[v][:], s.points[sh.deepest][:]) < 0 {
				sh.deepest = v
			}
		}
	}
	return shells
}

// turns returns how often triangles go round p: the sum of their solid angles
// over 4 pi, a whole number for a closed surface (van Oosterom and Strackee,
// "The Solid Angle of a Plane Triangle", IEEE Trans. Biomed. Eng. 30(2), 1983).
func (s *surface) turns(p [3]float64, triangles []int32) float64 {
	sum := 0.0
	for _, i := range triangles {
		a, b, c := s.corners(int(i))
		a, b, c = sub(a, p), sub(b, p), sub(c, p)
		la, lb, lc := length(a), length(b), length(c)
		sum += 2 * math.Atan2(dot(a, cross(b, c)), la*lb*lc+dot(a, b)*lc+dot(b, c)*la+dot(c, a)*lb)
	}
	return sum / (4 * math.Pi)
}
