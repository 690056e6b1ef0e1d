package coupon

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/gear"
	"pintle/geom"
)

// Of the pairs, in mm (common practice, no source).
const (
	pinDiameter  = 6.0
	pinClearance = 0.15
	faceWidth    = 4.0
	thinTeeth    = 0.2 // largest share of the tooth thickness pi m/2 that backlash may take
)

// leastTeeth returns the fewest teeth that leave room for pin and mark between
// bore and root circle, at least 18: free of undercut at 20 degrees.
func (d *design) leastTeeth() (int, error) {
	size, err := d.widest([]string{"40"})
	if err != nil {
		return 0, err
	}
	inner := pinDiameter/2 + pinClearance + 1.5
	root := math.Hypot(inner+size.Y, size.X/2) + margin
	return max(18, int(math.Ceil(2*root/d.spec.Module+2.5))), nil
}

// backlashSteps returns the steps that teeth of this module can have.
func (d *design) backlashSteps() []float64 {
	var steps []float64
	for _, j := range d.spec.Backlash.At() {
		if j <= thinTeeth*d.spec.Module*math.Pi/2 {
			steps = append(steps, j)
		}
	}
	return steps
}

// gears draws a pair for each step of backlash, all for the same two pins.
func (d *design) gears() error {
	s := d.spec
	d.teeth = s.Teeth
	for i := range d.teeth {
		least, err := d.leastTeeth()
		if err != nil {
			return err
		}
		if d.teeth[i] == 0 {
			d.teeth[i] = least
		}
	}
	steps := d.backlashSteps()
	if len(steps) == 0 {
		return &check.FieldError{Field: "module", Value: s.Module, Unit: "mm", Reason: "leaves no step of backlash", Remedy: "a larger module, or smaller backlash steps"}
	}
	if n := len(s.Backlash.At()) - len(steps); n > 0 {
		d.findings = append(d.findings, stepsRule.Say(check.Note, steps[len(steps)-1], fmt.Sprintf("%d steps beyond %s mm are left out for a module of %s mm", n, check.Number(steps[len(steps)-1]), check.Number(s.Module)), stepsRule.Change))
	}
	rows := section{piece: "teeth", title: "Pairs of gears on the pins", hint: fmt.Sprintf("module %s, %d and %d teeth; marks in hundredths", check.Number(s.Module), d.teeth[0], d.teeth[1]), trial: gearTrial}
	var pinions, wheels []piece
	for _, j := range steps {
		pair, err := d.pair(j)
		if err != nil {
			return err
		}
		d.distance = pair.CentreDistance()
		text := check.Number(j * 100)
		for i, g := range []*gear.Gear{pair.Pinion(), pair.Wheel()} {
			p, err := d.marked(g, text)
			if err != nil {
				return err
			}
			if i == 0 {
				pinions = append(pinions, p)
			} else {
				wheels = append(wheels, p)
			}
		}
		rows.add(text, j)
	}
	d.sections = append(d.sections, rows)
	if d.teeth[0] == d.teeth[1] {
		if err := d.plates("gears", append(pinions, wheels...)); err != nil {
			return err
		}
	} else {
		if err := d.plates("pinions", pinions); err != nil {
			return err
		}
		if err := d.plates("wheels", wheels); err != nil {
			return err
		}
	}
	return d.pins()
}

// pair returns the pair of a step: its teeth without allowance, its bores drawn
// so that they turn on the pins.
func (d *design) pair(backlash float64) (*gear.Pair, error) {
	s := d.spec
	plain := s.Card
	plain.Bore, plain.Outside = fit.Error{}, fit.Error{}
	body := gear.Body{Bore: s.Card.Hole("", "", pinDiameter+pinClearance).Drawn}
	return gear.NewPair(gear.PairSpec{
		Name: s.Name, Module: s.Module, Teeth: d.teeth, PressureAngle: s.PressureAngle, Backlash: backlash,
		FaceWidth: faceWidth, Card: plain, Pinion: body, Wheel: body,
		Loading: gear.Loading{Material: [2]fit.Material{s.Material, s.Material}},
	})
}

// marked returns a gear with its step beside the bore.
func (d *design) marked(g *gear.Gear, text string) (piece, error) {
	size, err := d.widest([]string{text, "40"}) // so that all steps ask for the same teeth
	if err != nil {
		return piece{}, err
	}
	inner := pinDiameter/2 + pinClearance + 1.5
	if reach := math.Hypot(size.X/2, inner+size.Y) + 0.1; reach > g.RootDiameter()/2 {
		least := float64(g.Teeth()) + math.Ceil((2*reach-g.RootDiameter())/g.Module())
		return piece{}, &check.FieldError{
			Field: "number of teeth", Value: float64(g.Teeth()), Reason: "leaves no room for the raised mark of its step inside the root circle",
			Remedy: fmt.Sprintf("use %v teeth or more, or a larger module", least),
		}
	}
	letters, _, err := d.mark(text, geom.Point{Y: inner + size.Y/2})
	if err != nil {
		return piece{}, err
	}
	slabs := append([]geom.Slab{}, g.Part().Slabs()...)
	top := slabs[len(slabs)-1].Z1
	return newPiece(append(slabs, geom.Slab{Z0: top, Z1: top + relief, Bottom: letters})...), nil
}

// pins draws the plate with two pins at the centre distance.
func (d *design) pins() error {
	const plate, land = 3.0, 1.0 // heights in mm
	pin := d.spec.Card.Peg(d.spec.Name+"-pins", "pins", pinDiameter)
	d.fits = append(d.fits, pin)
	a := d.distance
	base := geom.Rectangle(geom.Point{X: a / 2}, a+pinDiameter+10, pinDiameter+10, 4, 0, geom.ChordPlain)
	at := func(diameter float64) []geom.Contour {
		return []geom.Contour{geom.Peg(geom.Point{}, diameter, geom.ChordFit), geom.Peg(geom.Point{X: a}, diameter, geom.ChordFit)}
	}
	top := plate + land + faceWidth + 1
	round, narrow := at(pin.Drawn), at(pin.Drawn)
	for i := range narrow {
		narrow[i] = round[i].Resize(pin.Drawn - 2*leadIn)
	}
	return d.add(d.spec.Name+"-pins",
		geom.Slab{Z1: plate, Bottom: []geom.Contour{base}},
		geom.Slab{Z0: plate, Z1: plate + land, Bottom: at(pin.Drawn + 4)},
		geom.Slab{Z0: plate + land, Z1: top - leadIn, Bottom: round},
		geom.Slab{Z0: top - leadIn, Z1: top, Bottom: round, Top: narrow})
}
