package linkage

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drive"
	"pintle/geom"
)

// A HornSeat is how near the servo's spline lets the horn come to its neutral
// angle.
type HornSeat struct {
	PitchDeg float64 // between the horn's places on the spline
	LeftDeg  float64 // what is left where it was tried, anticlockwise; otherwise at most half a pitch
	Steps    int     // spline teeth to move the horn on by, anticlockwise, where it was tried
	Tried    bool
	Rod      float64 // mm: rod length that brings the lever to its neutral angle all the same, where it was tried
}

// Seat works out the spline; false without a servo of known spline. With an even
// number of arms or holes a horn may come nearer; that is left aside.
func (s *Stroke) Seat() (HornSeat, bool) {
	servo := s.spec.Servo
	if servo == nil || servo.SplineTeeth == 0 {
		return HornSeat{}, false
	}
	seat := HornSeat{PitchDeg: 360 / float64(servo.SplineTeeth), Tried: servo.Tried}
	if !servo.Tried {
		seat.LeftDeg = seat.PitchDeg / 2
		return seat, true
	}
	// The horn stands at TriedDeg and is wanted at NeutralDeg; moved on by the
	// steps it stands short of it by what is left.
	seat.Steps, seat.LeftDeg = drive.SplineSeat(servo.SplineTeeth, s.spec.NeutralDeg-servo.TriedDeg)
	if neutral, ok := s.At(s.spec.NeutralDeg); ok {
		pin := geom.Polar(s.flat.Horn, (s.spec.NeutralDeg-seat.LeftDeg)*deg)
		seat.Rod = s.spec.trueRod(neutral.LeverPin.Sub(pin).Len())
	}
	return seat, true
}

var ruleSeat = check.Rule{
	Name: "horn-spline", Unit: "deg",
	Meaning: "How far the horn stands from its neutral angle with the neutral pulse sent, because it fits the spline only tooth by tooth.",
	Formula: "remainder of the angle by 360/number of teeth",
	Source:  "geometry",
	Change:  "try the horn on the spline and give the angle at which it stands; take up the rest with the neutral pulse or the rod",
	Sense:   check.Informs,
}

// judgeSeat tells how the horn sits and what takes up the rest.
func (s *Stroke) judgeSeat() []check.Finding {
	seat, ok := s.Seat()
	if !ok {
		return nil
	}
	detail := fmt.Sprintf("the horn sits every %s deg; as it comes it may be off by up to %s deg", decimal(seat.PitchDeg, 2), decimal(seat.LeftDeg, 2))
	verdict, remedy := check.Note, ruleSeat.Change
	if seat.Tried {
		detail = fmt.Sprintf("move the horn on by %d teeth of the spline, anticlockwise; it then stands %s deg short of neutral", seat.Steps, decimal(seat.LeftDeg, 2))
		remedy = s.takeUp(seat)
		if math.Abs(seat.LeftDeg) < 0.5 {
			verdict, remedy = check.Pass, ""
		}
	}
	return []check.Finding{ruleSeat.Say(verdict, seat.LeftDeg, detail, remedy)}
}

// takeUp names the neutral pulse or the rod that takes up what the spline leaves.
func (s *Stroke) takeUp(seat HornSeat) string {
	var ways []string
	if pulse, ok := s.spec.Servo.Pulse(s.spec.sense() * seat.LeftDeg); ok {
		ways = append(ways, fmt.Sprintf("take %s µs for neutral", decimal(pulse, 0)))
	}
	if seat.Rod > 0 {
		ways = append(ways, fmt.Sprintf("set the rod to %s mm", decimal(seat.Rod, 2)))
	}
	switch len(ways) {
	case 0:
		return ruleSeat.Change
	case 1:
		return ways[0]
	}
	return ways[0] + ", or " + ways[1]
}

// decimal prints a value with at most so many decimals.
func decimal(v float64, decimals int) string { return check.Number(round(v, decimals)) }
