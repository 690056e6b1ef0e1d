package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// A gap is looked at as one that closes on a finger where it opens at least this
// far and changes at least this much, in mm: less lets no finger in, or moves
// less than the finger gives way (4 mm: openings that keep fingertips out, ISO
// 13857 as quoted by consultants; the change common practice, no source).
const (
	fingerEnters = 4.0
	fingerCaught = 4.0
)

var ruleCrushing = check.Rule{
	Name: "crushing-gap", Unit: "mm",
	Meaning: "A gap between two bodies closes on a finger as the joint moves: it lets one in and becomes narrower than a finger. Only crushing is looked at, not shearing or drawing in, and only between the bodies known here.",
	Formula: "least gap of two bodies over the stations of the stroke, where it changes by 4 mm or more and opens to 4 mm or more",
	Source:  "25 mm for fingers, 100 mm for hands: safety distances of ISO 13854 as quoted by auva.at",
	Change:  "fit a guard, or keep the gap wider than 25 mm over the whole swing",
	Sense:   check.AtLeast, Limit: check.Limit{Caution: 25, Fail: check.None},
}

// crushing notes every gap that passes through the range in which a finger is
// crushed.
func (a *arrangement) crushing(parts map[string]geom.Part, limits check.Limits) []check.Finding {
	limit := limits.Of(ruleCrushing)
	var findings []check.Finding
	for _, p := range a.pairs(parts) {
		if !p.moving || p.a.covered || p.b.covered || a.sway(p) < fingerCaught {
			continue
		}
		most := limit.Caution + fingerCaught // beyond it a gap is wide
		least, widest, at := a.extremes(p, most)
		if least >= limit.Caution || widest < fingerEnters || widest-least < fingerCaught {
			continue
		}
		from := fmt.Sprintf("%.0f", widest)
		if widest >= most {
			from += " mm or more"
		}
		findings = append(findings, ruleCrushing.Say(check.Note, least,
			fmt.Sprintf("%s and %s close from %s to %.0f mm, %s at %s deg", p.a.name, p.b.name, from, least, a.stroke.of, check.Number(at)), ruleCrushing.Change))
	}
	return findings
}

// extremes returns the least and the widest gap of two solids at the stations of
// the stroke, in mm and most at the most, and the station of the least, in degrees.
func (a *arrangement) extremes(p passage, most float64) (least, widest, at float64) {
	least = math.Inf(1)
	for i, station := range a.stroke.stations {
		gap := most
		for _, s := range p.a.slices {
			for _, t := range p.b.slices {
				along := max(s.z0-t.z1, t.z0-s.z1, 0)
				if along >= gap {
					continue
				}
				path := pass{a: s, b: t, movesA: a.stroke.motions[p.a.moves], movesB: a.stroke.motions[p.b.moves]}
				gap = min(gap, math.Hypot(along, path.look(float64(i), gap)))
			}
		}
		if gap < least {
			least, at = gap, station
		}
		widest = max(widest, gap)
	}
	return least, widest, at
}

// sway bounds how much the gap of two solids can change through the stroke, in
// mm: by where their centres go, and by how far what turns is from being round.
func (a *arrangement) sway(p passage) float64 {
	most := 0.0
	for _, s := range p.a.slices {
		for _, t := range p.b.slices {
			path := pass{a: s, b: t, movesA: a.stroke.motions[p.a.moves], movesB: a.stroke.motions[p.b.moves]}
			way := 0.0
			if p.a.moves != "" {
				way += s.rough()
			}
			if p.b.moves != "" {
				way += t.rough()
			}
			for i := range len(a.stroke.stations) - 1 {
				way += path.drift(float64(i), float64(i+1))
			}
			most = max(most, way)
		}
	}
	return most
}
