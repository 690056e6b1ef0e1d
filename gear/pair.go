package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Pair is a checked pair of external spur gears. Its methods cannot fail.
type Pair struct {
	solution
	gears [2]*Gear
	proof proof
}

// NewPair works out the teeth and bodies of a pair and proves its parts. The
// error is a *check.FieldError for input no pair can have; a poor pair is made
// and told in Findings.
func NewPair(spec PairSpec) (*Pair, error) {
	s, err := solve(spec)
	if err != nil {
		return nil, err
	}
	p := &Pair{solution: s}
	for i := range p.gears {
		if p.gears[i], err = newGear(s, i); err != nil {
			return nil, err
		}
	}
	p.proof = s.prove(p.gears)
	return p, nil
}

func newGear(s solution, i int) (*Gear, error) {
	g := &Gear{nominal: s.contact.t[i], x: s.x[i], chord: s.spec.ChordError}
	g.drawn, g.inset = s.drawn(i)
	g.outside = func(d float64) tooth { return s.tooth(i, s.thin, -d) }
	g.left = g.inset - s.correction(i).span/2 - s.printedGrowth(i, g.inset)
	g.outline = g.drawn.outline(s.spec.ChordError)
	if b := s.spec.body(i); b.Sector > 0 {
		g.sector = s.spec.kept(i)
		g.outline = geom.NewContour(g.drawn.sectorCurves(g.sector, b.hubDiameter(2*g.drawn.rf), 0, curveError), s.spec.ChordError)
	}
	var err error
	if g.body, err = newStructure(s.marked(i), i, g.nominal, g.drawn, g.outline); err != nil {
		return nil, err
	}
	if g.part, err = g.body.assemble(g.drawn); err != nil {
		return nil, &check.FieldError{
			Field: "body of " + s.spec.partName(i), Text: "as given",
			Reason: "cannot be made of layers: " + err.Error(),
			Remedy: "leave more material between holes, hub and teeth",
		}
	}
	g.fits = append(s.toothFits(i, g.drawn), g.body.fits...)
	return g, nil
}

// Spec returns the spec with its defaults filled in.
func (p *Pair) Spec() PairSpec { return p.spec }

// Pinion returns gear 1.
func (p *Pair) Pinion() *Gear { return p.gears[0] }

// Wheel returns gear 2.
func (p *Pair) Wheel() *Gear { return p.gears[1] }

// Parts returns pinion and wheel in their print frames.
func (p *Pair) Parts() []geom.Part { return []geom.Part{p.gears[0].part, p.gears[1].part} }

// Fits returns what the printer card changes on both gears.
func (p *Pair) Fits() []fit.Fit {
	return append(append([]fit.Fit{}, p.gears[0].fits...), p.gears[1].fits...)
}

// CentreDistance returns the working centre distance a_w in mm.
func (p *Pair) CentreDistance() float64 { return p.contact.a }

// TightMeshDistance returns the centre distance in mm at which the backlash is
// zero.
func (p *Pair) TightMeshDistance() float64 { return p.contact.tight() }

// Ratio returns |z2/z1|: turns of the pinion for one of the wheel, which turns
// the same way where it is an internal gear.
func (p *Pair) Ratio() float64 { return float64(p.contact.t[1].z) / float64(p.contact.t[0].z) }

// Backlash returns j_wt at the working pitch circle in mm.
func (p *Pair) Backlash() float64 { return p.contact.backlash() }

// LostMotion returns the turn of the wheel in rad that the backlash leaves free.
func (p *Pair) LostMotion() float64 { return p.contact.backlash() / p.contact.working(1) }

// ContactRatio returns epsilon_alpha over the flanks that are there.
func (p *Pair) ContactRatio() float64 { return p.contact.ratio() }

// WorkingPressureAngle returns alpha_w in rad.
func (p *Pair) WorkingPressureAngle() float64 { return p.contact.alphaW }

// Values returns the pair's numbers for the report under their standard
// symbols: mm, and degrees where the key says so. A measurement over pins that
// no pin to be had allows is left out.
func (p *Pair) Values() map[string]any {
	const degree = math.Pi / 180
	c := p.contact
	y := (c.a - p.spec.referenceDistance()) / p.spec.Module
	v := map[string]any{
		"m": p.spec.Module, "alpha_deg": p.spec.PressureAngle / degree, "alpha_w_deg": c.alphaW / degree,
		"a_w": c.a, "a_d": p.spec.referenceDistance(), "y": y, "k": p.k,
		"epsilon_alpha": c.ratio(), "j_wt": c.backlash(), "j_bn": c.normalBacklash(),
		"j_r":   c.backlash() / (2 * math.Tan(c.alphaW)),
		"ratio": p.Ratio(), "lost_motion_deg": p.LostMotion() / degree,
		"tight_mesh_centre_distance": c.tight(), "b": p.spec.FaceWidth,
		"same_teeth_meet_after": p.meetAgain(),
	}
	for i, g := range p.gears {
		n := fmt.Sprint(i + 1)
		span, pins := g.Span(), g.Pins()
		v["z"+n], v["x"+n] = p.spec.Teeth[i], g.x
		v["d"+n], v["da"+n], v["db"+n], v["df"+n] = g.ReferenceDiameter(), g.TipDiameter(), g.BaseDiameter(), g.RootDiameter()
		v["dw"+n], v["d_Ff"+n] = 2*c.working(i), g.FormDiameter()
		v["s"+n], v["s_a"+n], v["c"+n] = g.ToothThickness(), g.TipThickness(), c.tipClearance(i)
		if span.Teeth > 0 {
			v["W"+n], v["k"+n] = span.Width, span.Teeth
		}
		p.addCaliper(v, i)
		if pins.Diameter > 0 {
			v["dp"+n], v["M"+n] = pins.Diameter, pins.Over
		}
		if c.rollOfMate(i) > 0 {
			v["d_Nf"+n], v["zeta_f"+n] = c.active(i), c.sliding(i)
		}
		v["zeta_a"+n] = c.tipSliding(i)
	}
	if wheel := c.t[1]; wheel.inner { // the tool has index 0 in ISO 21771
		v["z0"], v["x0"], v["rho_a0"] = p.spec.cutter.z, p.spec.cutter.x, wheel.rho
	}
	p.addWindow(v)
	p.addStrength(v)
	p.addMotion(v)
	p.addSpline(v)
	p.addBodies(v)
	return v
}

// meetAgain returns after how many turns of the pinion the same two teeth meet.
func (p *Pair) meetAgain() int {
	z1, z2 := p.contact.t[0].z, p.contact.t[1].z
	return z2 / divisor(z1, z2)
}
