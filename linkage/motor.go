package linkage

import (
	"fmt"
	"math"

	"pintle/check"
)

// A Motor is a continuous gear motor that turns the horn fully.
type Motor struct {
	StallTorque float64 // N·m, of its output shaft
	RPM         float64 // at which it turns under the load
}

func (m *Motor) validate() error {
	if m == nil {
		return nil
	}
	if err := check.InRange("stall torque of the motor", m.StallTorque, "N·m", 1e-4, 1e4,
		"1 kgf·cm is 0.0980665 N·m; take that of the gearbox's output"); err != nil {
		return err
	}
	return check.InRange("speed of the motor", m.RPM, "rpm", 1e-3, 1e5, "count the turns of the horn in a minute")
}

// MotorTorques returns the torque in N·m at the motor at each station with the
// horn turning evenly: gravity and inertia of the load by virtual work, friction
// against the motion, efficiency counted against the motor while it drives.
func (s *Stroke) MotorTorques() []float64 {
	m, l := s.spec.Motor, s.spec.Load
	if m == nil || l == nil {
		return nil
	}
	speed := m.RPM * 2 * math.Pi / 60
	torques := make([]float64, len(s.stations))
	for i, st := range s.stations {
		lever := l.MomentOfInertia() * st.Acceleration * speed * speed
		lever += s.rises() * s.GravityAt(st.LeverDeg)
		torques[i] = lever * st.Ratio
		if torques[i] > 0 {
			torques[i] /= s.spec.Efficiency
		}
		torques[i] += (l.BearingFriction + l.ExtraTorque) * math.Abs(st.Ratio) / s.spec.Efficiency
	}
	return torques
}

var ruleMotorTorque = check.Rule{
	Name: "motor-torque", Symbol: "T_peak/T_stall",
	Meaning: "The highest torque the continuous motor meets in a turn of the horn, as a share of its stall torque.",
	Formula: "max((J alpha + m g r cos phi) d lever/d horn / efficiency + friction)",
	Source:  check.CommonPractice,
	Change:  "balance the load, turn more slowly, shorten the horn, or take a stronger motor",
	Sense:   check.AtMost, Limit: check.Limit{Caution: 0.4, Fail: 0.5},
}

var ruleMotorMean = check.Rule{
	Name: "motor-rms-torque", Symbol: "T_rms/T_stall",
	Meaning: "The root mean square of the motor's torque over a turn, which heats it, as a share of its stall torque.",
	Formula: "sqrt(mean T²)",
	Source:  check.CommonPractice,
	Change:  "balance the load, turn more slowly, shorten the horn, or take a stronger motor",
	Sense:   check.AtMost, Limit: check.Limit{Caution: 0.25, Fail: 0.33},
}

// judgeMotor judges a continuous motor, where one and a load are given.
func (s *Stroke) judgeMotor() []check.Finding {
	torques := s.MotorTorques()
	if torques == nil {
		return nil
	}
	worst, squares := 0, 0.0
	for i, t := range torques {
		if math.Abs(t) > math.Abs(torques[worst]) {
			worst = i
		}
		if i > 0 { // the first and the last station are one
			squares += t * t
		}
	}
	stall := s.spec.Motor.StallTorque
	peak := math.Abs(torques[worst])
	rms := math.Sqrt(squares / float64(len(torques)-1))
	need := func(r check.Rule, torque float64) string {
		return fmt.Sprintf("stall torque >= %s N·m", check.Number(ceil(torque/s.aim(r), 3)))
	}
	found := []check.Finding{
		ruleMotorTorque.Judge(peak/stall, s.spec.Limits.Of(ruleMotorTorque), need(ruleMotorTorque, peak)),
		ruleMotorMean.Judge(rms/stall, s.spec.Limits.Of(ruleMotorMean), need(ruleMotorMean, rms)),
	}
	found[0].Detail = s.where(s.stations[worst])
	return found
}
