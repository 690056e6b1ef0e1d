package joint

import (
	"fmt"
	"math"
	"slices"

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

// arrangement puts the turning together. Where no motion is named the wheel
// turns once round.
func (t *turning) arrangement(m Motion, l Load) *arrangement {
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
	t.placeParts(a)
	t.standServo(a)
	t.standBearing(a)
	t.standScrews(a)
	t.standTable(a, l)
	a.cure = t.turnedServo
	return a
}

// turnedServo tries other ways to turn the servo, where two bodies that stand
// still are too near each other and one of them belongs to it.
func (t *turning) turnedServo(p passage) (string, bool) {
	if p.moving || !meets(p.a.joined, []string{onServo}) && !meets(p.b.joined, []string{onServo}) {
		return "", false
	}
	for _, turn := range []float64{90, 270, 0, 180} {
		other, board := *t, *t.plate
		board.spec.servoTurnDeg, other.plate = turn, &board
		a := &arrangement{stroke: newStroke("wheel", []float64{0, 0})}
		a.moves(withServo, make([]geom.Motion, 2))
		a.place(export.Placed{Part: t.ring.Parts()[0].Name(), Z: -recessDepth}, whole("ring", onRing))
		other.standServo(a)
		other.standScrews(a)
		ring := t.ring.Parts()[0]
		passages := a.passages(map[string]geom.Part{ring.Name(): ring})
		if !slices.ContainsFunc(passages, func(p passage) bool { return !p.moving && p.width < ruleStanding.Limit.Caution }) {
			return fmt.Sprintf("servo_turn = %v", turn), true
		}
	}
	return "", false
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
