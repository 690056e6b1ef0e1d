package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// The ways to take material out between hub and rim.
const (
	Spokes = "spokes" // windows with rounded corners between spokes
	Holes  = "holes"  // round ones
	Web    = "web"    // a thin web alone
)

// Lightenings lists the ways to make a gear lighter.
func Lightenings() []string { return []string{Spokes, Holes, Web} }

// Lighten says what is taken out of a gear between its hub and its rim. Sizes
// left 0 are chosen.
type Lighten struct {
	Kind   string
	Count  int     // of spokes or holes; 0 for 5 (common practice, no source)
	Rim    float64 // left under the roots, mm; 0 for the larger of 2 modules and 4 beads
	Hub    float64 // diameter left around the axis, mm; 0 for what bore and holes need
	Width  float64 // of a spoke, or diameter of a hole, mm
	Web    float64 // thickness of what is left between hub and rim, on the bed side, mm; 0 for the full face width
	Fillet float64 // radius of the windows' corners, mm; 0 for a chosen one
}

// Chosen sizes (common practice, no source).
const (
	lightCount  = 5
	spokeBeads  = 8    // width of a spoke
	webShare    = 0.35 // of the face width
	holeShare   = 0.8  // of the room between hub and rim
	footChamfer = 1.0  // mm, where web meets hub and rim
)

// A light is a Lighten with its sizes chosen: radii as wanted, mm.
type light struct {
	Lighten
	in, out float64
}

// addLighten takes material out between hub and rim.
func (s *structure) addLighten(l Lighten) error {
	if s.sector {
		return &check.FieldError{Field: "lightening of " + s.part, Text: l.Kind, Reason: "is not made of a sector", Remedy: "leave it out: a sector is light"}
	}
	p, err := s.layLighten(l)
	if err != nil {
		return err
	}
	s.margins = append(s.margins, margin{"rim", p.Rim, "between roots and lightening", atLeast("lightening rim", p.Rim, 1)})
	if wall := (p.Hub - s.around) / 2; s.around > 0 {
		s.margins = append(s.margins, margin{"hub-wall", wall, "hub inside the lightening", atLeast("lightening hub", p.Hub, 2)})
	}
	height, before := s.face, s.volume()
	if p.Web > 0 {
		height = p.Web
		s.addRecess(p)
	}
	switch p.Kind {
	case Spokes:
		err = s.addWindows(p, height)
	case Holes:
		err = s.addLightHoles(p, height)
	}
	s.saved = before - s.volume()
	s.values["rim"], s.values["light_hub"], s.values["web"] = p.Rim, p.Hub, height
	s.dims = append(s.dims,
		drawing.Circle(geom.Point{}, 2*p.out).Saying("inside of the rim"),
		drawing.Circle(geom.Point{}, 2*p.in).Saying("outside of the hub"))
	return err
}

// layLighten chooses the sizes left open and refuses what leaves nothing to take
// out.
func (s *structure) layLighten(l Lighten) (light, error) {
	bead := s.card.BeadWidth
	p := light{Lighten: l}
	if p.Count == 0 {
		p.Count = lightCount
	}
	if p.Rim == 0 {
		p.Rim = ceilTo(math.Max(2*s.module, 4*bead))
	}
	least := s.around
	if least > 0 {
		least += 2 * 2 * bead
	}
	if p.Hub == 0 {
		p.Hub = ceilTo(math.Max(s.around+2*hubWall*bead, s.values["hub_diameter"]))
	}
	if p.Kind == Web && p.Web == 0 {
		p.Web = ceilTo(math.Max(webShare*s.face, 8*s.card.LayerThickness))
	}
	for _, q := range []struct {
		field, unit   string
		value, lo, hi float64
		remedy        string
	}{
		{"number of spokes or holes", "", float64(p.Count), 3, 24, "use 5 or 6"},
		{"lightening rim", "mm", p.Rim, 2 * bead, geom.Extent, "leave it out, or use 2 modules"},
		{"lightening hub", "mm", p.Hub, math.Max(least, 2*bead), geom.Extent, "leave it out, or leave four beads around the bore"},
		{"web", "mm", p.Web, 0, math.Max(s.face-4*s.card.LayerThickness, 0), "use a third of the face width, or 0 for the full one"},
	} {
		if err := check.InRange(q.field+" of "+s.part, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return p, err
		}
	}
	if bed := s.card.BedChamfer() + 2*s.card.LayerThickness; p.Web > 0 && p.Web < bed {
		return p, s.refuse("web", p.Web, "mm", "is thinner than chamfer and two layers", "web >= "+check.Number(ceilTo(bed))+" mm")
	}
	if p.Hub < s.hubFoot() {
		return p, s.refuse("lightening hub", p.Hub, "mm", "is less than what stands on it", "lightening hub >= "+check.Number(ceilTo(s.hubFoot()))+" mm")
	}
	p.in, p.out = p.Hub/2, s.root/2-p.Rim
	if room := p.out - p.in; room < 4*bead {
		return p, s.refuse("lightening rim", p.Rim, "mm", "leaves nothing to take out between hub and rim", s.moreTeeth(4*bead-room)+", or a smaller hub")
	}
	return p, nil
}

