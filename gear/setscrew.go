package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/fit"
	"pintle/geom"
)

// A SetScrew presses on the shaft through the wall of the hub.
type SetScrew struct {
	Screw fit.Screw
	Holds string // fit.Nut (a nut in a slot, the default), fit.Insert or fit.SelfCutting
	Count int    // 1 or 2; 0 for 1. The first presses towards -x from the side of a D's flat
}

// selfCutting is the length of thread in plastic over the screw's diameter (2.0
// to 2.3 after a maker's guide for thread-forming screws, testdata/ref).
const selfCutting = 2

// A setPlan is where nut and screw of a set screw stand, mm.
type setPlan struct {
	hubPlan
	hole, nut   fit.Fit // as drawn: the hole across; the nut's width, zero without
	thick       float64 // of the slot, radially
	inner       float64 // from the axis to the slot or the end of an insert's hole
	wide, depth float64 // diameter of an insert's hole and its depth, 0 without
}

func (s *structure) planSet(set SetScrew, x Shaft, bore boreShape) (hubPlan, error) {
	p, err := s.laySet(set, x, bore)
	p.cut = func() { s.addSet(set, x, bore, p) }
	return p.hubPlan, err
}

// laySet works out what a set screw needs.
func (s *structure) laySet(set SetScrew, x Shaft, bore boreShape) (setPlan, error) {
	card, bead, screw := s.card, s.card.BeadWidth, set.Screw
	p := setPlan{hubPlan: hubPlan{why: "the " + screw.Size + " set screw"}}
	if err := check.Positive("set screw of "+s.part, screw.Diameter, "mm", "choose a screw, such as M3"); err != nil {
		return p, err
	}
	if err := check.InRange("number of set screws of "+s.part, float64(set.Count), "", 0, 2, "use one, or two at a right angle"); err != nil {
		return p, err
	}
	if screw.Diameter > 0.8*x.Size {
		return p, s.refuse("set screw", screw.Diameter, "mm", "is too large for a shaft of "+check.Number(x.Size)+" mm", "use a smaller screw")
	}
	if set.Count == 2 && x.Kind != RoundBore {
		return p, s.refuse("number of set screws", 2, "", "find only one flat or key to press on", "use one set screw")
	}
	holds := set.Holds
	if holds == "" {
		holds = fit.Nut
	}
	h, ok := screw.Hole(holds, card.Slip(), card.LayerThickness)
	reach, below := bore.wanted/2, 0.0
	switch {
	case holds == fit.Nut:
		p.nut = card.Hole(s.part, screw.Size+" set screw nut across flats", h.Recess)
		p.hole = card.Hole(s.part, screw.Size+" set screw hole", screw.Clearance)
		p.thick = screw.NutHeight + card.LayerThickness
		p.inner = reach + hubWall*bead
		if set.Count == 2 { // the slots stand at a right angle
			p.inner = math.Max(p.inner, p.nut.Wanted/2+2*bead)
		}
		below = p.nut.Drawn / math.Sqrt(3)
		p.diameter = 2 * math.Max(p.inner+p.thick+hubWall*bead, math.Hypot(p.inner+p.thick, p.nut.Drawn/2)+hubWall*bead)
	case holds == fit.Insert && ok:
		f := card.Hole(s.part, screw.Size+" insert hole", h.Bore)
		p.hole = card.Hole(s.part, screw.Size+" set screw hole", screw.Clearance)
		p.wide, p.depth = f.Drawn, h.Depth
		p.nut = f
		below = f.Drawn / 2
		p.diameter = 2 * (reach + hubWall*bead + h.Depth)
	case holds == fit.SelfCutting:
		p.hole = card.Hole(s.part, screw.Size+" set screw pilot hole", screw.Pilot)
		p.diameter = 2 * (reach + selfCutting*screw.Diameter)
	default:
		return p, &check.FieldError{Field: "holder of the set screw of " + s.part, Text: holds, Reason: "is not made for " + screw.Size, Remedy: `use "nut", "insert" or "self-cutting"`}
	}
	widest := math.Max(p.hole.Drawn, p.wide) / 2
	below = math.Max(below, widest)
	p.axis = below + 2*card.LayerThickness
	p.length = p.axis + math.Max(widest*math.Sqrt2+2*card.LayerThickness+hubEdge, below)
	return p, nil
}

