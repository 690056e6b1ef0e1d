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

// a of 16 rows of a maker's table, taken from the cup's back face towards the
// large ends of the rollers, meets the geometry of the contact lines: T / 2 +
// (d_m / 2) tan(alpha), tan(alpha) = e / 1.5. From the cone's back face it would
// miss by up to 20 mm.
func TestLoadCentreIsMeasuredFromTheCup(t *testing.T) {
	rows := 0
	for _, b := range bearing.All() {
		if b.LoadCentre == 0 || b.E == 0 {
			continue
		}
		rows++
		contact := b.Width/2 + b.MeanDiameter()/2*b.E/1.5
		if !near(b.LoadCentre, contact, 1.3) {
			t.Errorf("%s: a = %v, contact lines meet at %v", b.Designation, b.LoadCentre, contact)
		}
		bare := b
		bare.LoadCentre = 0
		pair := bearing.Load{Second: &b, Span: 40}
		if with, without := bearing.LoadSpan(b, pair), bearing.LoadSpan(bare, pair); !near(with, without, 1.3) {
			t.Errorf("%s: span %v, without a %v", b.Designation, with, without)
		}
	}
	if rows != 16 {
		t.Errorf("%d rows", rows)
	}
}

// By hand: two 30203 (Y 1.74, a 9.5), cups' backs 40 mm apart. Back to back the
// load centres are 59 mm apart, face to face 21. 59 N·m / 100 on 59 mm is a couple
// of 10 N. With F_r = 100 N here the radial loads are 110 and 10 N and the cones
// push with 110 / 3.48 = 31.61 and 2.87 N.
func TestShareLoad(t *testing.T) {
	b := find(t, "30203")
	load := bearing.Load{Radial: 100, Moment: 0.59, Second: &b, Span: 40}
	if got := bearing.LoadSpan(b, load); got != 59 {
		t.Errorf("back to back: %v, want 59", got)
	}
	faced := load
	faced.FaceToFace = true
	if got := bearing.LoadSpan(b, faced); got != 21 {
		t.Errorf("face to face: %v, want 21", got)
	}
	// Cones of B 12 in bearings of T 13.25: 40 + 2 x 1.25, and 40 - 2 x 13.25.
	if back, face := bearing.ConeSpacer(b, load), bearing.ConeSpacer(b, faced); back != 42.5 || face != 13.5 {
		t.Errorf("spacers %v and %v, want 42.5 and 13.5", back, face)
	}
	for _, test := range []struct {
		name           string
		axial          float64
		here, there    float64
		radial, couple float64
	}{
		{"no axial load: the larger push passes on", 0, 110 / 3.48, 110 / 3.48, 110, 10},
		{"pressed by less than the push", 20, 110 / 3.48, 110/3.48 - 20, 110, 10},
		{"pressed by more", 50, 50 + 10/3.48, 10 / 3.48, 110, 10},
		{"pulled: the second takes both", -20, 110 / 3.48, 20 + 110/3.48, 110, 10},
	} {
		load.Axial = test.axial
		here, second := bearing.ShareLoad(b, load)
		if !near(here.Axial, test.here, 1e-9) || !near(second.Axial, test.there, 1e-9) || !near(here.Radial, test.radial, 1e-9) || !near(second.Radial, test.couple, 1e-9) {
			t.Errorf("%s: %+v, %+v", test.name, here, second)
		}
	}
	// Whatever the load, the two axial forces differ by the load itself (statics).
	for _, axial := range []float64{-100, -1, 0, 3, 31, 32, 400} {
		load.Axial = axial
		here, second := bearing.ShareLoad(b, load)
		if !near(here.Axial-second.Axial, axial, 1e-9) || here.Axial < 0 || second.Axial < 0 {
			t.Errorf("F_a %v: %+v, %+v", axial, here, second)
		}
	}
}

