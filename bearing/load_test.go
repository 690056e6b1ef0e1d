package bearing_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

func finding(t *testing.T, all []check.Finding, name string) check.Finding {
	t.Helper()
	for _, f := range all {
		if f.Check == name {
			return f
		}
	}
	t.Fatalf("no finding %q among %d", name, len(all))
	return check.Finding{}
}

// lamp is 1.9 kg on a 30203, its centre of gravity beside the axis by offset mm.
func lamp(offset float64) bearing.Load {
	const weight = 1.9 * 9.80665
	return bearing.Load{Axial: weight, Moment: weight * offset / 1000, Height: 120, Alone: true}
}

// By hand: d_m = 28.5 mm; 4 mm is 4 / (28.5/4) = 0.5614 of what tips it, 12 mm
// 1.684. The push that lifts it at 120 mm is (18.633 x 7.125 - 74.53) / 120.
func TestLampTips(t *testing.T) {
	b := find(t, "30203")
	for _, test := range []struct {
		offset, value float64
		verdict       check.Verdict
	}{
		{0, 0, check.Pass},
		{4, 0.5614, check.Pass},
		{6, 0.8421, check.Caution},
		{12, 1.6842, check.Fail},
	} {
		f := finding(t, bearing.CheckLoad(b, lamp(test.offset), nil), "tipping")
		if !near(f.Value, test.value, 5e-5) || f.Verdict != test.verdict || (f.Remedy == "") != (f.Verdict == check.Pass) {
			t.Errorf("offset %v mm: %+v, want %v %s", test.offset, f, test.value, test.verdict)
		}
	}
	guide := finding(t, bearing.CheckLoad(b, lamp(4), nil), "guide-bearing")
	if !near(guide.Value, (18.6326*28.5/4-18.6326*4)/120, 1e-3) || guide.Verdict != check.Caution || !strings.Contains(guide.Remedy, "second guide bearing") {
		t.Errorf("guide bearing: %+v", guide)
	}
}

// Followed, the remedy of a tipping load passes: the number of mm it names does,
// and a second bearing takes the check away.
func TestTippingRemedy(t *testing.T) {
	within := regexp.MustCompile(`within ([0-9.]+) mm`)
	tested := 0
	for _, b := range bearing.All() {
		for _, offset := range []float64{0.4 * b.MeanDiameter(), 0.2 * b.MeanDiameter()} {
			f := finding(t, bearing.CheckLoad(b, lamp(offset), nil), "tipping")
			m := within.FindStringSubmatch(f.Remedy)
			if f.Verdict == check.Pass || m == nil {
				t.Errorf("%s: offset %v: %+v", b.Designation, offset, f)
				continue
			}
			reach, _ := strconv.ParseFloat(m[1], 64)
			if again := finding(t, bearing.CheckLoad(b, lamp(reach), nil), "tipping"); again.Verdict != check.Pass {
				t.Errorf("%s: %s, and still %v", b.Designation, f.Remedy, again.Value)
			}
			tested++
		}
	}
	if tested < 300 {
		t.Errorf("only %d remedies followed", tested)
	}
	paired := lamp(12)
	paired.Alone = false
	for _, f := range bearing.CheckLoad(find(t, "30203"), paired, nil) {
		if f.Verdict == check.Fail || f.Check == "guide-bearing" {
			t.Errorf("with a second bearing: %+v", f)
		}
	}
}

func TestLoadDirection(t *testing.T) {
	var final bool
	for _, r := range bearing.Rules() {
		final = final || (r.Name == "load-direction" && r.Final)
	}
	if !final {
		t.Error("load-direction may be accepted")
	}
	hanging := lamp(4)
	hanging.Axial = -hanging.Axial
	for _, test := range []struct {
		name    string
		bearing string
		load    bearing.Load
		want    check.Verdict
	}{
		{"standing on a tapered bearing", "30203", lamp(4), check.Pass},
		{"hanging from a tapered bearing", "30203", hanging, check.Fail},
		{"tapered, nothing pressing", "30203", bearing.Load{Alone: true}, check.Fail},
		{"tapered, axis horizontal", "30203", bearing.Load{Radial: 18, Alone: true}, check.Fail},
		{"induced load met", "30203", bearing.Load{Radial: 100, Axial: 100 / (2 * 1.74), Alone: true}, check.Pass},
		{"induced load not met", "30203", bearing.Load{Radial: 100, Axial: 28.7, Alone: true}, check.Fail},
		{"tapered pair, reversed", "30203", bearing.Load{Axial: -18}, check.Caution},
		{"hanging from a thrust bearing", "51106", bearing.Load{Axial: -18}, check.Fail},
		{"hanging from a ball bearing", "608", hanging, check.Caution},
		{"standing on a ball bearing", "608", lamp(1), check.Pass},
	} {
		f := finding(t, bearing.CheckLoad(find(t, test.bearing), test.load, nil), "load-direction")
		if f.Verdict != test.want || (f.Verdict != check.Pass && f.Remedy == "") {
			t.Errorf("%s: %+v, want %s", test.name, f, test.want)
		}
	}
}

