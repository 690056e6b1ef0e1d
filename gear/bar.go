package gear

import (
	"math"

	"pintle/geom"
)

// A bar is the tooth of a toothed rack, centred on the y axis, its reference
// line on the x axis: what is drawn is the basic rack itself, thinned.
type bar struct {
	m, alpha  float64
	pitch     float64
	thick     float64 // of the tooth on the reference line
	tip, root float64 // heights
	rho       float64 // of the root fillet
}

// newBar returns the tooth of a rack thinned by thin on its reference line and
// moved in by inset along its normals.
func newBar(s PairSpec, thin, inset float64) bar {
	b := bar{m: s.Module, alpha: s.PressureAngle, pitch: math.Pi * s.Module}
	b.thick = b.pitch/2 - thin - 2*inset/math.Cos(b.alpha)
	b.tip = s.Module*s.Rack.Addendum - inset
	b.root = -s.Module*s.Rack.dedendum() - inset
	sin, cos := math.Sincos(b.alpha)
	most := ((b.pitch-b.thick)/2 + b.root*sin/cos) / (1/cos - sin/cos) // both fillets meet in the space
	b.rho = math.Max(math.Min(s.Module*s.Rack.FilletRadius+inset, most), 0)
	return b
}

// centre returns the centre of the fillet right of the tooth, and the point
// where it leaves the flank.
func (b bar) centre() (c, leaves geom.Point) {
	sin, cos := math.Sincos(b.alpha)
	c.Y = b.root + b.rho
	c.X = b.thick/2 - c.Y*sin/cos + b.rho/cos
	return c, geom.Point{X: c.X - b.rho*cos, Y: c.Y - b.rho*sin}
}

// tipWidth returns the width of the tooth at its tip in mm.
func (b bar) tipWidth() float64 { return b.thick - 2*b.tip*math.Tan(b.alpha) }

// outline returns a bar of teeth, from the middle of a space at x = 0, with a
// body of the height below the nominal roots. Ends and floor stand out by aside
// mm, where the teeth are drawn as far out by their inset.
func (b bar) outline(teeth int, height, aside float64) []geom.Curve {
	c, leaves := b.centre()
	corner := geom.Point{X: b.tipWidth() / 2, Y: b.tip}
	left, right, floor := -aside, b.pitch*float64(teeth)+aside, b.root-height-2*aside
	at := geom.Point{X: right, Y: b.root}
	curves := []geom.Curve{
		geom.Line{A: geom.Point{X: left, Y: floor}, B: geom.Point{X: right, Y: floor}},
		geom.Line{A: geom.Point{X: right, Y: floor}, B: at},
	}
	to := func(p geom.Point) {
		if p.Sub(at).Len() > 1e-6 {
			curves, at = append(curves, geom.Line{A: at, B: p}), p
		}
	}
	for k := teeth - 1; k >= 0; k-- {
		middle := geom.Point{X: b.pitch * (float64(k) + 0.5)}
		mirror := func(p geom.Point) geom.Point { return geom.Point{X: -p.X, Y: p.Y} }
		to(middle.Add(geom.Point{X: c.X, Y: b.root}))
		if b.rho > 0 {
			curves = append(curves, geom.Arc{Centre: middle.Add(c), Radius: b.rho, From: 3 * math.Pi / 2, To: math.Pi + b.alpha})
			at = middle.Add(leaves)
		}
		to(middle.Add(corner))
		to(middle.Add(mirror(corner)))
		to(middle.Add(mirror(leaves)))
		if b.rho > 0 {
			curves = append(curves, geom.Arc{Centre: middle.Add(mirror(c)), Radius: b.rho, From: -b.alpha, To: -math.Pi / 2})
			at = middle.Add(geom.Point{X: -c.X, Y: b.root})
		}
	}
	to(geom.Point{X: left, Y: b.root})
	to(geom.Point{X: left, Y: floor})
	return curves
}

