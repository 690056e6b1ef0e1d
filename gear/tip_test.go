package gear

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The shifted pair of the gear makers' handbooks (E06; from memory, so it counts
// for nothing by itself) and, on it, the clearance of 0.25 m that the alteration
// restores by its definition.
func TestTipAlteration(t *testing.T) {
	spec := bareSpec(12, 24)
	spec.Module, spec.Shift, spec.Backlash = 3, [2]float64{0.6, 0.36}, 0
	p := mustPair(t, spec)
	near(t, "a_w", p.CentreDistance(), 56.4999, 5e-5)
	near(t, "k", p.k, -0.12671, 5e-5)
	near(t, "d_a1", p.Pinion().TipDiameter(), 44.840, 5e-3)
	near(t, "d_a2", p.Wheel().TipDiameter(), 79.400, 5e-3)
	near(t, "c1", p.contact.tipClearance(0), 0.75, 1e-9)
	near(t, "c2", p.contact.tipClearance(1), 0.75, 1e-9)
	near(t, "contact ratio", p.ContactRatio(), 1.2021, 5e-5) // gear.json, mesh 12/24

	spec.KeepTips = true
	p = mustPair(t, spec)
	near(t, "d_a1 as the rack leaves it", p.Pinion().TipDiameter(), 3*(12+2*1.6), 1e-9)
}

// Whatever the shifts, the clearance is the rack's or more, and a pair without
// shifts keeps its tips.
func TestClearanceIsKept(t *testing.T) {
	const seed = 15
	rnd := rand.New(rand.NewPCG(seed, seed))
	altered := 0
	for range 300 {
		spec := bareSpec(8+rnd.IntN(40), 12+rnd.IntN(60))
		spec.Shift = [2]float64{1.2*rnd.Float64() - 0.4, 1.2*rnd.Float64() - 0.4}
		s, err := solve(spec)
		if err != nil {
			continue
		}
		if s.k != 0 {
			altered++
		}
		if least := math.Min(s.contact.tipClearance(0), s.contact.tipClearance(1)); least < 0.25*spec.Module-1e-9 {
			t.Fatalf("%+v: clearance %g mm", spec, least)
		}
	}
	if altered < 50 {
		t.Errorf("only %d pairs were altered", altered)
	}
	if p := mustPair(t, bareSpec(28, 36)); p.k != 0 {
		t.Errorf("k = %g without shifts", p.k)
	}
}
