package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Clamp slits the ring at the x axis, from its mouth to the bed, between two
// ears that one screw pulls together. The seat is a slip fit, which the screw
// closes.
type Clamp struct {
	Screw     fit.Screw
	Nut       bool    // in a slot from the mouth down; else the screw cuts its thread in the far ear
	Thickness float64 // mm of each ear along the screw; 0 for 2.5 screw diameters, or what the nut needs
	Slit      float64 // mm; 0 for twice what closing takes, at least 2
}

const nutPlay = 0.3 // mm between a captive nut and its slot (common practice, no source)

func (c *Clamp) validate(s HousingSpec) error {
	if c == nil {
		return nil
	}
	if s.Fit != Slip {
		return &check.FieldError{
			Field: "fit", Text: s.Fit, Reason: "does not go with a clamp: a slit ring holds nothing until its screw closes it",
			Remedy: "use slip",
		}
	}
	for _, other := range []struct {
		name  string
		given bool
	}{
		{"flange", s.Flange != nil},
		{"foot", s.Foot != nil},
		{"lip", s.Lip != nil},
		{"cap", s.Cap != nil},
		{"knock-out slots", s.KnockOut != nil && s.KnockOut.Count != 0},
		{"inspection slots", s.InspectionSlots != 0},
	} {
		if other.given {
			return &check.FieldError{Field: "clamp", Text: "asked for", Reason: "does not go with " + other.name + ": its slit runs through the whole ring", Remedy: "choose one of the two"}
		}
	}
	if err := validateScrews("clamp", c.Screw, 2); err != nil {
		return err
	}
	if err := check.InRange("ear thickness", c.Thickness, "mm", 0, 50, "2 to 3 screw diameters are usual"); err != nil {
		return err
	}
	return check.InRange("slit width", c.Slit, "mm", 0, s.Bearing.Outside/4, "1 to 3 mm; leave it out to have it chosen")
}

// clampWithDefaults chooses what the clamp leaves open.
func (s HousingSpec) clampWithDefaults() *Clamp {
	c := *s.Clamp
	if c.Thickness == 0 {
		c.Thickness = threadGrip * c.Screw.Diameter
		if c.Nut {
			c.Thickness = c.nutSlot() + 2*s.earWall()
		}
		c.Thickness = s.wholeBeads(max(c.Thickness, s.leastEar(c)))
	}
	if c.Slit == 0 {
		c.Slit = math.Min(max(2, math.Ceil(4*s.closing())/2), s.Bearing.Outside/4)
	}
	return &c
}

// leastEar returns the thinnest ear in mm of which chamfers leave a bead on
// either side of the nut's slot.
func (s HousingSpec) leastEar(c Clamp) float64 {
	return c.nutSlot() + 2*(s.Card.BeadWidth+max(s.Card.BedChamfer(), edgeBreak))
}

// earWall returns the plastic in mm that an ear has at least: four beads or one
// screw diameter (common practice, no source).
func (s HousingSpec) earWall() float64 {
	return max(4*s.Card.BeadWidth, s.Clamp.Screw.Diameter)
}

// closing returns by how much in mm the slit narrows until the seat grips, where
// it came out larger by two standard uncertainties: pi times the play, since the
// seat's circumference shrinks by that.
func (s HousingSpec) closing() float64 {
	return math.Pi * (s.Card.Slip() + 2*s.Card.Bore.Sigma)
}

// nutSlot returns the width in mm of the nut's slot along the screw, 0 without.
func (c *Clamp) nutSlot() float64 {
	if !c.Nut {
		return 0
	}
	return c.Screw.NutHeight + nutPlay
}

// A clampPlace is where the screw of a clamp lies.
type clampPlace struct {
	axis, end, height float64 // mm: screw and end of the ears from the ring's axis, screw above the bed
	hole, thread      fit.Fit // through the near ear, and in the far one
}

