package coupon_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/coupon"
	"pintle/fit"
)

// A press prints coupons with errors that are known, and a hand tries them: all
// in mm, on the diameter.
type press struct {
	bore, outside    fit.Error
	growth           float64 // per side
	feature, caliper float64 // standard deviations of one print and of one reading
	slip, holds      float64 // clearance a hand needs, interference that still holds
	play             float64 // backlash that turns freely
	web              float64
}

// readings prints the coupon and reads everything on its form.
func (p press) readings(c *coupon.Coupon, rnd *rand.Rand) fit.Readings {
	s := c.Spec()
	r := fit.Readings{Card: s.Card, Bearing: s.Bearing.Outside, PressureAngle: s.PressureAngle}
	r.Card.Name = "found"
	two := func(printed float64) []float64 {
		return []float64{printed + p.caliper*rnd.NormFloat64(), printed + p.caliper*rnd.NormFloat64()}
	}
	for _, f := range c.Fits() {
		e, to := p.outside, &r.Outsides
		switch kind := strings.TrimPrefix(f.Part, s.Name+"-"); {
		case kind == "ring-flipped":
			e, to = p.bore, &r.Flipped
		case kind == "cross-hole":
			e, to = p.bore, &r.CrossHoles
		case strings.HasPrefix(kind, "rings"), kind == "holes":
			e, to = p.bore, &r.Bores
		case kind == "pins", kind == "webs", kind == "pockets":
			continue
		}
		*to = append(*to, fit.Feature{Drawn: f.Drawn, Read: two(f.Drawn + e.At(f.Drawn) + p.feature*rnd.NormFloat64())})
	}
	r.Above = two(30 + p.outside.At(30))
	r.Bed = two(30 + p.outside.At(30) + 2*p.growth)
	p.try(&r, s, c.Values())
	return r
}

// try finds by hand the steps that the form asks for.
func (p press) try(r *fit.Readings, s coupon.Spec, v map[string]any) {
	printed := func(step float64) float64 { return step + p.bore.At(s.Bearing.Outside+step) }
	for _, step := range s.Rings.At() {
		switch free := printed(step); {
		case free >= p.slip && !r.ByHand.Found:
			r.ByHand = fit.Tried{At: step, Found: true}
		case free < 0 && -free <= p.holds && !r.Press.Found:
			r.Press = fit.Tried{At: step, Found: true}
		}
	}
	module := v["m"].(float64)
	r.PitchDiameters = [2]float64{module * float64(v["z1"].(int)), module * float64(v["z2"].(int))}
	taken := (p.outside.At(r.PitchDiameters[0]) + p.outside.At(r.PitchDiameters[1])) / math.Cos(s.PressureAngle)
	for _, j := range v["backlash_steps"].([]float64) {
		if j-taken >= p.play && !r.Free.Found {
			r.Free = fit.Tried{At: j, Found: true}
		}
	}
	for _, web := range s.Webs.At() {
		if web >= p.web && r.LeastWeb == 0 {
			r.LeastWeb = web
		}
	}
}

// Printers of known habits are found back from every kind of reading of a whole
// coupon, through caliper noise: errors within two standard uncertainties of the
// card at every diameter read in 95 of 100, what was tried within that and a step.
func TestWholeCouponIsFoundBack(t *testing.T) {
	const seed, prints = 11, 150
	rnd := rand.New(rand.NewPCG(seed, seed))
	c := made(t, spec(t, "608"))
	in, all := map[string]int{}, map[string]int{}
	count := func(what string, ok bool) {
		all[what]++
		if ok {
			in[what]++
		}
	}
	for range prints {
		p := press{
			bore:    fit.Error{Offset: -0.1 - 0.15*rnd.Float64(), PerMM: -0.003 * rnd.Float64()},
			outside: fit.Error{Offset: 0.08 * (rnd.Float64() - 0.3), PerMM: 0.001 * (rnd.Float64() - 0.5)},
			growth:  0.1 + 0.2*rnd.Float64(), feature: 0.015, caliper: 0.01,
			slip: 0.04 + 0.04*rnd.Float64(), holds: 0.12, play: 0.1 + 0.05*rnd.Float64(), web: 0.4 + 0.8*rnd.Float64(),
		}
		found, err := fit.Calibrate(p.readings(c, rnd))
		if err != nil {
			t.Fatalf("seed %d: %+v: %v", seed, p, err)
		}
		card := found.Card
		for _, d := range []float64{4, 8, 22} {
			count("bores", math.Abs(card.Bore.At(d)-p.bore.At(d)) <= 2*card.Bore.Sigma)
		}
		for _, d := range []float64{8, 12, 30, 100} {
			count("outsides", math.Abs(card.Outside.At(d)-p.outside.At(d)) <= 2*card.Outside.Sigma)
		}
		count("growth", math.Abs(card.FirstLayerGrowth-p.growth) <= 0.02)
		slack := 2 * card.Bore.Sigma
		count("slip", card.SlipClearance >= p.slip-slack && card.SlipClearance <= p.slip+0.05+slack)
		count("interference", card.Interference <= p.holds+slack && card.Interference >= p.holds-0.05-slack && card.InterferenceAt == 22)
		teeth := 4 * card.Outside.Sigma
		count("backlash", card.Backlash >= p.play-teeth && card.Backlash <= p.play+0.05+teeth)
		count("web", card.LeastWeb >= p.web && card.LeastWeb < p.web+0.2)
	}
	for what, n := range all {
		if share := float64(in[what]) / float64(n); share < 0.95 {
			t.Errorf("seed %d: %s are found back in %.3f of %d cases", seed, what, share, n)
		}
	}
	if len(all) != 7 {
		t.Errorf("looked at %v", all)
	}
}

// A perfect printer and caliper change nothing: no error, no growth, what was tried
// is what the marks say.
func TestPerfectPrinterChangesNothing(t *testing.T) {
	c := made(t, spec(t, "608"))
	p := press{slip: 0.05, holds: 0.1, play: 0.1, web: 0.8}
	found, err := fit.Calibrate(p.readings(c, rand.New(rand.NewPCG(1, 1))))
	if err != nil {
		t.Fatal(err)
	}
	card := found.Card
	for _, q := range []struct {
		what      string
		got, want float64
	}{
		{"bores", card.Bore.At(22), 0},
		{"outsides", card.Outside.At(30), 0},
		{"growth", card.FirstLayerGrowth, 0},
		{"slip", card.SlipClearance, 0.05},
		{"interference", card.Interference, 0.1},
		{"backlash", card.Backlash, 0.1},
		{"web", card.LeastWeb, 0.8},
	} {
		if math.Abs(q.got-q.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", q.what, q.got, q.want)
		}
	}
	for _, f := range []fit.Fit{card.Hole("", "", 21.9), card.Peg("", "", 7.9)} {
		if math.Abs(f.Drawn-f.Wanted) > 1e-9 {
			t.Errorf("wanted %v, drawn %v", f.Wanted, f.Drawn)
		}
	}
	if len(found.Missing) != 0 {
		t.Errorf("missing: %q", found.Missing)
	}
}
