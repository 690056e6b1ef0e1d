package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// RackSpec is a pinion on a straight toothed rack. Of Pair the pinion counts,
// and what both share; wheel, second shift and centre distance do not. The
// parts are Name-pinion and Name-rack.
type RackSpec struct {
	Pair   PairSpec
	Travel float64   // mm of the rack from end to end
	Height float64   // of the rack's body below its roots, mm; 0 for 3 modules, or what the screws need
	Screw  fit.Screw // that passes the body along the face width; the zero value for none
	Screws int
}

// A RackDrive is a checked pinion and rack. Its methods cannot fail.
type RackDrive struct {
	spec   RackSpec
	s      solution // contact[1] is not used
	pinion *Gear
	bar    bar // nominal
	drawn  bar
	part   geom.Part
	fits   []fit.Fit
	motion motion
}

// NewRackDrive works out pinion and rack and proves both parts. The error is a
// *check.FieldError.
func NewRackDrive(spec RackSpec) (*RackDrive, error) {
	pair := spec.Pair.completed()
	pair.Teeth[1], pair.Shift[1], pair.CentreDistance, pair.Wheel, pair.KeepTips = max(pair.Teeth[0], leastTeeth), 0, 0, Body{}, true
	if pair.ShiftRule != ShiftGiven {
		pair.Shift[0] = math.Max(LeastShift(pair.Teeth[0], pair.PressureAngle, pair.Rack), 0)
	}
	spec.Pair = pair
	if err := pair.validate(); err != nil {
		return nil, err
	}
	s := solution{spec: pair, x: pair.Shift, k: pair.TipAlteration, thin: pair.Backlash / 2}
	t := s.tooth(0, s.thin, 0)
	s.contact = newContact(t, t, 2*t.r)
	if err := s.possible(0, t); err != nil {
		return nil, err
	}
	d := &RackDrive{spec: spec, s: s, bar: newBar(pair, s.thin, 0)}
	var err error
	if d.pinion, err = newGear(s, 0); err != nil {
		return nil, err
	}
	if err := d.makeRack(); err != nil {
		return nil, err
	}
	d.motion = d.run()
	return d, nil
}

// Pinion returns the pinion.
func (d *RackDrive) Pinion() *Gear { return d.pinion }

// Parts returns pinion and rack in their print frames.
func (d *RackDrive) Parts() []geom.Part { return []geom.Part{d.pinion.part, d.part} }

// Fits returns what the printer card changes on both.
func (d *RackDrive) Fits() []fit.Fit { return append(append([]fit.Fit{}, d.pinion.fits...), d.fits...) }

// Motion returns one mesh cycle of the exported outlines.
func (d *RackDrive) Motion() []MotionPoint { return d.motion.points }

// AxisDistance returns the distance in mm from the pinion's axis to the rack's
// reference line.
func (d *RackDrive) AxisDistance() float64 { return d.s.contact.t[0].r + d.s.x[0]*d.spec.Pair.Module }

// path returns where the rack's tip enters and the pinion's leaves, as lengths
// on the line of action from the pinion's tangent point.
func (d *RackDrive) path() (start, end float64) {
	t, sin := d.s.contact.t[0], math.Sin(d.spec.Pair.PressureAngle)
	return t.r*sin - (d.bar.tip-d.s.x[0]*t.m)/sin, t.to * t.rb
}

// ContactRatio returns epsilon_alpha over the flanks that are there.
func (d *RackDrive) ContactRatio() float64 {
	start, end := d.path()
	return (end - math.Max(start, d.s.contact.form[0])) / d.s.contact.basePitch()
}

// makeRack draws the rack: its length is the travel, the teeth in contact at
// either end, and one to spare.
func (d *RackDrive) makeRack() error {
	p, card := d.spec.Pair, d.spec.Pair.Card
	name := p.Name + "-rack"
	if p.Name == "" {
		name = "rack"
	}
	pitch := math.Pi * p.Module
	if err := check.InRange("travel", d.spec.Travel, "mm", pitch, geom.Extent-10*pitch, "give how far the rack moves from end to end"); err != nil {
		return err
	}
	teeth := int(math.Ceil(d.spec.Travel/pitch+d.ContactRatio())) + 1
	hole := card.Hole(name, d.spec.Screw.Size+" screw hole", d.spec.Screw.Clearance)
	height := d.spec.Height
	if height == 0 {
		height = 3 * p.Module
		if d.spec.Screws > 0 {
			height = math.Max(height, hole.Wanted+8*card.BeadWidth)
		}
	}
	if err := check.InRange("height of the rack", height, "mm", 2*card.BeadWidth, 200, "use 3 modules"); err != nil {
		return err
	}
	inset := (2*pitch - card.Outside.Draw(2*pitch)) / 2
	inset = math.Max(math.Min(inset, 0.1*p.Module), -math.Min(0.1*p.Module, d.bar.rho))
	d.drawn = newBar(p, d.s.thin, inset)
	thick := card.Peg(name, "tooth at the reference line", d.bar.thick)
	thick.Drawn = d.drawn.thick
	thick.Expected = thick.Drawn + card.Outside.At(2*pitch)/math.Cos(p.PressureAngle)
	d.fits = []fit.Fit{thick}
	contours := []geom.Contour{d.drawn.outline(teeth, height, p.ChordError)}
	if d.spec.Screws > 0 {
		if height-hole.Drawn < 2*card.BeadWidth {
			return &check.FieldError{Field: "height of the rack", Value: height, Unit: "mm", Reason: "leaves no material beside the screws", Remedy: "height >= " + check.Number(ceilTo(hole.Wanted+8*card.BeadWidth)) + " mm"}
		}
		d.fits = append(d.fits, hole)
		for k := range d.spec.Screws {
			x := pitch * float64(teeth) * (float64(k) + 0.5) / float64(d.spec.Screws)
			contours = append(contours, geom.Bore(geom.Point{X: x, Y: d.drawn.root - height/2}, hole.Drawn, geom.ChordFlank))
		}
	}
	return d.layered(name, contours)
}

