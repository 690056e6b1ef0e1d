package gear

import (
	"math"
	"math/rand/v2"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// The thinned gears of the lamp: 28 teeth read 45 over the tips; 29 teeth read
// less, as a caliper laid on the outline's own vertices finds.
func TestTipReading(t *testing.T) {
	for _, z := range []int{9, 28, 29, 41} {
		spec := bareSpec(z, 50)
		spec.ShiftRule = ShiftChoose
		g := mustPair(t, spec).Pinion()
		across := func(turn float64) float64 {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range g.Outline().Points {
				x := p.Rotate(turn).X
				lo, hi = math.Min(lo, x), math.Max(hi, x)
			}
			return hi - lo
		}
		near(t, "reading", g.TipReading(), across(0), 0.001) // a tooth on one anvil, two corners on the other
		if z%2 == 1 && g.TipReading() >= g.TipDiameter() {
			t.Errorf("z = %d: an odd number of teeth does not read low", z)
		}
	}
}

// A flank grown by d makes the span grow by 2 d and the pins move out by what
// the pins' own equation says, here solved a second time for the grown tooth.
func TestPinsPerSpan(t *testing.T) {
	tooth := newTooth(20, 1.5, 20*degree, 0, ProfileA(), 0.1, 0)
	const d = 0.05
	thinner, _ := newTooth(20, 1.5, 20*degree, 0, ProfileA(), 0.1+2*d/math.Cos(20*degree), 0).over(2.5)
	thicker, _ := newTooth(20, 1.5, 20*degree, 0, ProfileA(), 0.1-2*d/math.Cos(20*degree), 0).over(2.5)
	near(t, "slope", tooth.pinsPerSpan(2.5), (thicker.Over-thinner.Over)/(4*d), 0.01)
	near(t, "span", tooth.grown(d).spanOver(3)-tooth.spanOver(3), 2*d, 1e-12)
}

// A printer whose flanks come out wrong by an error nobody knew: each reading
// brings the next print nearer, by at most 0.15 mm over the span, until it reads
// as wanted.
func TestReadingsConverge(t *testing.T) {
	const seed = 14
	rnd := rand.New(rand.NewPCG(seed, seed))
	for range 20 {
		spec := bareSpec(20+rnd.IntN(20), 36)
		spec.Module, spec.Card.Outside = 2.5, fit.Error{Offset: 0.05, PerMM: 0.0005}
		unknown := 0.3 * (rnd.Float64() - 0.5)
		tipUnknown := 0.2 * (rnd.Float64() - 0.5)
		off := math.Inf(1)
		for print := range 3 {
			p := mustPair(t, spec)
			g := p.Pinion()
			span := g.Span()
			// What the printer makes of the file: everything stands out by half the
			// card's error and half of what nobody knew.
			made := g.drawn.spanOver(span.Teeth) + spec.Card.Outside.At(2*(g.nominal.r-g.inset)) + unknown
			tip := (g.drawn.ra + spec.Card.Outside.At(2*g.drawn.ra)/2 + tipUnknown/2) * g.nominal.tipFactor()
			off = math.Abs(made - span.Width)
			if print == 0 {
				near(t, "first print", made-span.Width, unknown, 1e-9)
			}
			spec.Measured[0] = append(spec.Measured[0], Readings{Span: made, Tip: tip})
			near(t, "expected span", g.fits[1].Expected, span.Width, 1e-4)
			near(t, "expected tip", g.fits[0].Expected, g.TipDiameter(), 0.005) // the card's slope is taken at the reference circle
		}
		near(t, "third print off by", off, 0, 1e-6)
	}
}

// A reading over the wrong number of teeth is off by a base pitch: it counts
// 0.15 mm and is told.
func TestWildReading(t *testing.T) {
	spec := bareSpec(28, 36)
	plain := mustPair(t, spec)
	spec.Measured[0] = []Readings{{Span: plain.Pinion().Span().Width + 4.4}}
	p := mustPair(t, spec)
	f := finding(t, p, "lamp-pinion", "readings")
	near(t, "correction", f.Value, -0.15, 1e-12)
	if f.Verdict != check.Caution || f.Remedy == "" {
		t.Errorf("%s, remedy %q", f.Verdict, f.Remedy)
	}
	near(t, "next span", p.gears[0].fits[1].Drawn, plain.gears[0].fits[1].Drawn-0.15, 1e-9)
	spec.Measured[0] = []Readings{{Pins: plain.Pinion().Pins().Over + 0.1}}
	per := plain.contact.t[0].pinsPerSpan(plain.Pinion().Pins().Diameter)
	near(t, "correction by pins", finding(t, mustPair(t, spec), "lamp-pinion", "readings").Value, -0.1/per, 1e-9)
}

// A card uncertain by 0.05 mm lets the span read 0.1 mm either way.
func TestCaliperBand(t *testing.T) {
	spec := bareSpec(28, 36)
	spec.Card.Outside.Sigma = 0.05
	v := mustPair(t, spec).Values()
	near(t, "W1 band", v["W1_band"].(float64), 0.1, 1e-12)
	near(t, "W1 nominal", v["W1_nominal"].(float64), 15.992953+0.2*math.Cos(20*degree)/2, 1e-5)
	if band := v["M1_band"].(float64); !(band > 0.1 && band < 0.3) {
		t.Errorf("M1 band %g mm", band)
	}
}
