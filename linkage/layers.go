package linkage

import (
	"math"
	"slices"

	"pintle/fit"
	"pintle/geom"
)

// layers gathers what is solid and what is hollow between which heights, and
// cuts it into slabs.
type layers struct {
	card   fit.Card
	solids []course
	holes  []course
}

// A course is contours between two heights; with top their partners there.
type course struct {
	z0, z1      float64
	bottom, top []geom.Contour
}

func (l *layers) add(z0, z1 float64, outlines ...geom.Contour) {
	l.solids = append(l.solids, course{z0: z0, z1: z1, bottom: outlines})
}

func (l *layers) open(z0, z1 float64, holes ...geom.Contour) {
	l.holes = append(l.holes, course{z0: z0, z1: z1, bottom: holes})
}

// openSloping makes a hole whose walls slope from bottom to top.
func (l *layers) openSloping(z0, z1 float64, bottom, top geom.Contour) {
	l.holes = append(l.holes, course{z0, z1, []geom.Contour{bottom}, []geom.Contour{top}})
}

// slabs cuts the body at every height where something begins or ends. The bed
// side is relieved by the card's chamfer, or by what the narrowest place leaves.
func (l *layers) slabs() []geom.Slab {
	heights := []float64{0}
	for _, c := range slices.Concat(l.solids, l.holes) {
		heights = append(heights, c.z0, c.z1)
	}
	slices.Sort(heights)
	heights = slices.CompactFunc(heights, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 })
	var slabs []geom.Slab
	for i := 1; i < len(heights); i++ {
		s := geom.Slab{Z0: heights[i-1], Z1: heights[i]}
		middle := (s.Z0 + s.Z1) / 2
		var tops []geom.Contour
		slopes := false
		for _, c := range slices.Concat(l.solids, l.holes) {
			if middle < c.z0 || middle > c.z1 {
				continue
			}
			s.Bottom = append(s.Bottom, c.bottom...)
			if c.top != nil {
				slopes = true
				tops = append(tops, c.top...)
			} else {
				tops = append(tops, c.bottom...)
			}
		}
		if slopes {
			s.Top = tops
		}
		if i == 1 && !slopes {
			slabs = append(slabs, l.onBed(s)...)
			continue
		}
		slabs = append(slabs, s)
	}
	return slabs
}

// onBed splits the lowest slab in a chamfer and the rest.
func (l *layers) onBed(s geom.Slab) []geom.Slab {
	c := min(l.card.BedChamfer(), (s.Z1-s.Z0)/2)
	if region, err := geom.RegionOf(s.Bottom); err == nil {
		if web, ok := region.LeastWeb(); ok { // leave a narrow web three quarters of itself
			c = min(c, web.Width/4)
		}
	}
	narrow, got := geom.Chamfer(s.Bottom, c)
	if got == 0 {
		return []geom.Slab{s}
	}
	chamfer := geom.Slab{Z0: s.Z0, Z1: s.Z0 + got, Bottom: narrow, Top: s.Bottom}
	s.Z0 += got
	return []geom.Slab{chamfer, s}
}