// hubFoot returns the diameter of what stands on the face about the axis, mm.
func (s *structure) hubFoot() float64 {
	d := 0.0
	for _, o := range s.solids[1:] {
		d = math.Max(d, o.contour.Diameter())
	}
	return d
}

// addRecess opens the annulus between hub and rim down to the web, with sloping
// feet that hold it.
func (s *structure) addRecess(p light) {
	rim, hub := geom.Bore(geom.Point{}, 2*p.out, geom.ChordPlain), geom.Peg(geom.Point{}, 2*p.in, geom.ChordPlain)
	foot := math.Min(math.Min(footChamfer, (p.out-p.in)/4), (s.face-p.Web)/2)
	s.slopes = append(s.slopes,
		slope{p.Web, p.Web + foot, rim.Resize(2 * (p.out - foot)), rim},
		slope{p.Web, p.Web + foot, hub.Resize(2 * (p.in + foot)), hub})
	s.holes = append(s.holes, hole{p.Web + foot, s.face, rim})
	s.solids = append(s.solids, solid{p.Web + foot, s.face, hub})
	s.webFoot = foot
	s.margins = append(s.margins, margin{"web-thickness", p.Web, "between hub and rim", atLeast("web", p.Web, 1)})
	s.dims = append(s.dims, drawing.Heights((p.in+p.out)/2, 0, p.Web).Saying("web"))
}

// addWindows leaves spokes of an even width between windows with rounded
// corners.
func (s *structure) addWindows(p light, height float64) error {
	bead := s.card.BeadWidth
	if p.Web > 0 { // the feet of the web stay whole
		p.in, p.out = p.in+s.webFoot+bead/2, p.out-s.webFoot-bead/2
	}
	if p.Width == 0 {
		p.Width = ceilTo(math.Max(spokeBeads*bead, s.module))
	}
	widest := 2 * p.in * math.Sin(math.Pi/float64(p.Count))
	most := widest - 2*bead
	if err := check.Positive("spoke width of "+s.part, p.Width, "mm", "leave it out"); err != nil {
		return err
	}
	if p.Width > most {
		if most < 2*bead {
			return s.refuse("number of spokes", float64(p.Count), "", "leave no window between them", "use fewer spokes")
		}
		return s.refuse("spoke width", p.Width, "mm", "leaves no window between the spokes", "spoke width <= "+check.Number(math.Floor(100*most)/100)+" mm, or fewer spokes")
	}
	s.margins = append(s.margins, margin{"spoke", p.Width, "spokes", atLeast("spoke width", p.Width, 1)})
	inner, outer := windowAngles(p.in, p.Width, p.Count), windowAngles(p.out, p.Width, p.Count)
	room := math.Min(p.out-p.in, 2*p.in*math.Sin(inner/2))
	fillet := p.Fillet
	if fillet == 0 {
		fillet = math.Min(3, room/4)
	}
	if fillet > 0.45*room || !(fillet > 0) {
		return s.refuse("fillet", p.Fillet, "mm", "is no rounding of these windows", "fillet <= "+check.Number(math.Floor(45*room)/100)+" mm, or leave it out")
	}
	for k := range p.Count {
		middle := 2 * math.Pi * (float64(k) + 0.5) / float64(p.Count)
		s.holes = append(s.holes, hole{0, height, spokeWindow(p.in, p.out, p.Width, p.Count, fillet, middle)})
	}
	s.values["spokes"], s.values["spoke_width"], s.values["spoke_fillet"] = float64(p.Count), p.Width, fillet
	at := geom.Polar((p.in+p.out)/2, 0)
	half := geom.Point{Y: p.Width / 2}
	s.dims = append(s.dims, drawing.Between(at.Sub(half), at.Add(half)).Times(p.Count).Saying("spokes"),
		drawing.Rounding(geom.Polar(p.out-fillet, outer/2+math.Pi/float64(p.Count)-fillet/p.out), fillet, math.Pi/4).Saying("corners"))
	return nil
}

