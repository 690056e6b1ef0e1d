package gear

import (
	"math"
	"math/rand/v2"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// anySpec returns a bare pair from all over the legal range; a negative least
// makes the wheel an internal gear.
func anySpec(rnd *rand.Rand, internal bool) PairSpec {
	z1 := 6 + rnd.IntN(60)
	spec := bareSpec(z1, 6+rnd.IntN(110))
	if internal {
		spec.Teeth[1] = -z1 - 6 - rnd.IntN(90)
	}
	spec.Module = 0.5 + 3*rnd.Float64()
	spec.PressureAngle = (14.5 + 15.5*rnd.Float64()) * degree
	spec.Shift = [2]float64{1.2*rnd.Float64() - 0.3, 1.2*rnd.Float64() - 0.9}
	spec.Backlash = 0.1 * spec.Module * rnd.Float64()
	rack, _ := RackNamed(RackProfiles()[rnd.IntN(4)])
	if rnd.IntN(2) == 0 {
		rack.Addendum, rack.Clearance = 0.8, 0.4
	}
	spec.Rack = rack.Fitted(spec.PressureAngle)
	spec.Card.Bore, spec.Card.Outside = fit.Error{}, fit.Error{}
	return spec
}

// An internal gear that is made has a simple outline inside its rim, every tooth
// like the first, and the two sides of a space mirror each other.
func TestInternalOutlineOverTheLegalRange(t *testing.T) {
	const seed = 52
	rnd := rand.New(rand.NewPCG(seed, seed))
	made := 0
	for i := range 400 {
		spec := anySpec(rnd, true)
		s, err := solve(spec)
		if err != nil {
			continue
		}
		made++
		g := s.contact.t[1]
		outline := g.outline(0.005)
		rim := geom.Peg(geom.Point{}, 2*(g.rf+3*g.m), 0.02)
		if _, err := geom.NewPart("gear", geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{rim, outline}}); err != nil {
			t.Fatalf("seed %d case %d %v %v: %v", seed, i, spec.Teeth, spec.Shift, err)
		}
		n := len(outline.Points)
		if n%g.z != 0 {
			t.Fatalf("seed %d case %d: %d points for %d teeth", seed, i, n, g.z)
		}
		turn := 2 * math.Pi / float64(g.z)
		for k, p := range outline.Points {
			next := outline.Points[(k+n/g.z)%n] // a hole runs clockwise
			if off := p.Rotate(-turn).Sub(next).Len(); off > 1e-9 {
				t.Fatalf("seed %d case %d: teeth differ by %g mm", seed, i, off)
			}
		}
		mirrored := ofCurve(g, 24, 2)
		for k, p := range mirrored.upper[0] {
			if off := p.Sub(mirrored.lower[0][k]).Len(); off > 1e-9 {
				t.Fatalf("seed %d case %d: sides differ by %g mm", seed, i, off)
			}
		}
	}
	if made < 120 {
		t.Errorf("only %d internal gears", made)
	}
}

// A rack drive that is made has simple outlines and runs with the backlash asked
// for, whatever module, teeth, shift, angle and profile. What the rack's tips
// touch in the pinion's fillet, which they just reach, are its chords.
func TestRackDriveOverTheLegalRange(t *testing.T) {
	const seed = 53
	rnd := rand.New(rand.NewPCG(seed, seed))
	made := 0
	for i := range 250 {
		spec := RackSpec{Pair: anySpec(rnd, false), Travel: 20 + 100*rnd.Float64()}
		spec.Pair.Backlash += 0.05
		d, err := NewRackDrive(spec)
		if err != nil {
			continue
		}
		made++
		c, j := d.spec.Pair.ChordError, d.normalBacklash(0)
		if d.ContactRatio() < 1 || math.Abs(d.pair.gears[0].left) > 1e-9 {
			continue
		}
		if m := d.motion; m.min < j-2*c || m.max > j+4*c {
			t.Fatalf("seed %d case %d z %d x %g alpha %g: measured %g to %g mm, asked for %g", seed, i, spec.Pair.Teeth[0], spec.Pair.Shift[0], spec.Pair.PressureAngle/degree, m.min, m.max, j)
		}
		for _, f := range d.Findings() {
			if f.Check == "mesh-by-motion" && f.Verdict != check.Pass {
				t.Fatalf("seed %d case %d: gap %g", seed, i, f.Value)
			}
		}
		if length := d.Length(); length < spec.Travel+d.ContactRatio()*d.bar.pitch {
			t.Fatalf("seed %d case %d: %g mm of rack for %g of travel", seed, i, length, spec.Travel)
		}
	}
	if made < 120 {
		t.Errorf("only %d rack drives", made)
	}
}

// Twice of every length makes an internal pair and a rack drive twice as large.
func TestInternalAndRackScale(t *testing.T) {
	small := bareSpec(20, -50)
	small.Rack, small.Shift, small.ChordError = Rack{0.8, 0.45, 0.38}, [2]float64{0.2, -0.3}, 0.002
	large := small
	large.Module, large.Backlash, large.ChordError, large.FaceWidth, large.CentreTolerance = 2*small.Module, 2*small.Backlash, 0.004, 2*small.FaceWidth, 2*DefaultCentreTolerance
	va, vb := mustPair(t, small).Values(), mustPair(t, large).Values()
	for _, name := range []string{"a_w", "da2", "df2", "d_Ff2", "j_bn", "s_a2", "c2", "rho_a0", "tight_mesh_centre_distance"} {
		near(t, name, vb[name].(float64), 2*va[name].(float64), 1e-8)
	}
	for _, name := range []string{"epsilon_alpha", "Y2", "zeta_f1"} {
		near(t, name, vb[name].(float64), va[name].(float64), 1e-8)
	}
	area := func(spec PairSpec) float64 {
		return -polygonArea(mustPair(t, spec).Wheel().nominal.outline(spec.ChordError).Points)
	}
	near(t, "area", area(large), 4*area(small), 4*area(small)*1e-5)

	rack := rackSpec(20)
	rack.Pair.ChordError = 0.002
	twice := rack
	twice.Pair.Module, twice.Pair.Backlash, twice.Pair.ChordError, twice.Pair.FaceWidth, twice.Travel = 3, 0.4, 0.004, 20, 2*rack.Travel
	a, err := NewRackDrive(rack)
	if err != nil {
		t.Fatal(err)
	}
	b, err := NewRackDrive(twice)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"a_axis_to_reference_line", "s_rack", "s_a_rack", "rack_length", "travel_per_turn", "j_bn"} {
		near(t, name, b.Values()[name].(float64), 2*a.Values()[name].(float64), 1e-9)
	}
	near(t, "Y of the rack", b.bar.lewis(), a.bar.lewis(), 1e-9)
}
