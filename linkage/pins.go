package linkage

import (
	"math"

	"pintle/check"
)

// A PinJoint is what joins one end of the rod: a pin through an eye, or a ball.
// Zero sizes leave the checks that need them out.
type PinJoint struct {
	Diameter    float64 // d, mm, of the pin
	Thickness   float64 // t, mm, of the eye along the pin
	Width       float64 // W, mm, of the eye across the pull
	EndDistance float64 // e, mm, from the pin's centre to the eye's end along the pull
	Strength    float64 // MPa, of the print in the direction of the pull
	Play        float64 // mm, total free movement of pin in hole or ball in socket, along the rod
	BallLimit   float64 // deg, measured, by which the ball may turn out of square; 0 for a plain pin
}

type end struct {
	name string
	pin  *PinJoint
}

// ends returns the rod's joints that are given.
func (s *Stroke) ends() []end {
	var list []end
	for _, e := range []end{{"horn", s.spec.HornPin}, {"lever", s.spec.LeverPin}} {
		if e.pin != nil {
			list = append(list, e)
		}
	}
	return list
}

func (p *PinJoint) validate(name string) error {
	if p == nil {
		return nil
	}
	for _, q := range []struct {
		field string
		value float64
		unit  string
		hi    float64
	}{
		{"pin diameter", p.Diameter, "mm", 100},
		{"eye thickness", p.Thickness, "mm", 200},
		{"eye width", p.Width, "mm", 500},
		{"eye end distance", p.EndDistance, "mm", 500},
		{"strength of the print", p.Strength, "MPa", 5000},
		{"play", p.Play, "mm", 20},
		{"ball limit", p.BallLimit, "deg", 90},
	} {
		if err := check.InRange(q.field+" at the "+name, q.value, q.unit, 0, q.hi, "measure it, or leave it out"); err != nil {
			return err
		}
	}
	if p.Width > 0 && p.Width <= p.Diameter {
		return &check.FieldError{
			Field: "eye width at the " + name, Value: p.Width, Unit: "mm",
			Reason: "does not exceed the pin's diameter, " + check.Number(p.Diameter) + " mm",
			Remedy: "make it at least " + check.Number(3*p.Diameter) + " mm",
		}
	}
	return nil
}

var (
	ruleBearingStress = check.Rule{
		Name: "pin-bearing-stress", Symbol: "p", Unit: "MPa",
		Meaning: "The pressure of the pin on the wall of its hole. A moving plastic eye wears and creeps above the limit.",
		Formula: "F/(d t), F the rod's force with the servo stalled",
		Source:  "10 MPa for a moving plastic eye: " + check.CommonPractice,
		Change:  "make the eye thicker or the pin larger, or lengthen the horn",
		Sense:   check.AtMost, Limit: check.Limit{Caution: 10, Fail: check.None},
	}
	ruleEyeWall = check.Rule{
		Name: "eye-wall", Symbol: "W/d",
		Meaning: "The width of the eye over the pin's diameter: 2 leaves half a diameter of wall on each side, 3 a whole one.",
		Formula: "W/d",
		Source:  check.CommonPractice,
		Change:  "make the eye wider",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: 3, Fail: 2},
	}
	ruleEyeEnd = check.Rule{
		Name: "eye-end", Symbol: "e/d",
		Meaning: "From the pin's centre to the end of the eye, over the pin's diameter.",
		Formula: "e/d",
		Source:  "1 to 1.5: " + check.CommonPractice,
		Change:  "lengthen the eye past the pin",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: 1, Fail: check.None},
	}
	ruleNetSection = check.Rule{
		Name: "eye-net-section", Symbol: "sigma/R",
		Meaning: "The pull in the two walls beside the pin, as a share of the print's strength.",
		Formula: "F/((W - d) t R)",
		Source:  "a third: " + check.CommonPractice,
		Change:  "make the eye wider or thicker",
		Sense:   check.AtMost, Limit: check.Limit{Caution: 1.0 / 3, Fail: check.None},
	}
	ruleTearOut = check.Rule{
		Name: "eye-tear-out", Symbol: "tau/R",
		Meaning: "The shear of the wall ahead of the pin, as a share of the print's strength.",
		Formula: "F/(2 t (e - d/2) R)",
		Source:  "a third: " + check.CommonPractice,
		Change:  "lengthen the eye past the pin, or make it thicker",
		Sense:   check.AtMost, Limit: check.Limit{Caution: 1.0 / 3, Fail: check.None},
	}
	ruleBall = check.Rule{
		Name: "ball-joint", Symbol: "asin |r s|", Unit: "deg",
		Meaning: "How far the rod stands out of square to the ball's stud, which stands square to the plane of motion. At its limit the socket rides on the stud and prises itself off.",
		Formula: "asin(offset of the rod's ends / rod length); fail within 3 deg of the measured limit, caution within 6",
		Source:  "DIN 71802: 18 deg, with safety clip 15; margins: " + check.CommonPractice,
		Change:  "bring both ends of the rod into one plane, or take a ball joint with a larger limit",
		Sense:   check.AtMost,
	}
)

