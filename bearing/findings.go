package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

// Friction and relaxation of a steel ring in plastic (common practice, no source).
const (
	frictionLow  = 0.15 // for holding
	frictionHigh = 0.3  // for pressing in
	creepFactor  = 0.3  // share of the pressure left for good: 0.3 to 0.5
)

// rimToPush is the width in mm of a ring's face that a rod can push on (common
// practice, no source).
const rimToPush = 0.4

// retention returns the force in N that holds the fresh fit.
func (h *Housing) retention() float64 { return h.press.AxialForce * frictionLow }

// insertionForce returns the force in N to press the ring in if the seat comes
// out smaller by its standard uncertainty.
func (h *Housing) insertionForce() float64 {
	if h.delta <= 0 {
		return 0
	}
	return h.press.AxialForce * frictionHigh * (h.delta + h.seat.Sigma) / h.delta
}

// Findings returns every check of the ring itself. What the load does to the
// bearing is CheckLoad's.
func (h *Housing) Findings() []check.Finding {
	var all []check.Finding
	if h.spec.Fit == Press {
		all = append(all, h.strain(), h.stress(), h.insertion(), h.scatter(), h.left())
	}
	all = append(all, h.retained(), h.wallThickness(), h.support(), h.clearance(), h.shoulder(), h.lead(), h.depth(), h.removal())
	if h.spec.Flange != nil {
		edge := (h.FlangeDiameter() - h.BoltCircle()) / 2 / h.spec.Flange.Screw.Diameter
		all = append(all, h.judge(edgeRule, edge, edgeRule.Limit, func(check.Limit) string { return "a smaller screw" }))
	}
	all = append(all, h.provenance()...)
	for i := range all {
		all[i].Part = h.partName()
	}
	return all
}

// judge compares with the rule's limit, computed here and open to the user's own.
// Both are rounded to 1e-9, so that a value drawn at its limit passes.
func (h *Housing) judge(rule check.Rule, value float64, limit check.Limit, remedy func(check.Limit) string) check.Finding {
	rule.Limit = check.Limit{Caution: round(limit.Caution), Fail: round(limit.Fail)}
	own := h.spec.Limits.Of(rule)
	return rule.Judge(round(value), own, remedy(own))
}

