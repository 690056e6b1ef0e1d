package joint

import (
	"fmt"
	"slices"

	"pintle/check"
	"pintle/export"
	"pintle/geom"
)

// passageFormula says how every clearance of an arrangement is found.
const passageFormula = "least distance of the printed outlines and of what is bought, layer by layer, at every place of the swing: found to a fiftieth of itself or 0.02 mm; overlaps in mm by which one must be raised"

var (
	ruleOverlap = check.Rule{
		Name: "moving-overlap", Unit: "mm",
		Meaning: "Two bodies that move against each other take up the same space at some place of the swing.",
		Formula: passageFormula,
		Source:  "geometry", Change: "raise one of the two, make it smaller, or move the servo",
		Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
	}
	ruleMoving = check.Rule{
		Name: "moving-clearance", Unit: "mm",
		Meaning: "The least distance that two bodies keep that move against each other.",
		Formula: passageFormula,
		Source:  check.CommonPractice, Change: "raise one of the two, make it smaller, or move the servo",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 1, Fail: 0.5},
	}
	ruleStanding = check.Rule{
		Name: "standing-clearance", Unit: "mm",
		Meaning: "The least distance of bodies that do not move against each other and are not made to touch, such as the servo and the ring's flange.",
		Formula: passageFormula,
		Source:  check.CommonPractice, Change: "turn the servo (servo_turn), choose a thinner wall or smaller screws, or a larger centre distance",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 0.5, Fail: 0.2},
	}
)

// rule returns the rule that judges a passage, and false where the two are made
// to come close and do not overlap.
func (p passage) rule() (check.Rule, bool) {
	switch {
	case p.moving && p.width <= 0:
		return ruleOverlap, true
	case meets(p.a.close, p.b.close):
		return check.Rule{}, false
	case p.moving:
		return ruleMoving, true
	}
	return ruleStanding, true
}

// checkArrangements judges how near the bodies of each joint come to each other,
// and reports it.
func (b *builder) checkArrangements() {
	parts := b.drawnParts()
	for _, a := range b.arrangements {
		passages := a.passages(parts)
		b.find(a.design, a.judge(passages, b.file.Limits)...)
		b.find(a.design, a.crushing(parts, b.file.Limits)...)
		for _, p := range passages {
			b.report.Clearances = append(b.report.Clearances, p.entry(a))
		}
	}
}

// drawnParts returns the printed parts by name.
func (b *builder) drawnParts() map[string]geom.Part {
	parts := map[string]geom.Part{}
	for _, body := range b.bodies {
		parts[body.part.Name()] = body.part
	}
	return parts
}

// judge returns a finding for the nearest two bodies that move against each
// other, one for the nearest of the others, and one for every further two that
// do not pass. Passages come with the nearest first.
func (a *arrangement) judge(passages []passage, limits check.Limits) []check.Finding {
	var findings []check.Finding
	told := map[bool]bool{}
	for _, p := range passages {
		rule, ok := p.rule()
		if !ok {
			continue
		}
		f := rule.Judge(p.width, limits.Of(rule), "")
		if p.width <= 0 { // they touch, whatever limit the file sets
			f.Verdict = check.Fail
		}
		if f.Verdict == check.Pass && told[p.moving] {
			continue
		}
		told[p.moving] = true
		f.Detail = p.words(a.stroke.of)
		if f.Verdict != check.Pass {
			f.Remedy = p.remedy(rule, limits)
			if cure, ok := a.cured(p); ok {
				f.Remedy = cure
			}
		}
		findings = append(findings, f)
	}
	slices.SortStableFunc(findings, func(f, g check.Finding) int { // what moves first
		switch {
		case f.Check == ruleStanding.Name && g.Check != ruleStanding.Name:
			return 1
		case g.Check == ruleStanding.Name && f.Check != ruleStanding.Name:
			return -1
		}
		return 0
	})
	return findings
}

// words names the two bodies, the place, and where the stroke is then.
func (p passage) words(of string) string {
	text := fmt.Sprintf("%s and %s at x %.1f, y %.1f, z %.1f", p.a.name, p.b.name, p.at[0], p.at[1], p.at[2])
	if p.varies {
		text += fmt.Sprintf(", %s at %s deg", of, check.Number(p.station))
	}
	return text
}

// remedy says how much more the two need.
func (p passage) remedy(rule check.Rule, limits check.Limits) string {
	wanted := ruleStanding
	if p.moving {
		wanted = ruleMoving
	}
	more := limits.Of(wanted).Caution - p.width
	change := rule.Change
	for _, s := range []*solid{p.a, p.b} {
		if s.raise != nil {
			change = s.raise(more)
		}
	}
	return fmt.Sprintf("%s and %s need %s mm more between them: %s", p.a.name, p.b.name, check.Number(more), change)
}

// entry returns the passage's line in the report.
func (p passage) entry(a *arrangement) export.Clearance {
	e := export.Clearance{
		Joint: a.name, A: p.a.name, B: p.b.name, Width: p.width, X: p.at[0], Y: p.at[1], Z: p.at[2], Moving: p.moving,
	}
	if p.varies {
		e.Of, e.AtDeg = a.stroke.of, &p.station
	}
	return e
}
