package drive

import (
	"strconv"
	"strings"

	"pintle/check"
)

// A change is one number of a drive that a builder may raise or lower.
type change struct {
	name, unit string
	value      float64 // as it is
	reach      float64 // how far it is tried, as a multiple of value
	with       func(s Spec, value float64) Spec
}

func changes(s Spec) []change {
	ratio := func(s Spec, v float64) Spec { s.Ratio = v; return s }
	var list []change
	if s.Through == nil {
		list = []change{{"ratio", "", s.Ratio, 10, ratio}, {"ratio", "", s.Ratio, 0.1, ratio}}
	}
	return append(list, []change{
		{"time", " s", s.Motion.Time, 10, func(s Spec, v float64) Spec { s.Motion.Time = v; return s }},
		{"swing", " deg", s.Motion.SwingDeg, 0.5, func(s Spec, v float64) Spec { s.Motion.SwingDeg = v; return s }},
		{"stall torque", " N·m", s.Servo.StallTorque, 20, func(s Spec, v float64) Spec { s.Servo.StallTorque = v; return s }},
		{"servo speed", " deg/s", s.Servo.SpeedDegPerS, 10, func(s Spec, v float64) Spec { s.Servo.SpeedDegPerS = v; return s }},
		{"servo travel", " deg", s.Servo.Travel(), 10, withTravel},
	}...)
}

func withTravel(s Spec, travel float64) Spec {
	s.Servo = s.Servo.WithTravel(travel)
	return s
}

// remedy tries one change at a time and names those that let the check pass
// and make no other check worse.
func (d *Drive) remedy(rule int) string {
	before := d.Judge()
	var cures []string
	for _, c := range changes(d.spec) {
		cured := func(value float64) bool {
			after := sized(c.with(d.spec, value)).Judge()
			return after[rule].Verdict == check.Pass && check.NoWorse(before, after)
		}
		if value, ok := check.Nearest(c.value, c.reach, cured); ok {
			cures = append(cures, c.name+c.sign()+strconv.FormatFloat(value, 'f', -1, 64)+c.unit)
		}
	}
	if len(cures) == 0 {
		return judgedRules()[rule].Change
	}
	return strings.Join(cures, ", or ")
}

func (c change) sign() string {
	if c.reach < 1 {
		return " <= "
	}
	return " >= "
}
