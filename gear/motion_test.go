package gear

import (
	"math"
	"math/rand/v2"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// Outlines of 300 steps to a flank turned against each other by an independent
// program (testdata/ref/gear.json, "mesh"), among them the undercut 12/40, whose
// closed contact ratio of 1.567 the motion refutes.
func TestMotionAgreesWithBruteForce(t *testing.T) {
	compared := 0
	for _, q := range loadReference(t).Mesh {
		g1, g2 := q.Params.G1, q.Params.G2
		if g2.Z < 0 {
			continue
		}
		spec := PairSpec{Module: g1.M, Teeth: [2]int{g1.Z, g2.Z}, PressureAngle: 20 * degree, Rack: ProfileA()}
		a := spec.distanceFor(g1.X + g2.X)
		if q.Params.A != nil {
			a = *q.Params.A
		}
		t1, t2 := spec.tooth(0, g1.X, g1.Thin, 0), spec.tooth(1, g2.X, g2.Thin, 0)
		t1, t2 = t1.altered(g1.K), t2.altered(g2.K)
		r := newMeshing(ofCurve(t1, 300, 4), ofCurve(t2, 300, 4), a).run(1e-5)
		const tol = 1e-8 // both programs sample the same curves in their own steps
		near(t, "least backlash", r.min, q.JbnMin, tol)
		near(t, "largest backlash", r.max, q.JbnMax, tol)
		near(t, "least gap", r.gap, q.GapMin, tol)
		near(t, "transmission error", r.error, q.Error, tol)
		near(t, "contact ratio", r.pairs, q.Ratio, 1e-9)
		if (r.gap <= 0) != q.Overlap {
			t.Errorf("gap %g, but overlap is %v", r.gap, q.Overlap)
		}
		compared++
	}
	if compared < 4 {
		t.Errorf("only %d pairs were compared", compared)
	}
}

// What the outlines on the grid measure against the closed form: chords are
// inscribed, so backlash may exceed it by up to four chord errors, but not fall
// below by more than 0.5 µm, as long as the tips stay a chord error clear of the
// fillets (design rule of this project). The contact ratio agrees within two
// positions and what the tolerance adds at either end.
func TestMeasuredAgainstComputed(t *testing.T) {
	const seed = 12
	rnd := rand.New(rand.NewPCG(seed, seed))
	judged := 0
	for i := range 400 {
		spec := bareSpec(6+rnd.IntN(50), 6+rnd.IntN(90))
		spec.Module = 0.6 + 2.4*rnd.Float64()
		spec.Shift = [2]float64{rnd.Float64() - 0.3, rnd.Float64() - 0.3}
		spec.PressureAngle = []float64{14.5, 20, 20, 25, 28}[rnd.IntN(5)] * degree
		spec.Backlash = 0.05 + 0.1*spec.Module*rnd.Float64()
		p, err := NewPair(spec)
		if err != nil || p.contact.interference() < 2*spec.completed().ChordError || p.contact.ratio() < 1 {
			continue
		}
		judged++
		m, computed := p.proof.print, p.contact.normalBacklash()
		if m.min < computed-0.0005 || m.max > computed+4*p.spec.ChordError {
			t.Fatalf("seed %d case %d: measured %g to %g mm, computed %g", seed, i, m.min, m.max, computed)
		}
		if off := p.proof.pairs - p.contact.ratio(); off < -2.0/motionSteps || off > 0.07 {
			t.Fatalf("seed %d case %d: measured contact ratio %g, computed %g", seed, i, p.proof.pairs, p.contact.ratio())
		}
		near(t, "vertex on its tooth", p.proof.strayed, 0, math.Sqrt2/2/geom.PerMM+1e-9)
		if len(p.Motion()) != motionSteps {
			t.Fatalf("%d positions", len(p.Motion()))
		}
	}
	if judged < 100 {
		t.Errorf("only %d pairs were judged", judged)
	}
}

// The printer's outside error of 0.08 mm takes 0.04 mm off each flank, so that
// the drawn teeth have four times that more backlash along the line of action
// and the expected print has what was computed.
func TestMotionOfDrawnAndExpected(t *testing.T) {
	spec := bareSpec(28, 36)
	spec.Card.Outside = fit.Error{Offset: 0.08}
	p := mustPair(t, spec)
	chords := 4 * p.spec.ChordError
	near(t, "expected print", p.proof.print.min, 0.18794+chords/2, chords/2)
	near(t, "drawn", p.proof.drawn.min, 0.18794+4*0.04+chords/2, chords/2)
	if p.proof.same || p.proof.drawn.gap < p.proof.print.gap {
		t.Error("the drawn outlines are not told from the expected print")
	}
	spec.Card.Outside = fit.Error{Offset: 0.5} // more than a flank may give up
	p = mustPair(t, spec)
	if f := finding(t, p, "", "mesh-by-motion"); f.Verdict != check.Fail || f.Limit != "> 0" {
		t.Errorf("teeth that print 0.1 mm too fat on each flank: %s %s", f.Verdict, f.Limit)
	}
}

// With tips too short to meet a fillet only flanks touch: free at the working
// distance, at 0 where the closed form has no backlash left, and overlapping by
// da sin alpha (2 da sin alpha on both sides) nearer than that; with tips beyond each other they do not reach each other.
// None of it may be accepted.
func TestMotionFails(t *testing.T) {
	p := mustPair(t, bareSpec(28, 36))
	t1, t2 := ofCurve(p.contact.t[0].altered(-0.3), 60, 4), ofCurve(p.contact.t[1].altered(-0.3), 60, 4)
	overlap := func(a float64) float64 { return newMeshing(t1, t2, a).run(1e-4).gap }
	if g := overlap(48); g <= 0 {
		t.Errorf("free teeth overlap by %g mm", g)
	}
	near(t, "gap at the tight distance", overlap(p.TightMeshDistance()), 0, 1e-3)
	near(t, "gap 0.1 mm nearer", overlap(p.TightMeshDistance()-0.1), -0.1*math.Sin(20*degree), 2e-3)

	spec := bareSpec(28, 36)
	spec.CentreDistance, spec.Shift = 51.1, [2]float64{1e-9, 0}
	f := finding(t, mustPair(t, spec), "", "mesh-by-motion")
	if f.Verdict != check.Fail || f.Remedy == "" {
		t.Errorf("tips beyond each other: %s, remedy %q", f.Verdict, f.Remedy)
	}
	if !rule("mesh-by-motion").Final {
		t.Error("an overlap could be accepted")
	}
}

// One flank of a tooth that is in contact for a part of the cycle only stands
// 10 µm proud: whichever side it is on, the wheel
// pressed against that side moves by as much once in the cycle, and against the
// other side not at all.
func TestTransmissionErrorOfEitherSide(t *testing.T) {
	for _, upper := range []bool{true, false} {
		p := mustPair(t, bareSpec(28, 36))
		proud := func(s side) side {
			var out side
			for _, q := range s {
				out = append(out, q.Rotate(0.01/p.contact.t[0].rb))
			}
			return out
		}
		pinion := ofCurve(p.contact.t[0], 60, 4)
		if upper {
			pinion.upper[1] = proud(pinion.upper[1])
		} else {
			pinion.lower[1] = proud(pinion.lower[1])
		}
		r := newMeshing(pinion, ofCurve(p.contact.t[1], 60, 4), p.contact.a).run(1e-4)
		near(t, "transmission error", r.error, 0.01, 2e-4)
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range r.points {
			low, high = math.Min(low, q.Error), math.Max(high, q.Error)
		}
		want := map[bool]float64{true: 0.01, false: 0}[upper]
		near(t, "lag of the wheel against the upper sides", high-low, want, 2e-4)
	}
}

// An edge and a spike, where the answer is plain geometry: the spike's foot at
// radius 4 turns until it meets the edge 1 mm beside the line of centres.
func TestRoomBetweenPolygons(t *testing.T) {
	edge := side{{X: 3, Y: 1}, {X: 7, Y: 1}}
	spike := newChain(side{{X: 4, Y: 0}, {X: 5, Y: 0}})
	m := &meshing{a: 10, ratio: 1, pitch: [2]float64{1, 2}}
	got := m.between(edge, spike, 0) // the spike's centre line is half a pitch up
	near(t, "room", got, 1-math.Asin(1.0/4), 1e-12)
}

func BenchmarkProof(b *testing.B) {
	p, err := NewPair(lampSpec())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		p.prove(p.gears)
	}
}
