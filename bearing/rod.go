package bearing

import (
	"fmt"

	"pintle/check"
)

// A Rod is the seat of an inner ring, cone or shaft washer on a turned rod, and
// the shoulder or collar that retains it there.
type Rod struct {
	Class       string       // "h6"
	Size        Deviations   // µm, of the rod
	Fit         ResultantFit // µm, against a bore of normal class
	ShoulderMin float64      // mm, diameter of the retaining shoulder
	ShoulderMax float64      // mm
	Findings    []check.Finding
}

// OnRod returns what a rod must measure to carry the bearing. Without a class the
// rod gets h6, a ring that is put on and stays, or g6 where it must slide along
// the rod to be set: both for a ring that stands still under its load. A shoulder
// of 0 mm is not judged. The errors are *check.FieldErrors.
func OnRod(b Bearing, class string, slides bool, shoulder float64, limits check.Limits) (Rod, error) {
	if err := b.Validate(); err != nil {
		return Rod{}, err
	}
	if err := check.InRange("shoulder diameter", shoulder, "mm", 0, b.Outside, "leave it out to see its limits"); err != nil {
		return Rod{}, err
	}
	if class == "" {
		class = "h6"
		if slides {
			class = "g6"
		}
	}
	f, err := FitOnShaft(class, b.Bore)
	if err != nil {
		return Rod{}, err
	}
	r := Rod{Class: class, Fit: f}
	r.Size, _, _ = ToleranceClass(class, b.Bore) // FitOnShaft has asked for it
	r.ShoulderMin, r.ShoulderMax = ShaftShoulder(b)
	r.Findings = []check.Finding{rodRule.Say(check.Note, f.Tightest, fmt.Sprintf("rod %s mm %s: %+g to %+g µm; on a bore of normal class %s to %s",
		check.Number(b.Bore), class, r.Size.Lower, r.Size.Upper, play(f.Tightest), play(f.Loosest)), "turn, grind or buy the rod in that class: printing cannot hold it")}
	if shoulder > 0 {
		r.Findings = append(r.Findings, r.retains(shoulder, limits)...)
	}
	return r, nil
}

// retains judges a shoulder: it must back the turning ring and touch nothing that
// stands still.
func (r Rod) retains(shoulder float64, limits check.Limits) []check.Finding {
	low, high := rodShoulderRule, rodClearanceRule
	low.Limit = check.Limit{Caution: check.None, Fail: round(r.ShoulderMin)}
	high.Limit = check.Limit{Caution: check.None, Fail: round(r.ShoulderMax)}
	remedy := fmt.Sprintf("shoulder from %s to %s mm", ceil(r.ShoulderMin, 0.01), floor(r.ShoulderMax, 0.01))
	return []check.Finding{
		low.Judge(shoulder, limits.Of(low), remedy),
		high.Judge(shoulder, limits.Of(high), remedy),
	}
}

var (
	rodRule = check.Rule{
		Name: "rod-class", Unit: "µm", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
		Meaning: "How tight a bearing's bore sits on a rod: g6 slides, h6 is put on by hand, j6 and k6 grip a ring that turns under its load. Negative is interference.",
		Formula: "lower deviation of the bore - upper deviation of the rod",
		Source:  "ISO 286, bearings of normal class in ISO 492; choice of class: a maker's table of shaft fits", Change: "another class",
	}
	rodShoulderRule = check.Rule{
		Name: "rod-shoulder", Symbol: "da_min", Unit: "mm", Sense: check.AtLeast,
		Meaning: "The shoulder or collar on the rod must back enough of the turning ring.",
		Formula: "shoulder >= da_min", Source: abutments, Change: "a larger collar",
	}
	rodClearanceRule = check.Rule{
		Name: "rod-clearance", Symbol: "da_max", Unit: "mm", Sense: check.AtMost,
		Meaning: "The shoulder or collar on the rod must not touch cage, shield or outer ring.",
		Formula: "shoulder <= (2 d + D) / 3 for the unknown land; shaft washer D - 1",
		Source:  "fallback from memory", Change: "a smaller collar",
	}
)