// windowAngles returns the angle that a window spans at a radius.
func windowAngles(r, width float64, n int) float64 {
	return 2*math.Pi/float64(n) - 2*math.Asin(math.Min(width/2/r, 1))
}

// spokeWindow is a window as a hole about the direction middle: bounded by the
// circles of radius in and out and by lines parallel to the middles of its two
// spokes, its corners rounded.
func spokeWindow(in, out, width float64, n int, fillet, middle float64) geom.Contour {
	side := math.Pi / float64(n) // from the middle of the window to that of a spoke
	// In the frame of the spoke on the left, its edge is y = -width/2 with the
	// window below. A fillet's centre is fillet below, at radius in + fillet or
	// out - fillet.
	y := -(width/2 + fillet)
	centre := func(r float64) geom.Point { return geom.Point{X: math.Sqrt(r*r - y*y), Y: y} }
	near, far := centre(in+fillet), centre(out-fillet)
	left := func(p geom.Point) geom.Point { return p.Rotate(middle + side) }
	right := func(p geom.Point) geom.Point { return geom.Point{X: p.X, Y: -p.Y}.Rotate(middle - side) }
	a, b := far.Angle(), near.Angle()
	// Clockwise: along the left spoke outwards, the outer circle to the right, the
	// right spoke inwards, the inner circle back.
	l, r := middle+side, middle-side
	return geom.NewContour([]geom.Curve{
		geom.Line{A: left(geom.Point{X: near.X, Y: -width / 2}), B: left(geom.Point{X: far.X, Y: -width / 2})},
		geom.Arc{Centre: left(far), Radius: fillet, From: l + math.Pi/2, To: l + a},
		geom.Arc{Radius: out, From: l + a, To: r - a},
		geom.Arc{Centre: right(far), Radius: fillet, From: r - a, To: r - math.Pi/2},
		geom.Line{A: right(geom.Point{X: far.X, Y: -width / 2}), B: right(geom.Point{X: near.X, Y: -width / 2})},
		geom.Arc{Centre: right(near), Radius: fillet, From: r - math.Pi/2, To: r - math.Pi - b},
		geom.Arc{Radius: in, From: r - b, To: l + b},
		geom.Arc{Centre: left(near), Radius: fillet, From: l + b - math.Pi, To: l - 3*math.Pi/2},
	}, geom.ChordPlain)
}

// addLightHoles makes round holes midway between hub and rim.
func (s *structure) addLightHoles(p light, height float64) error {
	bead := s.card.BeadWidth
	if p.Web > 0 {
		p.in, p.out = p.in+s.webFoot+bead/2, p.out-s.webFoot-bead/2
	}
	circle, room := p.in+p.out, p.out-p.in
	apart := circle * math.Sin(math.Pi/float64(p.Count))
	most := math.Min(room, apart-2*bead)
	if p.Width == 0 {
		p.Width = math.Floor(100*math.Min(holeShare*room, apart-4*bead)) / 100
	}
	if most < 2*bead || p.Width <= 0 {
		return s.refuse("number of lightening holes", float64(p.Count), "", "leaves no room between them", "use fewer holes")
	}
	if p.Width > most {
		return s.refuse("lightening hole", p.Width, "mm", "breaks into hub, rim or the next hole", "lightening hole <= "+check.Number(math.Floor(100*most)/100)+" mm, or leave it out")
	}
	if p.Width < 2*bead {
		return s.refuse("lightening hole", p.Width, "mm", "is no hole that prints", "lightening hole >= "+check.Number(ceilTo(2*bead))+" mm")
	}
	s.margins = append(s.margins, margin{"spoke", apart - p.Width, "between the lightening holes", atMost("lightening hole", p.Width, 1)})
	for k := range p.Count {
		at := geom.Polar(circle/2, 2*math.Pi*(float64(k)+0.5)/float64(p.Count))
		s.holes = append(s.holes, hole{0, height, geom.Bore(at, p.Width, geom.ChordPlain)})
	}
	s.values["light_holes"], s.values["light_hole"], s.values["light_hole_circle"] = float64(p.Count), p.Width, circle
	return nil
}

// volume returns what solids, holes and slopes hold in mm³, before chamfers and
// cuts.
func (s *structure) volume() float64 {
	v := 0.0
	for _, o := range s.solids {
		v += o.contour.Area() * (o.z1 - o.z0)
	}
	for _, h := range s.holes {
		v += h.contour.Area() * (h.z1 - h.z0)
	}
	for _, w := range s.slopes { // circles: a frustum
		a, b := w.bottom.Area(), w.top.Area()
		v += (a + b + math.Copysign(math.Sqrt(a*b), a)) / 3 * (w.z1 - w.z0)
	}
	return v
}
