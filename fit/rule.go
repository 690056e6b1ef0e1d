package fit

import (
	"fmt"

	"pintle/check"
)

// The rules every printed part is judged by.
var (
	RuleUnmeasured = check.Rule{
		Name: "fit-unmeasured", Unit: "mm",
		Meaning: "The printer's errors are first guesses or single readings, so a fit may come out tighter or looser than drawn.",
		Formula: "standard uncertainty of a printed bore, on the diameter",
		Source:  check.CommonPractice, Change: "print the coupon, measure it and use the printer card it gives",
		Sense: check.AtMost, Limit: check.Limit{Caution: 0, Fail: check.None},
	}
	RuleHeat = check.Rule{
		Name: "heat", Unit: "°C",
		Meaning: "The plastic must stay well below the temperature at which it creeps and softens.",
		Formula: "min(service limit, HDT(0.45 MPa) - 10 K) - hottest place; within 5 K is a caution",
		Source:  "limits of printed materials as collected from makers' sheets; the margin is common practice, no source",
		Change:  "choose another material, or shade and ventilate the figure",
		Sense:   check.AtMost,
	}
)

// Rules lists the rules of this package.
func Rules() []check.Rule { return []check.Rule{RuleUnmeasured, RuleMismatch, RuleFromCard, RuleHeat} }

// CheckHeat judges the hottest temperature in °C a part will see against its
// material: at the heat limit it fails, within 5 K of it it is a caution.
func CheckHeat(m Material, part string, hottest float64, limits check.Limits) check.Finding {
	rule := RuleHeat
	// Judge fails above the limit; the limit itself must fail too.
	const atLimit = 1e-9
	rule.Limit = check.Limit{Caution: m.HeatLimit() - 5, Fail: m.HeatLimit() - atLimit}
	remedy := fmt.Sprintf("%s bears %s °C", m.Name, check.Number(m.HeatLimit()))
	for _, other := range Materials() {
		if other.HeatLimit()-5 >= hottest {
			remedy += fmt.Sprintf("; %s bears %s °C", other.Name, check.Number(other.HeatLimit()))
		}
	}
	f := rule.Judge(hottest, limits.Of(rule), remedy)
	f.Part = part
	return f
}
