package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drive"
)

// The rules below catch numbers of which one digit or one unit is wrong: they
// cannot be refused, since somewhere such a servo or load may exist.
var (
	ruleServoUnit = check.Rule{
		Name: "servo-torque-unit", Symbol: "T_s", Unit: "N·m",
		Meaning: "Whether the stall torque is one that hobby servos have: a leaflet's kg·cm typed as N·m is ten times too much, as N·cm or oz·in ten times too little.",
		Formula: "stall torque; caution above 7 N·m or below 0.04 N·m, and where the body is measured above 0.3 or below 0.008 N·m for each cm³",
		Source:  check.CommonPractice, Change: "write the unit: \"20kgf.cm\" for what leaflets call 20 kg·cm",
		Sense: check.AtMost, Limit: check.Limit{Caution: 7, Fail: check.None},
	}
	ruleMassUnit = check.Rule{
		Name: "load-mass-unit", Symbol: "m", Unit: "kg",
		Meaning: "Whether the mass is one that a servo turns: grams typed as kilograms are a thousand times too much.",
		Formula: "mass; caution above 30 kg",
		Source:  check.CommonPractice, Change: "write the unit: \"180g\" or 0.18",
		Sense: check.AtMost, Limit: check.Limit{Caution: 30, Fail: check.None},
	}
	ruleInertiaUnit = check.Rule{
		Name: "load-inertia-unit", Symbol: "r_g", Unit: "mm",
		Meaning: "How far from the axis the mass would stand if all of it stood together: beyond a metre the inertia was likely typed in another unit than kg·m², and within a few mm it was likely left out, and with it the torque to speed the mass up.",
		Formula: "sqrt(inertia / mass); caution above 1000 mm and below 5 mm",
		Source:  check.CommonPractice, Change: "give the inertia in kg·m², or let it follow from a solid",
		Sense: check.AtMost, Limit: check.Limit{Caution: 1000, Fail: check.None},
	}
)

// findLikely judges every servo and every load that the file describes, whatever
// they move.
func (b *builder) findLikely() error {
	for _, name := range sorted(b.file.Servos) {
		b.find("servo."+name, likelyServo(b.file.Servos[name], b.file.Limits))
	}
	for _, name := range sorted(b.file.Loads) {
		b.find("load."+name, likelyLoad(b.file.Loads[name], b.file.Limits)...)
	}
	return nil
}

// likelyServo judges the stall torque, by the size of the body where it is known.
func likelyServo(s Servo, limits check.Limits) check.Finding {
	const least, leastForEach, mostForEach = 0.04, 0.008, 0.3 // N·m, N·m for each cm³ of body
	f := ruleServoUnit.Judge(s.StallTorque, limits.Of(ruleServoUnit), ruleServoUnit.Change)
	volume := s.Body[0] * s.Body[1] * s.Body[2] / 1000
	low, high := s.StallTorque < least, false
	if volume > 0 {
		low = low || s.StallTorque < leastForEach*volume
		high = s.StallTorque > mostForEach*volume
		f.Detail = fmt.Sprintf("servos of %s cm³ give %s to %s N·m", check.Number(math.Round(volume)), check.Number(roundTo(leastForEach*volume, 0.01)), check.Number(roundTo(mostForEach*volume, 0.01)))
	}
	if f.Verdict == check.Pass && (low || high) {
		f.Verdict, f.Remedy = check.Caution, ruleServoUnit.Change
		f.Limit = ""
	}
	if f.Verdict == check.Pass {
		f.Detail = ""
	}
	return f
}

func roundTo(v, step float64) float64 { return math.Round(v/step) * step }

// likelyLoad judges mass and inertia.
func likelyLoad(l Load, limits check.Limits) []check.Finding {
	all := []check.Finding{ruleMassUnit.Judge(l.Mass, limits.Of(ruleMassUnit), ruleMassUnit.Change)}
	if l.Mass <= 0 {
		return all
	}
	whole := drive.Load{Mass: l.Mass, Inertia: inertia(l), Offset: l.CentreOfGravity.Offset}
	const nearest = 5 // mm
	f := ruleInertiaUnit.Judge(1000*math.Sqrt(whole.MomentOfInertia()/l.Mass), limits.Of(ruleInertiaUnit), ruleInertiaUnit.Change)
	if f.Verdict == check.Pass && f.Value < nearest {
		f.Verdict, f.Limit = check.Caution, ""
		f.Detail = "the torque to speed so slim a mass up is next to nothing"
		f.Remedy = `say how the mass lies around the axis, such as inertia = { solid = "disc", radius = 90 }`
	}
	return append(all, f)
}
