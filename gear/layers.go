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
	if wanted := s.spec.TopChamfer; wanted > 0 && s.face-wanted > full {
		s.topHoles = math.Max(math.Min(wanted, least/4), leastChamfer)
		s.topTeeth = math.Max(math.Min(math.Min(wanted, tip), least/4), leastChamfer)
	}
}

// assemble makes the part. Where the sloping walls of the bed-side layer cannot
// be proved free of folds, its chamfers are halved, and left out in the end.
func (s *structure) assemble(drawn tooth) (geom.Part, error) {
	wanted := s.chamfer
	for range 4 {
		c := math.Max(s.chamfer, leastChamfer)
		part, err := s.made(s.slabs(drawn, c, s.relief))
		if err == nil {
			return part, nil
		}
		s.chamfer, s.relief, s.topTeeth, s.topHoles = s.chamfer/2, s.relief/2, s.topTeeth/2, s.topHoles/2
		s.lead /= 2
		if wanted == 0 {
			break
		}
	}
	s.chamfer, s.relief, s.topTeeth, s.topHoles = 0, 0, 0, 0
	return s.made(s.slabs(drawn, 0, 0))
}

// made drills what crosses the layers and proves the part.
func (s *structure) made(slabs []geom.Slab) (geom.Part, error) {
	if len(s.cuts) > 0 {
		var err error
		if slabs, err = geom.CutAcross(slabs, s.card.LayerThickness, s.card.BeadWidth, s.cuts...); err != nil {
			return geom.Part{}, err
		}
	}
	return geom.NewPart(s.part, slabs...)
}

// slabs cuts solids, holes and slopes into layers at every height where one
// begins or ends. A chamfer c of 0 makes the bed-side layer a plain prism.
func (s *structure) slabs(drawn tooth, c, relief float64) []geom.Slab {
	heights := []float64{0, s.card.BedChamfer(), s.height}
	for _, o := range s.solids {
		heights = append(heights, o.z0, o.z1)
	}
	for _, h := range s.holes {
		heights = append(heights, h.z0, h.z1)
	}
	for _, l := range s.letters {
		heights = append(heights, l.z0, l.z1)
	}
	for _, w := range s.slopes {
		heights = append(heights, w.z0, w.z1)
	}
	if s.lead > 0 {
		heights = append(heights, s.height-s.lead)
	}
	if s.topHoles > 0 {
		heights = append(heights, s.face-s.spec.TopChamfer)
	}
	sort.Float64s(heights)
	var slabs []geom.Slab
	z0 := heights[0]
	for _, z1 := range heights[1:] {
		if z1-z0 < 1e-6 {
			continue
		}
		slabs = append(slabs, s.slab(z0, z1, drawn, c, relief))
		z0 = z1
	}
	return slabs
}

// slab returns what stands between two neighbouring heights.
func (s *structure) slab(z0, z1 float64, drawn tooth, c, relief float64) geom.Slab {
	l := geom.Slab{Z0: z0, Z1: z1}
	sloping := false
	put := func(bottom, top geom.Contour, slopes bool) {
		l.Bottom, l.Top = append(l.Bottom, bottom), append(l.Top, top)
		sloping = sloping || slopes
	}
	middle := (z0 + z1) / 2
	for i, o := range s.solids {
		switch e := s.edge(z0, z1, o.z1, c, relief); {
		case !(o.z0 < middle && middle < o.z1):
		case i == 0 && !s.inner && e.teeth > 0:
			e.put(put, o.contour, drawn.relieved(o.contour, e.teeth))
		case (i == 0 || z1 == s.height) && e.round > 0:
			e.put(put, o.contour, o.contour.Resize(o.contour.Diameter()-2*e.round))
		default:
			put(o.contour, o.contour, false)
		}
	}
	for i, h := range s.holes {
		switch e := s.edge(z0, z1, h.z1, c, relief); {
		case !(h.z0 < middle && middle < h.z1):
		case i == 0 && s.inner && e.teeth > 0:
			e.put(put, h.contour, drawn.relieved(h.contour, e.teeth))
		case e.round > 0:
			e.put(put, h.contour, s.widened(h.contour, e.round))
		default:
			put(h.contour, h.contour, false)
		}
	}
	for _, l := range s.letters {
		if l.z0 < middle && middle < l.z1 {
			put(l.contour, l.contour, false)
		}
	}
	for _, w := range s.slopes {
		if w.z0 < middle && middle < w.z1 {
			put(w.at(z0), w.at(z1), true)
		}
	}
	if !sloping {
		l.Top = nil
	}
	return l
}

// An edge is how far the edges of a layer give way: of the teeth, of everything
// else, and whether at its upper end.
type edge struct {
	teeth, round float64
	above        bool
}

// edge returns the edge of what stands in a layer and ends at a height.
func (s *structure) edge(z0, z1, end, c, relief float64) edge {
	switch {
	case z0 == 0 && c > 0:
		return edge{c, relief, false}
	case s.lead > 0 && z1 == s.height:
		return edge{s.lead, s.lead, true}
	case s.topHoles > 0 && z1 == s.face && end == s.face:
		return edge{s.topTeeth, s.topHoles, true}
	}
	return edge{}
}

func (e edge) put(put func(bottom, top geom.Contour, slopes bool), whole, given geom.Contour) {
	if e.above {
		put(whole, given, true)
	} else {
		put(given, whole, true)
	}
}

// at returns the slope's contour at a height.
func (w slope) at(z float64) geom.Contour {
	switch z {
	case w.z0:
		return w.bottom
	case w.z1:
		return w.top
	}
	share := (z - w.z0) / (w.z1 - w.z0)
	i := -1
	return w.bottom.Map(func(p geom.Point) geom.Point {
		i++
		return p.Add(w.top.Points[i].Sub(p).Scale(share))
	})
}

// widened returns a hole opened by c on the radius.
func (s *structure) widened(hole geom.Contour, c float64) geom.Contour {
	switch {
	case s.shaft.grown != nil && &hole.Points[0] == &s.shaft.outline.Points[0]:
		return s.shaft.grown(c)
	case len(hole.Curves) == 1:
		return hole.Resize(hole.Diameter() + 2*c)
	}
	return hole.Fatten(-c)
}
