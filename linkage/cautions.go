package linkage

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drive"
)

var ruleHold = check.Rule{
	Name: "gravity-hold", Symbol: "T", Unit: "N·m",
	Meaning: "The torque at the joint that only the servo bears. A servo without power lets a joint be driven back: the load then falls to its lowest posture.",
	Formula: "max(m g r cos of the elevation) over the swing",
	Source:  "any servo without a self-locking gear can be driven back: " + check.CommonPractice,
	Change:  "give the joint a stop to rest on, balance the load, or hold it by a spring",
	Sense:   check.Informs,
}

// FallEnergy returns the energy in J that the load sets free when it falls
// through the whole wanted swing: m g times the difference of the heights of its
// centre of gravity; through the worst quarter turn where the posture is not
// known.
func (s *Stroke) FallEnergy() float64 {
	l := s.spec.Load
	if l == nil || l.Axis != drive.Horizontal {
		return 0
	}
	weight := l.Mass * drive.Gravity * l.Offset / 1000
	half := math.Abs(s.used.LeverToDeg-s.used.LeverFromDeg) / 2
	if !l.PostureKnown { // the middle of the swing level
		return 2 * weight * math.Sin(min(half, 90)*deg)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range 181 {
		height := math.Sin((l.MiddleDeg + half*(float64(i)-90)/90) * deg)
		lo, hi = min(lo, height), max(hi, height)
	}
	return weight * (hi - lo)
}

// judgeHold tells that a load on a level axis falls without power.
func (s *Stroke) judgeHold() []check.Finding {
	energy := s.FallEnergy()
	if energy == 0 {
		return nil
	}
	held := s.worst(func(st Station) float64 { return -math.Abs(s.GravityAt(st.LeverDeg)) })
	return []check.Finding{ruleHold.Say(check.Note, math.Abs(s.GravityAt(held.LeverDeg)),
		fmt.Sprintf("without power the load may fall through the swing and set free %s J", decimal(energy, 3)), ruleHold.Change)}
}

// Cautions returns the codes of check.Cautions that a linkage calls for.
func (s *Stroke) Cautions() []string {
	codes := map[string]bool{"C15": s.spec.HornPin != nil || s.spec.LeverPin != nil || s.spec.Stock != nil}
	codes["C4"] = s.spec.Servo != nil
	codes["C3"] = s.FallEnergy() > 0
	for _, f := range s.findings {
		over := f.Check == "servo-torque" || f.Check == "servo-held-torque" || f.Check == ruleMotorTorque.Name
		if over && (f.Verdict == check.Caution || f.Verdict == check.Fail) {
			codes["C6"] = true
		}
	}
	var list []string
	for _, c := range check.Cautions() {
		if codes[c.Code] {
			list = append(list, c.Code)
		}
	}
	return list
}
