package joint

import (
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/export"
	"pintle/fit"
	"pintle/geom"
)

// Words by which solids of a turning are made to touch.
const (
	onWheel   = "wheel"
	inMesh    = "mesh"
	onJournal = "journal"
	inSeat    = "seat"
	onRing    = "ring"
	onHorn    = "horn"
	onServo   = "servo"
	onPlate   = "plate"
	atStop    = "stop"
	underHorn = "under the horn" // judged by horn-screw, but for an overlap
)

// washerThickness is that of the washer that holds a journal, in mm (common
// practice, no source).
const washerThickness = 1.5

// placeParts puts the printed parts into the joint. Pinion and wheel are printed
// upside down; the pinion shows a tooth to the wheel, the wheel a space.
func (t *turning) placeParts(a *arrangement) {
	top, foot := t.wheelFoot+t.table.FaceWidth, t.discFoot+t.standOff
	teeth := piece{name: "wheel", z0: t.wheelFoot, z1: everywhere, joined: []string{onWheel, inMesh}}
	driver := piece{name: "pinion", z0: foot, z1: everywhere, joined: []string{onHorn, inMesh}}
	if t.table.Pinion.Sector > 0 || t.table.Wheel.Sector > 0 { // the ends of a sector mesh with nothing
		teeth.joined, teeth.close = []string{onWheel}, []string{inMesh}
		driver.joined, driver.close = []string{onHorn}, []string{inMesh}
	}
	a.place(export.Placed{Part: t.name + "-wheel", Z: top, TurnDeg: 180 / float64(t.pair.Wheel().Teeth()), Flip: true, MovesWith: withLoad},
		teeth,
		piece{name: "wheel shoulder", z0: t.coneTop, z1: t.wheelFoot, joined: []string{onWheel, onJournal}, close: []string{atStop}, covered: true},
		piece{name: "journal", z0: -everywhere, z1: t.coneTop, joined: []string{onWheel, onJournal}, covered: true})
	a.place(export.Placed{Part: t.name + "-pinion", X: t.pair.CentreDistance(), Z: top, TurnDeg: 180, Flip: true, MovesWith: withServo},
		driver, piece{name: "pinion stand-off", z0: -everywhere, z1: foot, joined: []string{onHorn}})
	if t.table.Wheel.Spacer > 0 {
		a.place(export.Placed{Part: t.name + "-spacer", Z: top, MovesWith: withLoad}, whole("spacer", onWheel))
	}
	ringTop := t.ring.Height() - recessDepth
	a.place(export.Placed{Part: t.ring.Parts()[0].Name(), Z: -recessDepth},
		piece{name: "ring", z0: -everywhere, z1: ringTop, joined: []string{onRing, inSeat}},
		piece{name: "end stops", z0: ringTop, z1: everywhere, joined: []string{onRing, inSeat}, close: []string{atStop}, covered: true})
	if t.ring.CapHeight() > 0 {
		a.place(export.Placed{Part: t.ring.Parts()[1].Name(), Z: t.ring.CapHeight() - recessDepth}, whole("cap", onRing, inSeat))
	}
	a.place(export.Placed{Part: t.plate.spec.name + "-plate", Z: -t.plate.spec.thickness},
		piece{name: "plate", z0: -everywhere, z1: 0, joined: []string{onRing, onServo, onPlate}},
		piece{name: "raised name of the plate", z0: 0, z1: everywhere, joined: []string{onPlate}})
}

// standServo puts servo and horn into the joint.
func (t *turning) standServo(a *arrangement) {
	s, axis := t.servo, geom.Point{X: t.pair.CentreDistance()}
	centre, angle := servoBox(s, axis.X, t.plate.spec.servoTurnDeg)
	box := func(name string, z0, z1, length float64) {
		a.stand(piece{name: name, z0: z0, z1: z1, joined: []string{onServo}, close: []string{underHorn}}, "",
			geom.Rectangle(centre, length, s.Body[1], 0, angle, geom.ChordPlain))
	}
	box("servo body", s.Tabs.BelowTop-s.Body[2], s.Tabs.BelowTop, s.Body[0])
	box("servo tabs", 0, s.Tabs.Thickness, s.Tabs.Length)
	disc := max(s.Horn.Diameter, 2*s.Horn.Arm)
	a.stand(piece{name: "horn", z0: t.discFoot, z1: t.discFoot + s.Horn.Thickness, joined: []string{onHorn}}, withServo,
		geom.Peg(axis, disc, geom.ChordPlain))
	if s.Horn.HubDiameter > 0 {
		a.stand(piece{name: "hub of the horn", z0: t.discFoot - s.Horn.HubHeight, z1: t.discFoot, joined: []string{onHorn, onServo}}, withServo,
			geom.Peg(axis, s.Horn.HubDiameter, geom.ChordPlain))
	}
	if j, ok := t.hornJoint(); ok {
		t.standHornScrews(a, j, axis)
	}
}

