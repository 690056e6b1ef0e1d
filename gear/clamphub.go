package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/fit"
	"pintle/geom"
)

// A Clamp is a slit in the hub that one screw closes on the shaft: its head lies
// in a counterbore on one side, a nut in a slot on the other.
type Clamp struct {
	Screw fit.Screw
	Slit  float64 // mm wide; 0 for a chosen one
}

// A clampPlan is where the screw of a clamp stands, mm.
type clampPlan struct {
	hubPlan
	hole, head, nut fit.Fit
	slit            float64
	across          float64 // from the slit's plane to the seats of head and nut
	thick           float64 // of the nut's slot
	at              float64 // from the shaft's axis to that of the screw
}

// closes returns how far the slit must close before the hub grips: the round of
// the bore less that of the shaft, with the doubt of the print.
func (s *structure) closes(room float64) float64 {
	return math.Pi * (math.Max(room, 0) + 2*s.card.Bore.Sigma)
}

func (s *structure) planClamp(c Clamp, x Shaft, bore boreShape) (hubPlan, error) {
	p, err := s.layClamp(c, x, bore)
	p.cut = func() { s.addClamp(c, bore, p) }
	return p.hubPlan, err
}

// layClamp works out what a clamp needs: the screw as near to the shaft as head
// and nut leave a wall.
func (s *structure) layClamp(c Clamp, x Shaft, bore boreShape) (clampPlan, error) {
	card, bead, screw := s.card, s.card.BeadWidth, c.Screw
	p := clampPlan{hubPlan: hubPlan{why: "the " + screw.Size + " screw of the clamp"}}
	if err := check.Positive("clamp screw of "+s.part, screw.Diameter, "mm", "choose a screw, such as M3"); err != nil {
		return p, err
	}
	if x.Kind != RoundBore {
		return p, &check.FieldError{Field: "clamp of " + s.part, Text: x.Kind, Reason: "closes on a round shaft only", Remedy: "use a set screw, or a round bore"}
	}
	room, err := x.clearance(card)
	if err != nil {
		return p, err
	}
	closes := s.closes(room)
	p.slit = c.Slit
	if p.slit == 0 {
		p.slit = math.Max(1, ceilTo(1.5*closes))
	}
	if err := check.InRange("slit of "+s.part, p.slit, "mm", 0, 10, "leave it out"); err != nil {
		return p, err
	}
	if p.slit < closes {
		return p, s.refuse("slit", p.slit, "mm", "is closed before the hub grips", "slit >= "+check.Number(ceilTo(closes))+" mm")
	}
	bored, _ := screw.Hole(fit.Counterbore, card.Slip(), card.LayerThickness)
	nut, _ := screw.Hole(fit.Nut, card.Slip(), card.LayerThickness)
	p.hole = card.Hole(s.part, screw.Size+" clamp screw hole", bored.Bore)
	p.head = card.Hole(s.part, screw.Size+" clamp screw head", bored.Recess)
	p.nut = card.Hole(s.part, screw.Size+" clamp nut across flats", nut.Recess)
	p.across, p.thick = p.slit/2+math.Max(hubWall*bead, 2), screw.NutHeight+card.LayerThickness
	wide := math.Max(p.head.Drawn, p.nut.Drawn) / 2
	clear := bore.drawn/2 + hubWall*bead
	p.at = clear + p.hole.Drawn/2
	if p.across < clear {
		p.at = math.Max(p.at, wide+math.Sqrt(clear*clear-p.across*p.across))
	}
	p.diameter = 2 * (math.Hypot(p.at+wide, p.across+p.thick) + hubWall*bead)
	corner := p.nut.Drawn / math.Sqrt(3)
	p.axis = math.Max(corner, p.head.Drawn/2) + 2*card.LayerThickness
	p.length = p.axis + math.Max(corner, p.head.Drawn/2*math.Sqrt2) + 2*card.LayerThickness
	return p, nil
}

// addClamp cuts the slit, the screw's hole and the seats of its head and nut.
func (s *structure) addClamp(c Clamp, bore boreShape, p clampPlan) {
	s.fits = append(s.fits, p.hole, p.head, p.nut)
	z, out := s.face+p.axis, s.hubDrawn/2+1
	screw := geom.Point{X: p.at}
	edge := math.Sqrt(math.Max(s.hubDrawn*s.hubDrawn/4-p.at*p.at, 0))
	s.drill(geom.CrossHole{Centre: screw, Height: z, Diameter: p.hole.Drawn, Direction: math.Pi / 2, From: -p.across - p.thick, To: edge + 1})
	s.drill(geom.CrossHole{Centre: screw, Height: z, Diameter: p.head.Drawn, Direction: math.Pi / 2, From: p.across, To: out})
	s.cuts = append(s.cuts,
		geom.Slot{Centre: geom.Point{X: out / 2}, Length: out, Width: p.slit, Z0: s.face, Z1: s.height},
		geom.Slot{Centre: geom.Point{X: p.at, Y: -p.across - p.thick/2}, Length: p.nut.Drawn, Width: p.thick, Z0: z - p.nut.Drawn/math.Sqrt(3), Z1: s.height},
	)
	s.lead = 0 // the slit reaches the end
	size := c.Screw.Size
	s.margins = append(s.margins,
		margin{"hub-wall", p.at - (p.hole.Wanted+bore.wanted)/2, "between bore and clamp screw", func(float64) string { return "use a smaller screw" }},
		margin{"hub-wall", s.values["hub_diameter"]/2 - math.Hypot(p.at+p.nut.Wanted/2, p.across+p.thick), "outside the clamp's nut", atLeast("hub diameter", s.values["hub_diameter"], 2)})
	s.values["slit"], s.values["clamp_screw_from_axis"], s.values["clamp_screw_height"] = p.slit, p.at, z
	s.values["clamp_grip_length"] = 2*p.across + p.thick
	s.dims = append(s.dims,
		drawing.Between(geom.Point{X: s.hubDrawn / 2, Y: -p.slit / 2}, geom.Point{X: s.hubDrawn / 2, Y: p.slit / 2}).Saying("slit"),
		drawing.Between(geom.Point{}, screw).Saying(size+" clamp screw"),
		drawing.Heights(p.at, 0, z).Saying(size+" clamp screw"),
		drawing.Between(geom.Point{X: p.at, Y: -p.across - p.thick}, geom.Point{X: p.at, Y: -p.across}).Saying("nut's slot"),
		drawing.Between(geom.Point{X: p.at - p.nut.Drawn/2, Y: -p.across}, geom.Point{X: p.at + p.nut.Drawn/2, Y: -p.across}).Measuring(p.nut.Wanted).Saying("nut's flats"),
		drawing.Between(geom.Point{X: p.at, Y: 0}, geom.Point{X: p.at, Y: p.across}).Saying("to the head's seat"))
	s.steps = append(s.steps, "drop an "+size+" nut into the slot of the clamp on the "+s.part+", pass an "+size+" cap screw of "+
		check.Number(math.Ceil(2*p.across+p.thick-0.5))+" mm or a little more through it, push the gear on the shaft and tighten by hand: the slit must stay open")
}
