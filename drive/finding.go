package drive

import (
	"fmt"

	"pintle/check"
)

// Rules returns the checks of a drive.
func Rules() []check.Rule {
	return append(judgedRules(), ruleLostMotion, ruleVoltage, ruleStrike)
}

// judgedRules are those that every drive is judged by, and remedies look at.
func judgedRules() []check.Rule { return []check.Rule{ruleTorque, ruleHeld, ruleTravel, ruleSpeed} }

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

var ruleLostMotion = check.Rule{
	Name: "joint-lost-motion", Unit: "deg",
	Meaning: "How far the joint can be moved by hand while the servo holds still: the play of what stands between, and the servo's own. A step-up multiplies the servo's play and its dead band.",
	Formula: "play between + servo play / ratio; caution above the limit given with the joint, note for a step-up",
	Source:  "geometry; the limit is the builder's", Change: "less backlash, a higher ratio, a servo with less play, or a light spring that takes the play up",
	Sense: check.AtMost, Limit: check.Limit{Caution: check.None, Fail: check.None},
}

var ruleVoltage = check.Rule{
	Name: "servo-voltage", Symbol: "V/V_stated",
	Meaning: "The supply's voltage against the one that the servo's figures are stated for. Torque and speed are scaled with it.",
	Formula: "supply / stated voltage; caution above 1.05: figures for a higher voltage than the leaflet's are a guess, and the servo may not bear it",
	Source:  check.CommonPractice, Change: "use the leaflet's figures for the supply's voltage",
	Sense: check.AtMost, Limit: check.Limit{Caution: 1.05, Fail: check.None},
}

var ruleStrike = check.Rule{
	Name: "strike", Symbol: "E", Unit: "J",
	Meaning: "The energy that a load brings to a blow at the end of its swing. Teeth and servo take their share of it.",
	Formula: "J omega²/2 at the servo's no-load speed",
	Source:  "derived; that it needs a cushion: " + check.CommonPractice, Change: "strike through a rubber or spring stop, and let the arm bounce free of the servo",
	Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
}

// Findings judges the drive by Rules, in their order. A remedy names numbers
// that let the check pass and make no other check of the drive worse.
func (d *Drive) Findings() []check.Finding {
	findings := d.Judge()
	for i, r := range judgedRules() {
		f := &findings[i]
		if f.Verdict == check.Pass {
			continue
		}
		f.Remedy = d.remedy(i)
		if r.Name == ruleTorque.Name {
			f.Detail = fmt.Sprintf("worst at %.1f deg from mid-swing", d.WorstDeg())
		}
	}
	return append(findings, d.Notes()...)
}

// Notes adds what only some drives have to be told: lost motion, a supply below
// the stated voltage, blows.
func (d *Drive) Notes() []check.Finding {
	var all []check.Finding
	if play := d.LostMotionDeg(); play > 0 {
		limit := d.spec.Limits.Of(ruleLostMotion)
		if own := d.spec.LostMotionLimitDeg; own > 0 {
			limit.Caution = own
		}
		f := ruleLostMotion.Judge(play, limit, ruleLostMotion.Change)
		if ratio := d.ratio(); ratio < 1 {
			f.Detail = fmt.Sprintf("the step-up multiplies the servo's play and dead band by %s", check.Number(1/ratio))
			if f.Verdict == check.Pass {
				f.Verdict, f.Remedy = check.Note, ruleLostMotion.Change
			}
		}
		all = append(all, f)
	}
	if share := d.task.voltageShare; share != 1 {
		all = append(all, ruleVoltage.Judge(share, d.spec.Limits.Of(ruleVoltage), ruleVoltage.Change))
	}
	if d.spec.Motion.Strikes {
		values := map[string]any{}
		d.addStrike(values)
		all = append(all, ruleStrike.Say(check.Caution, values["no_load_energy_j"].(float64),
			fmt.Sprintf("%s m/s at the centre of gravity", check.Number(values["no_load_speed_at_centre_of_gravity_m_s"].(float64))), ruleStrike.Change))
	}
	return all
}

// Verdicts returns how torque, held torque, travel and speed fall: the first
// four of Rules.
func (d *Drive) Verdicts() [4]check.Verdict {
	var all [4]check.Verdict
	for i, value := range d.judged() {
		all[i] = d.task.rules[i].Verdict(value, d.task.limits[i])
	}
	return all
}

func (d *Drive) judged() [4]float64 {
	return [4]float64{d.PeakShare(), d.HeldShare(), d.SpareTravelDeg(), d.SpeedShare()}
}

// WorstDeg returns where the servo's torque peaks, in deg from mid-swing.
func (d *Drive) WorstDeg() float64 { return d.demand.worstDeg }

// Judge is the first findings of Findings, on torque, held torque, travel and
// speed, without details and remedies: for those who try many drives.
func (d *Drive) Judge() []check.Finding {
	values := d.judged()
	findings := make([]check.Finding, len(values))
	for i, r := range judgedRules() {
		findings[i] = r.Judge(values[i], d.task.limits[i], "")
	}
	return findings
}
