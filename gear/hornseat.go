package gear

import (
	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A HornSeat is a horn's pocket for another part to take up, a lever that the
// servo turns: holes about the shaft's axis by height above the part's bed
// side, which is the one away from the servo.
type HornSeat struct {
	Openings []SeatOpening
	Fits     []fit.Fit
	Findings []check.Finding
	Reach    float64 // diameter in mm of the circle that holds the pocket, as wanted
	Floor    float64 // mm of the part under the pocket
	Screws   int     // for the horn's holes that can be used
	Screw    HornScrew
	ScrewsAt []float64 // mm from the axis, of the circles they stand on
}

// A SeatOpening is one hole of a HornSeat between two heights in mm.
type SeatOpening struct {
	Z0, Z1  float64
	Contour geom.Contour
}

// HornSeatIn returns the pocket for a horn in a part of the name and thickness
// whose round about the shaft has the diameter solid, all in mm. The error is a
// *check.FieldError for a horn that cannot be held there.
func HornSeatIn(part string, h HornPocket, thickness, solid float64, card fit.Card, limits check.Limits) (HornSeat, error) {
	if err := check.InRange("thickness of "+part, thickness, "mm", 1, 100, "the horn's thickness and 3 mm of floor"); err != nil {
		return HornSeat{}, err
	}
	h.StandOff = 0
	s := structure{part: part, card: card, face: thickness, root: solid, drawn: card.Outside.Draw(solid), round: true}
	if err := s.addHorn(h); err != nil {
		return HornSeat{}, err
	}
	seat := HornSeat{Fits: s.fits, Floor: s.floor, ScrewsAt: s.hornHoles}
	for _, o := range s.holes {
		seat.Openings = append(seat.Openings, SeatOpening{o.z0, o.z1, o.contour})
	}
	_, size := h.reach()
	if seat.Reach = size; h.arms() > 0 {
		seat.Reach = 2 * size
	}
	seat.Reach += card.Slip()
	if len(s.hornHoles) > 0 {
		seat.Screws = h.Holes
		if h.arms() > 0 {
			seat.Screws = h.arms() * len(s.hornHoles)
		}
		seat.Screw, _ = screwFor(h.Hole)
	}
	seat.Findings = s.judgeWebs(limits)
	return seat, nil
}

// judgeWebs judges the least web between the holes of a horn's seat.
func (s *structure) judgeWebs(limits check.Limits) []check.Finding {
	var least *margin
	for i, m := range s.margins {
		if m.rule == "hole-web" && (least == nil || m.value < least.value) {
			least = &s.margins[i]
		}
	}
	if least == nil {
		return nil
	}
	r := rule("hole-web")
	r.Limit = check.Limit{Caution: 2 * s.card.BeadWidth, Fail: s.card.BeadWidth}
	limit := limits.Of(r)
	f := r.Judge(least.value, limit, least.fix(limit.Caution-least.value))
	f.Part, f.Detail = s.part, least.where
	return []check.Finding{f}
}
