package bearing

import (
	"math"

	"pintle/fit"
	"pintle/geom"
)

// A Housing is a checked ring. Its print frame has the bed at z = 0; the seat
// opens at the top and the bearing's axis is x = y = 0.
type Housing struct {
	spec       HousingSpec
	delta      float64 // interference; negative for a slip fit
	wall       float64
	seat       fit.Fit
	hole       fit.Fit // through the shoulder
	screw      fit.Fit
	seatDepth  float64
	leadWidth  float64
	leadHeight float64
	chamfer    float64  // on the bed side: the card's, less where the foot is narrow
	press      PressFit // at the wanted interference, friction 1
	part       geom.Part
}

// NewHousing designs the ring, proves its geometry and returns it. Input that
// makes no ring is a *check.FieldError.
func NewHousing(spec HousingSpec) (*Housing, error) {
	if err := spec.validate(); err != nil {
		return nil, err
	}
	spec = spec.withDefaults()
	b, card := spec.Bearing, spec.Card
	h := &Housing{spec: spec, delta: spec.Interference, wall: spec.Wall, seatDepth: b.SeatWidth()}
	if spec.Fit == Slip {
		h.delta = -fit.SlipClearance
	}
	h.seat = card.Hole(h.partName(), "seat", b.Outside-h.delta)
	h.hole = card.Hole(h.partName(), "shoulder hole", spec.ShoulderHole)
	if f := spec.Flange; f != nil {
		h.screw = card.Hole(h.partName(), "screw hole", f.Screw.Clearance)
	}
	h.leadIn()
	h.chamfer = math.Min(card.BedChamfer(), ((h.FlangeDiameter()-h.hole.Drawn)/2-card.BeadWidth)/2)
	if err := h.validateRoom(); err != nil {
		return nil, err
	}
	press, err := NewPressFit(PressFitSpec{
		Joint: b.Outside, HubOutside: b.Outside + 2*h.wall, ShaftInner: b.RingInner(), Interference: h.delta,
		HubE: spec.Material.Modulus, HubNu: spec.Material.Poisson, ShaftE: steelModulus, ShaftNu: steelPoisson,
		Length: h.seatDepth - h.leadHeight, Friction: 1,
	})
	if err != nil {
		return nil, err
	}
	h.press = press
	if h.part, err = geom.NewPart(h.partName(), h.slabs()...); err != nil {
		return nil, err
	}
	return h, nil
}

// Steel of a bearing ring: the values of the reference press fits.
const (
	steelModulus   = 206000 // MPa
	steelPoisson   = 0.3
	steelExpansion = 12.5e-6 // per K, IKO catalogue p. 42
)

// leadIn sizes the chamfer at the mouth: max(delta + 0.3, 0.5) wide at 30 degrees
// from the axis (common practice, no source), but never more than half the wall
// or half the seat's depth.
func (h *Housing) leadIn() {
	h.leadWidth = math.Min(h.leadWanted(), h.wall/2)
	h.leadHeight = math.Min(h.leadWidth*math.Sqrt(3), h.seatDepth/2)
}

func (h *Housing) leadWanted() float64 { return max(h.delta+0.3, 0.5) }

func (h *Housing) partName() string { return h.spec.Name + "-ring" }

// Parts returns the ring.
func (h *Housing) Parts() []geom.Part { return []geom.Part{h.part} }

// Bearing returns the bearing the ring is made for.
func (h *Housing) Bearing() Bearing { return h.spec.Bearing }

// Fits returns what seat, shoulder hole and screw holes should measure.
func (h *Housing) Fits() []fit.Fit {
	fits := []fit.Fit{h.seat, h.hole}
	if h.spec.Flange != nil {
		fits = append(fits, h.screw)
	}
	return fits
}

// Interference returns the wanted interference in mm on the diameter; negative
// is clearance.
func (h *Housing) Interference() float64 { return h.delta }

// Wall returns the thickness in mm of plastic outside the seat, as drawn.
func (h *Housing) Wall() float64 { return h.wall }

// OutsideDiameter returns the diameter in mm of the tube as drawn: the drawn
// seat plus two walls, so that the wall is a whole number of beads.
func (h *Housing) OutsideDiameter() float64 { return h.seat.Drawn + 2*h.wall }

