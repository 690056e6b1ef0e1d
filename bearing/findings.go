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

// retention returns the force in N that holds the fresh fit at its least
// interference, or a clamp at a hand-tight screw.
func (h *Housing) retention() float64 {
	if h.spec.Clamp != nil {
		return h.clampHold()
	}
	if h.deltaMax <= 0 {
		return 0
	}
	return h.press.AxialForce * frictionLow * max(h.delta, 0) / h.deltaMax
}

// leastRetention is retention where the seat comes out larger by its standard
// uncertainty; a machined seat already counts at its loose limit, and ribs crush
// by more than that.
func (h *Housing) leastRetention() float64 {
	if h.delta <= 0 || h.spec.machined() || h.spec.Fit == CrushRibs {
		return h.retention()
	}
	return h.retention() * max(h.delta-h.seat.Sigma, 0) / h.delta
}

// insertionForce returns the force in N to press the ring in if the seat comes
// out smaller by its standard uncertainty, or at the tight end of its class.
func (h *Housing) insertionForce() float64 {
	switch {
	case h.deltaMax <= 0:
		return 0
	case h.spec.Fit == CrushRibs: // ribs that yield press no harder
		return h.press.AxialForce * frictionHigh
	}
	return h.press.AxialForce * frictionHigh * (h.deltaMax + h.seat.Sigma) / h.deltaMax
}

// heldStrain returns the strain round the seat, a share: delta / D, since a steel
// ring hardly gives; with ribs what their pressure makes of the wall.
func (h *Housing) heldStrain() float64 {
	if h.spec.Fit == CrushRibs {
		return h.press.HubHoopBore / h.spec.Material.Modulus
	}
	return max(h.deltaMax, 0) / h.spec.Bearing.Outside
}

// Findings returns every check of the ring itself and of the parts that go with
// it. What the load does to the bearing is CheckLoad's.
func (h *Housing) Findings() []check.Finding {
	var all []check.Finding
	if h.deltaMax > 0 {
		all = append(all, h.strain(), h.stress(), h.insertion(), h.clearanceLost())
	}
	if h.spec.grips() {
		all = append(all, h.scatter(), h.left(), h.smoothed())
	}
	if h.spec.Fit == CrushRibs {
		all = append(all, h.crushed())
	}
	all = append(all, h.retained(), h.wallThickness(), h.support(), h.clearance(), h.shoulder(), h.lead(), h.depth(), h.corner(), h.removal())
	all = append(all, h.knockOutFindings()...)
	all = append(all, h.lipFindings()...)
	all = append(all, h.capFindings()...)
	all = append(all, h.clampFindings()...)
	all = append(all, h.cold()...)
	all = append(all, h.ringCreep()...)
	all = append(all, h.washers()...)
	if s, _, _, ok := h.mount(); ok {
		_, room := h.screwRoom()
		all = append(all, h.judge(edgeRule, room/s.Diameter, edgeRule.Limit, func(check.Limit) string { return "a smaller screw" }))
	}
	all = append(all, h.rod.Findings...)
	all = append(all, h.provenance()...)
	all = append(all, h.seatReadings()...)
	for i := range all {
		if all[i].Part == "" {
			all[i].Part = h.partName()
		}
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

// rim returns the width in mm of the ring's face that shows through the shoulder
// hole; negative where it stays hidden.
func (h *Housing) rim() float64 { return (h.hole.Wanted - h.spec.Bearing.backFaceInner()) / 2 }

func (h *Housing) removal() check.Finding {
	b := h.spec.Bearing
	rim := h.rim()
	reach, _ := h.reachOverFace()
	switch {
	case reach >= rimToPush:
		return removalRule.Say(check.Pass, reach, "the knock-out openings show the ring's face: push through them in turn, a little at a time", "")
	case b.Kind == Tapered && b.E == 0:
		return removalRule.Say(check.Note, 0, "the inner diameter of the cup's back face is not known", "look through the shoulder hole whether a rim of the cup shows before you press it in")
	case rim >= rimToPush:
		return removalRule.Say(check.Pass, rim, "the ring's face shows through the shoulder hole and can be pushed out evenly", "")
	}
	const stuck = "the ring comes out only by heat or by breaking the housing: add knock-out slots, or choose a larger shoulder hole within its limits"
	verdict := check.Note
	if h.deltaMax > 0 {
		verdict = check.Caution
	}
	return removalRule.Say(verdict, max(rim, 0), "no rim shows through the shoulder hole", stuck)
}

func (h *Housing) knockOutFindings() []check.Finding {
	if h.knockOuts() == 0 {
		return nil
	}
	reach, most := h.reachOverFace()
	return []check.Finding{h.judge(knockOutRule, reach, check.Limit{Caution: math.Min(knockOutReach, most), Fail: check.None}, func(check.Limit) string {
		return "a fit with less interference, or push on the rim of a larger shoulder hole"
	})}
}

// washers checks that the washer with the larger bore is the one in the housing.
func (h *Housing) washers() []check.Finding {
	b := h.spec.Bearing
	if b.Kind != ThrustBall {
		return nil
	}
	if b.WasherBore == 0 {
		return []check.Finding{washerRule.Say(check.Caution, 0, "the bore of the housing washer is not known", "measure both washers: the one with the larger bore goes into the housing")}
	}
	f := h.judge(washerRule, b.WasherBore-b.Bore, washerRule.Limit, func(check.Limit) string {
		return "swap the washers: the one with the larger bore goes into the housing, the other turns with the shaft"
	})
	if f.Verdict == check.Pass && !b.BoreMeasured {
		f.Verdict, f.Detail, f.Remedy = check.Note, "the bore of the shaft washer is the table's", "measure both washers: give the bore of the other as well"
	}
	return []check.Finding{f}
}

// provenance returns what is guessed of the bearing.
func (h *Housing) provenance() []check.Finding {
	found := h.classified()
	found = append(found, formRule.Say(check.Note, 0, "a printed seat promises no running accuracy", ""))
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

// classified says what a seat of a tolerance class asks of its maker.
func (h *Housing) classified() []check.Finding {
	if !h.spec.machined() {
		return nil
	}
	d, _, _ := ToleranceClass(h.spec.Fit, h.spec.Bearing.Outside) // passed validation
	return []check.Finding{classRule.Say(check.Note, -1000*h.deltaMax, fmt.Sprintf(
		"seat %s mm %s: %+g to %+g µm; with a bearing of normal class %s to %s; printing cannot hold it", check.Number(h.spec.Bearing.Outside), h.spec.Fit,
		d.Lower, d.Upper, play(-1000*h.deltaMax), play(-1000*h.delta)), "ream, bore or turn the seat: the ring is drawn at its nominal size")}
}

// play names clearance and interference in µm.
func play(um float64) string {
	if um < 0 {
		return check.Number(-um) + " µm interference"
	}
	return check.Number(um) + " µm clearance"
}