// lewis returns the form factor Y of the tooth loaded at its tip, found as for a
// gear's: the parabola inscribed in the tooth, here a trapezium on two fillets.
func (b bar) lewis() float64 {
	c, _ := b.centre()
	apex := b.tip - b.tipWidth()/2*math.Tan(b.alpha)
	least := math.Inf(1)
	const steps = 200
	for i := range steps + 1 {
		sin, cos := math.Sincos(b.alpha + (math.Pi/2-b.alpha)*float64(i)/steps)
		y, x := c.Y-b.rho*sin, c.X-b.rho*cos
		if h := apex - y; h > 0 {
			least = math.Min(least, x*x/h)
		}
	}
	return 2.0 / 3 * least / b.m
}

// overPin returns the height in mm of a pin's far side over the rack's reference
// line, when the pin lies between two teeth, and whether it touches the flanks
// and stands far enough above the tips for a flat anvil to rest on it alone.
func (b bar) overPin(pin float64) (float64, bool) {
	sin, cos := math.Sincos(b.alpha)
	centre := (pin/(2*cos) - (b.pitch-b.thick)/2) * cos / sin
	_, leaves := b.centre()
	touches := centre - pin/2*sin
	return centre + pin/2, touches > leaves.Y && touches < b.tip && centre+pin/2 > b.tip+0.1*b.m && centre-pin/2 > b.root
}

// pin returns the pin to be had that touches nearest to the reference line, and
// the reading over it from there; zeros where none suits.
func (b bar) pin() (diameter, over float64) {
	ideal := (b.pitch - b.thick) / math.Cos(b.alpha)
	for _, sizes := range [][]float64{pinSizes(), drillSizes()} {
		for _, d := range sizes {
			if m, ok := b.overPin(d); ok && (diameter == 0 || math.Abs(d-ideal) < math.Abs(diameter-ideal)) {
				diameter, over = d, m
			}
		}
		if diameter > 0 {
			break
		}
	}
	return diameter, over
}

// straightTeeth is the number of teeth of the gear that stands for a rack when it
// is turned against its pinion: over the few teeth in mesh its rim strays from a
// straight line by less than a grid step.
const straightTeeth = 400000

// turnable returns the rack as a gear of straightTeeth teeth, and its radius.
func (b bar) turnable() (*toothed, float64) {
	radius := b.m * straightTeeth / 2
	c, leaves := b.centre()
	half := []geom.Point{{X: b.pitch / 2, Y: b.root}, {X: c.X, Y: b.root}}
	const steps = 12
	for i := 1; i <= steps && b.rho > 0; i++ {
		sin, cos := math.Sincos(math.Pi/2 - (math.Pi/2-b.alpha)*float64(i)/steps)
		half = append(half, geom.Point{X: c.X - b.rho*cos, Y: c.Y - b.rho*sin})
	}
	half = append(half, leaves, geom.Point{X: b.tipWidth() / 2, Y: b.tip})
	var s side
	for _, p := range half {
		s = append(s, geom.Polar(radius+p.Y, p.X/radius))
	}
	g := newToothed(tooth{z: straightTeeth, rb: radius * math.Cos(b.alpha)})
	for k := -5; k <= 5; k++ {
		g.add(k, s, s)
	}
	return g, radius
}

// finestSteps is the points to a flank of a pinion that runs on a rack: the rack's
// tips just reach its fillets, whose chords must stray by less than touching.
const finestSteps = 400

// run turns the expected pinion against the expected rack; the pairs of teeth in
// contact are counted on a finely sampled pinion.
func (d *RackDrive) run() motion {
	t := d.pair.contact.t[0]
	wheel, radius := d.bar.turnable()
	pinion := ofLoop(t, snapped(t.few(d.spec.Pair.ChordError, 5)), 5)
	r := newMeshing(pinion, wheel, radius+d.AxisDistance()).run(2 * d.spec.Pair.ChordError)
	fine := newMeshing(ofCurve(t, finestSteps, 5), wheel, radius+d.AxisDistance())
	r.pairs = fine.run(touching * d.spec.Pair.Module).pairs
	return r
}
