package gear

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// testCard is a measured printer whose outsides come out true.
func testCard() fit.Card {
	return fit.Card{
		Name: "test", BeadWidth: 0.45, LayerThickness: 0.2,
		Bore: fit.Error{Offset: -0.18}, FirstLayerGrowth: 0.2, Bed: [2]float64{220, 220},
	}
}

// lampSpec is the lighthouse's lamp pair with both bodies.
func lampSpec() PairSpec {
	m3, _ := fit.ScrewNamed("M3")
	petg, _ := fit.MaterialNamed("PETG")
	return PairSpec{
		Name: "lamp", Module: 1.5, Teeth: [2]int{28, 36}, PressureAngle: 20 * degree,
		Backlash: 0.2, FaceWidth: 10, Card: testCard(),
		Loading: Loading{Stall: 1.96, Held: 0.2, Speed: 6.16, Swing: 130 * degree, Material: [2]fit.Material{petg, petg}},
		Climate: Climate{Known: true, Made: 20, Coldest: 0, Hottest: 40, Expansion: [2]float64{65e-6, 65e-6}, Base: 65e-6},
		Pinion: Body{Horn: &HornPocket{
			Kind: "disc", Diameter: 20.3, Thickness: 2.6, HubDiameter: 9.2,
			Holes: 4, HoleCircle: 14, Hole: 2.1, StandOff: 4, SplineTeeth: 25,
		}},
		Wheel: Body{
			Journal: &Journal{Bore: 17, Length: 6, ShoulderDiameter: 23, ShoulderHeight: 2, Hollow: 6},
			Bolts:   &BoltCircle{Diameter: 36, Screw: m3, Count: 4},
		},
	}
}

