package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Flange is a disc on the bed side with clearance holes for cap screws.
type Flange struct {
	Screw     fit.Screw
	Count     int     // 2 to 24; the first hole at 45 degrees from the x axis
	Thickness float64 // mm; 0 for 5, or less on a ring too low for that
}

// A Foot is a tongue on the bed side for a ring whose axis lies level: its
// straight edge stands on the base, its screws run along the bearing's axis into
// an upright beside the ring.
type Foot struct {
	Screw     fit.Screw
	Count     int     // 2 to 24, in a row along the edge
	Thickness float64 // mm; 0 for 5, or less on a ring too low for that
}

// ledge is how far in mm the foot stands out round the tube, so that the tube's
// wall starts on it.
const ledge = 1.5

func (f *Flange) validate() error {
	if f == nil {
		return nil
	}
	if err := validateScrews("flange", f.Screw, f.Count); err != nil {
		return err
	}
	return check.InRange("flange thickness", f.Thickness, "mm", 0, 200, "3 to 6 mm is usual")
}

func (f *Foot) validate() error {
	if f == nil {
		return nil
	}
	if err := validateScrews("foot", f.Screw, f.Count); err != nil {
		return err
	}
	return check.InRange("foot thickness", f.Thickness, "mm", 0, 200, "3 to 6 mm is usual")
}

// mount returns the screws of flange or foot.
func (h *Housing) mount() (s fit.Screw, count int, thickness float64, ok bool) {
	switch {
	case h.spec.Flange != nil:
		f := h.spec.Flange
		return f.Screw, f.Count, f.Thickness, true
	case h.spec.Foot != nil:
		f := h.spec.Foot
		return f.Screw, f.Count, f.Thickness, true
	}
	return s, 0, 0, false
}

// FlangeThickness returns the thickness in mm of flange or foot, 0 without one.
func (h *Housing) FlangeThickness() float64 {
	_, _, thickness, _ := h.mount()
	return thickness
}

// screwRoom returns how far in mm a screw's centre stands off the tube's wall: one
// screw diameter, half a head plus 0.5 mm, or the hole with its chamfer,
// whichever is largest; and how far the edge stands off the centre: 1.5 screw
// diameters, more where the chamfers need it.
func (h *Housing) screwRoom() (clear, edge float64) {
	s, _, _, _ := h.mount()
	card := h.spec.Card
	clear = max(s.Diameter, s.HeadDiameter/2+0.5, h.screw.Drawn/2+2*card.BedChamfer())
	edge = max(1.5*s.Diameter, h.screw.Drawn/2+2*card.BedChamfer()+card.BeadWidth)
	return clear, edge
}

// BoltCircle returns the diameter in mm of the flange's bolt circle, 0 without a
// flange, rounded up to 0.5 mm.
func (h *Housing) BoltCircle() float64 {
	if h.spec.Flange == nil {
		return 0
	}
	clear, _ := h.screwRoom()
	return math.Ceil(2*(h.OutsideDiameter()+2*clear)-1e-9) / 2
}

// FlangeDiameter returns the diameter in mm that the flange should measure,
// without a flange the tube.
func (h *Housing) FlangeDiameter() float64 { return h.rimFit().Wanted }

