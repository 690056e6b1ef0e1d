package joint

import (
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/geom"
)

// An envelope is the space one body takes up in the joint through all of its
// motion: a shape in plan between two heights. z = 0 is the top of the plate;
// the origin is the bearing's axis, x points to the servo's axis.
type envelope struct {
	name   string
	z0, z1 float64 // mm
	shape  shape
	moving bool
	meets  []string // bodies that share a word here are made to touch
}

// A shape is an annulus, or a box where length is set.
type shape struct {
	centre        geom.Point
	inner, outer  float64 // mm, radii of an annulus; inner 0 for a disc
	length, width float64 // mm, of a box
	angle         float64 // rad, of the box's length
}

func annulus(centre geom.Point, inner, outer float64) shape {
	return shape{centre: centre, inner: inner, outer: outer}
}

func box(centre geom.Point, length, width, angle float64) shape {
	return shape{centre: centre, length: length, width: width, angle: angle}
}

// plan returns the distance between two shapes seen from above, in mm: negative
// by how deep they overlap. At least one of the two must be an annulus; two
// boxes are never checked (servos and plates stand still and touch by design).
func plan(a, b shape) float64 {
	if a.length > 0 {
		a, b = b, a
	}
	if b.length == 0 {
		return annuli(a, b)
	}
	local := b.centre.Sub(a.centre).Rotate(-b.angle)
	x, y := math.Abs(local.X), math.Abs(local.Y)
	dx, dy := x-b.length/2, y-b.width/2
	nearest := math.Hypot(max(dx, 0), max(dy, 0))
	if nearest == 0 {
		nearest = max(dx, dy) // inside the box: minus the depth
	}
	farthest := math.Hypot(x+b.length/2, y+b.width/2)
	return max(nearest-a.outer, a.inner-farthest)
}

// annuli returns the distance between two annuli in plan: side by side, or one
// inside the hole of the other.
func annuli(a, b shape) float64 {
	d := b.centre.Sub(a.centre).Len()
	return max(d-a.outer-b.outer, a.inner-d-b.outer, b.inner-d-a.outer)
}

// gap returns the distance between two envelopes, in mm, negative where they
// overlap: in plan where they share heights, along the axis where one stands
// above the other.
func (e envelope) gap(f envelope) float64 {
	along := max(e.z0-f.z1, f.z0-e.z1)
	across := plan(e.shape, f.shape)
	if along > 0 && across > 0 {
		return math.Hypot(along, across)
	}
	return max(along, across)
}

var (
	ruleOverlap = check.Rule{
		Name: "moving-overlap", Symbol: "", Unit: "mm",
		Meaning: "A moving body and another take up the same space at some place of the motion.",
		Formula: "least distance of the swept envelopes, in plan where they share heights, else along the axis",
		Source:  "geometry", Change: "raise one of the two, make it smaller, or move the servo",
		Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
	}
	ruleMoving = check.Rule{
		Name: "moving-clearance", Symbol: "", Unit: "mm",
		Meaning: "The least distance a moving body keeps from its surroundings.",
		Formula: "least distance of the swept envelopes, in plan where they share heights, else along the axis",
		Source:  check.CommonPractice, Change: "raise one of the two, make it smaller, or move the servo",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 1, Fail: 0.5},
	}
	ruleStanding = check.Rule{
		Name: "standing-clearance", Symbol: "", Unit: "mm",
		Meaning: "The least distance between bodies that stand still and must not touch, such as the servo and the ring's flange.",
		Formula: "least distance of the envelopes, in plan where they share heights, else along the axis",
		Source:  check.CommonPractice, Change: "turn the servo (servo_turn), choose a thinner wall or smaller screws, or a larger centre distance",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 0.5, Fail: 0.2},
	}
)

// meetsOn says whether the two bodies are made to touch.
func (e envelope) meetsOn(f envelope) bool {
	return slices.ContainsFunc(e.meets, func(word string) bool { return slices.Contains(f.meets, word) })
}

// clearances judges the nearest pair with a moving body in it and the nearest
// pair of standing ones. Bodies made to touch, and two boxes, are left out.
func clearances(bodies []envelope, limits check.Limits) []check.Finding {
	nearest := map[bool]float64{true: math.Inf(1), false: math.Inf(1)}
	names := map[bool]string{}
	for i, a := range bodies {
		for _, b := range bodies[:i] {
			if a.meetsOn(b) || (a.shape.length > 0 && b.shape.length > 0) {
				continue
			}
			moving := a.moving || b.moving
			if g := a.gap(b); g < nearest[moving] {
				nearest[moving] = g
				names[moving] = b.name + " and " + a.name
			}
		}
	}
	var findings []check.Finding
	for _, moving := range []bool{true, false} {
		value := nearest[moving]
		if math.IsInf(value, 0) {
			continue
		}
		rule := ruleStanding
		if moving {
			rule = ruleMoving
			if value <= 0 {
				rule = ruleOverlap
			}
		}
		f := rule.Judge(value, limits.Of(rule), "")
		if value <= 0 {
			f.Verdict = check.Fail
		}
		f.Detail = names[moving]
		if f.Verdict != check.Pass {
			f.Remedy = fmt.Sprintf("%s need %s mm more between them: %s", names[moving],
				check.Number(limits.Of(ruleOf(moving)).Caution-value), rule.Change)
		}
		findings = append(findings, f)
	}
	return findings
}

func ruleOf(moving bool) check.Rule {
	if moving {
		return ruleMoving
	}
	return ruleStanding
}
