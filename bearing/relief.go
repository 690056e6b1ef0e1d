package bearing

import (
	"fmt"
	"math"

	"pintle/check"
)

// A Relief is a groove at the foot of the seat: a printed corner is never sharp,
// and a ring with a small chamfer would stand on its fillet.
type Relief struct {
	Width float64 // mm on the radius; 0 for none
	Depth float64 // mm along the axis before it slopes back at 45 degrees; 0 for 0.4
}

// cornerBlob is the fillet in mm that a printed corner has (common practice, no
// source); stepGap is how much wider on the radius a long tube is above its seat
// (0.4 mm on the diameter: common practice, no source).
const (
	cornerBlob = 0.3
	stepGap    = 0.2
)

// placeRelief takes the groove that was asked for, or one where the bearing's
// chamfer is smaller than a printed corner needs.
func (h *Housing) placeRelief() error {
	layer, depth := h.spec.Card.LayerThickness, h.seatDepth
	if r := h.spec.Relief; r != nil {
		h.relief = *r
		if r.Width > 0 && r.Depth == 0 {
			h.relief.Depth = math.Min(max(0.4, layer), depth/6)
		}
		if most := h.wall / 3; r.Width > most {
			return &check.FieldError{
				Field: "corner relief width", Value: r.Width, Unit: "mm", Reason: fmt.Sprintf("takes more than a third of the wall of %s mm", check.Number(h.wall)),
				Remedy: fmt.Sprintf("use %s mm or less, or a thicker wall", floor(most, 0.01)),
			}
		}
		if h.relief.Width+h.relief.Depth > depth/2 {
			return &check.FieldError{
				Field: "corner relief width", Value: r.Width, Unit: "mm", Reason: fmt.Sprintf("leaves less than half of the seat of %s mm to hold the ring", check.Number(depth)),
				Remedy: "use 0.3 to 0.4 mm, two layers deep",
			}
		}
		return nil
	}
	if b := h.spec.Bearing; b.RMin > 0 && b.RMin < cornerBlob && !h.spec.machined() {
		width := min(0.4, h.wall/3, depth/6)
		h.relief = Relief{width, math.Min(max(0.4, layer), depth/6)}
	}
	return nil
}

// reliefHeight returns the height in mm that the groove takes from the seat.
func (h *Housing) reliefHeight() float64 {
	if h.relief.Width == 0 {
		return 0
	}
	return h.relief.Depth + h.relief.Width
}

func (h *Housing) corner() check.Finding {
	r := h.spec.Bearing.RMin
	if r == 0 {
		f := cornerRule.Say(check.Note, 0, "the bearing's chamfer is not known", "look whether the ring has a chamfer of 0.3 mm or more; else give a corner relief")
		if h.relief.Width > 0 {
			f.Verdict, f.Value, f.Detail, f.Remedy = check.Pass, h.relief.Width, "the corner has a relief", ""
		}
		return f
	}
	return h.judge(cornerRule, r+h.relief.Width, cornerRule.Limit, func(l check.Limit) string {
		need := strict(check.AtLeast, l) - r
		if need > h.wall/3 {
			return fmt.Sprintf("wall >= %s mm", ceil(h.spec.wholeBeads(3*need), 0.001))
		}
		return fmt.Sprintf("corner relief >= %s mm wide", ceil(need, 0.01))
	})
}
