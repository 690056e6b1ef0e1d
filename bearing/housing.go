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
	delta      float64 // least interference; negative for clearance
	deltaMax   float64 // largest; the same for a printed fit
	wall       float64
	seat       fit.Fit
	outside    fit.Fit // of the tube
	flange     fit.Fit
	tips       fit.Fit // of crush ribs
	hole       fit.Fit // through the shoulder
	screw      fit.Fit
	seatDepth  float64
	leadWidth  float64
	leadHeight float64
	chamfer    float64 // on the bed side: the card's, less where the foot is narrow
	slots      []slot
	push       pushHoles
	relief     Relief
	lip        fit.Fit
	lipHeight  float64
	pilot      fit.Fit // in the wall, for the cap's screws
	capHole    fit.Fit
	capOpening fit.Fit
	disc       *pressingDisc
	clamp      clampPlace
	rod        Rod
	press      PressFit // at deltaMax, friction 1
	parts      []geom.Part
}

// NewHousing designs the ring and the parts that go with it, proves their
// geometry and returns it. Input that makes no ring is a *check.FieldError.
func NewHousing(spec HousingSpec) (*Housing, error) {
	if err := spec.validate(); err != nil {
		return nil, err
	}
	spec = spec.withDefaults()
	b, card := spec.Bearing, spec.Card
	h := &Housing{spec: spec, delta: spec.Interference, wall: spec.Wall, seatDepth: b.SeatWidth()}
	if spec.Cap != nil {
		h.seatDepth -= proud
	}
	h.hole = card.Hole(h.partName(), "shoulder hole", spec.ShoulderHole)
	if s, _, _, ok := h.mount(); ok {
		h.screw = card.Hole(h.partName(), "screw hole", s.Clearance)
	}
	h.placeSeat()
	h.correctSeat()
	h.placeOutside()
	for _, place := range []func() error{h.placeLip, h.leadIn, h.placeRelief, h.validateRoom, h.placeSlots, h.placeCap, h.placeDisc, h.placeClamp, h.placeRod} {
		if err := place(); err != nil {
			return nil, err
		}
	}
	reach := max(h.hole.Drawn/2, h.push.reach())
	for _, s := range h.slots {
		reach = max(reach, s.reach)
	}
	h.chamfer = math.Min(card.BedChamfer(), (h.footRoom()-reach-card.BeadWidth)/2)
	if err := h.solve(); err != nil {
		return nil, err
	}
	return h, h.build()
}

// placeSeat draws the seat for its fit: through the printer card, or at its
// nominal size where it will be machined.
func (h *Housing) placeSeat() {
	outside, card := h.spec.Bearing.Outside, h.spec.Card
	h.deltaMax = h.delta
	wanted := outside - h.delta
	switch {
	case h.spec.machined():
		f, err := FitInHousing(h.spec.Fit, outside)
		if err != nil {
			panic("bearing: a fit that passed validation: " + err.Error())
		}
		h.delta, h.deltaMax = -f.Loosest/1000, -f.Tightest/1000
		h.seat = fit.Fit{Part: h.partName(), Feature: "seat", Wanted: outside, Drawn: outside, Expected: outside, Card: "machined"}
		return
	case h.spec.Fit == Slip:
		h.delta, h.deltaMax = -card.Slip(), -card.Slip()
		wanted = outside + card.Slip()
	case h.spec.Fit == CrushRibs:
		h.tips = card.Hole(h.partName(), "rib tips", wanted)
		wanted += 2 * h.spec.Ribs.Height
	}
	h.seat = card.Hole(h.partName(), "seat", wanted)
}

// placeOutside draws tube and flange. The tube is drawn so that its wall has whole
// beads beside the seat as drawn, and comes out as the printer makes it; the
// flange lies in recesses and goes through the printer card.
func (h *Housing) placeOutside() {
	card := h.spec.Card
	tube := h.seat.Drawn + 2*h.wall
	h.outside = card.Peg(h.partName(), "outside", tube+card.Outside.At(tube))
	if h.spec.Flange != nil {
		_, edge := h.screwRoom()
		h.flange = card.Peg(h.partName(), "flange", h.BoltCircle()+2*edge)
	}
}

// solve works out the press fit, by the ribs where the seat has them.
func (h *Housing) solve() (err error) {
	spec := h.pressSpec()
	if h.spec.Fit == CrushRibs {
		h.press, err = h.crush(spec)
		return err
	}
	h.press, err = NewPressFit(spec)
	return err
}

func (h *Housing) pressSpec() PressFitSpec {
	b, m := h.spec.Bearing, h.spec.Material
	return PressFitSpec{
		Joint: b.Outside, HubOutside: b.Outside + 2*h.wall, ShaftInner: b.RingInner(), Interference: h.deltaMax,
		HubE: m.Modulus, HubNu: m.Poisson, ShaftE: steelModulus, ShaftNu: steelPoisson,
		Length: h.gripLength(), Friction: 1,
	}
}

