package joint

import (
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/export"
	"pintle/geom"
	"pintle/linkage"
)

// Sizes of a linkage's parts that the joint chooses where the file leaves them
// out, in mm (common practice, no source).
const (
	barThickness     = 5.0
	leverThickness   = 6.0
	bracketThickness = 5.0
	eyeDiameters     = 3.0 // of an eye and of the post, in diameters of its pin
	linkWidth        = 8.0
	hornFloor        = 3.0 // of a horn arm under the horn
	clampThickness   = 8.0 // of a link that clamps a shaft: room for the screw
)

// levels are the heights of a linkage in the joint's frame, z = 0 the top of the
// bracket, in mm.
type levels struct {
	horn     [2]float64 // printed arm, or the horn itself
	lever    [2]float64
	rod      [2]float64
	post     float64    // top of the lever's post
	washer   [2]float64 // under the rod: at the horn, at the lever; spacers where one stands lower
	underArm float64    // room under the horn's arm
}

// addLinkParts designs what is printed and cut of a linkage.
func (b *builder) addLinkParts(l *linked) error {
	for _, step := range []func(*linked) error{b.addHornArm, b.addRod, b.addLever, b.addBracket} {
		if err := step(l); err != nil {
			return b.file.Blame(l.design(), err)
		}
	}
	return nil
}

// chooseLevels stacks horn, lever and rod along the axes: horn and lever level at
// the top, the rod on both with a washer between.
func (b *builder) chooseLevels(l *linked) error {
	h, v := l.servo.Horn, &l.levels
	foot := 0.0
	if l.servo.Body[0] > 0 {
		foot = l.servo.Tabs.BelowTop + h.HubHeight
	}
	v.underArm = h.HubHeight
	v.horn = [2]float64{foot, foot + h.Thickness}
	if err := b.seatHorn(l); err != nil {
		return err
	}
	if l.seat.thickness > 0 {
		v.horn[1] = foot + l.seat.thickness
	}
	thick := leverThickness
	if l.table.Lever.Hub == "clamp" {
		thick = clampThickness
	}
	thick = chosen(l.table.Lever.Thickness, thick)
	under := 0.0
	if l.posted() {
		under = l.pivot.Washer().Thickness
	}
	v.lever[1] = max(v.horn[1], thick+under)
	v.lever[0] = v.lever[1] - thick
	if v.post = v.lever[0] - under; v.post < 1 { // too little to print: stand the lever on the plate
		v.post = 0
		v.lever = [2]float64{under, under + thick}
	}
	if !l.posted() {
		v.post = 0
	}
	lie := max(v.horn[1]+l.pins[0].Washer().Thickness, v.lever[1]+l.pins[1].Washer().Thickness)
	v.washer = [2]float64{lie - v.horn[1], lie - v.lever[1]}
	v.rod = [2]float64{lie, lie + chosen(l.table.Rod.Thickness, barThickness)}
	return nil
}

// posted says whether the lever turns on a post of a bracket.
func (l *linked) posted() bool { return l.bracketed() && l.table.Lever.Hub == "pin" }

// bracketed says whether enough of the servo was measured for a bracket.
func (l *linked) bracketed() bool { return l.servo.Body[0] > 0 && l.servo.Tabs.Length > 0 }

// chosen returns what the file gives, or what is usual.
func chosen(given, usual float64) float64 {
	if given > 0 {
		return given
	}
	return usual
}

// eye is a pin's eye: the rod turns on the screw, horn and lever hold its thread.
func (b *builder) eye(l *linked, end int, turns bool) linkage.Eye {
	pin := l.pins[end]
	e := linkage.Eye{Diameter: max(eyeDiameters*pin.Diameter, pin.Diameter+8*b.card.BeadWidth), Hole: pin.Pilot, What: pin.Size + " cuts its thread"}
	if turns {
		e.Hole, e.What = linkage.Running(pin.Diameter, b.card), "turns on "+pin.Size
	}
	return e
}

