package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// Ribs are what a crush-ribs seat grips with: thin ribs along the axis that the
// ring squeezes flat while the bore round it stays clear.
type Ribs struct {
	Count  int     // 3 to 24; 0 for 8
	Height float64 // mm that a rib stands out of the bore; 0 to clear the ring by a slip fit and twice the printer's scatter
}

const ribInterference = 0.4 // mm on the diameter of the tips (common practice, no source)

func (s HousingSpec) ribsWithDefaults() *Ribs {
	r := Ribs{}
	if s.Ribs != nil {
		r = *s.Ribs
	}
	if r.Count == 0 {
		r.Count = 8
	}
	if r.Height == 0 {
		r.Height = (s.Interference + s.Card.Slip() + 2*s.Card.Bore.Sigma) / 2
	}
	return &r
}

func (h *Housing) validateRibs() error {
	r := h.spec.Ribs
	if err := check.InRange("number of ribs", float64(r.Count), "", 3, 24, "six to twelve ribs are usual"); err != nil {
		return err
	}
	b := h.spec.Bearing
	if least := (h.delta + 0.05) / 2; !(r.Height >= least) || r.Height > b.Outside/10 {
		return &check.FieldError{
			Field: "rib height", Value: r.Height, Unit: "mm",
			Reason: fmt.Sprintf("must be from %s to %s mm: the bore clears the ring and the ribs meet it", ceil(least, 0.01), floor(b.Outside/10, 0.01)),
			Remedy: "leave it out to have it chosen",
		}
	}
	if room := math.Pi * (b.Outside - h.delta); float64(r.Count)*(h.ribTip()+2*r.Height+h.spec.Card.BeadWidth) > room {
		return &check.FieldError{
			Field: "number of ribs", Value: float64(r.Count), Reason: "leaves no bore between the ribs",
			Remedy: fmt.Sprintf("use %d or fewer", int(room/(h.ribTip()+2*r.Height+h.spec.Card.BeadWidth))),
		}
	}
	return nil
}

// ribTip returns the width in mm of a rib where it meets the ring: one bead.
func (h *Housing) ribTip() float64 { return h.spec.Card.BeadWidth }

// crush returns the press fit that the ribs make once they are squeezed: each
// presses with the plastic's strength on the width of its tip (an upper bound:
// plastic that yields carries no more; derived).
func (h *Housing) crush(spec PressFitSpec) (PressFit, error) {
	pressure := h.spec.Material.Strength * h.ribShare()
	one, err := NewPressFit(spec)
	if err != nil || one.Pressure == 0 {
		return one, err
	}
	spec.Interference *= pressure / one.Pressure
	return NewPressFit(spec)
}

// ribShare returns the share of the ring's circumference that the ribs hold.
func (h *Housing) ribShare() float64 {
	return float64(h.spec.Ribs.Count) * h.ribTip() / (math.Pi * h.spec.Bearing.Outside)
}

// ribbed returns the seat's outline with its ribs: the bore's radius, and that of
// the tips, both as drawn and grown on the radius. Flanks stand at 45 degrees.
func (h *Housing) ribbed(grow, growTips float64) geom.Contour {
	base, tip := h.seat.Drawn/2, h.tips.Drawn/2
	n := float64(h.spec.Ribs.Count)
	halfTip := h.ribTip() / 2 / tip
	halfBase := halfTip + (base-tip)/base
	var run contourRun
	for i := range h.spec.Ribs.Count {
		at := math.Pi/n - 2*math.Pi*float64(i)/n
		corner := (tip + growTips) / math.Cos(halfTip) // the tip's middle stands at its radius
		left, right := at+halfTip, at-halfTip
		run.line(geom.Polar(base+grow, at+halfBase), geom.Polar(corner, left))
		run.line(geom.Polar(corner, left), geom.Polar(corner, right))
		run.line(geom.Polar(corner, right), geom.Polar(base+grow, at-halfBase))
		to := at - 2*math.Pi/n + halfBase
		run.arc(base+grow, at-halfBase, to, sidesWithin(base, at-halfBase-to, h.spec.ChordError))
	}
	return run.contour
}