// standHornScrews puts what shows of the screws between pinion and horn above
// the one and under the other.
func (t *turning) standHornScrews(a *arrangement, j hornJoint, axis geom.Point) {
	top := t.wheelFoot + t.table.FaceWidth
	radii := t.pair.Pinion().HornHoles()
	var at []geom.Point
	for _, r := range radii {
		n := t.pair.Pinion().HornScrews() / len(radii)
		for k := range n {
			at = append(at, axis.Add(geom.Polar(r, math.Pi+2*math.Pi*float64(k)/float64(n))))
		}
	}
	above, below := j.screw.HeadDiameter, acrossNut(j.screw.Screw)
	under := j.length - (t.table.FaceWidth + t.standOff - t.pair.Pinion().HornSunk())
	switch {
	case j.screw.Cuts:
		below = j.screw.Diameter
	case j.headsUnder:
		above, below, under = below, above, j.screw.HeadHeight
	}
	if j.above > sliver {
		a.stand(piece{name: "horn screws above the pinion", z0: top, z1: top + j.above, joined: []string{onHorn}, covered: true}, withServo, discs(at, above)...)
	}
	if under > sliver {
		a.stand(piece{name: "horn screws under the horn", z0: t.discFoot - under, z1: t.discFoot, joined: []string{onHorn}, close: []string{underHorn}, covered: true}, withServo, discs(at, below)...)
	}
}

// standBearing puts the bearing into the joint and what holds the wheel in it.
func (t *turning) standBearing(a *arrangement) {
	b := t.kit.bearing
	_, shoulder := bearing.ShaftShoulder(b)
	tube := func(name string, z0, z1, inner, outer float64, moves string, joined ...string) {
		a.stand(piece{name: name, z0: z0, z1: z1, joined: joined, covered: true}, moves,
			geom.Peg(geom.Point{}, outer, geom.ChordPlain), geom.Bore(geom.Point{}, inner, geom.ChordPlain))
	}
	foot := t.coneTop - innerWidth(b)
	tube("inner ring of the bearing", foot, t.coneTop, b.Bore, shoulder, withLoad, onJournal, inSeat)
	tube("outer ring of the bearing", t.cupBack, t.cupBack+b.SeatWidth(), b.Outside-2, b.Outside, "", inSeat)
	r := t.pair.Spec().Wheel.Retain
	if r == nil {
		return
	}
	below := washerThickness + r.Screw.HeadHeight
	if r.Kind == "nut" {
		below = washerThickness + r.Screw.NutHeight + tailroom
	}
	a.stand(piece{name: "washer and screws under the journal", z0: foot - below, z1: foot, joined: []string{onJournal}, covered: true}, withLoad,
		geom.Peg(geom.Point{}, shoulder, geom.ChordPlain))
}

// standScrews puts heads and nuts of everything screwed to the plate into the
// joint.
func (t *turning) standScrews(a *arrangement) {
	p := t.plate
	under := -p.spec.thickness
	put := func(name string, z0, z1 float64, at []geom.Point, diameter float64, joined ...string) {
		a.stand(piece{name: name, z0: z0, z1: z1, joined: joined}, "", discs(at, diameter)...)
	}
	tab, tabs := p.tabScrew, p.tabHoles()
	put("servo screw heads", t.servo.Tabs.Thickness, t.servo.Tabs.Thickness+tab.HeadHeight, tabs, tab.HeadDiameter, onServo)
	put("servo screw nuts", under-tail(tab, t.servo.Tabs.Thickness+p.spec.thickness), under, tabs, acrossNut(tab), onServo)
	bolt, flange := p.spec.bolt, t.ring.FlangeThickness()-recessDepth
	put("ring screw heads", flange, flange+bolt.HeadHeight, p.spec.bolts, bolt.HeadDiameter, onRing)
	put("ring screw nuts", under-tail(bolt, t.ring.FlangeThickness()+p.spec.thickness-recessDepth), under, p.spec.bolts, acrossNut(bolt), onRing)
	put("corner screw heads", 0, p.spec.corner.HeadHeight, p.corners(), p.spec.corner.HeadDiameter, onPlate)
	if c := t.ring.Spec().Cap; c != nil {
		top := t.ring.CapHeight() - recessDepth + t.ring.CapThickness()
		heads := t.ring.CapBoltCircle()
		a.stand(piece{name: "cap screw heads", z0: top, z1: top + c.Screw.HeadHeight, joined: []string{onRing}}, "",
			geom.Peg(geom.Point{}, heads+c.Screw.HeadDiameter, geom.ChordPlain), geom.Bore(geom.Point{}, heads-c.Screw.HeadDiameter, geom.ChordPlain))
	}
}

// standTable puts what is screwed onto the wheel into the joint, where the load
// says how wide it is.
func (t *turning) standTable(a *arrangement, l Load) {
	if l.Table.Diameter == 0 {
		return
	}
	spacer := t.table.Wheel.Spacer
	foot := t.wheelFoot + t.table.FaceWidth + spacer
	a.stand(piece{
		name: "table on the wheel", z0: foot, z1: foot + l.Table.Thickness, joined: []string{onWheel},
		raise: func(mm float64) string { return "spacer = " + check.Number(math.Ceil(spacer+mm-1e-9)) },
	}, withLoad,
		geom.Peg(geom.Point{}, l.Table.Diameter, geom.ChordPlain))
}

// tail returns how far a screw and its nut stand out under what they grip, in mm.
func tail(s fit.Screw, grip float64) float64 { return max(screwFor(s, grip)-grip, s.NutHeight) }

// acrossNut returns the diameter of the circle that a nut's corners describe.
func acrossNut(s fit.Screw) float64 { return 2 * s.NutAcross / math.Sqrt(3) }

func discs(at []geom.Point, diameter float64) []geom.Contour {
	contours := make([]geom.Contour, len(at))
	for i, p := range at {
		contours[i] = geom.Peg(p, diameter, geom.ChordPlain)
	}
	return contours
}
