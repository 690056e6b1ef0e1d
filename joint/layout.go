package joint

import (
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/export"
	"pintle/geom"
)

// Heights and gaps of a kit that the joint decides, in mm (common practice, no
// source, where a comment names nothing else).
const (
	recessDepth      = 2.0 // of the ring's flange in the plate: it finds the centre, the screws hold
	leastRise        = 2.0 // of the wheel's shoulder: the wheel clears cage and cup by as much
	leastStandOff    = 0.6 // of the pinion's boss: what is thinner prints badly
	journalShortfall = 0.5 // the journal ends this much inside the cone, so that a nut can clamp
)

// A kit is everything that the plate joins: one servo with its pinion, one
// bearing in its ring with the wheel on it. Heights are in the joint's frame,
// z = 0 the top of the plate.
type kit struct {
	servo   Servo
	bearing bearing.Bearing

	cupBack   float64 // z of the face the pressed-in ring rests on
	coneTop   float64 // z of the face the wheel's shoulder rests on
	wheelFoot float64 // z of the wheel's underside
	discFoot  float64 // z of the horn disc's underside
	standOff  float64 // the pinion's teeth start this high above discFoot
	shoulder  float64 // the ring's shoulder thickness
	rise      float64 // the wheel's shoulder stands this high over the cone
}

// newKit stacks the joint along its axis so that pinion and wheel meet over
// their whole face width. The servo's tabs rest on the plate, the horn's hub on
// the servo; the ring's flange lies in its recess. Where the wheel would stand
// too high the pinion gets a stand-off, where it would stand too low the ring
// gets a thicker shoulder. The wheel's shoulder rises by at least the given rise.
func newKit(servo Servo, b bearing.Bearing, rise float64) kit {
	k := kit{servo: servo, bearing: b, shoulder: 3, rise: max(rise, leastRise)}
	k.discFoot = servo.Tabs.BelowTop + servo.Horn.HubHeight
	k.settle()
	if short := k.discFoot - k.wheelFoot; short > -leastStandOff && short != 0 {
		k.shoulder += max(short, 0)
		k.settle()
		if k.wheelFoot > k.discFoot { // too little for a boss: raise the wheel to where one prints
			k.shoulder += leastStandOff - (k.wheelFoot - k.discFoot)
			k.settle()
		}
	}
	k.standOff = k.wheelFoot - k.discFoot
	if k.standOff < 1e-9 {
		k.standOff = 0
	}
	return k
}

func (k *kit) settle() {
	k.cupBack = k.shoulder - recessDepth
	k.coneTop = k.cupBack + k.bearing.Width
	k.wheelFoot = k.coneTop + k.rise
}

// servoBox returns the place and size in plan of the servo's body: its shaft at
// (a, 0), the far end of its long side in the direction of turn.
func servoBox(s Servo, a, turnDeg float64) (centre geom.Point, angle float64) {
	angle = turnDeg * math.Pi / 180
	return geom.Point{X: a}.Add(geom.Polar(s.Body[0]/2-s.ShaftFromEnd, angle)), angle
}

// The names of a turning's motions.
const (
	withLoad  = "load"
	withServo = "servo"
)

// stationStep is the widest step between two stations of a turning, in degrees:
// close enough for a picture, since what lies between is exact.
const stationStep = 10.0

// arrangement puts the turning together. Pinion and wheel are printed upside
// down; the pinion shows a tooth to the wheel, the wheel a space. Where no
// motion is named the wheel turns once round.
func (t *turning) arrangement(m Motion) *arrangement {
	swing := m.Swing
	if swing == 0 {
		swing = 360
	}
	a := &arrangement{name: t.name, design: "plate." + t.plate.spec.name}
	a.stroke = newStroke("wheel", evenStations(-swing/2, swing/2, 2*int(math.Ceil(swing/2/stationStep))+1))
	axis := geom.Point{X: t.pair.CentreDistance()}
	var load, servo []geom.Motion
	for _, deg := range a.stroke.stations {
		turn := deg * math.Pi / 180
		load = append(load, geom.TurnAbout(geom.Point{}, turn))
		servo = append(servo, geom.TurnAbout(axis, -turn*t.pair.Ratio()))
	}
	a.moves(withLoad, load)
	a.moves(withServo, servo)
	top := t.wheelFoot + t.table.FaceWidth
	a.place(export.Placed{Part: t.name + "-wheel", Z: top, TurnDeg: 180 / float64(t.pair.Wheel().Teeth()), Flip: true, MovesWith: withLoad})
	a.place(export.Placed{Part: t.name + "-pinion", X: axis.X, Z: top, TurnDeg: 180, Flip: true, MovesWith: withServo})
	if t.table.Wheel.Spacer > 0 {
		a.place(export.Placed{Part: t.name + "-spacer", Z: top, MovesWith: withLoad})
	}
	for _, p := range t.ringPlaces() {
		a.place(p)
	}
	a.place(export.Placed{Part: t.plate.spec.name + "-plate", Z: -t.plate.spec.thickness})
	return a
}

