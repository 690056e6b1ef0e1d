package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

// staticLimit returns the least static safety for ball and roller bearings, by
// how the load comes on: the column of normal quietness, failing at that of
// bearings that do not turn (a maker's guideline table, read at
// bearing-centre.com; testdata/ref/bearing-capacity.json).
func staticLimit(kind Kind, running string) check.Limit {
	ball, roller := check.Limit{Caution: 1, Fail: 0.5}, check.Limit{Caution: 1.5, Fail: 1}
	switch running {
	case Smooth:
		ball.Fail, roller.Fail = 0.4, 0.8
	case Shock:
		ball, roller = check.Limit{Caution: 1.5, Fail: 1}, check.Limit{Caution: 3, Fail: 2}
	}
	if kind == Tapered {
		return roller
	}
	return ball
}

func rating(b Bearing, l Load, limits check.Limits) []check.Finding {
	const seat = "the printed seat, not the bearing, is the limit"
	load := b.StaticLoad(l)
	switch {
	case load == 0:
		return nil
	case b.C0 == 0:
		return []check.Finding{staticRule.Say(check.Note, 0, "no rating in the table for this bearing; at the load of a figure "+seat, "ask the bearing's maker if the load exceeds some hundred newtons")}
	}
	rule := staticRule
	rule.Limit = staticLimit(b.Kind, l.Running)
	limit := limits.Of(rule)
	f := rule.Judge(b.C0*1000/load, limit, fmt.Sprintf("a bearing with C_0 >= %s kN", ceil(strict(check.AtLeast, limit)*load/1000, 0.01)))
	f.Detail = fmt.Sprintf("P_0 = %s N of C_0 = %s kN", check.Number(math.Round(load*10)/10), check.Number(b.C0))
	if f.Value >= 10 {
		f.Detail += ": " + seat
	}
	found := append([]check.Finding{f}, life(b, l)...)
	if b.Kind == DeepGroove || b.Kind == Unknown {
		rule := shareRule
		if b.Bore <= 12 {
			rule.Limit.Caution = 0.25
		}
		limit := limits.Of(rule)
		share := math.Abs(l.Axial) / 1000 / b.C0
		found = append(found, rule.Judge(share, limit, fmt.Sprintf("a bearing with C_0 >= %s kN", ceil(math.Abs(l.Axial)/1000/strict(check.AtMost, limit), 0.01))))
	}
	return found
}

// slow is the speed in turns per minute below which static safety alone counts
// (a maker's glossary).
const slow = 10.0

// RatingLife returns L10 in million turns for a dynamic rating and an equivalent
// load in one unit: (C / P)^3 for balls, (C / P)^(10/3) for rollers. Both must be
// greater than 0.
func RatingLife(kind Kind, c, p float64) float64 {
	if kind == Tapered {
		return math.Pow(c/p, 10.0/3)
	}
	return math.Pow(c/p, 3)
}

// DynamicLoad returns P in N, the equivalent dynamic load, for an axial and a
// radial load in N. Tapered: F_r, or 0.4 F_r + Y F_a where F_a / F_r > e. Ball:
// the larger of F_r and 0.56 F_r + 2.3 F_a, with the largest Y that makers give
// (from memory). Thrust ball: F_a.
func (b Bearing) DynamicLoad(axial, radial float64) float64 {
	axial = math.Abs(axial)
	switch {
	case b.Kind == ThrustBall:
		return axial
	case b.Kind != Tapered:
		return max(radial, 0.56*radial+2.3*axial)
	case axial <= orElse(b.E, 0.83)*radial: // 0.83: the largest e of the table
		return radial
	}
	return 0.4*radial + b.AxialFactor()*axial
}

// life says how long the bearing itself would run, where it turns fast enough for
// that to count.
func life(b Bearing, l Load) []check.Finding {
	axial := math.Abs(l.Axial)
	if l.Alone {
		axial += 4 * l.Moment * 1000 / b.MeanDiameter()
	}
	p := b.DynamicLoad(axial, l.Radial)
	if l.RPM <= slow || b.C == 0 || p == 0 {
		return nil
	}
	hours := RatingLife(b.Kind, b.C*1000, p) * 1e6 / (60 * l.RPM)
	return []check.Finding{lifeRule.Say(check.Note, hours, fmt.Sprintf("P = %s N of C = %s kN at %s turns per minute", check.Number(math.Round(p*10)/10), check.Number(b.C), check.Number(l.RPM)), "")}
}
