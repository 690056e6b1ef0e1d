package linkage

import (
	"fmt"
	"math"

	"pintle/check"
)

// RodForce returns the force in N along the rod, without sign, that a torque in
// N·m at the lever needs at a station: T/(c sin mu).
func (s *Stroke) RodForce(st Station, leverTorque float64) float64 {
	return math.Abs(leverTorque) * 1000 / (s.flat.Lever * math.Sin(st.TransmissionDeg*deg))
}

// StalledRodForce returns the force in N along the rod when the lever is held
// fast and the servo pulls at its stall torque: T/(a sin nu). A jam delivers it,
// so pins, eyes and rod are sized by it. It is 0 without a servo.
func (s *Stroke) StalledRodForce(st Station) float64 {
	if s.spec.Servo == nil {
		return 0
	}
	stall := s.spec.Servo.StallTorque * s.spec.Servo.VoltageShare()
	// With horn and rod in one line the force would be without bound; what
	// bends first is not known, so the last degree is left out.
	return stall * 1000 / (s.flat.Horn * max(math.Sin(st.HornAngleDeg*deg), math.Sin(deg)))
}

// designForce returns the station and the force in N that the parts are sized
// by: the stalled servo's where a servo is given, otherwise the load's, and true
// where either is known. The rod's own slope out of the plane adds to it.
func (s *Stroke) designForce() (Station, float64, bool) {
	force := s.StalledRodForce
	switch {
	case s.spec.Servo != nil:
	case s.spec.Load != nil:
		force = func(st Station) float64 {
			return s.RodForce(st, math.Abs(s.GravityAt(st.LeverDeg))+s.spec.Load.ExtraTorque)
		}
	default:
		return Station{}, 0, false
	}
	worst := s.worst(func(st Station) float64 { return -force(st) })
	return worst, force(worst) * s.spec.Rod / s.flat.Rod, true
}

// judgeForces judges rod, pins and eyes under the force they are sized by.
func (s *Stroke) judgeForces() []check.Finding {
	found := s.judgeBalls()
	at, force, known := s.designForce()
	if !known {
		return found
	}
	where := fmt.Sprintf("%.0f N in the rod, %s", force, s.where(at))
	for _, e := range s.ends() {
		found = append(found, s.judgeEnd(e, force, where)...)
	}
	if s.spec.Stock != nil {
		found = append(found, s.judgeBuckling(force, where))
	}
	if lift := s.spec.HornLift; lift > 0 {
		found = append(found, ruleHornMoment.Say(check.Note, force*lift/1000,
			where+", "+check.Number(lift)+" mm above the servo's body", ruleHornMoment.Change))
	}
	return found
}

var ruleHornMoment = check.Rule{
	Name: "horn-tilt", Symbol: "F e", Unit: "N·m",
	Meaning: "The moment that the rod, running beside the horn and not in its plane, puts on the horn's screw and the servo's shaft.",
	Formula: "rod force x height of the rod's plane above the servo's body",
	Source:  check.CommonPractice,
	Change:  "bring the rod nearer to the horn's plane, or hold the horn's end in a second bearing",
	Sense:   check.Informs,
}
