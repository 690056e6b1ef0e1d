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
	if bead := max(h.spec.Card.BeadWidth, 0.3); h.wall < bead {
		return &check.FieldError{
			Field: "wall", Value: h.wall, Unit: "mm", Reason: fmt.Sprintf("is thinner than one bead of %s mm", check.Number(bead)),
			Remedy: fmt.Sprintf("use %s mm or more", check.Number(h.spec.wholeBeads(h.spec.wallWanted()))),
		}
	}
	if widest := h.seat.Drawn - 0.4; h.hole.Drawn > widest {
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
	return h.validateFlange(least)
}

func (h *Housing) validateFlange(least float64) error {
	f := h.spec.Flange
	if f == nil {
		return nil
	}
	most := h.Height() - h.leadHeight - h.spec.Card.LayerThickness
	if f.Thickness < least || f.Thickness > most {
		return &check.FieldError{
			Field: "flange thickness", Value: f.Thickness, Unit: "mm",
			Reason: fmt.Sprintf("must be from %s to %s mm: above the bed-side chamfer and below the lead-in", check.Number(least), floor(most, 0.01)),
			Remedy: "change it, or make the shoulder thicker",
		}
	}
	pitch := h.BoltCircle() * math.Sin(math.Pi/float64(f.Count))
	if room := f.Screw.HeadDiameter + 1; pitch < room {
		return &check.FieldError{
			Field: "number of flange screws", Value: float64(f.Count),
			Reason: fmt.Sprintf("puts heads of %s mm at %s mm from each other", check.Number(f.Screw.HeadDiameter), check.Number(math.Round(pitch*100)/100)),
			Remedy: fmt.Sprintf("use %d or fewer", int(math.Pi/math.Asin(math.Min(1, room/h.BoltCircle())))),
		}
	}
	return nil
}

// slabs draws the ring from the bed up. An outline that runs through several
// layers is one contour, so that its walls join.
func (h *Housing) slabs() []geom.Slab {
	var (
		chamfer  = h.chamfer
		shoulder = h.spec.ShoulderThickness
		height   = h.Height()
		mouth    = height - h.leadHeight
		tube     = geom.Peg(geom.Point{}, h.OutsideDiameter(), geom.ChordPlain)
		hole     = geom.Bore(geom.Point{}, h.hole.Drawn, geom.ChordPlain)
		seat     = geom.Bore(geom.Point{}, h.seat.Drawn, h.spec.ChordError)
	)
	foot := append([]geom.Contour{tube}, h.screwHoles()...)
	if h.spec.Flange != nil {
		foot[0] = geom.Peg(geom.Point{}, h.FlangeDiameter(), geom.ChordPlain)
	}
	bed := []geom.Contour{foot[0].Resize(foot[0].Diameter() - 2*chamfer)}
	for _, c := range foot[1:] {
		bed = append(bed, c.Resize(c.Diameter()+2*chamfer))
	}
	bed = append(bed, hole.Resize(hole.Diameter()+2*chamfer))

	slabs := []geom.Slab{{Z0: 0, Z1: chamfer, Bottom: bed, Top: with(foot, hole)}}
	add := func(z1 float64, contours []geom.Contour) {
		if z0 := slabs[len(slabs)-1].Z1; z1 > z0+1e-3 {
			slabs = append(slabs, geom.Slab{Z0: z0, Z1: z1, Bottom: contours})
		}
	}
	wall := []geom.Contour{tube}
	if flange := h.FlangeThickness(); flange < shoulder {
		add(flange, with(foot, hole))
		add(shoulder, with(wall, hole))
	} else {
		add(shoulder, with(foot, hole))
		add(flange, with(foot, seat))
	}
	add(mouth, with(wall, seat))
	return append(slabs, geom.Slab{
		Z0: mouth, Z1: height, Bottom: with(wall, seat),
		Top: []geom.Contour{tube.Resize(tube.Diameter() - 2*h.mouthBreak()), seat.Resize(seat.Diameter() + 2*h.leadWidth)},
	})
}

// with returns the contours and one more in a slice of their own.
func with(contours []geom.Contour, last geom.Contour) []geom.Contour {
	return append(append([]geom.Contour(nil), contours...), last)
}

func (h *Housing) screwHoles() []geom.Contour {
	var holes []geom.Contour
	for _, angle := range h.BoltAngles() {
		holes = append(holes, geom.Bore(geom.Polar(h.BoltCircle()/2, angle), h.screw.Drawn, geom.ChordPlain))
	}
	return holes
}