// The remedy of an induced load is a number, and that number passes.
func TestInducedLoadRemedy(t *testing.T) {
	number := regexp.MustCompile(`axial load >= ([0-9.]+) N`)
	for _, b := range bearing.All() {
		if b.Kind != bearing.Tapered {
			continue
		}
		load := bearing.Load{Radial: 123.4, Axial: 5, Alone: true}
		f := finding(t, bearing.CheckLoad(b, load, nil), "load-direction")
		m := number.FindStringSubmatch(f.Remedy)
		if f.Verdict != check.Fail || m == nil {
			t.Errorf("%s: %+v", b.Designation, f)
			continue
		}
		load.Axial, _ = strconv.ParseFloat(m[1], 64)
		if f := finding(t, bearing.CheckLoad(b, load, nil), "load-direction"); f.Verdict != check.Pass {
			t.Errorf("%s: with %v N still %+v", b.Designation, load.Axial, f)
		}
	}
}

// P0, induced load and s0 of five tapered bearings, computed by an independent
// program on a maker's factors and another's C0 (testdata/ref/bearing-capacity.json).
func TestStaticLoad(t *testing.T) {
	var ref struct {
		Vectors []struct {
			Bearing                           string
			Fr, Fa, E, Y, Y0, P0, Induced, S0 float64
			Alpha                             float64 `json:"alpha_deg"`
		} `json:"own_vectors_tapered"`
	}
	reference(t, "bearing-capacity.json", &ref)
	if len(ref.Vectors) != 5 {
		t.Fatalf("%d vectors", len(ref.Vectors))
	}
	for _, v := range ref.Vectors {
		b := find(t, v.Bearing)
		load := bearing.Load{Radial: v.Fr, Axial: v.Fa}
		if b.E != v.E || b.Y != v.Y || b.Y0 != v.Y0 || !near(math.Atan(0.4/b.Y)*180/math.Pi, v.Alpha, 0.005) {
			t.Errorf("%s: e %v, Y %v, Y0 %v, contact angle by Y = 0.4 cot(alpha)", v.Bearing, b.E, b.Y, b.Y0)
		}
		if got := b.StaticLoad(load); !near(got, v.P0, 0.5) {
			t.Errorf("%s: P0 = %v, want %v", v.Bearing, got, v.P0)
		}
		if got := v.Fr / (2 * b.AxialFactor()); !near(got, v.Induced, 0.005) {
			t.Errorf("%s: induced %v, want %v", v.Bearing, got, v.Induced)
		}
		if f := finding(t, bearing.CheckLoad(b, load, nil), "static-safety"); !near(f.Value, v.S0, 0.06) || !strings.Contains(f.Detail, "the printed seat, not the bearing, is the limit") {
			t.Errorf("%s: %+v, want s0 = %v", v.Bearing, f, v.S0)
		}
	}
}

// Ball: P0 = max(Fr, 0.6 Fr + 0.5 Fa), thrust: Fa (a maker's formulas). Factors
// that a row lacks lie near those of the rows that carry them: 0.02 in Y0, and
// 0.045 in Y, which is what rounding e to two decimals leaves of 0.6 / e.
func TestStaticLoadOtherKinds(t *testing.T) {
	load := bearing.Load{Radial: 100, Axial: 200}
	if got := find(t, "608").StaticLoad(load); got != 160 {
		t.Errorf("608: P0 = %v, want 160", got)
	}
	// A moment of 0.1 N·m on d_m = 15 mm adds 4 x 100 / 15 N where no second bearing takes it.
	beside := bearing.Load{Axial: 100, Moment: 0.1, Alone: true}
	if got := find(t, "608").StaticLoad(beside); !near(got, 0.5*(100+400.0/15), 1e-9) {
		t.Errorf("608 under a moment: P0 = %v", got)
	}
	if got := find(t, "51106").StaticLoad(bearing.Load{Axial: 200}); got != 200 {
		t.Errorf("51106: P0 = %v, want 200", got)
	}
	for _, b := range bearing.All() {
		if b.Y0 == 0 {
			continue
		}
		bare := b
		bare.Y0 = 0
		axial := bearing.Load{Axial: 1}
		if have, want := bare.StaticLoad(axial), b.StaticLoad(axial); !near(have, want, 0.02) {
			t.Errorf("%s: Y0 from Y = %v, row %v", b.Designation, have, want)
		}
		bare.Y = 0
		if have := bare.AxialFactor(); !near(have, b.Y, 0.045) {
			t.Errorf("%s: Y from e = %v, row %v", b.Designation, have, b.Y)
		}
		bare.E = 0
		if bare.AxialFactor() > b.Y {
			t.Errorf("%s: the last resort %v is bolder than the row's %v", b.Designation, bare.AxialFactor(), b.Y)
		}
	}
}

