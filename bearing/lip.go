package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
)

// A Lip is a printed bead round the mouth that the ring snaps past.
type Lip struct {
	Height float64 // mm per side that it stands in over the ring's outside; 0 for what the plastic bears
}

const (
	lipStrain = 1.5 // times the strain the plastic holds for good, borne for a moment (common practice, no source)
	lipTorn   = 2.5 // times, where it may tear (common practice, no source)
	lipLand   = 0.6 // mm, height of the lip where it is narrowest
	lipPlay   = 0.1 // mm along the axis between ring and lip, at least
)

func (l *Lip) validate(b Bearing) error {
	if l == nil {
		return nil
	}
	if b.Kind == ThrustBall {
		return &check.FieldError{
			Field: "lip", Text: "asked for", Reason: "would stand in the way of a thrust bearing's balls and shaft washer",
			Remedy: "leave it out: the load holds a housing washer in its seat",
		}
	}
	return check.InRange("lip height", l.Height, "mm", 0, 0.05*b.Outside, "leave it out to have it chosen from the plastic's strain")
}

// placeLip works out the lip's diameter and its heights above the ring's face.
func (h *Housing) placeLip() error {
	if h.spec.Lip == nil {
		return nil
	}
	outside := h.spec.Bearing.Outside
	least := h.leastLip()
	h.lipHeight = h.spec.Lip.Height
	if h.lipHeight == 0 {
		h.lipHeight = max(lipStrain*h.spec.Material.StrainLimit*outside/2, least)
	}
	if h.spec.machined() {
		return &check.FieldError{Field: "lip", Text: "asked for", Reason: "is printed; a machined seat has none", Remedy: "use a cap"}
	}
	if h.lipHeight < least {
		return &check.FieldError{
			Field: "lip height", Value: h.lipHeight, Unit: "mm", Reason: "does not stand out of a seat with this interference",
			Remedy: fmt.Sprintf("use %s mm or more, or leave it out", ceil(least, 0.01)),
		}
	}
	h.lip = h.spec.Card.Hole(h.partName(), "lip", outside-2*h.lipHeight)
	return nil
}

// leastLip returns the height in mm from which a lip stands out of the seat.
func (h *Housing) leastLip() float64 {
	if h.spec.Fit == CrushRibs { // the bore between the ribs is wider than the ring
		return 0.05
	}
	return max(h.delta, 0)/2 + 0.05
}

// lipHeights returns the heights in mm above the seat's top of the lip's slope,
// its land and its end; zeros without a lip. The slope rises at 45 degrees, which
// prints without support.
func (h *Housing) lipHeights() (slope, land, end float64) {
	if h.spec.Lip == nil {
		return 0, 0, 0
	}
	slope = max(lipPlay, h.spec.Card.LayerThickness)
	bump := (h.seat.Drawn - h.lip.Drawn) / 2
	return slope, slope + bump, slope + bump + lipLand
}

// lipForce returns the force in N that pulls the ring past the lip: the pressure
// of a press fit of the lip's height, on the lip's land, up the slope on which
// they meet (wedge with friction, derived). The tube beside the lip is left out.
func (h *Housing) lipForce() float64 {
	if h.spec.Lip == nil {
		return 0
	}
	spec := h.pressSpec()
	spec.Interference, spec.Length = 2*h.lipHeight, lipLand
	snap, err := NewPressFit(spec)
	if err != nil {
		panic("bearing: the press fit of a checked lip: " + err.Error())
	}
	slope := math.Tan(h.lipSlope())
	return snap.AxialForce * (slope + frictionLow) / (1 - frictionLow*slope)
}

// lipSlope returns the angle in rad at which lip and ring meet: on the ring's
// rounded corner, since no lip stands in beyond it. At a height h on a corner of
// radius r it is acos(1 - h/r), at most the lip's own 45 degrees. A corner that
// nobody knows is taken as 1 mm.
func (h *Housing) lipSlope() float64 {
	corner := h.spec.Bearing.RMin
	if corner == 0 {
		corner = 1
	}
	if h.lipHeight >= corner {
		return math.Pi / 4
	}
	return math.Min(math.Acos(1-h.lipHeight/corner), math.Pi/4)
}

func (h *Housing) lipFindings() []check.Finding {
	if h.spec.Lip == nil {
		return nil
	}
	outside, bears := h.spec.Bearing.Outside, 100*h.spec.Material.StrainLimit
	strained := h.judge(lipStrainRule, 100*2*h.lipHeight/outside, check.Limit{Caution: lipStrain * bears, Fail: lipTorn * bears}, func(l check.Limit) string {
		most := strict(check.AtMost, l) / 100 * outside / 2
		if most < h.leastLip() {
			return "hold the ring by a cap: a lip that shows in this seat would tear"
		}
		return fmt.Sprintf("lip height <= %s mm", floor(most, 0.001))
	})
	strained.Detail = fmt.Sprintf("%s mm per side over %s mm", check.Number(h.lipHeight), check.Number(outside))
	sigma := h.spec.Card.Bore.Sigma
	shows := h.judge(lipRule, 2*h.lipHeight, check.Limit{Caution: 2 * sigma, Fail: check.None}, func(l check.Limit) string {
		need := strict(check.AtLeast, l) / 2
		if 2*need > lipStrain*bears/100*outside {
			return "a cap: a lip above the printer's scatter would strain the plastic too far; or measure the printer with the coupon"
		}
		return fmt.Sprintf("lip height of %s mm, or measure the printer with the coupon", ceil(need, 0.001))
	})
	return []check.Finding{strained, shows}
}

// lipFits returns what the lip should measure.
func (h *Housing) lipFits() []fit.Fit {
	if h.spec.Lip == nil {
		return nil
	}
	return []fit.Fit{h.lip}
}

// lipLead returns the width in mm of a lead-in that starts at the lip: the
// ring must find the mouth.
func (h *Housing) lipLead() float64 {
	if h.spec.Lip == nil {
		return 0
	}
	return math.Max(h.lipHeight, 0) + 0.3
}