// envelopes returns the space that each body of the turning takes up.
func (t *turning) envelopes() []envelope {
	a := t.pair.CentreDistance()
	servo := geom.Point{X: a}
	top := t.wheelFoot + t.table.FaceWidth
	b, s := t.kit.bearing, t.servo
	centre, angle := servoBox(s, a, t.plate.spec.servoTurnDeg)
	_, shoulder := bearing.ShaftShoulder(b)
	origin := geom.Point{}
	turning := func(name string, z0, z1 float64, sh shape, meets ...string) envelope {
		return envelope{name, z0, z1, sh, true, meets}
	}
	bodies := []envelope{
		turning("wheel", t.wheelFoot, top, annulus(origin, 0, t.pair.Wheel().TipDiameter()/2), "wheel", "mesh"),
		turning("wheel shoulder", t.coneTop, t.wheelFoot, annulus(origin, 0, shoulder/2), "wheel", "journal"),
		turning("journal", t.coneTop-innerWidth(b)+journalShortfall, t.coneTop, annulus(origin, 0, b.Bore/2), "wheel", "journal"),
		turning("cone", t.coneTop-innerWidth(b), t.coneTop, annulus(origin, b.Bore/2, shoulder/2), "journal", "seat"),
		turning("pinion", t.discFoot+t.standOff, top, annulus(servo, 0, t.pair.Pinion().TipDiameter()/2), "pinion", "mesh", "horn"),
		turning("horn disc", t.discFoot, t.discFoot+s.Horn.Thickness, annulus(servo, 0, s.Horn.Diameter/2), "horn", "servo"),
		turning("horn hub", t.discFoot-s.Horn.HubHeight, t.discFoot, annulus(servo, 0, s.Horn.HubDiameter/2), "horn", "servo"),
		{"servo body", s.Tabs.BelowTop - s.Body[2], s.Tabs.BelowTop, box(centre, s.Body[0], s.Body[1], angle), false, []string{"servo"}},
		{"servo tabs", 0, s.Tabs.Thickness, box(centre, s.Tabs.Length, s.Body[1], angle), false, []string{"servo"}},
	}
	if t.standOff > 0 {
		bodies = append(bodies, turning("pinion stand-off", t.discFoot, t.discFoot+t.standOff, annulus(servo, 0, t.pair.Pinion().BossDiameter()/2), "pinion", "horn"))
	}
	for _, hole := range t.plate.tabHoles() {
		head := t.plate.tabScrew
		bodies = append(bodies, envelope{
			"servo screw heads", s.Tabs.Thickness, s.Tabs.Thickness + head.HeadHeight,
			annulus(hole, 0, head.HeadDiameter/2), false,
			[]string{"servo"},
		})
	}
	return append(bodies, t.ringEnvelopes()...)
}

func (t *turning) ringEnvelopes() []envelope {
	r, b := t.ring, t.kit.bearing
	origin := geom.Point{}
	foot := -recessDepth
	standing := func(name string, z0, z1 float64, inner, outer float64, meets ...string) envelope {
		return envelope{name, z0, z1, annulus(origin, inner/2, outer/2), false, meets}
	}
	head := t.ringScrew
	return append(t.capEnvelopes(), []envelope{
		standing("ring shoulder", foot, t.cupBack, r.ShoulderHole(), r.OutsideDiameter(), "ring", "seat"),
		standing("ring wall", t.cupBack, foot+r.Height(), b.Outside, r.OutsideDiameter(), "ring", "seat"),
		standing("ring flange", foot, foot+r.FlangeThickness(), r.OutsideDiameter(), r.FlangeDiameter(), "ring", "seat"),
		standing("ring screw heads", foot+r.FlangeThickness(), foot+r.FlangeThickness()+head.HeadHeight, r.BoltCircle()-head.HeadDiameter, r.BoltCircle()+head.HeadDiameter, "ring", "seat"),
		standing("cup", t.cupBack, t.cupBack+b.SeatWidth(), b.Outside-2, b.Outside, "seat"),
	}...)
}

var ruleFaceOverlap = check.Rule{
	Name: "face-overlap", Symbol: "b_w", Unit: "mm",
	Meaning: "How much of their face width pinion and wheel share along the axis.",
	Formula: "overlap of the toothed heights of pinion and wheel as they stand on plate, servo and bearing; caution below 0.99 b, fail below 0.8 b",
	Source:  check.CommonPractice, Change: "measure the servo's tabs and horn again; the joint sets stand-off and shoulder from them",
	Sense: check.AtLeast,
}

// stackFindings judges the stack along the axis: the teeth meet over their
// face width, the ring's shoulder bears on the plate.
func (t *turning) stackFindings(limits check.Limits) []check.Finding {
	face := t.table.FaceWidth
	wheel := [2]float64{t.wheelFoot, t.wheelFoot + face}
	pinion := [2]float64{t.discFoot + t.standOff, t.discFoot + t.standOff + face}
	rule := ruleFaceOverlap
	rule.Limit = check.Limit{Caution: 0.99 * face, Fail: 0.8 * face}
	shared := min(wheel[1], pinion[1]) - max(wheel[0], pinion[0])
	return []check.Finding{rule.Judge(shared, limits.Of(rule), rule.Change)}
}

// stackValues returns the heights of the stack for the report, in mm above the
// plate's top.
func (t *turning) stackValues() map[string]any {
	return map[string]any{
		"z_cup_back": t.cupBack, "z_cone_top": t.coneTop, "z_wheel": t.wheelFoot,
		"z_pinion": t.discFoot + t.standOff, "z_horn_disc": t.discFoot,
		"pinion_stand_off": t.standOff, "ring_shoulder": t.shoulder,
	}
}