// rimFit returns the fit of the ring's outline on the bed, where it is round.
func (h *Housing) rimFit() fit.Fit {
	if h.spec.Flange == nil {
		return h.outside
	}
	return h.flange
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

// AxisHeight returns the distance in mm of the bearing's axis from the foot's
// straight edge, 0 without a foot, rounded up to 0.5 mm.
func (h *Housing) AxisHeight() float64 {
	if h.spec.Foot == nil {
		return 0
	}
	clear, edge := h.screwRoom()
	return math.Ceil(2*(h.OutsideDiameter()/2+clear+edge)-1e-9) / 2
}

// footSize returns the length in mm of the foot along its edge and the spacing
// of its screws.
func (h *Housing) footSize() (length, pitch float64) {
	_, edge := h.screwRoom()
	f := h.spec.Foot
	gaps := float64(f.Count - 1)
	length = h.OutsideDiameter() + 2*ledge
	pitch = max((length-2*edge)/gaps, f.Screw.HeadDiameter+1)
	return gaps*pitch + 2*edge, pitch
}

// screwHoles returns the holes of flange or foot.
func (h *Housing) screwHoles() []geom.Contour {
	var holes []geom.Contour
	for _, p := range h.screwCentres() {
		holes = append(holes, geom.Bore(p, h.screw.Drawn, geom.ChordPlain))
	}
	return holes
}

func (h *Housing) screwCentres() []geom.Point {
	var centres []geom.Point
	for _, angle := range h.BoltAngles() {
		centres = append(centres, geom.Polar(h.BoltCircle()/2, angle))
	}
	if f := h.spec.Foot; f != nil {
		_, pitch := h.footSize()
		_, edge := h.screwRoom()
		for i := range f.Count {
			centres = append(centres, geom.Point{X: pitch * (float64(i) - float64(f.Count-1)/2), Y: edge - h.AxisHeight()})
		}
	}
	return centres
}

// footprint returns the ring's outline on its bed side: the flange, the foot, or
// the tube itself.
func (h *Housing) footprint() geom.Contour {
	if h.spec.Foot == nil {
		return geom.Peg(geom.Point{}, h.rimFit().Drawn, geom.ChordPlain)
	}
	length, _ := h.footSize()
	_, edge := h.screwRoom()
	radius, base := h.OutsideDiameter()/2+ledge, -h.AxisHeight()
	corner := geom.Point{X: length / 2, Y: base + 2*edge}
	// The tangent from the corner meets the round a right angle's rest away from
	// the corner's direction.
	from := corner.Angle() + math.Acos(math.Min(1, radius/corner.Len()))
	mirrored := func(p geom.Point) geom.Point { return geom.Point{X: -p.X, Y: p.Y} }
	low := geom.Point{X: length / 2, Y: base}
	return geom.NewContour([]geom.Curve{
		geom.Line{A: mirrored(low), B: low},
		geom.Line{A: low, B: corner},
		geom.Line{A: corner, B: geom.Polar(radius, from)},
		geom.Arc{Radius: radius, From: from, To: math.Pi - from},
		geom.Line{A: geom.Polar(radius, math.Pi-from), B: mirrored(corner)},
		geom.Line{A: mirrored(corner), B: mirrored(low)},
	}, geom.ChordPlain)
}

// validateMount refuses a flange or foot without height, and heads that meet.
func (h *Housing) validateMount(least float64) error {
	s, count, thickness, ok := h.mount()
	if !ok {
		return nil
	}
	name := "flange"
	if h.spec.Foot != nil {
		name = "foot"
	}
	most := h.Height() - h.leadHeight - h.spec.Card.LayerThickness
	if thickness < least || thickness > most {
		return &check.FieldError{
			Field: name + " thickness", Value: thickness, Unit: "mm",
			Reason: fmt.Sprintf("must be from %s to %s mm: above the bed-side chamfer and below the lead-in", check.Number(least), floor(most, 0.01)),
			Remedy: "change it, or make the shoulder thicker",
		}
	}
	return h.headsApart(name, s, count, h.BoltCircle())
}

// headsApart refuses screws on a circle whose heads meet; a diameter of 0 is a
// row, which makes its own room.
func (h *Housing) headsApart(of string, s fit.Screw, count int, circle float64) error {
	pitch, room := circle*math.Sin(math.Pi/float64(count)), s.HeadDiameter+1
	if circle == 0 || pitch >= room {
		return nil
	}
	return &check.FieldError{
		Field: "number of " + of + " screws", Value: float64(count),
		Reason: fmt.Sprintf("puts heads of %s mm at %s mm from each other", check.Number(s.HeadDiameter), check.Number(math.Round(pitch*100)/100)),
		Remedy: fmt.Sprintf("use %d or fewer", int(math.Pi/math.Asin(math.Min(1, room/circle)))),
	}
}
