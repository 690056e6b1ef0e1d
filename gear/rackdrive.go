package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// RackSpec is a pinion on a straight toothed rack. Of Pair the pinion counts,
// and what both share; wheel, second shift, centre distance, tip alteration and
// climate do not. Speeds and torques are those of the pinion. The parts are
// Name-pinion and Name-rack.
type RackSpec struct {
	Pair   PairSpec
	Travel float64   // mm of the rack from end to end
	Height float64   // of the rack's body below its roots, mm; 0 for 3 modules, or what the screws need
	Screw  fit.Screw // that passes the body along the face width; the zero value for none
	Screws int
}

// A RackDrive is a checked pinion and rack. Its methods cannot fail.
type RackDrive struct {
	spec   RackSpec // completed
	pair   *Pair    // the pinion, on a mate like itself
	bar    bar      // nominal
	drawn  bar
	teeth  int // of the rack
	part   geom.Part
	fits   []fit.Fit
	motion motion
}

// NewRackDrive works out pinion and rack and proves both parts. The error is a
// *check.FieldError.
func NewRackDrive(spec RackSpec) (*RackDrive, error) {
	pair := spec.Pair.completed()
	pair.Teeth[1], pair.Shift[1], pair.CentreDistance, pair.Wheel = max(pair.Teeth[0], leastTeeth), 0, 0, Body{}
	pair.KeepTips, pair.TipAlteration, pair.Climate = true, 0, Climate{}
	if pair.ShiftRule != ShiftGiven {
		pair.Shift[0] = math.Max(LeastShift(pair.Teeth[0], pair.PressureAngle, pair.Rack), 0)
	}
	if err := pair.validate(); err != nil {
		return nil, err
	}
	if err := check.InRange("screws of the rack", float64(spec.Screws), "", 0, 100, "use 2 or 3 screws"); err != nil {
		return nil, err
	}
	s := solution{spec: pair, x: pair.Shift, thin: pair.Backlash / 2}
	t := s.tooth(0, s.thin, 0)
	s.contact = newContact(t, t, 2*t.r)
	if err := s.possible(0, t); err != nil {
		return nil, err
	}
	spec.Pair = pair
	d := &RackDrive{spec: spec, bar: newBar(pair, s.thin, 0)}
	pinion, err := newGear(s, 0)
	if err != nil {
		return nil, err
	}
	d.pair = &Pair{solution: s, gears: [2]*Gear{pinion, pinion}}
	if err := d.makeRack(); err != nil {
		return nil, err
	}
	d.motion = d.run()
	return d, nil
}

// Spec returns the spec with its defaults filled in.
func (d *RackDrive) Spec() RackSpec { return d.spec }

// Pinion returns the pinion.
func (d *RackDrive) Pinion() *Gear { return d.pair.gears[0] }

// Parts returns pinion and rack in their print frames. The rack lies on its side
// with its teeth in +y and its reference line on the x axis.
func (d *RackDrive) Parts() []geom.Part { return []geom.Part{d.Pinion().part, d.part} }

// Fits returns what the printer card changes on both.
func (d *RackDrive) Fits() []fit.Fit {
	return append(append([]fit.Fit{}, d.Pinion().fits...), d.fits...)
}

// Motion returns one mesh cycle of the expected print.
func (d *RackDrive) Motion() []MotionPoint { return d.motion.points }

// Teeth returns the number of teeth of the rack, Length its length in mm.
func (d *RackDrive) Teeth() int { return d.teeth }

// Length returns the length of the rack in mm.
func (d *RackDrive) Length() float64 { return d.bar.pitch * float64(d.teeth) }

// AxisDistance returns the distance in mm from the pinion's axis to the rack's
// reference line.
func (d *RackDrive) AxisDistance() float64 {
	return d.pair.contact.t[0].r + d.pair.x[0]*d.spec.Pair.Module
}

// path returns where the rack's tip enters and the pinion's leaves, as lengths
// on the line of action from the pinion's tangent point.
func (d *RackDrive) path() (start, end float64) {
	t, sin := d.pair.contact.t[0], math.Sin(d.spec.Pair.PressureAngle)
	return t.r*sin - (d.bar.tip-d.pair.x[0]*t.m)/sin, t.to * t.rb
}

// ContactRatio returns epsilon_alpha over the flanks that are there: it starts
// where the rack's tip or the pinion's involute begins.
func (d *RackDrive) ContactRatio() float64 {
	start, end := d.path()
	return (end - math.Max(start, d.pair.contact.form[0])) / d.pair.contact.basePitch()
}

// normalBacklash returns j_bn in mm with the rack nearer to the pinion by d mm.
func (d *RackDrive) normalBacklash(near float64) float64 {
	sin, cos := math.Sincos(d.spec.Pair.PressureAngle)
	return d.spec.Pair.Backlash*cos - 2*near*sin
}

// name returns the name of the rack's part.
func (d *RackDrive) name() string {
	if d.spec.Pair.Name == "" {
		return "rack"
	}
	return d.spec.Pair.Name + "-rack"
}