// addSet drills the set screws and opens the slots of their nuts. A nut slides
// in from the end of the hub.
func (s *structure) addSet(set SetScrew, x Shaft, bore boreShape, p setPlan) {
	s.fits = append(s.fits, p.hole)
	if p.nut.Feature != "" {
		s.fits = append(s.fits, p.nut)
	}
	z := s.face + p.axis
	for k := range max(set.Count, 1) {
		turn := math.Pi / 2 * float64(k)
		s.drill(geom.CrossHole{Height: z, Diameter: p.hole.Drawn, Direction: turn, To: s.hubDrawn/2 + 1})
		if p.depth > 0 {
			s.drill(geom.CrossHole{Height: z, Diameter: p.wide, Direction: turn, From: s.hubDrawn/2 - p.depth, To: s.hubDrawn/2 + 1})
		}
		if p.thick > 0 {
			slot := geom.Window(geom.Polar(p.inner+p.thick/2, turn), p.thick, p.nut.Drawn, 0, turn, geom.ChordPlain)
			s.holes = append(s.holes, hole{z - p.nut.Drawn/math.Sqrt(3), s.height, slot})
		}
	}
	if p.thick > 0 {
		s.dimSlot(geom.Point{X: p.inner}, geom.Point{X: p.thick}, geom.Point{Y: p.nut.Drawn}, p.nut.Wanted)
		s.margins = append(s.margins,
			margin{"hub-wall", p.inner - bore.wanted/2, "between bore and nut slot", func(float64) string { return "use a smaller screw" }},
			margin{"hub-wall", s.values["hub_diameter"]/2 - math.Hypot(p.inner+p.thick, p.nut.Wanted/2), "outside the nut slot", atLeast("hub diameter", s.values["hub_diameter"], 2)})
	}
	s.values["set_screw_height"], s.values["set_screw_length_max"] = z, (s.values["hub_diameter"]-x.Size)/2
	s.dims = append(s.dims, drawing.Heights(s.hubDrawn/2, 0, z).Saying(set.Screw.Size+" set screw"))
	s.steps = append(s.steps, s.setStep(set, x))
}

// dimSlot dimensions a nut's slot: where it begins on +x, how thick it is and how
// wide across the flats.
func (s *structure) dimSlot(from, thick, wide geom.Point, wanted float64) {
	middle := from.Add(thick.Scale(0.5))
	s.dims = append(s.dims,
		drawing.Between(geom.Point{Y: from.Y}, from).Saying("to the nut's slot"),
		drawing.Between(from, from.Add(thick)).Saying("slot"),
		drawing.Between(middle.Sub(wide.Scale(0.5)), middle.Add(wide.Scale(0.5))).Measuring(wanted).Saying("nut's flats"))
}

// drill cuts a cross hole and draws its edges and its axis.
func (s *structure) drill(h geom.CrossHole) {
	s.cuts = append(s.cuts, h)
	from, to := h.From, math.Min(h.To, s.hubDrawn/2)
	line := func(kind drawing.LineKind, from, to, aside float64) drawing.Stroke {
		at := func(along float64) geom.Point {
			return geom.Point{X: along, Y: aside}.Rotate(h.Direction).Add(h.Centre)
		}
		return drawing.Stroke{Kind: kind, Curves: []geom.Curve{geom.Line{A: at(from), B: at(to)}}}
	}
	s.axes = append(s.axes, line(drawing.Hidden, from, to, -h.Diameter/2), line(drawing.Hidden, from, to, h.Diameter/2), line(drawing.Centre, from, to+3, 0))
	if h.Direction == 0 {
		axis := geom.Line{A: geom.Point{X: from, Y: h.Height}, B: geom.Point{X: to + 3, Y: h.Height}}
		s.sideAxes = append(s.sideAxes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{axis}})
	}
}

// setStep says how the set screw goes together.
func (s *structure) setStep(set SetScrew, x Shaft) string {
	start := "screw the " + set.Screw.Size + " set screw into the hub of the " + s.part
	switch set.Holds {
	case "", fit.Nut:
		start = "slide an " + set.Screw.Size + " nut into the slot at the end of the hub of the " + s.part + " and turn the set screw through it"
	case fit.Insert:
		start = "melt an " + set.Screw.Size + " insert into the side of the hub of the " + s.part + " and turn the set screw through it"
	}
	if x.Kind == DBore {
		start += ", onto the flat"
	}
	return start + "; it may be " + short(s.values["set_screw_length_max"]) + " mm long at most to end flush"
}
