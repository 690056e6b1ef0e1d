package grille

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
)

// The rules by their place in Rules.
const (
	web = iota
	webDrawn
	openArea
	holeToThickness
	reach
)

// Rules returns the rules a grille is judged by. The limits of the bars depend
// on the bead width and are given in the formulas.
func Rules() []check.Rule {
	return []check.Rule{
		{
			Name: "grille-web", Symbol: "a", Unit: "mm", Sense: check.AtLeast,
			Limit:   check.Limit{Caution: check.None, Fail: check.None},
			Meaning: "The narrowest bar of the print: between two holes, a hole and the edge, or beside a screw hole. Thinner bars snap when the grille is cleaned or poked.",
			Formula: "caution below 2 bead widths + 0.1 mm, fail below 2 bead widths",
			Source:  check.CommonPractice,
			Change:  "a larger pitch, a smaller hole, a wider margin",
		},
		{
			Name: "grille-web-drawn", Unit: "mm", Sense: check.AtLeast,
			Limit:   check.Limit{Caution: check.None, Fail: check.None},
			Meaning: "The narrowest bar as drawn, after the holes were drawn larger for the printer. A bar below one bead may be left out of the print.",
			Formula: "fail below 1 bead width",
			Source:  check.CommonPractice,
			Change:  "a larger pitch or a smaller hole",
		},
		{
			Name: "grille-open-area", Unit: "", Sense: check.AtLeast,
			Limit:   check.Limit{Caution: DefaultOpenTarget, Fail: check.None},
			Meaning: "Open share of the pattern. About 0.4 is accepted for ceiling loudspeakers for speech, 0.5 is a target, 0.6 to 0.65 is wanted before good loudspeakers.",
			Formula: "area of a hole / area of its cell of the pattern",
			Source:  "av-info.eu, perforation for loudspeaker grille; signalessence.com, loudspeaker grills",
			Change:  "a smaller pitch, a larger hole, another pattern",
		},
		{
			Name: "hole-to-thickness", Symbol: "d/t", Unit: "", Sense: check.AtLeast,
			Limit:   check.Limit{Caution: 1, Fail: check.None},
			Meaning: "Width of a hole over the thickness of the plate. Holes that are deeper than wide swallow the high tones; this is only noted.",
			Formula: "hole / thickness",
			Source:  "Rettinger, sound transmission through perforated screens",
			Change:  "a thinner plate or a larger hole",
		},
		{
			Name: "grille-reach", Symbol: "s_r", Unit: "mm", Sense: check.AtLeast,
			Limit:   check.Limit{Caution: check.None, Fail: check.None},
			Meaning: "Distance from the face to what must not be touched, against what a finger reaches through the holes. For persons of 14 years and over; children reach further and need stricter values. It does not replace a risk assessment.",
			Formula: "openings to 4 mm: 2 mm; to 6 mm: 5 mm, slots 10 mm; to 8 mm: 20 mm; to 12 mm: 100 mm",
			Source:  "ISO 13857, openings, by a consultant's summary (secondary); the stricter end of its ranges",
			Change:  "more distance behind the grille, or smaller holes",
		},
	}
}

// Findings returns what the checks say of the grille. grille-reach is judged
// only where a hazard depth was given.
func (g *Grille) Findings() []check.Finding {
	findings := []check.Finding{g.judgeWeb(), g.judgeDrawnWeb(), g.judgeOpenArea(), g.judgeHoleToThickness()}
	if g.spec.HazardDepth > 0 {
		findings = append(findings, g.judgeReach())
	}
	for i := range findings {
		findings[i].Part = g.spec.partName()
	}
	return findings
}

// limited returns a rule with its limits for this spec and those in force.
func (s Spec) limited(rule int, limit check.Limit) (check.Rule, check.Limit) {
	r := Rules()[rule]
	r.Limit = limit
	return r, s.Limits.Of(r)
}

func (s Spec) webLimit() (check.Rule, check.Limit) {
	bead := s.Card.BeadWidth
	return s.limited(web, check.Limit{Caution: settle(2*bead + 0.1), Fail: settle(2 * bead)})
}