// makeRack draws the rack: its length is the travel, the teeth in contact at
// either end, and one to spare.
func (d *RackDrive) makeRack() error {
	p, card := d.spec.Pair, d.spec.Pair.Card
	pitch := d.bar.pitch
	if err := check.InRange("travel", d.spec.Travel, "mm", ceilTo(pitch), math.Floor(geom.Extent-10*pitch), "give how far the rack moves from end to end"); err != nil {
		return err
	}
	d.teeth = int(math.Ceil(d.spec.Travel/pitch+d.ContactRatio())) + 1
	inset := (2*pitch - card.Outside.Draw(2*pitch)) / 2
	inset = math.Max(math.Min(inset, 0.1*p.Module), -math.Min(0.1*p.Module, d.bar.rho))
	d.drawn = newBar(p, d.pair.thin, inset)
	thick := card.Peg(d.name(), "tooth at the reference line", d.bar.thick)
	thick.Drawn = d.drawn.thick
	thick.Expected = thick.Drawn + card.Outside.At(2*pitch)/math.Cos(p.PressureAngle)
	d.fits = []fit.Fit{thick}
	screws, err := d.screwHoles()
	if err != nil {
		return err
	}
	contours := []geom.Contour{geom.NewContour(d.drawn.outline(d.teeth, d.spec.Height, 0), p.ChordError)}
	return d.layered(append(contours, screws...))
}

// screwHoles sets the height of the rack's body, where none was given, and
// returns the holes along its middle.
func (d *RackDrive) screwHoles() ([]geom.Contour, error) {
	p, card := d.spec.Pair, d.spec.Pair.Card
	hole := card.Hole(d.name(), d.spec.Screw.Size+" screw hole", d.spec.Screw.Clearance)
	if d.spec.Height == 0 {
		d.spec.Height = 3 * p.Module
		if d.spec.Screws > 0 {
			d.spec.Height = math.Max(d.spec.Height, hole.Wanted+8*card.BeadWidth)
		}
	}
	height := d.spec.Height
	if err := check.InRange("height of the rack", height, "mm", 2*card.BeadWidth, 200, "use 3 modules"); err != nil {
		return nil, err
	}
	if d.spec.Screws == 0 {
		return nil, nil
	}
	if height-hole.Drawn < 2*card.BeadWidth {
		return nil, &check.FieldError{Field: "height of the rack", Value: height, Unit: "mm", Reason: "leaves no material beside the screws", Remedy: "height >= " + check.Number(ceilTo(hole.Wanted+8*card.BeadWidth)) + " mm"}
	}
	apart := d.Length() / float64(d.spec.Screws)
	if apart < hole.Wanted+4*card.BeadWidth {
		return nil, &check.FieldError{Field: "screws of the rack", Value: float64(d.spec.Screws), Reason: "brings the screw holes into each other", Remedy: "use fewer screws"}
	}
	d.fits = append(d.fits, hole)
	var holes []geom.Contour
	for k := range d.spec.Screws {
		holes = append(holes, geom.Bore(geom.Point{X: apart * (float64(k) + 0.5), Y: d.drawn.root - height/2}, hole.Drawn, geom.ChordFlank))
	}
	return holes, nil
}

// layered makes the rack's part, with the bed-side chamfer that its tips leave.
func (d *RackDrive) layered(contours []geom.Contour) error {
	p := d.spec.Pair
	bed := p.Card.BedChamfer()
	c := math.Max(math.Min(bed, (d.drawn.tipWidth()-p.Card.BeadWidth)/2), 0)
	c = math.Floor(c/0.05+1e-9) * 0.05
	var err error
	if c > 0 {
		d.part, err = geom.NewPart(d.name(), geom.Slab{Z0: 0, Z1: bed, Bottom: geom.FattenAll(contours, -c), Top: contours}, geom.Slab{Z0: bed, Z1: p.FaceWidth, Bottom: contours})
		if err == nil {
			return nil
		}
	}
	if d.part, err = geom.NewPart(d.name(), geom.Slab{Z0: 0, Z1: p.FaceWidth, Bottom: contours}); err != nil {
		return &check.FieldError{Field: "rack", Text: "as given", Reason: "cannot be made of layers: " + err.Error(), Remedy: "use fewer screws or a higher body"}
	}
	return nil
}

// CutOutline returns the path that cuts the nominal rack from sheet with a beam
// of a width of kerf mm, half of that outside, and its screw holes, half of it
// inside. The error is a *check.FieldError for a kerf that does not reach into
// the root fillet.
func (d *RackDrive) CutOutline(kerf float64) ([]geom.Contour, error) {
	if err := kerfFits(kerf, d.bar.rho); err != nil {
		return nil, err
	}
	if hole := d.spec.Screw.Clearance; d.spec.Screws > 0 && kerf > hole/2 {
		return nil, check.InRange("kerf", kerf, "mm", 0, hole/2, "the screw holes take no wider beam: use larger screws or none")
	}
	b := newBar(d.spec.Pair, d.pair.thin, -kerf/2)
	contours := []geom.Contour{geom.NewContour(b.outline(d.teeth, d.spec.Height, kerf/2), d.spec.Pair.ChordError)}
	apart := d.Length() / math.Max(float64(d.spec.Screws), 1)
	for k := range d.spec.Screws {
		at := geom.Point{X: apart * (float64(k) + 0.5), Y: d.bar.root - d.spec.Height/2}
		contours = append(contours, geom.Bore(at, d.spec.Screw.Clearance-kerf, geom.ChordFlank))
	}
	return contours, nil
}

// kerfFits refuses a kerf that a root fillet of radius rho mm does not take.
func kerfFits(kerf, rho float64) error {
	most := 2 * rho
	return check.InRange("kerf", kerf, "mm", 0, most, fmt.Sprintf("the root fillet takes a kerf of up to %s mm: use a larger module or a narrower beam", check.Number(most)))
}