// aim returns the value that passes a rule: its caution, or where it has none
// the limit that fails it.
func (s *Stroke) aim(r check.Rule) float64 {
	limit := s.spec.Limits.Of(r)
	if math.IsNaN(limit.Caution) {
		return limit.Fail
	}
	return limit.Caution
}

// judgeEnd judges the sizes that are given of one end's pin and eye.
func (s *Stroke) judgeEnd(e end, force float64, where string) []check.Finding {
	p := e.pin
	var found []check.Finding
	say := func(r check.Rule, value float64, remedy string) {
		f := r.Judge(value, s.spec.Limits.Of(r), remedy)
		f.Detail = "at the " + e.name + ": " + where
		found = append(found, f)
	}
	atLeast := func(name string, v float64) string { return name + " >= " + check.Number(ceil(v, 1)) + " mm" }
	if p.Diameter <= 0 {
		return nil
	}
	if p.Thickness > 0 {
		stress := force / (p.Diameter * p.Thickness)
		say(ruleBearingStress, stress, atLeast("eye thickness", p.Thickness*stress/s.aim(ruleBearingStress)))
	}
	if p.Width > 0 {
		say(ruleEyeWall, p.Width/p.Diameter, atLeast("eye width", p.Diameter*s.aim(ruleEyeWall)))
	}
	if p.EndDistance > 0 {
		say(ruleEyeEnd, p.EndDistance/p.Diameter, atLeast("end distance", p.Diameter*s.aim(ruleEyeEnd)))
	}
	if p.Thickness <= 0 || p.Strength <= 0 {
		return found
	}
	if p.Width > 0 {
		wall := force / (p.Thickness * p.Strength)
		say(ruleNetSection, wall/(p.Width-p.Diameter), atLeast("eye width", p.Diameter+wall/s.aim(ruleNetSection)))
	}
	if ahead := p.EndDistance - p.Diameter/2; p.EndDistance > 0 {
		wall := force / (2 * p.Thickness * p.Strength)
		say(ruleTearOut, wall/max(ahead, 1e-3), atLeast("end distance", p.Diameter/2+wall/s.aim(ruleTearOut)))
	}
	return found
}

// MisalignmentDeg returns how far the rod stands out of the plane of motion, and
// so out of square to a stud that is square to that plane, in deg: the same
// along the whole stroke.
func (s *Stroke) MisalignmentDeg() float64 {
	return math.Asin(min(math.Abs(s.spec.Offset)/s.spec.Rod, 1)) / deg
}

// judgeBalls judges the misalignment at both ends: a plain pin allows none to
// speak of, so an offset rod on one is a caution.
func (s *Stroke) judgeBalls() []check.Finding {
	var found []check.Finding
	tilt := s.MisalignmentDeg()
	for _, e := range s.ends() {
		r := ruleBall
		r.Limit = check.Limit{Caution: max(e.pin.BallLimit-6, 0), Fail: max(e.pin.BallLimit-3, 0)}
		if e.pin.BallLimit == 0 {
			if s.spec.Offset == 0 {
				continue
			}
			r.Limit = check.Limit{Caution: 0, Fail: check.None}
		}
		limit := s.spec.Limits.Of(r)
		remedy := "offset <= " + check.Number(floor(s.spec.Rod*math.Sin(limit.Caution*deg), 1)) + " mm"
		if e.pin.BallLimit == 0 {
			remedy = "bring both ends of the rod into one plane, or take ball joints"
		}
		f := r.Judge(tilt, limit, remedy)
		f.Detail = "at the " + e.name
		found = append(found, f)
	}
	return found
}