// Height returns the height in mm of the ring: shoulder plus seat.
func (h *Housing) Height() float64 { return h.spec.ShoulderThickness + h.seatDepth }

// SeatHeight returns the height in mm of the outer ring's back face above the
// underside.
func (h *Housing) SeatHeight() float64 { return h.spec.ShoulderThickness }

// SeatDepth returns the depth in mm of the seat, mouth chamfer included.
func (h *Housing) SeatDepth() float64 { return h.seatDepth }

// ShoulderHole returns the wanted diameter in mm of the hole behind the ring.
func (h *Housing) ShoulderHole() float64 { return h.hole.Wanted }

// FlangeThickness returns the thickness in mm of the flange, 0 without one.
func (h *Housing) FlangeThickness() float64 {
	if h.spec.Flange == nil {
		return 0
	}
	return h.spec.Flange.Thickness
}

// BoltCircle returns the diameter in mm of the flange's bolt circle, 0 without a
// flange: clear of the wall by one screw diameter, half a head plus 0.5 mm, or
// the hole with its chamfer, whichever is largest; rounded up to 0.5 mm.
func (h *Housing) BoltCircle() float64 {
	if h.spec.Flange == nil {
		return 0
	}
	s := h.spec.Flange.Screw
	clear := max(s.Diameter, s.HeadDiameter/2+0.5, h.screw.Drawn/2+2*h.spec.Card.BedChamfer())
	return math.Ceil(2*(h.OutsideDiameter()+2*clear)-1e-9) / 2
}

// FlangeDiameter returns the diameter in mm of the flange: 1.5 screw diameters
// from each hole's centre to the edge, more where the chamfers need it; the
// tube's diameter without a flange.
func (h *Housing) FlangeDiameter() float64 {
	if h.spec.Flange == nil {
		return h.OutsideDiameter()
	}
	card := h.spec.Card
	return h.BoltCircle() + 2*max(1.5*h.spec.Flange.Screw.Diameter, h.screw.Drawn/2+2*card.BedChamfer()+card.BeadWidth)
}

// BoltAngles returns the directions in radians of the flange's holes, the first
// at 45 degrees from the x axis; none without a flange.
func (h *Housing) BoltAngles() []float64 {
	if h.spec.Flange == nil {
		return nil
	}
	angles := make([]float64, h.spec.Flange.Count)
	for i := range angles {
		angles[i] = math.Pi/4 + 2*math.Pi*float64(i)/float64(len(angles))
	}
	return angles
}

// Values returns the ring's numbers under the report's keys: lengths mm, forces
// N, stresses MPa, strain a share.
func (h *Housing) Values() map[string]any {
	b := h.spec.Bearing
	lo, hi := HousingShoulder(b)
	v := map[string]any{
		"designation": b.Name(), "kind": string(b.Kind), "d": b.Bore, "D": b.Outside, "width": b.Width, "ring_width": h.seatDepth,
		"fit": h.spec.Fit, "delta": h.delta, "material": h.spec.Material.Name,
		"seat_wanted": h.seat.Wanted, "seat_drawn": h.seat.Drawn, "seat_expected": h.seat.Expected, "seat_depth": h.seatDepth, "lead_in": h.leadWidth,
		"wall": h.wall, "outside": h.OutsideDiameter(), "height": h.Height(), "seat_height": h.SeatHeight(),
		"shoulder_hole": h.hole.Wanted, "shoulder_hole_min": lo, "shoulder_hole_max": hi,
		"p": h.press.Pressure, "hoop_strain": max(h.delta, 0) / b.Outside, "hoop_stress": h.press.HubHoopBore, "outside_growth": h.press.HubGrowth,
		"insertion_force": h.insertionForce(), "retention": h.retention(), "retention_after_creep": h.retention() * creepFactor,
	}
	if b.Kind == Tapered {
		v["T"], v["B"], v["C"] = b.Width, b.ConeWidth, b.CupWidth
	}
	if h.spec.Flange != nil {
		v["flange_diameter"], v["flange_thickness"] = h.FlangeDiameter(), h.FlangeThickness()
		v["bolt_circle"], v["screw_size"], v["screw_count"] = h.BoltCircle(), h.spec.Flange.Screw.Size, h.spec.Flange.Count
	}
	return v
}
