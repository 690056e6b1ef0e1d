package joint

import (
	"fmt"
	"math"

	"pintle/check"
)

var ruleStartUp = check.Rule{
	Name: "start-up-jump", Symbol: "phi", Unit: "deg",
	Meaning: "How far the joint jumps when its servo is switched on and gets its first pulse, at the servo's full speed.",
	Formula: "from where it rests with the power off to mid-swing; half of the swing where the rest is not said",
	Source:  "geometry", Change: "say where it rests: rest = DEG in its motion, 0 at mid-swing; send the pulse of that posture first",
	Sense: check.Informs,
}

// startUp says how far a joint jumps at switch-on.
func (b *builder) startUp(u servoUse, s Servo, motion string, ratio float64) check.Finding {
	m := b.file.Motions[motion]
	jump, from := m.Swing/2, "where it lies with the power off is not said: from an end of its swing"
	remedy := ruleStartUp.Change
	if b.file.Has("motion." + motion + ".rest") {
		jump, from = math.Abs(m.Rest), fmt.Sprintf("it lies at %s deg with the power off", check.Number(m.Rest))
		pulse, ok := s.measured().Pulse(u.angleDeg[1] + m.Rest*ratio)
		remedy = fmt.Sprintf("send %.0f µs first, the pulse of that posture, and move on from there slowly", pulse)
		if !ok {
			remedy = "no pulse of the servo is measured for that posture: support it at its low end, or let it lie within the swing"
		}
	}
	if jump <= 5 { // as much as a servo keeps free at an end (common practice, no source)
		return ruleStartUp.Say(check.Pass, jump, from, "")
	}
	speed := s.SpeedDeg / ratio
	return ruleStartUp.Say(check.Note, jump, fmt.Sprintf("%s it jumps to mid-swing at up to %s deg/s: it is there in %.2f s", from, check.Number(math.Round(speed)), jump/speed), remedy)
}
