package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// Allowances around the servo and under the ring, in mm (common practice, no
// source).
const (
	servoPlay   = 0.3 // per side of the body in its cut-out
	plateFloor  = 2.0 // least plate under the ring's recess
	plateBridge = 3.0 // wanted between two openings of the plate
)

var (
	rulePlateFloor = check.Rule{
		Name: "plate-floor", Unit: "mm",
		Meaning: "What is left of the plate under the recess that takes the ring's flange.",
		Formula: "thickness - recess depth",
		Source:  check.CommonPractice, Change: "make the plate thicker",
		Sense: check.AtLeast, Limit: check.Limit{Caution: 3, Fail: plateFloor},
	}
	rulePlateBridge = check.Rule{
		Name: "plate-bridge", Unit: "mm",
		Meaning: "The narrowest bridge of the plate between the ring's recess and the servo's openings.",
		Formula: "distance in plan of recess and cut-out, and of recess and tab holes",
		Source:  check.CommonPractice,
		Change:  "turn the servo (servo_turn), use a thinner wall or smaller flange screws, or a larger centre distance",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: plateBridge, Fail: 1},
	}
	rulePlateOverlap = check.Rule{
		Name: "plate-overlap", Unit: "mm",
		Meaning: "The ring's recess and the servo's openings run into each other, so that no plate can be drawn.",
		Formula: "distance in plan of recess and cut-out, and of recess and tab holes",
		Source:  "geometry",
		Change:  "turn the servo (servo_turn), use a thinner wall or smaller flange screws, or a larger centre distance",
		Sense:   check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true,
	}
)

// A plateSpec is what the plate must take up.
type plateSpec struct {
	name           string
	thickness      float64 // mm
	centreDistance float64 // mm
	tolerance      float64 // of the centre distance, mm either way
	servo          Servo
	servoTurnDeg   float64
	slots          float64 // how far the servo can be moved along the line of centres, mm either way
	flange         float64 // diameter of the ring's flange, mm
	through        float64 // diameter of the ring's shoulder bore, mm
	bolts          []geom.Point
	bolt           fit.Screw
	corner         fit.Screw
	card           fit.Card
	limits         check.Limits
}

// A plate carries ring and servo. Its part may be missing where a failed
// finding says why.
type plate struct {
	spec     plateSpec
	part     geom.Part
	findings []check.Finding
	fits     []fit.Fit
	tabScrew fit.Screw
	size     [2]float64 // mm
	drawn    drawnSizes
}

// newPlate designs the plate in its print frame: bed side down, the ring's
// recess opening upwards, the bearing's axis at the origin.
func newPlate(s plateSpec) (*plate, error) {
	const field = "plate thickness"
	if err := check.InRange(field, s.thickness, "mm", recessDepth+plateFloor, 50,
		"the ring's recess takes 2 mm: use 6 mm or so"); err != nil {
		return nil, err
	}
	p := &plate{spec: s}
	var ok bool
	if p.tabScrew, ok = fit.LargestThrough(s.servo.Tabs.Diameter); !ok {
		return nil, &check.FieldError{
			Field: "tab hole diameter", Value: s.servo.Tabs.Diameter, Unit: "mm",
			Reason: "passes no metric screw", Remedy: "measure the holes in the servo's tabs again: M2 needs 2 mm",
		}
	}
	if err := p.validateTabs(); err != nil {
		return nil, err
	}
	p.judge()
	if err := p.build(); err != nil {
		if p.bridge() > 0 {
			return nil, err
		}
		p.findings = append(p.findings, rulePlateOverlap.Judge(p.bridge(), rulePlateOverlap.Limit, rulePlateBridge.Change))
	}
	return p, nil
}

// validateTabs refuses tabs whose holes would break into the servo's cut-out.
func (p *plate) validateTabs() error {
	t, body := p.spec.servo.Tabs, p.spec.servo.Body
	if err := check.InRange("servo slots", p.spec.slots, "mm", 0, 10, "1 mm either way sets any mesh"); err != nil {
		return err
	}
	web := (t.Holes[0]-body[0])/2 - servoPlay - p.tabScrew.Clearance/2
	if turned := math.Abs(math.Cos(p.spec.servoTurnDeg * math.Pi / 180)); p.spec.slots > 0 {
		web -= 2 * p.spec.slots * turned
	}
	if web < p.spec.card.BeadWidth {
		return &check.FieldError{
			Field: "tab hole spacing", Value: t.Holes[0], Unit: "mm",
			Reason: fmt.Sprintf("leaves %s mm between the tab holes and the cut-out for a body of %s mm", check.Number(web), check.Number(body[0])),
			Remedy: "measure between the holes' centres along the servo's length, and the body's length, again",
		}
	}
	return nil
}