// placeClamp finds room for the screw beside the tube and between the layers
// whose walls slope.
func (h *Housing) placeClamp() error {
	c, card := h.spec.Clamp, h.spec.Card
	if c == nil {
		return nil
	}
	p := &h.clamp
	p.hole = card.Hole(h.partName(), "clamp screw hole", c.Screw.Clearance)
	p.thread = card.Hole(h.partName(), "clamp pilot hole", c.Screw.Pilot)
	half := 0.0 // of what opens the far ear across the screw
	if c.Nut {
		p.thread = card.Hole(h.partName(), "clamp nut side hole", c.Screw.Clearance)
		half = (c.Screw.NutAcross + nutPlay) / 2
	}
	tube, face := h.OutsideDiameter()/2, c.Slit/2+c.Thickness
	r := max(p.hole.Drawn, p.thread.Drawn) / 2
	flank := math.Sqrt(max(0, tube*tube-face*face))
	p.axis = max(flank+c.Screw.HeadDiameter/2+0.5, tube+r, h.seat.Drawn/2+half+2*card.BeadWidth)
	p.end = p.axis + max(1.5*c.Screw.Diameter, r+2*card.BeadWidth, half+card.BeadWidth+max(card.BedChamfer(), edgeBreak))
	if least := h.spec.leastEar(*c); c.Thickness < least-1e-9 {
		return &check.FieldError{
			Field: "ear thickness", Value: c.Thickness, Unit: "mm", Reason: "leaves no bead beside the chamfers, and the nut where there is one",
			Remedy: fmt.Sprintf("use %s mm or more, or leave it out", ceil(least, 0.01)),
		}
	}
	if face >= tube {
		return &check.FieldError{
			Field: "ear thickness", Value: c.Thickness, Unit: "mm", Reason: fmt.Sprintf("makes ears broader than the tube of %s mm", check.Number(math.Round(200*tube)/100)),
			Remedy: "use a smaller screw, or a thicker wall",
		}
	}
	return h.clampHeight(r)
}

// clampHeight puts the screw as near to the middle of the ring's width, 1.5
// diameters below the mouth, as head, nut and sloping layers allow.
func (h *Housing) clampHeight(r float64) error {
	c, card := h.spec.Clamp, h.spec.Card
	below, above := max(r, c.Screw.HeadDiameter/2), max(r*math.Sqrt2, c.Screw.HeadDiameter/2)
	chamfer := max(card.BedChamfer(), 2*card.LayerThickness)
	if c.Nut {
		below = max(below, c.nutCorner()+2*card.LayerThickness)
	}
	middle := min(h.spec.ShoulderThickness+h.seatDepth/2, h.Height()-1.5*c.Screw.Diameter)
	mouth := h.Height() - h.leadHeight
	low, high := max(chamfer+r, below), min(mouth-r*math.Sqrt2, h.Height()-above)
	best, lacks, from := math.Inf(1), 0.0, low
	for i, slope := range append(h.slopes(), [2]float64{math.Inf(1)}) {
		to := min(high, slope[0]-r*math.Sqrt2)
		if i == 0 {
			lacks = from - to
		}
		if at := min(max(middle, from), to); at >= from && math.Abs(at-middle) < best {
			best, h.clamp.height = math.Abs(at-middle), at
		}
		from = max(low, slope[1]+r)
	}
	if !math.IsInf(best, 1) {
		return nil
	}
	return &check.FieldError{
		Field: "shoulder thickness", Value: h.spec.ShoulderThickness, Unit: "mm", Reason: fmt.Sprintf("leaves a ring too low for the %s screw of its clamp", c.Screw.Size),
		Remedy: fmt.Sprintf("use %s mm or more, or a smaller screw", ceil(h.spec.ShoulderThickness+lacks+0.01, 0.1)),
	}
}

