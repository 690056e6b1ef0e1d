package grille

import (
	"fmt"
	"math"

	"pintle/check"
)

// A reachRow says how far a person of 14 years or over reaches through an
// opening up to a width, in mm.
type reachRow struct{ opening, hole, slot float64 }

// reachTable holds the rows of ISO 13857 as a consultant's summary gives them
// (secondary). For 8 and 12 mm the summary has ranges, 5 to 20 and 80 to 100
// mm: the stricter end stands here for all shapes.
func reachTable() []reachRow {
	return []reachRow{{4, 2, 2}, {6, 5, 10}, {8, 20, 20}, {12, 100, 100}}
}

// distance returns the distance in mm that the row asks for.
func (r reachRow) distance(pattern string) float64 {
	if pattern == Slot {
		return r.slot
	}
	return r.hole
}

// opening returns the width in mm by which a hole is judged: a hexagon by the
// circle around it, which is on the safe side.
func (s Spec) opening() float64 {
	if s.Pattern == Hexagon {
		return s.Hole * 2 / math.Sqrt(3)
	}
	return s.Hole
}

func (g *Grille) judgeReach() check.Finding {
	s := g.spec
	required, known := 0.0, false
	safe := 0.0 // widest opening for the distance there is
	for _, row := range reachTable() {
		if !known && s.opening() <= row.opening+rounding {
			required, known = row.distance(s.Pattern), true
		}
		if row.distance(s.Pattern) <= s.HazardDepth {
			safe = row.opening
		}
	}
	narrower := ""
	if safe > 0 {
		narrower = fmt.Sprintf("hole <= %s mm", check.Number(roundDown(safe*s.Hole/s.opening())))
	}
	detail := fmt.Sprintf("openings of %s mm, persons of 14 and over; children reach further: check stricter values for them", check.Number(s.opening()))
	rule, limit := s.limited(reach, check.Limit{Caution: check.None, Fail: required})
	if !known {
		if narrower == "" {
			narrower = "hole <= 4 mm and hazard depth >= 2 mm"
		}
		return rule.Say(check.Fail, s.HazardDepth, detail+"; no value is known for openings wider than 12 mm", narrower)
	}
	remedy := fmt.Sprintf("hazard depth >= %s mm", check.Number(required))
	if narrower != "" {
		remedy += ", or " + narrower
	}
	f := rule.Judge(s.HazardDepth, limit, remedy)
	f.Detail = detail
	return f
}
