package gear

import (
	"math"
	"sort"

	"pintle/geom"
)

// leastChamfer keeps the walls of a bed-side layer sloping, so that all its
// loops pair; mm.
const leastChamfer = 0.02

// chamfers sets what the bed edges of teeth and holes give up: as much as the
// first layers grow, but the tooth tip keeps one bead and a rim or web three
// quarters of itself. A reduced tooth chamfer is a multiple of 0.05 mm.
func (s *structure) chamfers(drawn tooth) {
	full := s.card.BedChamfer()
	least := math.Inf(1)
	for _, m := range s.margins {
		least = math.Min(least, m.value)
	}
	s.relief = math.Max(math.Min(full, least/4), leastChamfer)
	tip := (drawn.thickness(drawn.ra) - s.card.BeadWidth) * drawn.r * math.Cos(drawn.alpha) / (2 * drawn.ra)
	s.chamfer = math.Min(math.Min(full, tip), least/4)
	if s.chamfer < full {
		s.chamfer = math.Max(math.Floor(s.chamfer/0.05+1e-9)*0.05, 0)
	}
}

// assemble makes the part. Where the sloping walls of the bed-side layer cannot
// be proved free of folds, its chamfers are halved, and left out in the end.
func (s *structure) assemble(drawn tooth) (geom.Part, error) {
	wanted := s.chamfer
	for range 4 {
		c := math.Max(s.chamfer, leastChamfer)
		part, err := geom.NewPart(s.part, s.slabs(drawn, c, s.relief)...)
		if err == nil {
			return part, nil
		}
		s.chamfer, s.relief = s.chamfer/2, s.relief/2
		if wanted == 0 {
			break
		}
	}
	s.chamfer, s.relief = 0, 0
	return geom.NewPart(s.part, s.slabs(drawn, 0, 0)...)
}

// slabs cuts solids and holes into layers at every height where one begins or
// ends. A chamfer c of 0 makes the bed-side layer a plain prism.
func (s *structure) slabs(drawn tooth, c, relief float64) []geom.Slab {
	bed := s.card.BedChamfer()
	heights := []float64{0, bed, s.height}
	for _, o := range s.solids {
		heights = append(heights, o.z0, o.z1)
	}
	for _, h := range s.holes {
		heights = append(heights, h.z0, h.z1)
	}
	if s.lead > 0 {
		heights = append(heights, s.height-s.lead)
	}
	sort.Float64s(heights)
	var slabs []geom.Slab
	for i := 1; i < len(heights); i++ {
		z0, z1 := heights[i-1], heights[i]
		if z1-z0 < 1e-6 {
			continue
		}
		slab := geom.Slab{Z0: z0, Z1: z1, Bottom: s.section((z0 + z1) / 2)}
		switch {
		case z0 == 0 && c > 0:
			slab.Top = slab.Bottom
			slab.Bottom = s.widened(slab.Top, relief)
			if s.inner {
				slab.Bottom[0] = slab.Top[0].Resize(slab.Top[0].Diameter() - 2*relief)
				slab.Bottom[1] = drawn.relieved(slab.Top[1], c)
			} else {
				slab.Bottom[0] = drawn.relieved(slab.Top[0], c)
			}
		case s.lead > 0 && z1 == s.height:
			slab.Top = s.widened(slab.Bottom, s.lead)
			slab.Top[0] = slab.Bottom[0].Resize(slab.Bottom[0].Diameter() - 2*s.lead)
		}
		slabs = append(slabs, slab)
	}
	return slabs
}

// section returns the contours at a height: the solid, then its holes.
func (s *structure) section(z float64) []geom.Contour {
	var contours []geom.Contour
	for _, o := range s.solids {
		if o.z0 < z && z < o.z1 {
			contours = append(contours, o.contour)
		}
	}
	for _, h := range s.holes {
		if h.z0 < z && z < h.z1 {
			contours = append(contours, h.contour)
		}
	}
	return contours
}

// widened returns the section with its holes opened by c on the radius; the
// caller replaces the first contour, which is no hole.
func (s *structure) widened(section []geom.Contour, c float64) []geom.Contour {
	wide := make([]geom.Contour, len(section))
	for i, hole := range section[1:] {
		if len(hole.Curves) == 1 {
			wide[i+1] = hole.Resize(hole.Diameter() + 2*c)
		} else {
			wide[i+1] = hole.Fatten(-c)
		}
	}
	return wide
}
