package bearing

import (
	"errors"
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
)

// A RodSpec describes the rod that turns in a housing's bearing.
type RodSpec struct {
	Class      string  // of its seat, such as "h6"; "" for h6, or g6 where it slides
	Slides     bool    // the ring must slide along the rod to be set
	Shoulder   float64 // mm, diameter of the shoulder or collar behind the ring; 0 not known
	Flat       float64 // mm, depth of a D-flat for a printed part; 0 for a round rod
	FlatLength float64 // mm that the part sits on the flat
	Torque     float64 // N·m that the flat carries; 0 not known
}

func (r *RodSpec) validate(b Bearing) error {
	switch {
	case r == nil:
		return nil
	case r.Flat == 0 && (r.FlatLength != 0 || r.Torque != 0):
		return &check.FieldError{Field: "flat depth", Value: 0, Unit: "mm", Reason: "must be known where the rod has a flat", Remedy: "measure over the flat: depth = diameter - that size"}
	case r.Flat == 0:
		return nil
	}
	if err := check.InRange("flat depth", r.Flat, "mm", 0.02*b.Bore, 0.4*b.Bore, "about a tenth of the diameter is usual; measure over the flat: depth = diameter - that size"); err != nil {
		return err
	}
	if err := check.Positive("flat length", r.FlatLength, "mm", "the length of the part that sits on the flat"); err != nil {
		return err
	}
	if err := check.InRange("flat length", r.FlatLength, "mm", 0, 1000, "the length of the part that sits on the flat"); err != nil {
		return err
	}
	return check.InRange("torque on the flat", r.Torque, "N·m", 0, 1e4, "the largest torque that the part turns the rod with")
}

// A Flat is the flat of a D-shaped rod, all sizes mm.
type Flat struct{ Diameter, Depth, Length float64 }

// Across returns the size in mm over the flat and the round side opposite.
func (f Flat) Across() float64 { return f.Diameter - f.Depth }

// Width returns the width in mm of the flat: a chord.
func (f Flat) Width() float64 { return 2 * math.Sqrt(f.Depth*(f.Diameter-f.Depth)) }

// Pressure returns the largest pressure in MPa that a torque in N·m makes on the
// flat: it grows from nothing in the middle to the edge of one half, 12 T /
// (L w²) (derived; friction and the round side carry nothing).
func (f Flat) Pressure(torque float64) float64 {
	return 12 * torque * 1000 / (f.Length * f.Width() * f.Width())
}

// Check judges the pressure of a torque in N·m on a printed part of the material.
func (f Flat) Check(torque float64, m fit.Material, limits check.Limits) check.Finding {
	rule := flatRule
	rule.Limit = check.Limit{Caution: check.None, Fail: m.Strength / 2}
	limit := limits.Of(rule)
	p := f.Pressure(torque)
	finding := rule.Judge(round(p), limit, fmt.Sprintf("flat length >= %s mm, or a deeper flat", ceil(f.Length*p/strict(check.AtMost, limit), 0.1)))
	finding.Detail = fmt.Sprintf("%s N·m on a flat of %s x %s mm", check.Number(torque), hundredth(f.Width()), check.Number(f.Length))
	return finding
}

// placeRod judges the rod that goes with the ring.
func (h *Housing) placeRod() (err error) {
	r := h.spec.Rod
	if r == nil {
		return nil
	}
	h.rod, err = OnRod(h.spec.Bearing, r.Class, r.Slides, r.Shoulder, h.spec.Limits)
	if wrong := (*check.FieldError)(nil); errors.As(err, &wrong) && wrong.Field == "fit" {
		rod := *wrong
		rod.Field, err = "class of the rod", &rod
	}
	if err == nil && r.Torque > 0 {
		h.rod.Findings = append(h.rod.Findings, h.flat().Check(r.Torque, h.spec.Material, h.spec.Limits))
	}
	return err
}

func (h *Housing) flat() Flat {
	return Flat{h.spec.Bearing.Bore, h.spec.Rod.Flat, h.spec.Rod.FlatLength}
}

func (h *Housing) rodValues(v map[string]any) {
	if h.spec.Rod == nil {
		return
	}
	r := h.rod
	v["rod_class"], v["rod_lower_um"], v["rod_upper_um"] = r.Class, r.Size.Lower, r.Size.Upper
	v["rod_tightest_um"], v["rod_loosest_um"] = r.Fit.Tightest, r.Fit.Loosest
	v["rod_shoulder_min"], v["rod_shoulder_max"] = r.ShoulderMin, r.ShoulderMax
	if h.spec.Rod.Flat > 0 {
		v["flat_across"], v["flat_width"], v["flat_pressure"] = h.flat().Across(), h.flat().Width(), h.flat().Pressure(h.spec.Rod.Torque)
	}
}

func (h *Housing) rodSteps() []string {
	if h.spec.Rod == nil {
		return nil
	}
	steps := []string{fmt.Sprintf("Put the bearing on the rod, pressing on its inner ring only, against a shoulder or collar of %s to %s mm", ceil(h.rod.ShoulderMin, 0.1), floor(h.rod.ShoulderMax, 0.1))}
	if h.spec.Bearing.Kind == ThrustBall {
		steps[0] = fmt.Sprintf("The shaft washer rests on a shoulder or collar of the rod of %s to %s mm", ceil(h.rod.ShoulderMin, 0.1), floor(h.rod.ShoulderMax, 0.1))
	}
	if h.spec.Rod.Flat > 0 {
		steps = append(steps, fmt.Sprintf("The rod's flat, %s mm over it, ends before the bearing: the ring sits on the full round", hundredth(h.flat().Across())))
	}
	return steps
}

var flatRule = check.Rule{
	Name: "flat-pressure", Symbol: "p", Unit: "MPa", Sense: check.AtMost,
	Meaning: "Pressure at the edge of a rod's D-flat on the printed part that it turns: beyond it the D-bore rounds off.",
	Formula: "12 T / (L w²), w = 2 sqrt(t (d - t)); fail above half the in-plane strength",
	Source:  "derived: pressure grows from the middle of the flat to one edge; limit: " + check.CommonPractice, Change: "a longer or deeper flat, or a tougher material",
}