// layered makes the rack's part, with the bed-side chamfer that its tips leave.
func (d *RackDrive) layered(name string, contours []geom.Contour) error {
	p := d.spec.Pair
	tip := d.drawn.thick - 2*d.drawn.tip*math.Tan(p.PressureAngle)
	c := math.Max(math.Min(p.Card.BedChamfer(), (tip-p.Card.BeadWidth)/2), 0)
	c = math.Floor(c/0.05+1e-9) * 0.05
	bed := p.Card.BedChamfer()
	var err error
	if c > 0 {
		d.part, err = geom.NewPart(name, geom.Slab{Z0: 0, Z1: bed, Bottom: geom.FattenAll(contours, -c), Top: contours}, geom.Slab{Z0: bed, Z1: p.FaceWidth, Bottom: contours})
		if err == nil {
			return nil
		}
	}
	if d.part, err = geom.NewPart(name, geom.Slab{Z0: 0, Z1: p.FaceWidth, Bottom: contours}); err != nil {
		return &check.FieldError{Field: "rack", Text: "as given", Reason: "cannot be made of layers: " + err.Error(), Remedy: "use fewer screws or a higher body"}
	}
	return nil
}

// Values returns the drive's numbers for the report.
func (d *RackDrive) Values() map[string]any {
	t, p := d.s.contact.t[0], d.spec.Pair
	v := map[string]any{
		"m": p.Module, "alpha_deg": p.PressureAngle * 180 / math.Pi, "z1": t.z, "x1": d.s.x[0], "d1": 2 * t.r, "da1": 2 * t.ra,
		"axis_to_reference_line": d.AxisDistance(), "epsilon_alpha": d.ContactRatio(), "j_wt": p.Backlash, "j_bn": d.normalBacklash(0),
		"travel_per_turn": 2 * math.Pi * t.r, "lost_motion_mm": p.Backlash,
	}
	if d.motion.meets {
		v["j_bn_measured_min"], v["j_bn_measured_max"], v["te_measured"] = d.motion.min, d.motion.max, d.motion.error
	}
	return v
}

// normalBacklash returns j_bn in mm with the rack nearer to the pinion by d mm.
func (d *RackDrive) normalBacklash(near float64) float64 {
	sin, cos := math.Sincos(d.spec.Pair.PressureAngle)
	return d.spec.Pair.Backlash*cos - 2*near*sin
}

// Findings returns what the checks say about pinion and rack.
func (d *RackDrive) Findings() []check.Finding {
	p, t := d.spec.Pair, d.s.contact.t[0]
	a, start := d.AxisDistance(), 0.0
	start, _ = d.path()
	var all []check.Finding
	judge := func(name, part string, value float64, own check.Limit) {
		f := rule(name).Judge(value, d.s.limit(name, own), "change: "+rule(name).Change)
		if own.Fail == math.SmallestNonzeroFloat64 && f.Verdict == check.Fail {
			f.Limit = "> 0"
		}
		f.Part = part
		all = append(all, f)
	}
	m := p.Module
	judge("contact-ratio", "", d.ContactRatio(), rule("contact-ratio").Limit)
	judge("backlash", "", d.normalBacklash(p.CentreTolerance), check.Limit{Caution: minBacklashFloor(a, m), Fail: math.SmallestNonzeroFloat64})
	judge("interference", "", start-d.s.contact.form[0], rule("interference").Limit)
	judge("tip-clearance", p.partName(0), a-d.bar.tip-t.rf, check.Limit{Caution: 0.15 * m, Fail: 0.1 * m})
	judge("tip-clearance", d.part.Name(), a-t.ra-d.bar.root, check.Limit{Caution: 0.15 * m, Fail: 0.1 * m})
	judge("tip-thickness", p.partName(0), t.thickness(t.ra), check.Limit{Caution: math.Max(0.2*m, 2*p.Card.BeadWidth), Fail: p.Card.BeadWidth})
	judge("mesh-by-motion", "", d.motion.gap, rule("mesh-by-motion").Limit)
	if t.cut {
		f := rule("undercut").Say(check.Caution, start-d.s.contact.form[0], "the rack undercuts the pinion", fmt.Sprintf("x1 >= %s", check.Number(LeastShift(t.z, p.PressureAngle, p.Rack))))
		f.Part = p.partName(0)
		all = append(all, f)
	}
	return all
}