// cutOut returns the size of the opening for the servo's body.
func (p *plate) cutOut() (length, width float64) {
	s := p.spec
	sin, cos := math.Sincos(s.servoTurnDeg * math.Pi / 180)
	return s.servo.Body[0] + 2*(servoPlay+s.slots*math.Abs(cos)), s.servo.Body[1] + 2*(servoPlay+s.slots*math.Abs(sin))
}

// drawnSizes are the openings of a plate as they are drawn, in mm.
type drawnSizes struct{ recess, through, tab, bolt, corner, cut, across float64 }

// openings returns what is drawn for each opening, and records it as a fit.
func (p *plate) openings() (d drawnSizes) {
	s := p.spec
	part := s.name + "-plate"
	cut, across := p.cutOut()
	for _, o := range []struct {
		feature string
		wanted  float64
		drawn   *float64
	}{
		{"recess for the ring", s.flange + fit.RecessClearance, &d.recess},
		{"hole under the ring", s.through, &d.through},
		{"servo cut-out, length", cut, &d.cut},
		{"servo cut-out, width", across, &d.across},
		{"tab screw holes", p.tabScrew.Clearance, &d.tab},
		{"ring screw holes", s.bolt.Clearance, &d.bolt},
		{"corner screw holes", s.corner.Clearance, &d.corner},
	} {
		f := s.card.Hole(part, o.feature, o.wanted)
		p.fits = append(p.fits, f)
		*o.drawn = f.Drawn
	}
	return d
}

// tabHoles returns the places of the holes of the servo's tabs: two in each, or
// one where they are not apart across the servo.
func (p *plate) tabHoles() []geom.Point {
	centre, angle := servoBox(p.spec.servo, p.spec.centreDistance, p.spec.servoTurnDeg)
	x, y := p.spec.servo.Tabs.Holes[0]/2, p.spec.servo.Tabs.Holes[1]/2
	places := []geom.Point{{X: x, Y: y}, {X: -x, Y: y}}
	if y > 0 {
		places = append(places, geom.Point{X: -x, Y: -y}, geom.Point{X: x, Y: -y})
	}
	var holes []geom.Point
	for _, q := range places {
		holes = append(holes, q.Rotate(angle).Add(centre))
	}
	return holes
}

// bridge returns the narrowest way between the recess and the servo's openings.
func (p *plate) bridge() float64 {
	s := p.spec
	recess := annulus(geom.Point{}, 0, (s.flange+fit.RecessClearance)/2)
	centre, angle := servoBox(s.servo, s.centreDistance, s.servoTurnDeg)
	cut, across := p.cutOut()
	width := plan(recess, box(centre, cut, across, angle))
	for _, hole := range p.tabHoles() {
		width = min(width, plan(recess, annulus(hole, 0, p.tabScrew.Clearance/2))-s.slots)
	}
	return width
}

func (p *plate) judge() {
	s := p.spec
	floor := s.thickness - recessDepth
	p.findings = append(p.findings, rulePlateFloor.Judge(floor, s.limits.Of(rulePlateFloor),
		fmt.Sprintf("thickness >= %s mm", check.Number(s.limits.Of(rulePlateFloor).Caution+recessDepth))))
	limit := s.limits.Of(rulePlateBridge)
	width := p.bridge()
	p.findings = append(p.findings, rulePlateBridge.Judge(width, limit,
		p.bridgeRemedy(limit.Caution)))
}

// bridgeRemedy names what opens the bridge: a turn of the servo where one does,
// else the centre distance that does.
func (p *plate) bridgeRemedy(wanted float64) string {
	for _, turn := range []float64{90, 270, 0, 180} {
		other := *p
		other.spec.servoTurnDeg = turn
		if other.bridge() >= wanted {
			return fmt.Sprintf("servo_turn = %v", turn)
		}
	}
	return fmt.Sprintf("centre distance >= %s mm with this flange (more teeth or a larger module), a thinner wall or smaller flange screws",
		check.Number(math.Ceil(10*(p.spec.centreDistance+wanted-p.bridge()))/10))
}

