package gear

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/mesh"
)

// ringSpec is a pinion in an internal gear whose short teeth keep clear of the
// pinion's fillet.
func ringSpec(z1, z2 int) PairSpec {
	m3, _ := fit.ScrewNamed("M3")
	spec := bareSpec(z1, -z2)
	spec.Shift = [2]float64{0.3, -0.3}
	spec.Rack = Rack{0.8, 0.45, 0.38}
	spec.Wheel = Body{Bolts: &BoltCircle{Diameter: spec.Module*(float64(z2)+2.5+0.6) + 8, Screw: m3, Count: 6}}
	return spec
}

// An internal pair goes through everything an external one does: no failure, a
// proved mesh of each part, backlash as asked for by motion, and the measurement
// between pins. Moving the axes apart takes backlash.
func TestInternalPair(t *testing.T) {
	p := mustPair(t, ringSpec(24, 60))
	for _, f := range p.Findings() {
		if f.Verdict == check.Fail {
			t.Errorf("%s %s: %g %s", f.Part, f.Check, f.Value, f.Limit)
		}
	}
	near(t, "a_w", p.CentreDistance(), 27, 1e-9)
	near(t, "ratio", p.Ratio(), 2.5, 1e-12)
	if v := p.Values(); v["z0"] != 24 || v["x0"] != 0.3 || v["rho_a0"].(float64) <= 0 {
		t.Errorf("shaper of %v teeth, shift %v, rounded by %v", v["z0"], v["x0"], v["rho_a0"])
	}
	near(t, "backlash", p.Backlash(), 0.2, 1e-9)
	m := p.proof.print
	if m.min < p.contact.normalBacklash()-0.0005 || m.max > p.contact.normalBacklash()+4*p.spec.ChordError {
		t.Errorf("measured %g to %g mm, computed %g", m.min, m.max, p.contact.normalBacklash())
	}
	near(t, "measured contact ratio", p.proof.pairs, p.ContactRatio(), 0.08) // flanks of an internal pair part slowly
	if !(p.TightMeshDistance() > p.CentreDistance()) {
		t.Error("the teeth of an internal pair jam as the axes move together")
	}
	for _, part := range p.Parts() {
		got, err := mesh.FromPart(part)
		if err == nil {
			err = got.Verify()
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	v := p.Values()
	if v["z2"] != -60 || v["M2"] == nil || v["W2"] != nil {
		t.Errorf("z2 %v, M2 %v, W2 %v", v["z2"], v["M2"], v["W2"])
	}
	if len(p.Wheel().Part().Layers()) != 2 || !p.Wheel().Part().Layers()[0].Loft {
		t.Error("the internal gear has no bed-side chamfer")
	}
}

// Bores come out 0.18 mm small: the internal teeth are drawn 0.09 mm thinner on
// each flank, so that the expected print has the backlash asked for.
func TestInternalAllowance(t *testing.T) {
	p := mustPair(t, ringSpec(24, 60))
	g := p.Wheel()
	near(t, "inset", g.inset, 0.09, 1e-9)
	near(t, "tip circle", 2*g.drawn.ra, 2*g.nominal.ra+0.18+2*p.spec.ChordError, 1e-9)
	near(t, "drawn backlash", p.proof.drawn.min, 0.18794+2*0.09, 0.02)
	near(t, "expected between pins", g.fits[1].Expected, g.fits[1].Wanted, 1e-9)
}

// A full addendum meets the pinion's fillet (reference, mesh): it fails, and so
// does a difference of teeth too small for the tips to pass.
func TestInternalPairFails(t *testing.T) {
	spec := ringSpec(24, 60)
	spec.Rack, spec.ChordError = ProfileA(), 0.001
	for _, name := range []string{"interference", "false-contact"} {
		if f := finding(t, mustPair(t, spec), "", name); f.Verdict != check.Fail {
			t.Errorf("%s: %s at %g", name, f.Verdict, f.Value)
		}
	}
	spec = ringSpec(40, 46)
	spec.Shift, spec.Rack = [2]float64{}, ProfileA()
	p := mustPair(t, spec)
	if f := finding(t, p, "", "trochoid"); f.Verdict != check.Fail || f.Remedy == "" {
		t.Errorf("trochoid: %s at %g, remedy %q", f.Verdict, f.Value, f.Remedy)
	}
	if f := finding(t, p, "", "mesh-by-motion"); f.Verdict != check.Fail {
		t.Errorf("tips that cannot pass: %s at %g mm", f.Verdict, f.Value)
	}
}

// Whatever the numbers, an internal pair without findings against it runs as
// computed when its outlines are turned.
func TestInternalMeasuredAgainstComputed(t *testing.T) {
	const seed = 16
	rnd := rand.New(rand.NewPCG(seed, seed))
	judged := 0
	for i := range 150 {
		z1 := 10 + rnd.IntN(30)
		spec := ringSpec(z1, z1+9+rnd.IntN(60))
		spec.Module = 1 + 2*rnd.Float64() // smaller flanks may not give up the card's 0.09 mm
		spec.Wheel = Body{}
		spec.Shift[0] = 0.6 * rnd.Float64()
		spec.Shift[1] = -spec.Shift[0] - 0.3*rnd.Float64()
		p, err := NewPair(spec)
		if err != nil {
			if strings.Contains(err.Error(), "cannot be made of layers") {
				t.Errorf("seed %d case %d: %v", seed, i, err)
			}
			continue
		}
		c := p.contact
		if c.interference() < 2*p.spec.ChordError || c.trochoid() < 0.002 || c.ratio() < 1 || math.Min(c.tipClearance(0), c.tipClearance(1)) < 0.05 {
			continue
		}
		judged++
		if m := p.proof.print; m.min < c.normalBacklash()-0.0005 || m.max > c.normalBacklash()+4*p.spec.ChordError {
			t.Fatalf("seed %d case %d: measured %g to %g mm, computed %g: %+v", seed, i, m.min, m.max, c.normalBacklash(), spec.Teeth)
		}
	}
	if judged < 40 {
		t.Errorf("only %d pairs were judged", judged)
	}
}

// An internal pair that fails names a number for each failure, and whoever takes
// it sees that failure gone and no new one.
func TestInternalRemediesCure(t *testing.T) {
	forms := map[string]bool{}
	for _, q := range []struct {
		z1, z2 int
		x      [2]float64
	}{
		{20, 40, [2]float64{}}, {24, 60, [2]float64{0.3, -0.3}}, {40, 46, [2]float64{}}, {18, 72, [2]float64{}}, {12, 40, [2]float64{0.3, 0}},
	} {
		spec := bareSpec(q.z1, -q.z2)
		spec.Shift = q.x
		p := mustPair(t, spec)
		failed := map[string]bool{}
		for _, f := range p.Findings() {
			failed[f.Check+f.Part] = f.Verdict == check.Fail
		}
		for _, f := range p.Findings() {
			if f.Verdict != check.Fail {
				continue
			}
			cured := spec
			if !follow(&cured, p, f) {
				t.Errorf("%d/%d %s: remedy %q is no number", q.z1, q.z2, f.Check, f.Remedy)
				continue
			}
			forms[strings.Fields(f.Remedy)[0]] = true
			for _, after := range mustPair(t, cured).Findings() {
				if key := after.Check + after.Part; after.Verdict == check.Fail && (key == f.Check+f.Part || !failed[key]) {
					t.Errorf("%d/%d %s, %q: then %s fails at %g", q.z1, q.z2, f.Check, f.Remedy, after.Check, after.Value)
				}
			}
		}
	}
	if !forms["x1"] || !forms["tip"] {
		t.Errorf("remedies of these forms only: %v", forms)
	}
}

// No balance of sliding is sought where both flanks curve the same way.
func TestInternalPairIsNotBalanced(t *testing.T) {
	spec := ringSpec(24, 60)
	spec.ShiftRule = ShiftBalanced
	_, err := NewPair(spec)
	var field *check.FieldError
	if !errors.As(err, &field) || field.Field != "shift rule" || field.Text != "balanced" || field.Remedy == "" {
		t.Errorf("got %v", err)
	}
}

func TestRingRefuses(t *testing.T) {
	for _, test := range []struct {
		field  string
		change func(*PairSpec)
	}{
		{"hub", func(s *PairSpec) { s.Wheel.Bore = 5 }},
		{"rim", func(s *PairSpec) { s.Wheel.Rim = 0.1 }},
		{"bolt circle", func(s *PairSpec) { s.Wheel.Bolts.Diameter = 92 }},
		{"bolt circle", func(s *PairSpec) { s.Wheel.Rim = 4; s.Wheel.Bolts.Diameter = 104 }},
		{"number of teeth of the pinion", func(s *PairSpec) { s.Teeth[0] = -24 }},
		{"profile shift of the wheel", func(s *PairSpec) { s.Teeth[1], s.Rack = -33, ProfileA(); s.Shift = [2]float64{} }},
	} {
		spec := clone(ringSpec(24, 60))
		test.change(&spec)
		_, err := NewPair(spec)
		var field *check.FieldError
		if !errors.As(err, &field) || !strings.HasPrefix(field.Field, test.field) || field.Remedy == "" {
			t.Errorf("%s: got %v", test.field, err)
		}
	}
}