func mustPair(t *testing.T, spec PairSpec) *Pair {
	t.Helper()
	p, err := NewPair(spec)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The values of the report's contract for the lamp pair, as printed there
// (d_b1 = 42 cos 20 deg = 39.46709; the contract prints 39.46708).
func TestLampValues(t *testing.T) {
	v := mustPair(t, lampSpec()).Values()
	for name, want := range map[string]float64{
		"m": 1.5, "x1": 0, "x2": 0, "alpha_deg": 20, "alpha_w_deg": 20, "a_w": 48, "d1": 42, "d2": 54,
		"da1": 45, "da2": 57, "db1": 39.46709, "db2": 50.7434, "df1": 38.25, "df2": 50.25,
		"epsilon_alpha": 1.6652, "j_wt": 0.2, "j_bn": 0.18794, "W1": 15.993, "W2": 16.161,
		"dp1": 2.5, "M1": 45.036, "dp2": 2.5, "M2": 57.041, "ratio": 1.28571, "lost_motion_deg": 0.4244,
		"tight_mesh_centre_distance": 47.7189, "c1": 0.375, "c2": 0.375, "y": 0, "k": 0,
	} {
		got, ok := v[name].(float64)
		if !ok {
			t.Fatalf("%s is missing", name)
		}
		decimals := 0
		if s := check.Number(want); strings.Contains(s, ".") {
			decimals = len(s) - strings.Index(s, ".") - 1
		}
		near(t, name, got, want, 0.51*math.Pow10(-decimals)+0.5e-5)
	}
	for name, want := range map[string]int{"z1": 28, "z2": 36, "k1": 4, "k2": 4, "same_teeth_meet_after": 9} {
		if v[name] != want {
			t.Errorf("%s = %v, want %d", name, v[name], want)
		}
	}
}

func TestLampHasNoFailure(t *testing.T) {
	for _, f := range mustPair(t, lampSpec()).Findings() {
		if f.Verdict == check.Fail || f.Verdict == check.Caution {
			t.Errorf("%s %s: %s, %g %s", f.Part, f.Check, f.Verdict, f.Value, f.Limit)
		}
	}
}

// Heights follow from the sizes by adding up; the fits from the allowances.
func TestLampBodies(t *testing.T) {
	p := mustPair(t, lampSpec())
	near(t, "pinion height", p.Pinion().Height(), 10+4, 1e-4)
	near(t, "wheel height", p.Wheel().Height(), 10+2+6, 1e-4)
	floor, ok := p.Pinion().PocketFloor()
	if near(t, "pocket floor", floor, 14-2.6, 1e-12); !ok {
		t.Error("the pinion has no pocket")
	}
	foot, ok := p.Wheel().JournalFoot()
	if near(t, "journal foot", foot, 12, 1e-12); !ok {
		t.Error("the wheel has no journal")
	}
	want := map[string][2]float64{ // wanted, drawn with bores 0.18 mm too small
		"lamp-pinion horn pocket":   {20.4, 20.58},
		"lamp-pinion horn hub hole": {9.7, 9.88},
		"lamp-pinion M2 screw hole": {2.4, 2.58},
		"lamp-wheel journal":        {17 - fit.JournalClearance, 17 - fit.JournalClearance},
		"lamp-wheel shoulder":       {23, 23},
		"lamp-wheel hollow":         {6, 6.18},
		"lamp-wheel M3 pilot hole":  {2.525, 2.705},
		"lamp-wheel tip circle":     {57, 57},
		"lamp-wheel span":           {16.161, 16.161},
	}
	for _, f := range p.Fits() {
		w, ok := want[f.Part+" "+f.Feature]
		if !ok {
			continue
		}
		delete(want, f.Part+" "+f.Feature)
		near(t, f.Feature+" wanted", f.Wanted, w[0], 1e-4)
		near(t, f.Feature+" drawn", f.Drawn, w[1], 1e-4)
		near(t, f.Feature+" expected", f.Expected, w[0], 1e-4)
	}
	for name := range want {
		t.Errorf("no fit for %s", name)
	}
	loops := []int{6, 6, 6, 2} // outline, hub hole, 4 screws; boss with the same; boss with pocket
	layers := p.Pinion().Part().Layers()
	for i, l := range layers {
		if len(l.Bottom.Loops()) != loops[i] {
			t.Errorf("layer %d has %d loops, want %d", i, len(l.Bottom.Loops()), loops[i])
		}
	}
	if len(layers) != 4 || !layers[0].Loft || layers[1].Loft {
		t.Errorf("the pinion has %d layers, want a sloping one and three upright ones", len(layers))
	}
}

// The outside error makes the drawn teeth thinner by it, and the values stay.
func TestCardThinsTheDrawnTeeth(t *testing.T) {
	spec := lampSpec()
	plain := mustPair(t, spec)
	spec.Card.Outside = fit.Error{Offset: 0.08}
	fat := mustPair(t, spec)
	if a, b := plain.Values()["W1"], fat.Values()["W1"]; a != b {
		t.Errorf("W1 = %v with an outside error, %v without", b, a)
	}
	span := fat.Pinion().Fits()[1]
	near(t, "drawn span", span.Drawn, 15.992953-0.08, 1e-5)
	near(t, "expected span", span.Expected, span.Wanted, 1e-9)
	lo, hi := fat.Pinion().Part().Bounds()
	near(t, "drawn tip diameter", hi.X-lo.X, 45-0.08, 3e-4)
}

func TestNewPairRefuses(t *testing.T) {
	for _, test := range []struct {
		field  string
		change func(*PairSpec)
	}{
		{"module", func(s *PairSpec) { s.Module = 0 }},
		{"module", func(s *PairSpec) { s.Module = math.NaN() }},
		{"number of teeth of the wheel", func(s *PairSpec) { s.Teeth[1] = -33 }},
		{"hub of lamp-wheel", func(s *PairSpec) { s.Teeth[1] = -60 }},
		{"number of teeth of the pinion", func(s *PairSpec) { s.Teeth[0] = 3 }},
		{"pressure angle", func(s *PairSpec) { s.PressureAngle = 20 }},
		{"backlash", func(s *PairSpec) { s.Backlash = -0.1 }},
		{"face width", func(s *PairSpec) { s.FaceWidth = math.Inf(1) }},
		{"centre distance", func(s *PairSpec) { s.CentreDistance = 40 }},
		{"rack fillet radius", func(s *PairSpec) { s.Rack = Rack{1, 0.25, 0.5} }},
		{"profile shift of the pinion", func(s *PairSpec) { s.Teeth[0], s.Shift[0] = 8, 0.9 }},
		{"bead width", func(s *PairSpec) { s.Card.BeadWidth = 0 }},
		{"kind of horn", func(s *PairSpec) { s.Pinion.Horn.Kind = "triangle" }},
		{"horn diameter", func(s *PairSpec) { s.Pinion.Horn.Diameter = 38 }},
		{"horn thickness", func(s *PairSpec) { s.Pinion.Horn.Thickness = 13.8 }},
		{"horn hole circle", func(s *PairSpec) { s.Pinion.Horn.HoleCircle = 19 }},
		{"horn hole circle", func(s *PairSpec) { s.Pinion.Horn.HoleCircle = 11.5 }},
		{"horn holes", func(s *PairSpec) { s.Pinion.Horn.Holes = 20 }},
		{"horn hole", func(s *PairSpec) { s.Pinion.Horn.Hole = 1.2 }},
		{"hub", func(s *PairSpec) { s.Pinion.Bore = 5 }},
		{"shoulder diameter", func(s *PairSpec) { s.Wheel.Journal.ShoulderDiameter = 51 }},
		{"shoulder diameter", func(s *PairSpec) { s.Wheel.Journal.ShoulderDiameter = 17 }},
		{"hollow of the journal", func(s *PairSpec) { s.Wheel.Journal.Hollow = 16.5 }},
		{"bore of the journal's ring", func(s *PairSpec) { s.Wheel.Journal = &Journal{Bore: 50, Length: 5} }},
		{"bolt circle", func(s *PairSpec) { s.Wheel.Bolts.Diameter = 47.5 }},
		{"bolt circle", func(s *PairSpec) { s.Wheel.Bolts.Diameter = 25 }},
		{"bolt count", func(s *PairSpec) { s.Wheel.Bolts.Count = 44 }},
		{"pilot hole", func(s *PairSpec) { s.Wheel.Bolts.Screw = fit.Screw{} }},
		{"bore", func(s *PairSpec) { s.Wheel = Body{Bore: 50} }},
	} {
		spec := lampSpec()
		test.change(&spec)
		_, err := NewPair(spec)
		var field *check.FieldError
		switch {
		case !errors.As(err, &field):
			t.Errorf("%s: got %v, want a field error", test.field, err)
		case !strings.HasPrefix(field.Field, test.field):
			t.Errorf("the error names %q, want %q", field.Field, test.field)
		case field.Remedy == "" || field.Reason == "":
			t.Errorf("%s: the error has no reason or remedy", test.field)
		}
	}
}

// Shifts that bring an internal pair's axes too near are named with the sums
// that can be; both ends of these are a pair's, or another check's.
func TestShiftsWithoutDistance(t *testing.T) {
	spec := bareSpec(21, -35)
	spec.Shift = [2]float64{0.355, -0.006}
	_, err := NewPair(spec)
	var field *check.FieldError
	if !errors.As(err, &field) || field.Field != "profile shift of the pinion" || !strings.Contains(field.Reason, "-0.006") {
		t.Fatal(err)
	}
	var lo, hi float64
	if n, _ := fmt.Sscanf(field.Remedy, "x1 + x2 from %g to %g", &lo, &hi); n != 2 {
		t.Fatal(field.Remedy)
	}
	for _, q := range []struct {
		sum  float64
		fine bool
	}{{lo, true}, {hi, true}, {hi + 0.02, false}} {
		spec.Shift = [2]float64{0, q.sum}
		if q.sum < -1 {
			spec.Shift = [2]float64{q.sum + 1, -1}
		}
		_, err := NewPair(spec)
		near := errors.As(err, &field) && strings.HasPrefix(field.Remedy, "x1 + x2 from")
		if near == q.fine {
			t.Errorf("sum %g: %v", q.sum, err)
		}
	}
}

// A centre distance without shifts fixes their sum; with shifts it adds to the
// backlash, and only what it lacks is taken off the teeth.
func TestCentreDistance(t *testing.T) {
	spec := lampSpec()
	spec.CentreDistance = 48.4
	p := mustPair(t, spec)
	near(t, "a_w", p.CentreDistance(), 48.4, 1e-12)
	near(t, "backlash", p.Backlash(), 0.2, 1e-9)
	near(t, "distance that follows from the shifts", spec.distanceFor(p.Pinion().Shift()+p.Wheel().Shift()), 48.4, 1e-9)
	if !(p.Pinion().Shift() > p.Wheel().Shift()) {
		t.Error("the smaller gear did not get the larger share of a positive sum")
	}

	spec.CentreDistance = 47.8
	p = mustPair(t, spec)
	if x1, x2 := p.Pinion().Shift(), p.Wheel().Shift(); !(x2 < x1 && x1 < 0) {
		t.Errorf("x = %g, %g: the larger gear must bear more of a negative sum", x1, x2)
	}

	spec.CentreDistance, spec.Shift = 48.4, [2]float64{0.1, -0.1}
	p = mustPair(t, spec)
	near(t, "x1", p.Pinion().Shift(), 0.1, 0)
	if p.thin != 0 || p.Backlash() < 0.25 {
		t.Errorf("thinning %g, backlash %g mm: the distance alone gives more than 0.2", p.thin, p.Backlash())
	}
	spec.CentreDistance = 48.1
	p = mustPair(t, spec)
	near(t, "backlash", p.Backlash(), 0.2, 1e-9)
	if !(p.thin > 0 && p.thin < 0.08) {
		t.Errorf("thinning %g mm: want what 0.1 mm of distance leaves of 0.2 mm", p.thin)
	}
}

// Chosen shifts are the least free of undercut (x_min table: z 12 0.298, z 16
// 0.064, derived from the rack), none from 18 teeth on.
func TestShiftChoose(t *testing.T) {
	for _, q := range []struct {
		z    int
		want float64
	}{{12, 0.298}, {14, 0.181}, {16, 0.064}, {17, 0.006}, {18, 0}, {40, 0}} {
		spec := lampSpec()
		spec.Pinion, spec.Wheel = Body{}, Body{}
		spec.Teeth, spec.ShiftRule = [2]int{q.z, 40}, ShiftChoose
		p := mustPair(t, spec)
		near(t, "x1", p.Pinion().Shift(), q.want, 0.0011)
		if p.Pinion().Undercut() {
			t.Errorf("z = %d is undercut at x = %g", q.z, p.Pinion().Shift())
		}
	}
}

// Balanced shifts slide alike at both ends, or stand at the undercut limit.
func TestShiftBalanced(t *testing.T) {
	for _, teeth := range [][2]int{{20, 40}, {24, 24}, {18, 60}, {12, 40}} {
		spec := lampSpec()
		spec.Pinion, spec.Wheel = Body{}, Body{}
		spec.Teeth, spec.ShiftRule, spec.Backlash = teeth, ShiftBalanced, 0
		p := mustPair(t, spec)
		z1, z2 := p.contact.sliding(0), p.contact.sliding(1)
		atLimit := p.x[0] <= LeastShift(teeth[0], spec.PressureAngle, ProfileA())+1e-3
		if math.Abs(z1-z2) > 0.01 && !atLimit {
			t.Errorf("%v: x = %v, zeta = %g and %g", teeth, p.x, z1, z2)
		}
	}
}

// Shifts of 0 that are meant stay 0 at any centre distance (20/40, m 1.5: 45 mm
// without backlash). Further apart the backlash follows in closed form, 2 r_b
// (inv alpha_w' - inv alpha_w) for both; nearer, the teeth are thinned and the
// tip clearance falls by as much as the centres came together.
func TestKeptShifts(t *testing.T) {
	spec := bareSpec(20, 40)
	spec.Backlash, spec.CentreDistance = 0.2, 45.6
	if x := mustPair(t, spec).Pinion().Shift(); x <= 0 {
		t.Errorf("x1 = %g: without shifts the distance sets them", x)
	}
	spec.KeepShift = true
	p := mustPair(t, spec)
	if p.Pinion().Shift() != 0 || p.Wheel().Shift() != 0 {
		t.Errorf("shifts moved to %g, %g", p.Pinion().Shift(), p.Wheel().Shift())
	}
	alphaW := math.Acos(45 * math.Cos(20*degree) / 45.6)
	near(t, "backlash", p.contact.normalBacklash(), 90*math.Cos(20*degree)*(Involute(alphaW)-Involute(20*degree)), 1e-9)
	near(t, "tip clearance", p.contact.tipClearance(0), 0.375+0.6, 1e-9)

	spec.CentreDistance = 44.8
	p = mustPair(t, spec)
	near(t, "backlash of thinned teeth", p.Backlash(), 0.2, 1e-9)
	near(t, "tip clearance", p.contact.tipClearance(0), 0.375-0.2-p.k*1.5, 1e-9)

	spec.CentreDistance = 40
	var field *check.FieldError
	if _, err := NewPair(spec); !errors.As(err, &field) || field.Field != "centre distance" {
		t.Errorf("a distance nearer than the base circles: %v", err)
	}
}
