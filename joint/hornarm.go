package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/gear"
	"pintle/linkage"
)

// A hornSeat is how a printed arm takes up the servo's horn.
type hornSeat struct {
	made      bool // false where the rod's pin goes into the horn itself, or no horn was measured
	own       bool // the pin goes into one of the horn's own holes
	thickness float64
	diameter  float64 // of the round about the shaft
	width     float64 // of the arm
	gear.HornSeat
}

// seatHorn works out the horn's pocket in its printed arm, where one is needed.
func (b *builder) seatHorn(l *linked) error {
	h, t := l.servo.Horn, l.table.Horn
	if t.Bore > 0 {
		l.seat.thickness = chosen(t.Thickness, clampThickness)
		return nil
	}
	if h.Kind == "" {
		return nil
	}
	if _, own := h.holeAt(t.Length); own {
		l.seat.own = true
		return nil
	}
	s := &l.seat
	s.made = true
	wall := 4 * b.card.BeadWidth
	s.thickness = chosen(t.Thickness, math.Ceil((h.Thickness+hornFloor)*5-1e-9)/5)
	s.width = chosen(t.Width, linkWidth)
	const rounding = 0.1 // mm: chords of the outline lie inside it
	solid := 2*h.Arm + b.card.Slip() + 2*wall + rounding
	switch {
	case h.Kind == "disc":
		solid = h.Diameter + b.card.Slip() + 2*wall + rounding
		s.diameter = solid
	case h.Kind == "arm": // lies in the printed arm
		s.diameter = h.HubDiameter + gear.HubRoom + 2*wall + 1
		s.width = chosen(t.Width, max(linkWidth, h.WidthAtHub+b.card.Slip()+2*wall))
		least := h.Arm + b.card.Slip()/2 + wall + l.pins[0].Pilot/2
		if t.Length < least {
			return b.file.Blame(l.design(), &check.FieldError{
				Field: "horn", Value: t.Length, Unit: "mm",
				Reason: fmt.Sprintf("brings the pin into the servo's own horn, which reaches %s mm and has no hole there", check.Number(h.Arm)),
				Remedy: fmt.Sprintf("horn >= %s mm, or one of the horn's own holes, or cut the horn shorter", check.Number(math.Ceil(least*10)/10)),
			})
		}
	default:
		s.diameter = solid
	}
	seat, err := gear.HornSeatIn(l.name+"-horn", pocketOf(l.servo), s.thickness, solid, b.card, b.file.Limits)
	if err != nil {
		return b.file.Blame(l.design(), err)
	}
	s.HornSeat = seat
	return nil
}

// pocketOf returns the pocket that the measured horn of a servo needs.
func pocketOf(s Servo) gear.HornPocket {
	h := s.Horn
	return gear.HornPocket{
		Kind: h.Kind, Diameter: h.Diameter, Thickness: h.Thickness, HubDiameter: h.HubDiameter,
		Holes: h.Holes, HoleCircle: h.HoleCircle, Hole: h.Hole,
		Arm: h.Arm, WidthAtHub: h.WidthAtHub, WidthAtTip: h.WidthAtTip, Arms: h.Arms, HolesAt: h.HolesAt,
	}
}

// addHornArm makes the arm on the servo's horn, printed upside down so that the
// pocket opens upwards.
func (b *builder) addHornArm(l *linked) error {
	s, t := l.seat, l.table.Horn
	if !s.made && t.Bore == 0 {
		return nil
	}
	spec := linkage.LinkSpec{
		Name: l.name + "-horn", Mark: l.name, Thickness: s.thickness, Card: b.card, Limits: b.file.Limits,
		Hub:  linkage.Hub{Diameter: s.diameter},
		Arms: []linkage.Arm{{Length: t.Length, Width: s.width, Eye: b.eye(l, 0, false)}},
	}
	if t.Bore > 0 {
		if err := b.clampHub(l, &spec.Hub, t.Bore, ""); err != nil {
			return err
		}
		spec.Arms[0].Width = chosen(t.Width, min(linkWidth, spec.Arms[0].Eye.Diameter))
	}
	spec.Arms[0].Eye.Diameter = max(spec.Arms[0].Eye.Diameter, s.width)
	for _, o := range s.Openings {
		spec.Hub.Openings = append(spec.Hub.Openings, linkage.Opening{Z0: o.Z0, Z1: o.Z1, Bottom: o.Contour})
	}
	arm, err := linkage.NewLink(spec)
	if err != nil {
		return err
	}
	l.horn = arm
	b.find(l.design(), s.Findings...)
	b.report.Fits = append(b.report.Fits, s.Fits...)
	b.addLink(l, arm, "horn")
	return nil
}
