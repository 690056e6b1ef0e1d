package drive

import (
	"fmt"

	"pintle/check"
)

// Rules returns the checks of a drive.
func Rules() []check.Rule {
	return []check.Rule{ruleTorque, ruleHeld, ruleTravel, ruleSpeed}
}

var ruleTorque = check.Rule{
	Name: "servo-torque", Symbol: "T_peak/T_stall",
	Meaning: "The highest torque the servo meets, as a share of its stall torque. Stall is where it stops and overheats; it is no working torque.",
	Formula: "T_peak = max(|J alpha + m g r cos phi| + friction + extra) / (ratio x efficiency)",
	Source:  check.CommonPractice,
	Change:  "raise the ratio, lengthen the time, balance the load, or take a stronger servo",
	Sense:   check.AtMost, Limit: check.Limit{Caution: 0.4, Fail: 0.5},
}

var ruleHeld = check.Rule{
	Name: "servo-held-torque", Symbol: "T_held/T_stall",
	Meaning: "The torque the servo bears for long, as a share of its stall torque: the larger of what it holds between swings and the root mean square over a swing.",
	Formula: "T_held = max(m g r cos phi + extra) / (ratio x efficiency); T_rms = sqrt(mean T²)",
	Source:  check.CommonPractice,
	Change:  "raise the ratio, balance the load, or let the joint rest on a stop with the power off",
	Sense:   check.AtMost, Limit: check.Limit{Caution: 0.25, Fail: 0.33},
}

var ruleTravel = check.Rule{
	Name: "servo-travel", Unit: "deg",
	Meaning: "The servo's travel left free at each end, with an even ratio the swing lies in the middle of it. A servo driven against its end stop stalls.",
	Formula: "least of the two: travel's end - servo angle at the swing's end; (travel - ratio x swing) / 2 with an even ratio",
	Source:  check.CommonPractice,
	Change:  "shorten the swing, lower the ratio, or take a servo with more travel",
	Sense:   check.AtLeast, Limit: check.Limit{Caution: 5, Fail: 0},
}

var ruleSpeed = check.Rule{
	Name: "servo-speed", Symbol: "omega/omega_T",
	Meaning: "The servo speed that the motion needs, as a share of what the servo gives under the torque of that moment.",
	Formula: "max(ratio x omega_joint / (omega0 (1 - T/T_stall)))",
	Source:  "straight line of a direct-current motor (derived); caution at 0.8: " + check.CommonPractice,
	Change:  "lengthen the time, shorten the swing, or lower the ratio",
	Sense:   check.AtMost, Limit: check.Limit{Caution: 0.8, Fail: 1},
}

// Findings judges the drive by Rules, in their order. A remedy names numbers
// that let the check pass and make no other check of the drive worse.
func (d *Drive) Findings() []check.Finding {
	findings := d.judge()
	for i, r := range Rules() {
		f := &findings[i]
		if f.Verdict == check.Pass {
			continue
		}
		f.Remedy = d.remedy(i)
		if r.Name == ruleTorque.Name {
			f.Detail = fmt.Sprintf("worst at %.1f deg from mid-swing", d.demand.worstDeg)
		}
	}
	return findings
}

func (d *Drive) judge() []check.Finding {
	values := []float64{d.PeakShare(), d.HeldShare(), d.SpareTravelDeg(), d.SpeedShare()}
	findings := make([]check.Finding, len(values))
	for i, r := range Rules() {
		findings[i] = r.Judge(values[i], d.spec.Limits.Of(r), "")
	}
	return findings
}