// addRod makes the printed bar, or the list of what to cut.
func (b *builder) addRod(l *linked) error {
	t := l.table.Rod
	if t.Kind == "threaded" {
		return b.addCutRod(l)
	}
	first, second := b.eye(l, 0, true), b.eye(l, 1, true)
	bar, err := linkage.NewLink(linkage.LinkSpec{
		Name: l.name + "-bar", Mark: l.name, Thickness: l.levels.rod[1] - l.levels.rod[0], Card: b.card, Limits: b.file.Limits,
		Hub:  linkage.Hub{Diameter: first.Diameter, Hole: first.Hole, What: first.What},
		Arms: []linkage.Arm{{Length: l.flatRod(), Width: chosen(t.Width, min(linkWidth, first.Diameter, second.Diameter)), Eye: second}},
	})
	if err != nil {
		return err
	}
	l.bar = bar
	b.addLink(l, bar, "bar")
	return nil
}

// flatRod is the rod as seen square to the plane of motion.
func (l *linked) flatRod() float64 {
	t := l.table
	return math.Sqrt(max(t.Rod.Length*t.Rod.Length-t.Offset*t.Offset, 0))
}

// addCutRod works out a threaded rod.
func (b *builder) addCutRod(l *linked) error {
	t := l.table.Rod
	thread, err := b.linkScrew(l, "rod thread", t.Thread, "M3")
	if err != nil {
		return err
	}
	spec := linkage.RodSpec{Name: l.name + "-rod", Length: t.Length, Thread: thread, Limits: b.file.Limits}
	for i, e := range t.Ends {
		spec.Ends[i] = linkage.RodEnd{ToThread: e.ToThread, Depth: e.Depth, Engagement: e.Engagement}
	}
	if l.rod, err = linkage.NewCutRod(spec); err != nil {
		return err
	}
	for key, value := range l.rod.Values() {
		b.report.Designs[l.design()][key] = value
	}
	b.report.Rods = append(b.report.Rods, export.Rod{
		Name: l.name + "-rod", Design: l.design(), Stock: "threaded rod " + thread.Size, Length: l.rod.Cut(), Diameter: thread.Diameter,
	})
	b.find(l.design(), l.rod.Findings()...)
	return nil
}

// addLever makes the lever, or the bell crank.
func (b *builder) addLever(l *linked) error {
	t := l.table.Lever
	end := b.eye(l, 1, false)
	spec := linkage.LinkSpec{
		Name: l.name + "-lever", Mark: l.name, Thickness: l.levels.lever[1] - l.levels.lever[0], Card: b.card, Limits: b.file.Limits,
	}
	width := chosen(t.Width, min(linkWidth, end.Diameter))
	spec.Arms = []linkage.Arm{{Length: t.Length, Width: width, Eye: end}}
	if t.Second.Length > 0 {
		spec.Arms = append(spec.Arms, linkage.Arm{Length: t.Second.Length, Angle: t.Second.AngleDeg * math.Pi / 180, Width: width, Eye: end})
	}
	if err := b.leverHub(l, &spec); err != nil {
		return err
	}
	lever, err := linkage.NewLink(spec)
	if err != nil {
		return err
	}
	l.lever = lever
	b.addLink(l, lever, "lever")
	return nil
}

// leverHub says how the lever sits on what carries it, and what it carries.
func (b *builder) leverHub(l *linked, spec *linkage.LinkSpec) error {
	t, h := l.table.Lever, &spec.Hub
	wall := 8 * b.card.BeadWidth
	switch t.Hub {
	case "clamp":
		if err := b.clampHub(l, h, t.Bore, t.ClampScrew); err != nil {
			return err
		}
	case "bearing":
		if err := b.bearingHub(l, spec); err != nil {
			return err
		}
	default:
		h.Hole, h.What = linkage.Running(l.pivot.Diameter, b.card), "turns on "+l.pivot.Size
		h.Diameter = max(eyeDiameters*l.pivot.Diameter, h.Hole+wall)
	}
	if t.BoltCircle > 0 {
		screw, err := b.linkScrew(l, "lever screw", t.ScrewSize, "M3")
		if err != nil {
			return err
		}
		h.Bolts = &linkage.BoltCircle{Diameter: t.BoltCircle, Screw: screw, Count: t.ScrewCount}
		h.Diameter = max(h.Diameter, t.BoltCircle+screw.Pilot+wall)
	}
	h.Diameter = chosen(t.Diameter, h.Diameter)
	return nil
}