func (s Spec) drawnWebLimit() (check.Rule, check.Limit) {
	return s.limited(webDrawn, check.Limit{Caution: check.None, Fail: s.Card.BeadWidth})
}

// soundBar returns the bar in mm that passes the check of the web.
func (s Spec) soundBar() float64 {
	_, limit := s.webLimit()
	return largest(limit)
}

// largest returns the threshold that a passing value must reach, 0 for none.
func largest(l check.Limit) float64 {
	least := 0.0
	for _, v := range []float64{l.Caution, l.Fail} {
		if v > least {
			least = v
		}
	}
	return least
}

// settle rounds a length to a nanometre, so that rounding in the last digit
// decides no check.
func settle(v float64) float64 { return math.Round(v*1e6) / 1e6 }

func (g *Grille) judgeWeb() check.Finding {
	rule, limit := g.spec.webLimit()
	f := rule.Judge(settle(g.printed.least()), limit, g.remedyForWeb())
	f.Detail = fmt.Sprintf("drawn %s mm", check.Number(g.asDrawn.least()))
	return f
}

// remedyForWeb names what widens each kind of bar that is too thin.
func (g *Grille) remedyForWeb() string {
	bar, s := g.spec.soundBar(), g.spec
	var remedies []string
	add := func(thin float64, format string, value float64) {
		if settle(thin) < bar {
			remedies = append(remedies, fmt.Sprintf(format, check.Number(value)))
		}
	}
	if s.Pattern == Slot && s.PitchAlong-s.SlotLength < bar-rounding {
		s.PitchAlong = roundUp(s.SlotLength + bar)
		add(g.printed.holes, "pitch along >= %s mm", s.PitchAlong)
	}
	if pitch := s.soundPitch(); pitch > s.Pitch {
		add(g.printed.holes, "pitch >= %s mm", pitch)
	}
	if s.Margin < bar-rounding { // holes moved by another pitch may come closer to the edge
		add(g.printed.least(), "margin >= %s mm", roundUp(bar))
	}
	if len(g.screws) > 0 {
		clearance := g.screwFit.Wanted
		if s.Outline.Kind == Disc {
			add(g.printed.screwToRim, "screw circle <= %s mm", roundDown(s.Outline.Diameter-clearance-2*bar))
			add(g.printed.screws, "screw circle >= %s mm", roundUp((clearance+bar)/math.Sin(math.Pi/float64(len(g.screws)))))
		} else {
			add(g.printed.screwToRim, "screw inset >= %s mm", roundUp(clearance/2+bar))
			add(g.printed.screws, "fewer screws: %s stand too close", float64(len(g.screws)))
		}
	}
	return strings.Join(remedies, ", ")
}

// soundPitch returns the smallest pitch in mm at which the bars between holes
// pass both checks, rounded up.
func (s Spec) soundPitch() float64 {
	width, length := s.drawn()
	_, drawnLimit := s.drawnWebLimit()
	return roundUp(max(
		s.pitchFor(s.Hole, s.SlotLength, s.soundBar()),
		s.pitchFor(width, length, max(largest(drawnLimit), s.leastDrawnBar())),
	))
}

func (g *Grille) judgeDrawnWeb() check.Finding {
	rule, limit := g.spec.drawnWebLimit()
	remedy := fmt.Sprintf("pitch >= %s mm", check.Number(g.spec.soundPitch()))
	return rule.Judge(settle(g.asDrawn.least()), limit, remedy)
}

func (g *Grille) judgeHoleToThickness() check.Finding {
	rule, limit := g.spec.limited(holeToThickness, Rules()[holeToThickness].Limit)
	remedy := fmt.Sprintf("thickness <= %s mm", check.Number(roundDown(g.spec.Hole/max(largest(limit), 0.01))))
	f := rule.Judge(g.spec.Hole/g.spec.Thickness, limit, remedy)
	if f.Verdict == check.Caution {
		f.Verdict = check.Note
	}
	return f
}