func TestThrustBallRadial(t *testing.T) {
	b := find(t, "51106")
	if f := finding(t, bearing.CheckLoad(b, bearing.Load{Axial: 20, Radial: 1}, nil), "radial-load"); f.Verdict != check.Fail || f.Remedy == "" {
		t.Errorf("radial load on a thrust bearing: %+v", f)
	}
	if f := finding(t, bearing.CheckLoad(b, bearing.Load{Axial: 20}, nil), "radial-load"); f.Verdict != check.Pass {
		t.Errorf("no radial load: %+v", f)
	}
}

// Limits: s0 1 and 0.5 for balls, 1.5 and 1 for rollers (a maker's guideline
// table, normal running, failing at its quiet column); axial share 0.5, 0.25 up to 12 mm bore.
func TestRatingLimits(t *testing.T) {
	for _, test := range []struct {
		name, bearing, check string
		axial                float64
		want                 check.Verdict
	}{
		{"608: C0 1.4 kN, P0 1.3 kN", "608", "static-safety", 2600, check.Pass},
		{"608: P0 1.5 kN", "608", "static-safety", 3000, check.Caution},
		{"608: P0 3 kN", "608", "static-safety", 6000, check.Fail},
		{"30203: C0 20.2 kN, P0 12.5 kN", "30203", "static-safety", 13000, check.Pass},
		{"30203: P0 15.4 kN", "30203", "static-safety", 16000, check.Caution},
		{"30203: P0 21.1 kN", "30203", "static-safety", 22000, check.Fail},
		{"608: a quarter of C0", "608", "axial-share", 350, check.Pass},
		{"608: more", "608", "axial-share", 351, check.Caution},
		{"6204: half of C0 6.6 kN", "6204", "axial-share", 3300, check.Pass},
		{"6204: more", "6204", "axial-share", 3301, check.Caution},
		{"no rating in the table", "618/8", "static-safety", 20, check.Note},
	} {
		f := finding(t, bearing.CheckLoad(find(t, test.bearing), bearing.Load{Axial: test.axial}, nil), test.check)
		if f.Verdict != test.want {
			t.Errorf("%s: %+v, want %s", test.name, f, test.want)
		}
	}
}

// Whatever the load, every value is a number.
func TestLoadValuesAreFinite(t *testing.T) {
	for _, b := range bearing.All() {
		for _, load := range []bearing.Load{{}, {Alone: true}, {Axial: -5, Moment: 1, Alone: true}, {Moment: 1, Alone: true}, {Axial: 1e-9, Moment: 1, Radial: 3, Height: 1, Alone: true}} {
			for _, f := range bearing.CheckLoad(b, load, nil) {
				if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
					t.Errorf("%s under %+v: %+v", b.Designation, load, f)
				}
			}
		}
	}
}

func TestLoadValidate(t *testing.T) {
	for _, load := range []bearing.Load{{Axial: math.NaN()}, {Radial: -1}, {Moment: math.Inf(1)}, {Height: math.NaN()}} {
		if load.Validate() == nil {
			t.Errorf("%+v passes", load)
		}
	}
}

// A deep-groove bearing keeps its rings together whatever overturns it: what tips
// a tapered one apart is a caution here, and no word says that the load holds it.
func TestDeepGrooveAloneStaysTogether(t *testing.T) {
	b, err := bearing.Named("608")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range []bearing.Load{
		{Axial: 10, Moment: 1, Alone: true, Height: 50},    // tips beyond d_m / 4
		{Radial: 10, Moment: 0.5, Alone: true, Height: 50}, // a level axis
	} {
		for _, f := range bearing.CheckLoad(b, l, nil) {
			if f.Verdict == check.Fail || strings.Contains(f.Detail, "held together by the load") {
				t.Errorf("%+v: %s %s: %s", l, f.Verdict, f.Check, f.Detail)
			}
		}
		if f := finding(t, bearing.CheckLoad(b, l, nil), "tipping"); f.Verdict != check.Caution {
			t.Errorf("%+v: tipping is %s", l, f.Verdict)
		}
	}
}
