package linkage

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// ruleLinkWall judges what a printed link keeps around its holes.
var ruleLinkWall = check.Rule{
	Name: "link-wall", Unit: "mm",
	Meaning: "The thinnest wall of a printed link between two holes, or between a hole and its outside.",
	Formula: "least distance of the finished surfaces; caution below 4 beads, fail below 2 beads",
	Source:  check.CommonPractice,
	Change:  "make eye or hub larger, or the arm longer",
	Sense:   check.AtLeast,
}

// Part returns the link in its print frame, hub at the origin.
func (l *Link) Part() geom.Part { return l.part }

// Parts returns the link alone.
func (l *Link) Parts() []geom.Part { return []geom.Part{l.part} }

// Fits returns what was wanted and drawn for each hole.
func (l *Link) Fits() []fit.Fit { return l.fits }

// Spec returns what the link was made from.
func (l *Link) Spec() LinkSpec { return l.spec }

// Mark returns the text sunk into the link, or "" where none that could be read
// found room.
func (l *Link) Mark() string { return l.mark }

// HubDiameter returns the outside diameter of the hub in mm: as specified, or
// larger where an eye lies so near that one round holds both.
func (l *Link) HubDiameter() float64 { return l.hub }

// Values returns the link's numbers for the report, in mm and degrees.
func (l *Link) Values() map[string]any {
	var lengths, angles []float64
	for _, a := range l.spec.Arms {
		lengths = append(lengths, a.Length)
		angles = append(angles, math.Round(a.Angle*180/math.Pi*1e9)/1e9)
	}
	least := math.Inf(1)
	for _, w := range l.walls {
		least = min(least, w.value)
	}
	return map[string]any{
		"eye_distance": lengths, "arm_angle_deg": angles, "thickness": l.spec.Thickness,
		"hub_diameter": l.hub, "least_wall": least, "mark": l.mark,
	}
}

// Findings judges the thinnest wall.
func (l *Link) Findings() []check.Finding {
	return []check.Finding{judgeWalls(ruleLinkWall, l.walls, l.spec.Name, l.spec.Card, l.spec.Limits)}
}

// judgeWalls judges the thinnest of the walls of a part.
func judgeWalls(rule check.Rule, walls []wall, part string, card fit.Card, limits check.Limits) check.Finding {
	thinnest := walls[0]
	for _, w := range walls[1:] {
		if w.value < thinnest.value-1e-9 {
			thinnest = w
		}
	}
	rule.Limit = check.Limit{Caution: 4 * card.BeadWidth, Fail: 2 * card.BeadWidth}
	limit := limits.Of(rule)
	value := math.Round(thinnest.value*1e9) / 1e9 // a wall made of four beads has four
	f := rule.Judge(value, limit, thinnest.fix(limit.Caution-thinnest.value))
	f.Part, f.Detail = part, thinnest.where
	return f
}

// LinkRules lists the rules of printed links and brackets.
func LinkRules() []check.Rule { return []check.Rule{ruleLinkWall, ruleBracketWall} }
