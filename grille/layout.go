package grille

import (
	"cmp"
	"math"
	"slices"

	"pintle/geom"
)

// rounding is what floating point may cost in a comparison of lengths, in mm.
const rounding = 1e-9

// place returns the holes of the origin that has room for most of them.
func (g *Grille) place() []cell {
	var most []cell
	for _, origin := range g.lattice.origins() {
		if holes := g.placeFrom(origin); len(holes) > len(most) {
			most = holes
		}
	}
	return most
}

func (g *Grille) placeFrom(origin [2]int) []cell {
	e := g.spec.Outline.edge()
	clear := g.clearOfScrews()
	var holes []cell
	g.lattice.visit(origin, e.x, e.y, func(c cell) {
		p := g.lattice.at(c)
		if g.rim(g.wanted, p, e) < g.spec.Margin-rounding {
			return
		}
		for _, screw := range g.screws {
			if g.wanted.gapToCircle(screw.Sub(p), 0) < clear-rounding {
				return
			}
		}
		holes = append(holes, c)
	})
	return holes
}

// rim returns how much material a hole at p leaves to the edge, in mm. The
// depth inside a convex edge is least at a corner of the core.
func (g *Grille) rim(s shape, p geom.Point, e edge) float64 {
	least := math.Inf(1)
	for _, corner := range s.core {
		least = min(least, e.depth(p.Add(corner)))
	}
	return least - s.radius
}

// clearOfScrews returns the distance in mm that a hole must keep from the
// centre of a screw: no closer than to another hole, a bar that passes its
// check, and never under the screw's head.
func (g *Grille) clearOfScrews() float64 {
	if len(g.screws) == 0 {
		return 0
	}
	drawn := g.spec.leastMargin() + max(g.screwFit.Drawn-g.screwFit.Wanted, 0)/2
	bar := max(g.lattice.bar(g.wanted), g.spec.soundBar(), drawn)
	return max(g.screwFit.Wanted/2+bar, g.spec.Screws.Screw.HeadDiameter/2)
}

// bars holds the narrowest bars of a grille by what they stand between, in mm;
// infinity where there are no two such things.
type bars struct{ holes, rim, screwToHole, screwToRim, screws float64 }

func (b bars) least() float64 {
	return min(b.holes, b.rim, b.screwToHole, b.screwToRim, b.screws)
}

// bars measures holes of the shape and screw holes of the diameter. It takes
// time in proportion to the holes: which neighbours can be closest follows from
// the lattice.
func (g *Grille) bars(s shape, screwDiameter float64) bars {
	e := g.spec.Outline.edge()
	b := bars{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1), leastBetween(g.screws) - screwDiameter}
	for _, n := range g.lattice.neighbours() {
		if gap := s.gap(g.lattice.at(n)); gap < b.holes && g.anyNeighbours(n) {
			b.holes = gap
		}
	}
	for _, c := range g.holes {
		p := g.lattice.at(c)
		b.rim = min(b.rim, g.rim(s, p, e))
		for _, screw := range g.screws {
			b.screwToHole = min(b.screwToHole, s.gapToCircle(screw.Sub(p), screwDiameter))
		}
	}
	for _, screw := range g.screws {
		b.screwToRim = min(b.screwToRim, e.depth(screw)-screwDiameter/2)
	}
	return b
}

// anyNeighbours says whether two holes with the offset were made. It finds a
// pair almost at once where there is one.
func (g *Grille) anyNeighbours(offset cell) bool {
	for _, c := range g.holes {
		other := cell{c.u + offset.u, c.v + offset.v}
		if _, found := slices.BinarySearchFunc(g.holes, other, inRows); found {
			return true
		}
	}
	return false
}

// inRows orders places as lattice.visit meets them.
func inRows(a, b cell) int {
	return cmp.Or(cmp.Compare(a.v, b.v), cmp.Compare(a.u, b.u))
}