// Steel of a bearing ring: the values of the reference press fits.
const (
	steelModulus   = 206000 // MPa
	steelPoisson   = 0.3
	steelExpansion = 12.5e-6 // per K, IKO catalogue p. 42
)

// gripLength returns the length in mm of the seat that holds the ring: without
// lead-in, step and relief.
func (h *Housing) gripLength() float64 {
	length := h.seatDepth - h.reliefHeight()
	switch {
	case h.stepped():
		length -= h.stepHeight()
	case h.spec.Lip == nil:
		length -= h.leadHeight
	}
	return math.Max(length, 0)
}

// leadIn sizes the chamfer at the mouth: max(delta + 0.3, 0.5) wide at 30 degrees
// from the axis (common practice, no source), but never more than half the wall
// or half the seat's depth.
func (h *Housing) leadIn() error {
	wall := h.wall
	if h.stepped() {
		wall -= stepGap
	}
	h.leadWidth = math.Min(h.leadWanted(), wall/2)
	h.leadHeight = h.leadWidth * math.Sqrt(3)
	if h.spec.Lip == nil {
		h.leadHeight = math.Min(h.leadHeight, h.seatDepth/2)
	}
	return nil
}

func (h *Housing) leadWanted() float64 { return max(h.deltaMax+0.3, h.lipLead(), 0.5) }

// stepped says whether the tube is longer than the ring it holds.
func (h *Housing) stepped() bool {
	return h.spec.BoreDepth > h.seatDepth+h.stepHeight()+thinnest
}

func (h *Housing) stepHeight() float64 { return stepGap * math.Sqrt(3) }

func (h *Housing) partName() string {
	if h.spec.Part != "" {
		return h.spec.Part
	}
	return h.spec.Name + "-ring"
}

// Parts returns the ring, then the cap and the pressing disc where they are made.
func (h *Housing) Parts() []geom.Part { return h.parts }

// Spec returns what the ring was made from, with what was chosen for it.
func (h *Housing) Spec() HousingSpec { return h.spec }

// Bearing returns the bearing the ring is made for.
func (h *Housing) Bearing() Bearing { return h.spec.Bearing }

// Fits returns what seat, shoulder hole, screw holes and the rest should measure.
func (h *Housing) Fits() []fit.Fit {
	fits := []fit.Fit{h.seat, h.hole}
	if _, _, _, ok := h.mount(); ok {
		fits = append(fits, h.screw)
	}
	if h.spec.Fit == CrushRibs {
		fits = append(fits, h.tips)
	}
	if h.push.count > 0 {
		fits = append(fits, h.push.hole)
	}
	fits = append(fits, h.lipFits()...)
	fits = append(fits, h.capFits()...)
	fits = append(fits, h.clampFits()...)
	fits = append(fits, h.disc.fits()...)
	if h.spec.Flange != nil {
		fits = append(fits, h.flange)
	}
	return append(fits, h.outside)
}

// knockOuts returns the number of slots or round holes to push the ring out by.
func (h *Housing) knockOuts() int { return len(h.slots) - h.spec.InspectionSlots + h.push.count }

// Interference returns the least wanted interference in mm on the diameter;
// negative is clearance.
func (h *Housing) Interference() float64 { return h.delta }

// Wall returns the thickness in mm of plastic outside the seat, as drawn.
func (h *Housing) Wall() float64 { return h.wall }

// OutsideDiameter returns the diameter in mm of the tube as drawn: the drawn
// seat plus two walls, so that the wall is a whole number of beads, less what
// earlier prints came out too large by.
func (h *Housing) OutsideDiameter() float64 { return h.outside.Drawn }

// Height returns the height in mm of the ring: shoulder plus seat, or plus the
// bore of a long tube, or plus the lip.
func (h *Housing) Height() float64 {
	height := h.spec.ShoulderThickness + max(h.seatDepth, h.spec.BoreDepth)
	if h.spec.Lip != nil {
		_, _, end := h.lipHeights()
		height += end + h.leadHeight
	}
	return height
}

// SeatHeight returns the height in mm of the outer ring's back face above the
// underside.
func (h *Housing) SeatHeight() float64 { return h.spec.ShoulderThickness }

// SeatDepth returns the depth in mm of the seat, mouth chamfer included.
func (h *Housing) SeatDepth() float64 { return h.seatDepth }

// MouthDiameter returns the diameter in mm, as drawn, of the bore where it opens at
// the top: the wide end of the lead-in.
func (h *Housing) MouthDiameter() float64 {
	wide := h.seat.Drawn
	switch {
	case h.stepped():
		wide += 2 * stepGap
	case h.spec.Lip != nil:
		wide = h.lip.Drawn
	}
	return wide + 2*h.leadWidth
}

// ShoulderHole returns the wanted diameter in mm of the hole behind the ring.
func (h *Housing) ShoulderHole() float64 { return h.hole.Wanted }