// clampHub makes a hub that grips a shaft.
func (b *builder) clampHub(l *linked, h *linkage.Hub, bore float64, size string) error {
	screw, err := b.linkScrew(l, "clamp screw", size, "M3")
	if err != nil {
		return err
	}
	h.Hole, h.What, h.Clamp = bore+b.card.Slip(), "grips the shaft", &linkage.Clamp{Screw: screw}
	h.Diameter = max(2*bore, bore+8*b.card.BeadWidth)
	return nil
}

// bearingHub puts a bearing's seat into the hub, which gets a boss where the seat
// is higher than the lever is thick.
func (b *builder) bearingHub(l *linked, spec *linkage.LinkSpec) error {
	t, h := l.table.Lever, &spec.Hub
	found, findings, err := b.bearingNamed(t.Bearing)
	if err != nil {
		return err
	}
	b.find("bearing."+t.Bearing, findings...)
	housing := bearing.HousingSpec{
		Name: spec.Name, Part: spec.Name, Bearing: found, Fit: bearing.Press, Material: l.material, Card: b.card,
		HottestC: b.file.Place.Hottest, Limits: b.file.Limits,
	}
	b.seatFromCard(&housing)
	h.Diameter = chosen(t.Diameter, math.Ceil(found.Outside+2*max(3, 0.12*found.Outside, 8*b.card.BeadWidth)))
	seat, err := bearing.SeatIn(housing, h.Diameter)
	if err != nil {
		return b.file.Blame("bearing."+t.Bearing, err)
	}
	b.find(l.design(), seat.Findings...)
	b.report.Fits = append(b.report.Fits, seat.Fits...)
	open := func(z0, z1 float64, bottom, top geom.Contour) {
		if z1 > z0 {
			h.Openings = append(h.Openings, linkage.Opening{Z0: z0, Z1: z1, Bottom: bottom, Top: top})
		}
	}
	open(0, seat.ShoulderTop, seat.Hole, geom.Contour{})
	open(seat.ShoulderTop, seat.GrooveTop, seat.Groove, geom.Contour{})
	open(seat.GrooveTop, seat.SlopeTop, seat.Groove, seat.Bore)
	open(seat.SlopeTop, seat.Mouth, seat.Bore, geom.Contour{})
	open(seat.Mouth, seat.Top, seat.Bore, seat.MouthTop)
	h.Boss = max(seat.Top-spec.Thickness, 0)
	return nil
}

// addLink records a printed link.
func (b *builder) addLink(l *linked, link *linkage.Link, role string) {
	b.find(l.design(), link.Findings()...)
	b.report.Fits = append(b.report.Fits, link.Fits()...)
	values := b.report.Designs[l.design()]
	for key, value := range link.Values() {
		values[role+"_"+key] = value
	}
	b.sayMark(l, link)
	b.addBody(l.design(), link.Part(), l.material, sheetNotes{}.detailed(link, link.Part().Name()))
}

// sayMark tells what is sunk into a link, or that nothing is.
func (b *builder) sayMark(l *linked, link *linkage.Link) {
	f := ruleMark.Say(check.Pass, 0, "sunk: "+link.Mark(), "")
	if link.Mark() == "" {
		f = ruleMark.Say(check.Note, 0, "no room for a name that can be read: the part bears none", "make the arm wider or longer")
	}
	f.Part = link.Part().Name()
	b.find(l.design(), f)
}