func TestPairs(t *testing.T) {
	cone, ball, thrust := find(t, "30203"), find(t, "6003"), find(t, "51106")
	for _, test := range []struct {
		name          string
		first, second bearing.Bearing
		axial, radial float64
		check         string
		want          check.Verdict
	}{
		{"opposed cones, hanging", cone, cone, -18, 5, "load-direction", check.Pass},
		{"opposed cones, nothing along the axis", cone, cone, 0, 18, "load-direction", check.Pass},
		{"a cone and a guide, hanging", cone, ball, -18, 0, "load-direction", check.Fail},
		{"a cone and a guide, level", cone, ball, 0, 18, "load-direction", check.Fail},
		{"a cone and a guide, standing", cone, ball, 18, 0, "load-direction", check.Pass},
		{"two ball bearings, hanging", ball, ball, -18, 0, "load-direction", check.Pass},
		{"thrust and guide, standing", thrust, ball, 18, 0, "load-direction", check.Pass},
		{"thrust under a radial load", thrust, ball, 18, 1, "radial-load", check.Fail},
		{"cones set by a nut", cone, cone, 18, 0, "end-play", check.Note},
		{"wide enough", cone, cone, 18, 0, "bearing-span", check.Pass},
	} {
		load := bearing.Load{Axial: test.axial, Radial: test.radial, Second: &test.second, Span: 40}
		f := finding(t, bearing.CheckLoad(test.first, load, nil), test.check)
		if f.Verdict != test.want || (f.Verdict == check.Fail && f.Remedy == "") {
			t.Errorf("%s: %+v, want %s", test.name, f, test.want)
		}
	}
	if f := finding(t, bearing.CheckLoad(thrust, bearing.Load{Axial: 18, Alone: true}, nil), "guide-bearing"); f.Verdict != check.Fail || !strings.Contains(f.Remedy, "radial bearing") {
		t.Errorf("a thrust bearing alone: %+v", f)
	}
}

// The span a remedy asks for passes, for pairs of all kinds either way round.
func TestSpanRemedy(t *testing.T) {
	asks := regexp.MustCompile(`span >= ([0-9.]+) mm`)
	followed := 0
	for _, b := range bearing.All() {
		for _, faced := range []bool{false, true} {
			load := bearing.Load{Axial: 10, Second: &b, Span: 1, FaceToFace: faced}
			f := finding(t, bearing.CheckLoad(b, load, nil), "bearing-span")
			m := asks.FindStringSubmatch(f.Remedy)
			if f.Verdict == check.Pass {
				continue
			}
			if m == nil {
				t.Errorf("%s: %+v", b.Designation, f)
				continue
			}
			load.Span, _ = strconv.ParseFloat(m[1], 64)
			if again := finding(t, bearing.CheckLoad(b, load, nil), "bearing-span"); again.Verdict != check.Pass {
				t.Errorf("%s: %s, then %+v", b.Designation, f.Remedy, again)
			}
			followed++
		}
	}
	if followed < 250 {
		t.Errorf("%d remedies followed", followed)
	}
}

// Statics of a weight: 10 N, 50 mm up, 4 mm beside.
func TestWeightOn(t *testing.T) {
	for _, test := range []struct {
		axis                  string
		axial, radial, moment float64
	}{
		{bearing.Vertical, 10, 0, 0.04},
		{bearing.Horizontal, 0, 10, 0.5},
		{bearing.Inverted, -10, 0, 0.04},
	} {
		l := bearing.WeightOn(test.axis, 10, 50, 4)
		if l.Axial != test.axial || l.Radial != test.radial || !near(l.Moment, test.moment, 1e-12) || !l.Alone || l.Height != 50 {
			t.Errorf("%s: %+v", test.axis, l)
		}
	}
}

func TestPairValuesAreFinite(t *testing.T) {
	all := bearing.All()
	for i, b := range all {
		second := all[(i*7+3)%len(all)]
		for _, load := range []bearing.Load{{Span: 0.1, Moment: 1}, {Span: 40, Axial: -3, Radial: 2, Moment: 1, FaceToFace: true, RPM: 100}} {
			load.Second = &second
			for _, f := range bearing.CheckLoad(b, load, nil) {
				if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
					t.Errorf("%s with %s: %+v", b.Designation, second.Designation, f)
				}
			}
		}
	}
}

// Face to face both bearings stand between the shoulders: 26.5 mm of two 30203 do
// not fit 20 mm, whatever the load centres say; a spacer is then not told.
func TestBearingsFitBetweenTheirShoulders(t *testing.T) {
	b := find(t, "30203")
	for _, test := range []struct {
		span   float64
		fits   bool
		spacer bool
	}{{20, false, false}, {60, true, true}} {
		found := bearing.CheckLoad(b, bearing.Load{Axial: 10, Second: &b, Span: test.span, FaceToFace: true}, nil)
		spacer := false
		for _, f := range found {
			spacer = spacer || f.Check == "end-play"
		}
		f := finding(t, found, "bearing-span")
		if fits := f.Verdict != check.Fail; fits != test.fits || spacer != test.spacer {
			t.Errorf("%v mm: %+v, spacer told %v", test.span, f, spacer)
		}
		if !test.fits && !strings.HasPrefix(f.Remedy, "span >= 47.5 mm") { // 19 of two load centres more than d_m = 28.5
			t.Errorf("%v mm: %q", test.span, f.Remedy)
		}
	}
}
