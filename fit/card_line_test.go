package fit_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// A printer is a made-up machine with known errors: what the fit has to find.
type printer struct {
	truth   fit.Error
	feature float64 // scatter from feature to feature, mm
	caliper float64 // of one reading, mm; readings show hundredths
}

func (p printer) print(r *rand.Rand, drawn float64) fit.Feature {
	size := drawn + p.truth.At(drawn) + p.feature*r.NormFloat64()
	f := fit.Feature{Drawn: drawn}
	for range 2 {
		read := size
		if p.caliper > 0 {
			read = math.Round((size+p.caliper*r.NormFloat64())*100) / 100
		}
		f.Read = append(f.Read, read)
	}
	return f
}

// bores are the diameters of a usual coupon for a 608 bearing.
func bores() []float64 {
	d := []float64{2, 3, 4, 8}
	for i := range 13 {
		d = append(d, 21.8+0.05*float64(i))
	}
	return d
}

// Over many prints the fitted line lies within twice its standard uncertainty of
// the true one, and the next print within twice the card's, in about 95 of 100
// cases (normal distribution: 95.4 %). A third number guards against uncertainties
// that are merely large: the card's sigma stays near the true scatter.
func TestCoverage(t *testing.T) {
	for _, p := range []printer{
		{fit.Error{Offset: -0.15, PerMM: -0.002}, 0.02, 0.01},
		{fit.Error{Offset: -0.15}, 0.02, 0.01},
		{fit.Error{Offset: -0.25, PerMM: 0.006}, 0.03, 0.02},
		{fit.Error{Offset: 0.05, PerMM: -0.0006}, 0.015, 0.01},
	} {
		const runs = 1500
		var line, next, sigma float64
		tried := 0
		for seed := range uint64(runs) {
			r := rand.New(rand.NewPCG(seed, 7))
			var features []fit.Feature
			for _, d := range bores() {
				features = append(features, p.print(r, d))
			}
			l, err := fit.FitLine("bores", features)
			if err != nil {
				t.Fatal(err)
			}
			sigma += l.Sigma / runs
			for _, d := range []float64{3, 8, 22} {
				tried++
				own := math.Hypot(math.Hypot(l.OffsetSigma, l.PerMMSigma*(d-l.Middle)), 0.003)
				if l.Sloped && math.Abs(l.At(d)-p.truth.At(d)) <= 2*own || !l.Sloped && math.Abs(l.At(d)-p.truth.At(d)) <= 2*l.Sigma {
					line++
				}
				read := p.print(r, d)
				if math.Abs(read.Off()-l.At(d)) <= 2*l.Sigma {
					next++
				}
			}
		}
		scatter := math.Sqrt(p.feature*p.feature + p.caliper*p.caliper/2)
		t.Logf("%+v: line %.3f, next %.3f, sigma %.4f of %.4f", p, line/float64(tried), next/float64(tried), sigma, scatter)
		if line/float64(tried) < 0.92 {
			t.Errorf("%+v: the line covers the truth in %.1f %% of cases", p, 100*line/float64(tried))
		}
		if share := next / float64(tried); share < 0.93 || share > 0.995 {
			t.Errorf("%+v: the card covers the next print in %.1f %% of cases", p, 100*share)
		}
		if sigma > 1.6*scatter {
			t.Errorf("%+v: a standard uncertainty of %.4f mm, true scatter %.4f", p, sigma, scatter)
		}
	}
}

// A printer without errors and a perfect caliper change nothing, and the least
// uncertainty is a caliper's.
func TestPerfectPrinter(t *testing.T) {
	var features []fit.Feature
	r := rand.New(rand.NewPCG(1, 1))
	for _, d := range bores() {
		features = append(features, printer{}.print(r, d))
	}
	l, err := fit.FitLine("bores", features)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(l.Offset) > 1e-12 || l.PerMM != 0 || l.Sigma < 0.01 || l.Sigma > 0.012 {
		t.Errorf("offset %g, slope %g, sigma %g", l.Offset, l.PerMM, l.Sigma)
	}
	card := fit.Card{Name: "perfect", Bore: l.Error}
	if f := card.Hole("", "", 39.9); math.Abs(f.Drawn-39.9) > 1e-9 {
		t.Errorf("a bore wanted at 39.9 is drawn at %v", f.Drawn)
	}
}

// A line without noise is found exactly (elementary), even where one print in
// ten is far off: its weight falls.
func TestLineAndOutlier(t *testing.T) {
	truth := fit.Error{Offset: -0.2, PerMM: -0.003}
	var features []fit.Feature
	for d := 4.0; d <= 40; d += 4 {
		features = append(features, fit.Feature{Drawn: d, Read: []float64{d + truth.At(d)}})
	}
	l, err := fit.FitLine("bores", features)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(l.Offset+0.2) > 1e-9 || math.Abs(l.PerMM+0.003) > 1e-9 || !l.Sloped {
		t.Errorf("%+v", l.Error)
	}
	features[4].Read[0] += 0.3
	if l, err = fit.FitLine("bores", features); err != nil {
		t.Fatal(err)
	}
	for _, d := range []float64{4, 20, 40} {
		// Least squares without weights would be off by 0.03 mm in the middle.
		if off := math.Abs(l.At(d) - truth.At(d)); off > 0.005 {
			t.Errorf("at %g mm the line is %g off", d, off)
		}
	}
	if l.Residuals[4] < 0.29 {
		t.Errorf("the print that is 0.3 off has a residual of %g", l.Residuals[4])
	}
}

// Where diameters are few or near to each other the slope is 0 and the line says
// why; under three features there is no line.
func TestSlopeNeedsDiameters(t *testing.T) {
	for _, test := range []struct {
		name  string
		drawn []float64
	}{
		{"one bearing", []float64{21.8, 21.9, 22, 22.1, 22.2}},
		{"two groups", []float64{3, 3.2, 22, 22.1, 22.2}},
		{"near each other", []float64{3, 5, 7, 9, 11}},
	} {
		var features []fit.Feature
		for _, d := range test.drawn {
			features = append(features, fit.Feature{Drawn: d, Read: []float64{d - 0.1 - 0.01*d}})
		}
		l, err := fit.FitLine("bores", features)
		if err != nil {
			t.Fatal(err)
		}
		if l.PerMM != 0 || l.Sloped || l.SlopeDecision == "" {
			t.Errorf("%s: slope %g, %q", test.name, l.PerMM, l.SlopeDecision)
		}
	}
	_, err := fit.FitLine("number of bores", []fit.Feature{{22, []float64{21.8}}, {21, []float64{20.8}}})
	var wrong *check.FieldError
	if !errors.As(err, &wrong) || wrong.Field != "number of bores" {
		t.Errorf("two features: %v", err)
	}
}