// slopes returns the heights in mm between chamfer and mouth where the bore
// widens, from the bed up.
func (h *Housing) slopes() [][2]float64 {
	foot := h.spec.ShoulderThickness
	var all [][2]float64
	if h.relief.Width > 0 {
		all = append(all, [2]float64{foot + h.relief.Depth, foot + h.reliefHeight()})
	}
	if h.stepped() {
		all = append(all, [2]float64{foot + h.seatDepth - h.stepHeight(), foot + h.seatDepth})
	}
	return all
}

// nutCorner returns the largest radius in mm of the nut.
func (c *Clamp) nutCorner() float64 { return (c.Screw.NutAcross + nutPlay) / math.Sqrt(3) }

// slit cuts the tube's layers open between two ears, then drills the screw's
// holes.
func (h *Housing) slit(layers []geom.Slab) ([]geom.Slab, error) {
	c, p := h.spec.Clamp, h.clamp
	var open []geom.Slab
	for _, s := range layers {
		s.Bottom = []geom.Contour{h.eared(s.Bottom)}
		if s.Top != nil {
			s.Top = []geom.Contour{h.eared(s.Top)}
		}
		open = append(open, s)
	}
	if c.Nut {
		open = h.nutOpening(open)
	}
	face := c.Slit/2 + c.Thickness
	at := geom.Point{X: p.axis}
	return geom.Drill(open, h.spec.Card.LayerThickness, h.spec.Card.BeadWidth,
		geom.CrossHole{Centre: at, Height: p.height, Diameter: p.hole.Drawn, Direction: math.Pi / 2, From: 0, To: face + 1},
		geom.CrossHole{Centre: at, Height: p.height, Diameter: p.thread.Drawn, Direction: -math.Pi / 2, From: 0, To: face + 1})
}

// nutOpening opens a slot for the nut, from the mouth down to its lower corner.
func (h *Housing) nutOpening(layers []geom.Slab) []geom.Slab {
	c, p := h.spec.Clamp, h.clamp
	window := geom.Window(geom.Point{X: p.axis, Y: -(c.Slit + c.Thickness) / 2}, c.Screw.NutAcross+nutPlay, c.nutSlot(), 0, 0, geom.ChordPlain)
	low := p.height - c.nutCorner()
	for _, s := range layers { // next to a layer's end, start with it
		for _, z := range []float64{s.Z0, s.Z1} {
			if math.Abs(z-low) < 0.01 {
				low = z
			}
		}
	}
	var all []geom.Slab
	for _, s := range layers {
		switch {
		case s.Z1 <= low:
			all = append(all, s)
			continue
		case s.Z0 < low:
			under := s
			under.Z1, s.Z0 = low, low
			all = append(all, under)
		}
		s.Bottom = append(s.Bottom, window)
		if s.Top != nil {
			s.Top = append(s.Top, window)
		}
		all = append(all, s)
	}
	return all
}

// eared joins a tube and its bore, both circles, to one outline with a slit and
// two ears; it has as many points as the circles, so that outlines of a chamfer
// pair.
func (h *Housing) eared(circles []geom.Contour) geom.Contour {
	c := h.spec.Clamp
	tube, bore := circles[0].Diameter()/2, circles[1].Diameter()/2
	grow := tube - h.OutsideDiameter()/2
	edge, face, end := c.Slit/2, c.Slit/2+c.Thickness+grow, h.clamp.end+grow
	root, gap := math.Asin(face/tube), math.Asin(edge/bore)
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	var run contourRun
	run.line(geom.Polar(bore, gap), at(end, edge))
	run.line(at(end, edge), at(end, face))
	run.line(at(end, face), geom.Polar(tube, root))
	run.inscribed(tube, root, 2*math.Pi-root, len(circles[0].Points))
	run.line(geom.Polar(tube, -root), at(end, -face))
	run.line(at(end, -face), at(end, -edge))
	run.line(at(end, -edge), geom.Polar(bore, -gap))
	run.arc(bore, 2*math.Pi-gap, gap, len(circles[1].Points))
	return run.contour
}