func round(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// strict returns the threshold that passes both: the smaller or the larger of
// the two, whichever the rule's sense makes the harder one.
func strict(sense check.Sense, l check.Limit) float64 {
	switch {
	case math.IsNaN(l.Caution):
		return l.Fail
	case math.IsNaN(l.Fail):
		return l.Caution
	case sense == check.AtMost:
		return math.Min(l.Caution, l.Fail)
	}
	return math.Max(l.Caution, l.Fail)
}

func (h *Housing) strain() check.Finding {
	most := 100 * h.spec.Material.StrainLimit
	f := h.judge(strainRule, 100*h.delta/h.spec.Bearing.Outside, check.Limit{Caution: 0.7 * most, Fail: most}, func(l check.Limit) string {
		return fmt.Sprintf("interference <= %s mm", floor(strict(check.AtMost, l)/100*h.spec.Bearing.Outside, 0.001))
	})
	f.Detail = fmt.Sprintf("%s mm on %s mm in %s", check.Number(h.delta), check.Number(h.spec.Bearing.Outside), h.spec.Material.Name)
	return f
}

func (h *Housing) stress() check.Finding {
	sigma := h.press.HubHoopBore
	return h.judge(stressRule, sigma, check.Limit{Caution: check.None, Fail: h.spec.Material.Strength / 2}, func(l check.Limit) string {
		return fmt.Sprintf("interference <= %s mm", floor(h.delta*strict(check.AtMost, l)/sigma, 0.001))
	})
}

func (h *Housing) insertion() check.Finding {
	force := h.insertionForce()
	f := h.judge(insertionRule, force, insertionRule.Limit, func(l check.Limit) string {
		// Less interference needs less lead-in, so up to the whole depth grips.
		perMM := force / (h.delta + h.seat.Sigma) * h.seatDepth / (h.seatDepth - h.leadHeight)
		return fmt.Sprintf("interference <= %s mm, or warm the ring", floor(strict(check.AtMost, l)/perMM-h.seat.Sigma, 0.001))
	})
	f.Detail = "press on the outer ring only, with a disc of its size"
	return f
}

func (h *Housing) scatter() check.Finding {
	return h.judge(scatterRule, h.delta, check.Limit{Caution: h.seat.Sigma, Fail: check.None}, func(l check.Limit) string {
		least, most := strict(check.AtLeast, l), 0.7*h.spec.Material.StrainLimit*h.spec.Bearing.Outside
		if least > most {
			return "a slip fit with a cap: an interference above the printer's scatter would strain the plastic too far; or measure the printer with the coupon"
		}
		return fmt.Sprintf("interference >= %s mm, or measure the printer with the coupon", ceil(least, 0.001))
	})
}

func (h *Housing) left() check.Finding {
	m, diameter := h.spec.Material, h.spec.Bearing.Outside
	heat := 0.0
	if h.spec.HottestC != 0 {
		heat = max(0, (m.Expansion-steelExpansion)*(h.spec.HottestC-20)*diameter)
	}
	wet := m.Moisture * diameter
	f := h.judge(leftRule, h.delta-heat-wet, leftRule.Limit, func(l check.Limit) string {
		need := strict(check.AtLeast, l) + heat + wet
		if need > 0.7*m.StrainLimit*diameter {
			return "hold the bearing by a cap or by a load that presses into the seat, or take a material that grows less"
		}
		return fmt.Sprintf("interference >= %s mm, or a cap", ceil(need, 0.001))
	})
	f.Detail = fmt.Sprintf("heat takes %s mm, moisture %s mm", check.Number(heat), check.Number(wet))
	if f.Verdict == check.Caution && h.spec.Load.Axial < 0 {
		f.Verdict = check.Fail
	}
	return f
}

func (h *Housing) retained() check.Finding {
	const hold = "hold it by a lip, a screwed cap or a load that presses into the seat"
	value := h.retention() * creepFactor
	pull := -h.spec.Load.Axial
	switch {
	case pull < 0:
		return retentionRule.Say(check.Pass, value, "the load presses into the seat", "")
	case pull == 0:
		f := retentionRule.Say(check.Caution, value, "no load is known to press into the seat; a press fit in plastic alone is not a retention", hold)
		if h.spec.Fit == Slip {
			f.Detail = "no load is known to press into the seat; a slip fit holds nothing"
		}
		return f
	}
	own := h.spec.Limits.Of(retentionRule)
	limit := check.Limit{Caution: own.Caution * pull, Fail: own.Fail * pull}
	return retentionRule.Judge(value, limit, hold)
}

func (h *Housing) wallThickness() check.Finding {
	limit := check.Limit{Caution: h.spec.wallWanted(), Fail: 2 * h.spec.Card.BeadWidth}
	return h.judge(wallRule, h.wall, limit, func(l check.Limit) string {
		return fmt.Sprintf("wall >= %s mm", ceil(h.spec.wholeBeads(strict(check.AtLeast, l)), 0.001))
	})
}

func (h *Housing) holeRemedy() string {
	lo, hi := HousingShoulder(h.spec.Bearing)
	return fmt.Sprintf("shoulder hole from %s to %s mm", ceil(lo, 0.001), floor(hi, 0.001))
}

func (h *Housing) support() check.Finding {
	_, hi := HousingShoulder(h.spec.Bearing)
	f := h.judge(supportRule, h.hole.Wanted, check.Limit{Caution: check.None, Fail: hi}, func(check.Limit) string { return h.holeRemedy() })
	f.Detail = h.limitsFrom()
	return f
}

func (h *Housing) clearance() check.Finding {
	lo, _ := HousingShoulder(h.spec.Bearing)
	f := h.judge(clearanceRule, h.hole.Wanted, check.Limit{Caution: check.None, Fail: lo}, func(check.Limit) string { return h.holeRemedy() })
	f.Detail = h.limitsFrom()
	return f
}

// limitsFrom says where the shoulder's limits come from.
func (h *Housing) limitsFrom() string {
	switch b := h.spec.Bearing; {
	case b.Abutment.DaHousingMax > 0:
		return "limits from a maker's table"
	case b.Kind == Tapered:
		return "no limits in the table for this bearing: D - 2h and 0.5 mm less; turn it by hand before you print more"
	case b.Kind == ThrustBall:
		return "limits from memory: measure both washers; the housing washer has the larger bore"
	}
	return "inner-ring land unknown: (2d + D) / 3"
}

func (h *Housing) shoulder() check.Finding {
	return h.judge(shoulderRule, h.spec.ShoulderThickness, shoulderRule.Limit, func(l check.Limit) string {
		return fmt.Sprintf("shoulder thickness >= %s mm", ceil(strict(check.AtLeast, l), 0.1))
	})
}

func (h *Housing) lead() check.Finding {
	return h.judge(leadInRule, h.leadWidth, check.Limit{Caution: h.leadWanted(), Fail: check.None}, func(l check.Limit) string {
		return fmt.Sprintf("wall >= %s mm", ceil(h.spec.wholeBeads(2*strict(check.AtLeast, l)), 0.001))
	})
}

func (h *Housing) depth() check.Finding {
	b := h.spec.Bearing
	f := h.judge(depthRule, h.seatDepth, check.Limit{Caution: check.None, Fail: 0.8 * b.SeatWidth()}, func(check.Limit) string { return "a deeper seat" })
	switch {
	case b.Kind == Tapered:
		f.Detail = "depth of the cup; the cone stands out by the rest of the overall width"
	case b.Kind == ThrustBall && b.CupWidth == 0:
		f.Verdict, f.Remedy = check.Caution, "measure the housing washer alone and give it as cup width"
		f.Detail = "the washer's thickness is taken as a quarter of the height"
	}
	return f
}

func (h *Housing) removal() check.Finding {
	b := h.spec.Bearing
	rim := (h.hole.Wanted - b.backFaceInner()) / 2
	if b.Kind == Tapered && b.E == 0 {
		return removalRule.Say(check.Note, 0, "the inner diameter of the cup's back face is not known", "look through the shoulder hole whether a rim of the cup shows before you press it in")
	}
	if rim >= rimToPush {
		return removalRule.Say(check.Pass, rim, "the ring's face shows through the shoulder hole and can be pushed out evenly", "")
	}
	return removalRule.Say(check.Note, max(rim, 0), "no rim shows through the shoulder hole", "the ring comes out only by heat or by breaking the housing: seat it once, or choose a larger shoulder hole within its limits")
}

// provenance returns what is guessed of the bearing.
func (h *Housing) provenance() []check.Finding {
	found := []check.Finding{formRule.Say(check.Note, 0, "a printed seat promises no running accuracy", "")}
	b := h.spec.Bearing
	switch {
	case b.Measured:
	case b.Provenance == Memory:
		found = append(found, sourceRule.Say(check.Caution, b.Outside, "the sizes of "+b.Designation+" are recalled, not from a printed source", "measure the bearing and give its sizes"))
	case b.Bore < 5:
		found = append(found, sourceRule.Say(check.Caution, b.Outside, "below 5 mm bore shielded bearings are wider than open ones", "measure the width"))
	}
	return found
}
