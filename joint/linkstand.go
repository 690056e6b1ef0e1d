package joint

import (
	"math"

	"pintle/export"
	"pintle/geom"
	"pintle/linkage"
)

// Words by which solids of a linkage are made to touch, or to come close with a
// washer between.
const (
	onBar      = "bar"
	onLever    = "lever"
	atHornPin  = "pin at the horn"
	atLeverPin = "pin at the lever"
	atPivot    = "pivot of the lever"
)

// placeParts puts the printed parts into the joint, the horn at an angle in the
// middle of its travel. The horn's arm is printed upside down.
func (l *linked) placeParts(a *arrangement, middle linkage.Station) {
	v, axis := l.levels, l.axis()
	if l.horn != nil {
		p := export.Placed{Part: l.name + "-horn", Z: v.horn[1], TurnDeg: middle.HornDeg, Flip: true, MovesWith: withHorn}
		if l.table.Horn.Bore > 0 { // a crank lies as it was printed
			p.Z, p.Flip = v.horn[0], false
		}
		a.place(p, piece{name: "arm on the horn", z0: -everywhere, z1: everywhere, joined: []string{onHorn}, close: []string{atHornPin}})
	}
	if l.bar != nil {
		a.place(export.Placed{Part: l.name + "-bar", X: middle.HornPin.X, Y: middle.HornPin.Y, Z: v.rod[0], TurnDeg: middle.RodDeg, MovesWith: withRod},
			piece{name: "bar", z0: -everywhere, z1: everywhere, joined: []string{onBar}, close: []string{atHornPin, atLeverPin}})
	}
	a.place(export.Placed{Part: l.name + "-lever", X: axis.X, Z: v.lever[0], TurnDeg: middle.LeverDeg, MovesWith: withLever},
		piece{name: "lever", z0: -everywhere, z1: everywhere, joined: []string{onLever}, close: []string{atLeverPin, atPivot}})
	if l.bracket != nil {
		a.place(export.Placed{Part: l.name + "-bracket", Z: -l.bracket.Spec().Thickness},
			piece{name: "bracket", z0: -everywhere, z1: 0, joined: []string{onServo, onPlate}, close: []string{atPivot}},
			piece{name: "post or foot of the bracket", z0: 0, z1: everywhere, joined: []string{onPlate}, close: []string{atPivot}})
	}
}

// axis is where the lever turns.
func (l *linked) axis() geom.Point { return geom.Point{X: l.table.Frame.Distance} }

// standServo puts servo and horn into the joint, where they were measured.
func (l *linked) standServo(a *arrangement, middle linkage.Station) {
	s, v := l.servo, l.levels
	if l.bracket == nil {
		return
	}
	centre, angle := servoBox(s, 0, l.table.Frame.ServoTurnDeg)
	box := func(name string, z0, z1, length float64) {
		a.stand(piece{name: name, z0: z0, z1: z1, joined: []string{onServo}, close: []string{underHorn}}, "",
			geom.Rectangle(centre, length, s.Body[1], 0, angle, geom.ChordPlain))
	}
	box("servo body", s.Tabs.BelowTop-s.Body[2], s.Tabs.BelowTop, s.Body[0])
	box("servo tabs", 0, s.Tabs.Thickness, s.Tabs.Length)
	tab := l.bracket.TabScrew()
	a.stand(piece{name: "servo screw heads", z0: s.Tabs.Thickness, z1: s.Tabs.Thickness + tab.HeadHeight, joined: []string{onServo}}, "",
		discs(l.bracket.TabHoles(), tab.HeadDiameter)...)
	if corners := l.bracket.Corners(); len(corners) > 0 {
		head := l.bracket.Spec().Corner
		a.stand(piece{name: "corner screw heads", z0: 0, z1: head.HeadHeight, joined: []string{onPlate}}, "", discs(corners, head.HeadDiameter)...)
	}
	h := s.Horn
	if h.Kind == "" {
		return
	}
	turn := middle.HornDeg * math.Pi / 180
	outline := geom.Peg(geom.Point{}, max(h.Diameter, 2*h.Arm), geom.ChordPlain)
	if h.Kind == "arm" {
		outline = geom.Rectangle(geom.Polar((h.Arm-h.HubDiameter/2)/2, turn), h.Arm+h.HubDiameter/2, max(h.WidthAtHub, h.HubDiameter), 0, turn, geom.ChordPlain)
	}
	a.stand(piece{name: "horn", z0: v.horn[0], z1: v.horn[0] + h.Thickness, joined: []string{onHorn}, close: []string{atHornPin}}, withHorn, outline)
	if h.HubDiameter > 0 && h.HubHeight > 0 {
		a.stand(piece{name: "hub of the horn", z0: v.horn[0] - h.HubHeight, z1: v.horn[0], joined: []string{onHorn, onServo}, covered: true}, withHorn,
			geom.Peg(geom.Point{}, h.HubDiameter, geom.ChordPlain))
	}
}

// standScrews puts what shows of the pins and of the screws in the horn into the
// joint.
func (l *linked) standScrews(a *arrangement, middle linkage.Station) {
	v := l.levels
	put := func(name string, z0, z1, diameter float64, moves string, at []geom.Point, joined ...string) {
		a.stand(piece{name: name, z0: z0, z1: z1, joined: joined, covered: true}, moves, discs(at, diameter)...)
	}
	pin, other := l.pins[0], l.pins[1]
	top := v.rod[1]
	put("pin at the horn", top, top+pin.Washer().Thickness+pin.HeadHeight, pin.Washer().Outer, withRod, []geom.Point{middle.HornPin}, onBar)
	put("pin at the lever", top, top+other.Washer().Thickness+other.HeadHeight, other.Washer().Outer, withRod, []geom.Point{middle.LeverPin}, onBar)
	put("nut under the horn", v.horn[0]-pin.NutHeight-tailroom, v.horn[0], acrossNut(pin), withHorn, []geom.Point{middle.HornPin}, onHorn)
	put("nut under the lever", v.lever[0]-other.NutHeight-tailroom, v.lever[0], acrossNut(other), withLever, []geom.Point{middle.LeverPin}, onLever)
	if l.posted() {
		put("screw of the pivot", v.lever[1], v.lever[1]+l.pivot.Washer().Thickness+l.pivot.HeadHeight, l.pivot.Washer().Outer, "", []geom.Point{l.axis()}, onLever)
	}
	if l.seat.made && l.seat.Screws > 0 {
		var at []geom.Point
		n := l.seat.Screws / len(l.seat.ScrewsAt)
		for _, r := range l.seat.ScrewsAt {
			for k := range n {
				at = append(at, geom.Polar(r, (middle.HornDeg*math.Pi/180)+2*math.Pi*float64(k)/float64(n)))
			}
		}
		put("horn screws over the arm", v.horn[1], v.horn[1]+l.seat.Screw.HeadHeight, l.seat.Screw.HeadDiameter, withHorn, at, onHorn)
	}
	if l.rod != nil {
		thread := l.rod.Thread()
		middleOf := middle.HornPin.Add(middle.LeverPin).Scale(0.5)
		along := middle.LeverPin.Sub(middle.HornPin)
		a.stand(piece{name: "rod", z0: v.rod[0], z1: v.rod[0] + thread.Diameter, joined: []string{onBar}, close: []string{atHornPin, atLeverPin}}, withRod,
			geom.Rectangle(middleOf, along.Len(), thread.Diameter, 0, along.Angle(), geom.ChordPlain))
	}
}
