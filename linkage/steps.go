package linkage

import (
	"fmt"

	"pintle/check"
)

// Assembly returns how the linkage goes together, in order.
func (s *Stroke) Assembly() []string {
	var lines []string
	say := func(format string, values ...any) { lines = append(lines, fmt.Sprintf(format, values...)) }
	if servo := s.spec.Servo; servo != nil {
		if pulse, ok := servo.Pulse(0); ok {
			say("Send the servo %s µs, its neutral pulse, before the horn goes on.", decimal(pulse, 0))
		}
		say("Press the horn on the spline so that it stands at %s deg to the line from the servo's axis to the joint's%s.", decimal(s.spec.NeutralDeg, 1), s.splineWords())
	}
	say("Set the rod to %s mm from pin centre to pin centre before it goes in.", decimal(s.spec.Rod, 2))
	if n, ok := s.At(s.spec.NeutralDeg); ok && !s.spec.Turning {
		say("With the horn at neutral the lever must stand at %s deg; turn the rod's ends until it does.", decimal(n.LeverDeg, 1))
	}
	say("Without power, move the joint by hand through its whole swing: nothing may bind, touch or snap over.")
	if table, ok := s.Pulses(); ok {
		first, last := table.Rows[0], table.Rows[len(table.Rows)-1]
		say("Set the pulse limits to %s and %s µs: they turn the joint from %s to %s deg about its middle.",
			decimal(first.PulseMicroseconds, 0), decimal(last.PulseMicroseconds, 0), decimal(first.JointDeg, 1), decimal(last.JointDeg, 1))
	}
	if s.spec.HornPin != nil || s.spec.LeverPin != nil {
		say("Secure every pin, and the horn's screw, against working loose: the load changes direction at each swing.")
	}
	return lines
}

// splineWords tells which tooth of the spline.
func (s *Stroke) splineWords() string {
	seat, ok := s.Seat()
	switch {
	case !ok:
		return ""
	case seat.Tried:
		return fmt.Sprintf(": %+d teeth from where it was tried", seat.Steps)
	}
	return fmt.Sprintf("; it goes on every %s deg, the nearest place may be %s deg off", check.Number(round(seat.PitchDeg, 2)), check.Number(round(seat.LeftDeg, 2)))
}
