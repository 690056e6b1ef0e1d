package coupon

import (
	"fmt"
	"hash/fnv"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Coupon is a checked set of pieces.
type Coupon struct{ design }

type design struct {
	spec     Spec
	parts    []geom.Part
	fits     []fit.Fit
	sections []section // of the form
	findings []check.Finding
	teeth    [2]int

	cutInside, cutOutside [][]geom.Curve
	distance              float64 // of the pins
}

// New draws the pieces, proves their geometry and returns the set. Input that
// makes no coupon is a *check.FieldError.
func New(spec Spec) (*Coupon, error) {
	spec = spec.withDefaults()
	if err := spec.validate(); err != nil {
		return nil, err
	}
	d := design{spec: spec}
	for _, p := range []struct {
		name string
		draw func() error
		lack string // what is missing to draw it, or ""
	}{
		{"rings", d.rings, lack(spec.Bearing.Outside == 0, "a bearing")},
		{"pegs", d.pegs, lack(spec.Bore == 0, "a bearing or a bore")},
		{"holes", d.holes, ""},
		{"first-layer", d.firstLayer, ""},
		{"teeth", d.gears, lack(spec.Module == 0, "a module")},
		{"pockets", d.pockets, lack(spec.Horn.Kind == "", "a measured horn")},
		{"webs", d.webs, ""},
		{"bar", d.bar, ""},
		{"kerf", d.kerf, lack(spec.Sheet.Thickness == 0, "the measured thickness of a sheet")},
		{"label", d.label, ""},
	} {
		switch {
		case !spec.wants(p.name):
		case p.lack != "" && len(spec.Only) > 0:
			return nil, &check.FieldError{Field: "only", Text: p.name, Reason: "cannot be made without " + p.lack, Remedy: "give " + p.lack + ", or leave the piece out"}
		case p.lack != "":
			d.findings = append(d.findings, leftOutRule.Say(check.Note, 0, p.name+" are left out: they need "+p.lack, "give "+p.lack))
		default:
			if err := p.draw(); err != nil {
				return nil, err
			}
		}
	}
	return &Coupon{d}, nil
}

func lack(missing bool, what string) string {
	if missing {
		return what
	}
	return ""
}

// add proves a part and keeps it.
func (d *design) add(name string, slabs ...geom.Slab) error {
	part, err := geom.NewPart(name, slabs...)
	if err != nil {
		return err
	}
	d.parts = append(d.parts, part)
	return nil
}

// note records a size that is to be read, drawn without an allowance.
func (d *design) note(part, feature string, drawn float64, e fit.Error) {
	d.fits = append(d.fits, fit.Fit{
		Part: d.spec.Name + "-" + part, Feature: feature, Wanted: drawn, Drawn: drawn, Expected: drawn + e.At(drawn), Sigma: e.Sigma, Card: d.spec.Card.Name,
	})
}

// Parts returns the plates in their print frames.
func (c *Coupon) Parts() []geom.Part { return c.parts }

// Fits returns every size that is to be read, as drawn and as the card expects it.
func (c *Coupon) Fits() []fit.Fit { return c.fits }

// Spec returns the spec with its usual values filled in.
func (c *Coupon) Spec() Spec { return c.spec }

// Values returns the numbers of the set for the report.
func (c *Coupon) Values() map[string]any {
	s := c.spec
	v := map[string]any{"pieces": c.pieces(), "card_name": s.CardName, "nozzle": s.Nozzle, "material": s.Material.Name}
	if s.Bearing.Outside > 0 {
		v["bearing_outside"], v["ring_steps"] = s.Bearing.Outside, s.Rings.At()
	}
	if s.Bore > 0 {
		v["bore"], v["peg_steps"] = s.Bore, s.Pegs.At()
	}
	if c.distance > 0 {
		v["m"], v["z1"], v["z2"], v["a_w"], v["backlash_steps"] = s.Module, c.teeth[0], c.teeth[1], c.distance, c.backlashSteps()
	}
	if s.Sheet.Thickness > 0 {
		v["sheet_material"], v["sheet_thickness"], v["slot_steps"] = s.Sheet.Material, s.Sheet.Thickness, s.Slots.At()
	}
	v["revision"] = c.Revision()
	return v
}

// Revision returns four figures that change with whatever changes the pieces.
func (s Spec) Revision() string {
	s.Name, s.CardName, s.Card.Readings = "", "", nil
	sum := fnv.New32a()
	fmt.Fprintf(sum, "%+v", s)
	return fmt.Sprintf("%04x", sum.Sum32()>>16^sum.Sum32()&0xffff)
}

// Revision returns that of the spec, with its usual values filled in.
func (c *Coupon) Revision() string { return c.spec.Revision() }

func (c *Coupon) pieces() []string {
	var names []string
	for _, s := range c.sections {
		names = append(names, s.piece)
	}
	return names
}

// Findings returns what was left out and whether each plate fits its bed.
func (c *Coupon) Findings() []check.Finding {
	all := append([]check.Finding{}, c.findings...)
	for _, p := range c.parts {
		lo, hi := p.Bounds()
		f := plateRule.Judge(max(hi.X-lo.X, hi.Y-lo.Y), plateRule.Limit, "fewer steps, or a smaller bearing")
		f.Part = p.Name()
		all = append(all, f)
	}
	return all
}

var (
	leftOutRule = check.Rule{
		Name: "coupon-left-out", Meaning: "A piece of the coupon cannot be made from what is known.",
		Formula: "pieces that need a bearing, a bore, a module, a horn or a sheet", Source: "the command and the joint file",
		Change: "give what is missing", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
	}
	stepsRule = check.Rule{
		Name: "coupon-steps", Unit: "mm", Meaning: "Steps of backlash that these teeth cannot have.",
		Formula: "largest step that is made; more than 0.2 of the tooth thickness pi m / 2 leaves thin teeth", Source: check.CommonPractice,
		Change: "a larger module, or smaller steps", Sense: check.Informs, Limit: check.Limit{Caution: check.None, Fail: check.None},
	}
	plateRule = check.Rule{
		Name: "coupon-plate", Unit: "mm", Meaning: "Every plate of the coupon lies on a small bed.",
		Formula: "longer side of the plate", Source: fmt.Sprintf("a bed of %g x %g mm: common practice, no source", Side, Side),
		Change: "fewer steps", Sense: check.AtMost, Limit: check.Limit{Caution: check.None, Fail: Side},
	}
)

// Rules lists the rules of this package.
func Rules() []check.Rule { return []check.Rule{leftOutRule, stepsRule, plateRule} }