// outline returns the plate's rim: the rectangle round ring and servo, grown so
// that a corner screw and its head fit outside both.
func (p *plate) outline() (centre geom.Point, length, width, inset float64) {
	s := p.spec
	r := s.flange / 2
	lo, hi := geom.Point{X: -r, Y: -r}, geom.Point{X: r, Y: r}
	c, angle := servoBox(s.servo, s.centreDistance, s.servoTurnDeg)
	half := geom.Point{X: max(s.servo.Body[0], s.servo.Tabs.Length) / 2, Y: s.servo.Body[1] / 2}
	sin, cos := math.Abs(math.Sin(angle)), math.Abs(math.Cos(angle))
	dx, dy := half.X*cos+half.Y*sin, half.X*sin+half.Y*cos
	lo = geom.Point{X: min(lo.X, c.X-dx), Y: min(lo.Y, c.Y-dy)}
	hi = geom.Point{X: max(hi.X, c.X+dx), Y: max(hi.Y, c.Y+dy)}
	margin := s.corner.HeadDiameter + 4
	size := hi.Sub(lo)
	return lo.Add(hi).Scale(0.5), math.Ceil(size.X + 2*margin), math.Ceil(size.Y + 2*margin), margin / 2
}

// corners returns the places of the corner screws.
func (p *plate) corners() []geom.Point {
	centre, length, width, inset := p.outline()
	x, y := length/2-inset, width/2-inset
	return []geom.Point{centre.Add(geom.Point{X: x, Y: y}), centre.Add(geom.Point{X: -x, Y: y}), centre.Add(geom.Point{X: -x, Y: -y}), centre.Add(geom.Point{X: x, Y: -y})}
}

func (p *plate) build() error {
	s := p.spec
	d := p.openings()
	p.drawn = d
	centre, length, width, inset := p.outline()
	p.size = [2]float64{length, width}
	rim := geom.Rectangle(centre, length, width, inset, 0, geom.ChordPlain)
	c, angle := servoBox(s.servo, s.centreDistance, s.servoTurnDeg)
	window := geom.Window(c, d.cut, d.across, 0.5, angle, geom.ChordPlain)
	fixed := []geom.Contour{rim, window}
	for _, hole := range p.tabHoles() {
		if s.slots > 0 {
			fixed = append(fixed, geom.Window(hole, d.tab+2*s.slots, d.tab, d.tab/2, 0, geom.ChordPlain))
		} else {
			fixed = append(fixed, geom.Bore(hole, d.tab, geom.ChordPlain))
		}
	}
	for _, q := range p.corners() {
		fixed = append(fixed, geom.Bore(q, d.corner, geom.ChordPlain))
	}
	floor := append(append([]geom.Contour{}, fixed...), geom.Bore(geom.Point{}, d.through, geom.ChordPlain))
	for _, b := range s.bolts {
		floor = append(floor, geom.Bore(b, d.bolt, geom.ChordPlain))
	}
	seat := append(append([]geom.Contour{}, fixed...), geom.Bore(geom.Point{}, d.recess, geom.ChordFit))
	foot := s.card.BedChamfer()
	grown := geom.FattenAll(floor, -foot) // on the bed: the rim drawn in, the holes opened
	if p.assemble(grown, floor, seat, foot) != nil {
		grown, got := geom.Chamfer(floor, foot) // openings near each other leave less
		if err := p.assemble(grown, floor, seat, max(got, s.card.LayerThickness)); err != nil {
			return err
		}
	}
	return p.mark(centre, length, width, inset)
}

func (p *plate) assemble(grown, floor, seat []geom.Contour, foot float64) error {
	s := p.spec
	var err error
	p.part, err = geom.NewPart(s.name+"-plate",
		geom.Slab{Z0: 0, Z1: foot, Bottom: grown, Top: floor},
		geom.Slab{Z0: foot, Z1: s.thickness - recessDepth, Bottom: floor},
		geom.Slab{Z0: s.thickness - recessDepth, Z1: s.thickness, Bottom: seat})
	return err
}

// Values returns the plate's numbers for the report, in mm and degrees.
func (p *plate) Values() map[string]any {
	s := p.spec
	cut, across := p.cutOut()
	return map[string]any{
		"thickness": s.thickness, "a_w": s.centreDistance, "recess_depth": recessDepth,
		"servo_turn_deg": s.servoTurnDeg, "length": p.size[0], "width": p.size[1],
		"cut_out_length": cut, "cut_out_width": across, "servo_slots": s.slots,
		"tab_screw": p.tabScrew.Size, "ring_screw": s.bolt.Size, "corner_screw": s.corner.Size,
	}
}

// Findings returns the verdicts on floor and bridges.
func (p *plate) Findings() []check.Finding { return p.findings }

// Fits returns what was wanted and drawn for each opening.
func (p *plate) Fits() []fit.Fit { return p.fits }

// Parts returns the plate, or nothing where a failed finding says why.
func (p *plate) Parts() []geom.Part {
	if p.part.Name() == "" {
		return nil
	}
	return []geom.Part{p.part}
}
