package bearing

import (
	"fmt"
	"slices"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Seat is a ring's seat for another part to take up, a gear that turns on the
// bearing's outer ring: holes about the origin, by height above the seat's
// shoulder side.
type Seat struct {
	Hole     geom.Contour // through the shoulder, from 0 to ShoulderTop
	Bore     geom.Contour // from ShoulderTop to Mouth
	MouthTop geom.Contour // partner of Bore at Top, the wide end of the lead-in
	Groove   geom.Contour // partner of Bore from ShoulderTop to GrooveTop; empty without corner relief

	ShoulderTop, GrooveTop, SlopeTop, Mouth, Top float64 // mm; the groove slopes back to the bore at SlopeTop
	Fits                                         []fit.Fit
	Findings                                     []check.Finding
}

// SeatIn returns the seat that a ring of the spec would have, in a body that is
// solid up to the diameter solid in mm, such as a gear up to its root circle less
// a rim. Wall, flange, foot, clamp, lip, cap, pressing disc and bore depth of the spec
// are not used. The error is a *check.FieldError; a body too small for the wall
// that the seat needs fails housing-wall.
func SeatIn(spec HousingSpec, solid float64) (Seat, error) {
	spec.Flange, spec.Foot, spec.Clamp, spec.Lip, spec.Cap, spec.PressingDisc, spec.BoreDepth = nil, nil, nil, nil, nil, false, 0
	if err := check.InRange("diameter of the body", solid, "mm", 0, 2*geom.Extent, "the root diameter of the gear"); err != nil {
		return Seat{}, err
	}
	if spec.KnockOut != nil && spec.KnockOut.Round && spec.KnockOut.Count > 0 {
		return Seat{}, &check.FieldError{Field: "knock-out holes", Text: "round", Reason: "are of a housing's ring", Remedy: "use slots in a gear: leave round out"}
	}
	spec.Wall = (solid - spec.Bearing.Outside) / 2
	if spec.Wall <= 0 {
		return Seat{}, &check.FieldError{
			Field: "diameter of the body", Value: solid, Unit: "mm", Reason: fmt.Sprintf("has no room for a bearing of %s mm", check.Number(spec.Bearing.Outside)),
			Remedy: "use more teeth, a larger module, or a smaller bearing",
		}
	}
	h, err := NewHousing(spec)
	if err != nil {
		return Seat{}, err
	}
	s := Seat{
		Hole: h.opening(0), Bore: h.bore(0, 0), MouthTop: h.bore(h.leadWidth, h.leadWidth),
		ShoulderTop: h.spec.ShoulderThickness, Mouth: h.Height() - h.leadHeight, Top: h.Height(),
		Fits:     slices.DeleteFunc(h.Fits(), func(f fit.Fit) bool { return f.Feature == h.outside.Feature }), // there is no tube
		Findings: h.Findings(),
	}
	s.GrooveTop, s.SlopeTop = s.ShoulderTop, s.ShoulderTop
	if w := h.relief.Width; w > 0 {
		s.Groove = h.bore(w, w+h.ribHeight())
		s.GrooveTop += h.relief.Depth
		s.SlopeTop += h.reliefHeight()
	}
	return s, nil
}
