package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// edgeBreak is the chamfer in mm on the outer edge at the mouth, where the wall
// leaves room for it.
const edgeBreak = 0.4

// mouthBreak returns the chamfer of the outer edge at the mouth: at most a
// quarter of the wall, so that with the lead-in a quarter of it stands.
func (h *Housing) mouthBreak() float64 { return math.Min(edgeBreak, h.wall/4) }

// footRadius returns the smallest radius in mm, as drawn, of the seat above the
// shoulder.
func (h *Housing) footRadius() float64 {
	if h.spec.Fit == CrushRibs {
		return h.tips.Drawn / 2
	}
	return h.seat.Drawn / 2
}

// footRoom returns the least distance in mm of the outline on the bed from the
// axis.
func (h *Housing) footRoom() float64 {
	if h.spec.Foot != nil {
		return h.OutsideDiameter()/2 + ledge
	}
	return h.rimFit().Drawn / 2
}

// validateRoom refuses measures that leave a layer without height or an outline
// without plastic, before they become a fault of the geometry.
func (h *Housing) validateRoom() error {
	least := h.spec.Card.BedChamfer() + h.spec.Card.LayerThickness
	if h.spec.ShoulderThickness < least {
		return &check.FieldError{
			Field: "shoulder thickness", Value: h.spec.ShoulderThickness, Unit: "mm",
			Reason: fmt.Sprintf("leaves no shoulder above the bed-side chamfer of %s mm", check.Number(h.spec.Card.BedChamfer())),
			Remedy: fmt.Sprintf("use %s mm or more", check.Number(max(2, least))),
		}
	}
	if bead := max(h.spec.Card.BeadWidth, 0.3, h.stepRoom()); h.wall < bead {
		return &check.FieldError{
			Field: "wall", Value: h.wall, Unit: "mm", Reason: fmt.Sprintf("is thinner than %s mm, what one bead and the bore need", check.Number(bead)),
			Remedy: fmt.Sprintf("use %s mm or more", check.Number(h.spec.wholeBeads(h.spec.wallWanted()))),
		}
	}
	if widest := 2*h.footRadius() - 0.4; h.hole.Drawn > widest {
		return &check.FieldError{
			Field: "shoulder hole", Value: h.hole.Wanted, Unit: "mm", Reason: fmt.Sprintf("leaves no shoulder in a seat of %s mm", check.Number(h.seat.Wanted)),
			Remedy: h.holeRemedy(),
		}
	}
	if h.hole.Drawn < 0.5 {
		return &check.FieldError{
			Field: "shoulder hole", Value: h.hole.Wanted, Unit: "mm", Reason: "is too small to print", Remedy: h.holeRemedy(),
		}
	}
	if h.spec.Fit == CrushRibs {
		if err := h.validateRibs(); err != nil {
			return err
		}
	}
	return h.validateMount(least)
}

// stepRoom returns the wall that a long tube needs to widen above its seat.
func (h *Housing) stepRoom() float64 {
	if h.stepped() {
		return h.spec.Card.BeadWidth + stepGap
	}
	return 0
}

// bore returns the seat's outline grown on the radius, and the tips of its ribs.
func (h *Housing) bore(grow, growTips float64) geom.Contour {
	if h.spec.Fit == CrushRibs {
		return h.ribbed(grow, growTips)
	}
	seat := geom.Bore(geom.Point{}, h.seat.Drawn, h.spec.ChordError)
	return seat.Resize(seat.Diameter() + 2*grow)
}

// ribHeight returns how far in mm ribs stand out of the bore as drawn, else 0.
func (h *Housing) ribHeight() float64 {
	if h.spec.Fit == CrushRibs {
		return (h.seat.Drawn - h.tips.Drawn) / 2
	}
	return 0
}

