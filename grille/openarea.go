package grille

import (
	"fmt"
	"math"

	"pintle/check"
)

func (g *Grille) judgeOpenArea() check.Finding {
	rule, limit := g.spec.limited(openArea, check.Limit{Caution: g.spec.OpenTarget, Fail: check.None})
	f := rule.Judge(settle(g.OpenArea()), limit, g.spec.opener(largest(limit)))
	f.Detail = fmt.Sprintf("%d whole holes: %.1f %% open inside the rim, %.1f %% of the face",
		len(g.holes), 100*g.OpenAreaInside(), 100*g.OpenAreaOfFace())
	return f
}

// opener says how to reach the open share: by a smaller pitch where the bars
// stay sound, else by larger holes with the thinnest sound bars.
func (s Spec) opener(target float64) string {
	if pitch := roundDown(s.pitchOpening(target)); pitch >= s.soundPitch() {
		return fmt.Sprintf("pitch <= %s mm", check.Number(pitch))
	}
	if wider, ok := s.holeOpening(target); ok {
		return fmt.Sprintf("hole >= %s mm with pitch %s mm", check.Number(wider.Hole), check.Number(wider.Pitch))
	}
	return "another pattern, longer slots, or a lower target: no hole of this pattern opens as much with sound bars"
}

// pitchOpening returns the largest pitch in mm at which the pattern still has
// the open share.
func (s Spec) pitchOpening(target float64) float64 {
	area := shapeOf(s.Pattern, s.Hole, s.SlotLength).area
	switch {
	case s.Pattern != Slot:
		return math.Sqrt(area / (target * latticeOf(s.Pattern, 1, 0).share()))
	case s.PitchAlong == s.barsAlike(s.Pitch): // target p (p + l - w) = area
		reach := s.SlotLength - s.Hole
		return (math.Sqrt(reach*reach+4*area/target) - reach) / 2
	}
	return 2 * area / (target * s.PitchAlong)
}

// holeOpening returns the spec with the smallest larger hole, in steps of 0.01
// mm, that reaches the open share with the thinnest sound bars; false where none
// does that goes into the rim.
func (s Spec) holeOpening(target float64) (Spec, bool) {
	e := s.Outline.edge()
	widest := min(e.x, e.y) - s.Margin
	if s.Pattern == Slot {
		widest = min(widest, s.SlotLength/1.05)
	}
	alike := s.Pattern == Slot && s.PitchAlong == s.barsAlike(s.Pitch)
	with := func(hole float64) Spec {
		wider := s
		wider.Hole = hole
		if alike {
			wider.PitchAlong = wider.barsAlike(wider.Pitch)
		}
		wider.Pitch = wider.soundPitch()
		if alike {
			wider.PitchAlong = wider.barsAlike(wider.Pitch)
		}
		return wider
	}
	opens := func(w Spec) bool {
		return shapeOf(w.Pattern, w.Hole, w.SlotLength).area/latticeOf(w.Pattern, w.Pitch, w.PitchAlong).share() >= target
	}
	low, high := int(s.Hole*100), int(widest*100) // hundredths of a millimetre
	if high <= low || !opens(with(float64(high)/100)) {
		return Spec{}, false
	}
	for high-low > 1 {
		middle := (low + high) / 2
		if opens(with(float64(middle) / 100)) {
			high = middle
		} else {
			low = middle
		}
	}
	return with(float64(high) / 100), true
}
