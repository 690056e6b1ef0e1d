package linkage

import (
	"fmt"

	"pintle/check"
	"pintle/fit"
)

// A RodSpec is a pushrod that is cut from threaded rod and screwed into a rod end
// on either side. Lengths are mm.
type RodSpec struct {
	Name   string    // of the rod, such as "nod-rod"
	Length float64   // L, ball centre to ball centre (or pin to pin)
	Thread fit.Screw // of the rod
	Ends   [2]RodEnd
	Limits check.Limits
}

// A RodEnd is a ball joint or clevis as measured, in mm.
type RodEnd struct {
	ToThread   float64 // g: from the ball's centre to where the thread begins
	Depth      float64 // of the threaded hole
	Engagement float64 // E: of the rod in the hole, 0 for the middle of what is allowed
}

// A CutRod is a rod to cut, and how far it can be set once it is together.
type CutRod struct {
	spec       RodSpec
	engagement [2]float64
}

// leastGrip is the engagement in diameters of the thread that holds, and
// endPlay what the rod stays short of the hole's bottom, in mm (common practice,
// no source).
const (
	leastGrip = 1.5
	endPlay   = 0.5
)

// NewCutRod works out the length to cut. The error is a *check.FieldError for
// rod ends that leave no rod, or whose holes are too short to hold any.
func NewCutRod(spec RodSpec) (*CutRod, error) {
	if err := check.Positive("thread of "+spec.Name, spec.Thread.Diameter, "mm", "choose a thread, such as M3"); err != nil {
		return nil, err
	}
	if err := check.InRange("length of "+spec.Name, spec.Length, "mm", 1, 2000, "measure from ball centre to ball centre"); err != nil {
		return nil, err
	}
	r := &CutRod{spec: spec}
	for i, e := range spec.Ends {
		of := fmt.Sprintf(" of end %d of %s", i+1, spec.Name)
		if err := check.InRange("distance from ball to thread"+of, e.ToThread, "mm", 0, 200, "measure from the ball's centre to where the rod goes in"); err != nil {
			return nil, err
		}
		if err := check.InRange("thread depth"+of, e.Depth, "mm", 1, 200, "push a wire into the hole and measure it"); err != nil {
			return nil, err
		}
		if err := check.InRange("thread engagement"+of, e.Engagement, "mm", 0, e.Depth, "leave it out to have it chosen"); err != nil {
			return nil, err
		}
		if r.engagement[i] = e.Engagement; e.Engagement == 0 {
			least, most := leastGrip*spec.Thread.Diameter, e.Depth-endPlay
			r.engagement[i] = (least + most) / 2
			if most < least { // as deep as it goes, and the check says so
				r.engagement[i] = max(most, e.Depth/2)
			}
		}
	}
	if r.Cut() <= r.engagement[0]+r.engagement[1] {
		return nil, &check.FieldError{
			Field: "length of " + spec.Name, Value: spec.Length, Unit: "mm",
			Reason: "leaves no rod between its two ends: the threads would meet",
			Remedy: "length >= " + upTo(spec.Ends[0].ToThread+spec.Ends[1].ToThread+spec.Thread.Diameter) + " mm, or shorter rod ends",
		}
	}
	return r, nil
}

// Cut returns the length in mm to cut: L - g1 - g2 + E1 + E2.
func (r *CutRod) Cut() float64 {
	s := r.spec
	return s.Length - s.Ends[0].ToThread - s.Ends[1].ToThread + r.engagement[0] + r.engagement[1]
}

// Thread returns the thread of the rod.
func (r *CutRod) Thread() fit.Screw { return r.spec.Thread }

// Engagement returns the depth in mm to which either end is screwed on.
func (r *CutRod) Engagement() [2]float64 { return r.engagement }

// Adjustment returns by how much in mm the finished rod can still be made
// shorter and longer, both ends turned, until the thread bottoms or holds too
// little.
func (r *CutRod) Adjustment() (shorter, longer float64) {
	for i, e := range r.spec.Ends {
		shorter += max(e.Depth-endPlay-r.engagement[i], 0)
		longer += max(r.engagement[i]-leastGrip*r.spec.Thread.Diameter, 0)
	}
	return shorter, longer
}

var (
	ruleGrip = check.Rule{
		Name: "thread-engagement", Symbol: "E/d", Unit: "",
		Meaning: "How deep a pushrod is screwed into its rod ends, in diameters of its thread: less strips.",
		Formula: "least engagement over thread diameter",
		Source:  check.CommonPractice, Change: "cut the rod longer, use rod ends with deeper holes, or a thinner rod",
		Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: leastGrip},
	}
	ruleBottom = check.Rule{
		Name: "thread-depth", Unit: "mm",
		Meaning: "What is left of a rod end's hole before the rod bottoms in it.",
		Formula: "least hole depth less engagement",
		Source:  check.CommonPractice, Change: "cut the rod shorter",
		Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: endPlay},
	}
	ruleSetting = check.Rule{
		Name: "rod-adjustment", Unit: "mm",
		Meaning: "How far the finished rod can be set to either side by turning its ends.",
		Formula: "least of both ways: engagement beyond 1.5 diameters, hole beyond 0.5 mm of play, both ends summed",
		Source:  check.CommonPractice, Change: "use rod ends with deeper holes",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 1, Fail: check.None},
	}
)

// RodRules lists the rules of rods that are cut.
func RodRules() []check.Rule { return []check.Rule{ruleGrip, ruleBottom, ruleSetting} }

// Values returns the rod's numbers for the report, in mm.
func (r *CutRod) Values() map[string]any {
	shorter, longer := r.Adjustment()
	return map[string]any{
		"rod_length": r.spec.Length, "rod_cut": r.Cut(), "rod_thread": r.spec.Thread.Size,
		"rod_engagement": []float64{r.engagement[0], r.engagement[1]}, "rod_shorter": shorter, "rod_longer": longer,
	}
}

// Findings judges the engagement and what can still be set.
func (r *CutRod) Findings() []check.Finding {
	d := r.spec.Thread.Diameter
	grip := min(r.engagement[0], r.engagement[1]) / d
	left := min(r.spec.Ends[0].Depth-r.engagement[0], r.spec.Ends[1].Depth-r.engagement[1])
	shorter, longer := r.Adjustment()
	find := func(rule check.Rule, value float64, remedy string) check.Finding {
		f := rule.Judge(value, r.spec.Limits.Of(rule), remedy)
		f.Part = r.spec.Name
		return f
	}
	deepest := leastGrip*d + endPlay
	return []check.Finding{
		find(ruleGrip, grip, "engagement >= "+upTo(leastGrip*d)+" mm: holes of the rod ends >= "+upTo(deepest)+" mm deep, or a thinner rod"),
		find(ruleBottom, left, "engagement <= "+check.Number(min(r.spec.Ends[0].Depth, r.spec.Ends[1].Depth)-endPlay)+" mm"),
		find(ruleSetting, min(shorter, longer), "holes of the rod ends >= "+upTo(deepest+1)+" mm deep, screwed on to the middle"),
	}
}