// boreProfile draws what is open inside the ring from the bed up: hole, relief,
// seat, then the mouth of a plain ring, a long tube or a lip.
func (h *Housing) boreProfile() profile {
	var (
		foot   = h.spec.ShoulderThickness
		top    = foot + h.seatDepth
		height = h.Height()
		mouth  = height - h.leadHeight
		one    = func(c geom.Contour) []geom.Contour { return []geom.Contour{c} }
		hole   = one(h.opening(0))
		seat   = one(h.bore(0, 0))
		p      profile
	)
	p.add(h.chamfer, one(h.opening(h.chamfer)), hole)
	p.add(foot, hole, nil)
	if w := h.relief.Width; w > 0 {
		groove := one(h.bore(w, w+h.ribHeight()))
		p.add(foot+h.relief.Depth, groove, nil)
		p.add(foot+h.reliefHeight(), groove, seat)
	}
	last, tips := 0.0, 0.0 // how much wider the bore is at the mouth's foot
	switch {
	case h.stepped():
		last, tips = stepGap, stepGap+h.ribHeight()
		clear := one(h.bore(last, tips))
		p.add(top-h.stepHeight(), seat, nil)
		p.add(top, seat, clear)
		p.add(mouth, clear, nil)
	case h.spec.Lip != nil:
		slope, land, end := h.lipHeights()
		last = (h.lip.Drawn - h.seat.Drawn) / 2
		tips = last + h.ribHeight()
		narrow := one(h.bore(last, tips))
		clear := one(h.bore(0, h.ribHeight())) // ribs end at the ring's face
		p.add(top, seat, nil)
		p.add(top+slope, clear, nil)
		p.add(top+land, clear, narrow)
		p.add(top+end, narrow, nil)
	default:
		p.add(mouth, seat, nil)
	}
	p.add(height, one(h.bore(last, tips)), one(h.bore(last+h.leadWidth, tips+h.leadWidth)))
	return p
}

// outsideProfile draws the outline: foot or flange, tube, broken edge.
func (h *Housing) outsideProfile() profile {
	foot := []geom.Contour{h.footprint()}
	tube := geom.Peg(geom.Point{}, h.OutsideDiameter(), geom.ChordPlain)
	wall := []geom.Contour{tube}
	bed := geom.FattenAll(foot, -h.chamfer)
	if d := foot[0].Diameter(); d > 0 {
		bed[0] = foot[0].Resize(d - 2*h.chamfer)
	}
	height := h.Height()
	var p profile
	p.add(h.chamfer, bed, foot)
	if thickness := h.FlangeThickness(); thickness > 0 {
		p.add(thickness, foot, nil)
	}
	p.add(height-h.leadHeight, wall, nil)
	p.add(height, wall, []geom.Contour{tube.Resize(tube.Diameter() - 2*h.mouthBreak())})
	return p
}

// holeProfiles draws the screw holes of the foot and the cap's pilot holes.
func (h *Housing) holeProfiles() []profile {
	var all []profile
	if holes := h.screwHoles(); len(holes) > 0 {
		var bed []geom.Contour
		for _, c := range holes {
			bed = append(bed, c.Resize(c.Diameter()+2*h.chamfer))
		}
		var p profile
		p.add(h.chamfer, bed, holes)
		p.add(h.FlangeThickness(), holes, nil)
		all = append(all, p)
	}
	if h.push.count > 0 {
		all = append(all, h.pushProfile())
	}
	if h.spec.Cap != nil {
		height := h.Height()
		all = append(all, profile{{height - h.pilotDepth(), height, h.capHoles(h.pilot.Drawn), nil}})
	}
	return all
}

// build draws and proves the ring and the parts that go with it.
func (h *Housing) build() error {
	profiles := append([]profile{h.outsideProfile()}, h.holeProfiles()...)
	layers := slabs(append(profiles, h.boreProfile())...)
	if h.spec.Clamp != nil {
		var err error
		if layers, err = h.slit(layers); err != nil {
			return err
		}
	}
	ring, err := geom.NewPart(h.partName(), layers...)
	if err != nil {
		return err
	}
	h.parts = []geom.Part{ring}
	if h.spec.Cap != nil {
		part, err := h.capPart()
		if err != nil {
			return err
		}
		h.parts = append(h.parts, part)
	}
	if h.disc != nil {
		part, err := h.disc.part(h.spec.Name, h.spec.Card)
		if err != nil {
			return err
		}
		h.parts = append(h.parts, part)
	}
	return nil
}
