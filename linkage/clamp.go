package linkage

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Clamp slits the hub on the side away from the first arm, between two ears
// that one screw pulls together on the shaft. The screw cuts its thread in the
// far ear.
type Clamp struct {
	Screw fit.Screw
}

// clampSlit is the width of a clamp's slit in mm (common practice, no source:
// what closing takes, and never closed by the first layers' growth).
const clampSlit = 2.0

// ear returns the thickness of an ear along the screw and how far it reaches
// from the hub's axis; axis is where the screw lies.
func (c *Clamp) ear(l *Link) (thick, axis, end float64) {
	bead := l.spec.Card.BeadWidth
	thick = math.Max(2*c.Screw.Diameter, 4*bead+c.Screw.Diameter/2)
	axis = l.spec.Hub.Hole/2 + 2*bead + c.Screw.Clearance/2 + c.Screw.HeadDiameter/4
	axis = math.Max(axis, l.hub/2)
	return thick, axis, axis + c.Screw.HeadDiameter/2 + 2*bead
}

// addClamp cuts slit and bore out of the link's outline with its ears.
func (l *Link) addClamp(shape []geom.Contour) ([]geom.Contour, error) {
	c, s := l.spec.Hub.Clamp, l.spec
	if err := check.Positive("clamp screw of "+s.Name, c.Screw.Diameter, "mm", "choose a screw, such as M3"); err != nil {
		return nil, err
	}
	if s.Hub.Hole <= 0 {
		return nil, l.refuse("hub bore", 0, "is missing, and the clamp grips it", "give the shaft's diameter")
	}
	if s.Hub.Bolts != nil || len(s.Hub.Openings) > 0 {
		return nil, l.refuse("clamp screw", c.Screw.Diameter, "does not go with a bolt circle or a seat: the slit runs through the hub", "choose one of the two")
	}
	if len(s.Arms) > 1 {
		for _, a := range s.Arms[1:] {
			if math.Abs(math.Remainder(a.Angle-s.Arms[0].Angle, 2*math.Pi)) > math.Pi/2+1e-9 {
				return nil, l.refuse("clamp screw", c.Screw.Diameter, "has an arm in its way: the slit opens on the side away from the first arm", "bring the arms within 90 deg of the first, or use another hub")
			}
		}
	}
	thick, axis, end := c.ear(l)
	need := s.Card.BedChamfer() + c.Screw.Clearance/2*(1+math.Sqrt2) + 4*s.Card.LayerThickness
	if s.Thickness < need {
		return nil, l.refuse("thickness", s.Thickness, "is too little for the clamp's "+c.Screw.Size+" screw", "thickness >= "+upTo(need)+" mm, or a smaller screw")
	}
	l.walls = append(l.walls, wall{axis - c.Screw.Clearance/2 - s.Hub.Hole/2, "between clamp screw and bore", func(lack float64) string {
		return "hub diameter >= " + upTo(2*(axis+lack)) + " mm"
	}})
	back := s.Arms[0].Angle + math.Pi
	region, err := geom.RegionOf(shape)
	if err != nil {
		return nil, err
	}
	along := func(from, to, width float64) geom.Contour {
		middle := geom.Polar((from+to)/2, back)
		return geom.Rectangle(middle, to-from, width, 0, back, geom.ChordPlain)
	}
	ears, err := geom.RegionOf([]geom.Contour{along(0, end, clampSlit+2*thick)})
	if err != nil {
		return nil, err
	}
	hole := s.Card.Bore.Draw(s.Hub.Hole)
	bore := geom.Bore(geom.Point{}, hole, geom.ChordFit)
	bore.Curves = nil // its points stand outside the circle, also run the other way
	round, err := geom.RegionOf([]geom.Contour{bore.Reversed(geom.ChordFit)})
	if err != nil {
		return nil, err
	}
	slit, err := geom.RegionOf([]geom.Contour{along(0, end+1, clampSlit)})
	if err != nil {
		return nil, err
	}
	for _, step := range []struct {
		with geom.Region
		do   func(a, b geom.Region, bead float64) (geom.Region, error)
	}{{ears, geom.Unite}, {round, geom.Subtract}, {slit, geom.Subtract}} {
		if region, err = step.do(region, step.with, s.Card.BeadWidth); err != nil {
			return nil, err
		}
	}
	return contoursOf(region), nil
}

// contoursOf returns a region's loops as contours without curves.
func contoursOf(r geom.Region) []geom.Contour {
	var all []geom.Contour
	for _, loop := range r.Loops() {
		var c geom.Contour
		for _, v := range loop {
			c.Points = append(c.Points, v.Point())
		}
		all = append(all, c)
	}
	return all
}

// drill makes the clamp's screw hole: free through one ear, to cut its thread in
// the other.
func (c *Clamp) drill(slabs []geom.Slab, l *Link) ([]geom.Slab, error) {
	s := l.spec
	thick, axis, _ := c.ear(l)
	back := s.Arms[0].Angle + math.Pi
	free := s.Card.Hole(s.Name, "clamp screw hole", c.Screw.Clearance)
	thread := s.Card.Hole(s.Name, "clamp pilot hole", c.Screw.Pilot)
	l.fits = append(l.fits, free, thread)
	r := free.Drawn / 2
	height := s.Card.BedChamfer() + r + (s.Thickness-s.Card.BedChamfer()-r*(1+math.Sqrt2))/2
	reach := clampSlit/2 + thick + 1
	at := geom.Polar(axis, back)
	return geom.Drill(slabs, s.Card.LayerThickness, s.Card.BeadWidth,
		geom.CrossHole{Centre: at, Height: height, Diameter: free.Drawn, Direction: back + math.Pi/2, From: 0, To: reach},
		geom.CrossHole{Centre: at, Height: height, Diameter: thread.Drawn, Direction: back - math.Pi/2, From: 0, To: reach})
}
