package linkage_test

import (
	"math"
	"testing"

	"pintle/check"
	"pintle/geom"
	"pintle/linkage"
)

// The heron's horn turns 45 to 135 deg; 60 deg are wanted of the neck. Each choice
// gives them to 1e-6 deg, with the transmission angle equally far from 90 deg at
// both extremes.
func TestChoicesGiveTheSwing(t *testing.T) {
	spec := heron()
	spec.SwingDeg = 60
	s := stroke(t, spec)
	if f := finding(t, s, "swing-covered"); f.Verdict != check.Fail {
		t.Fatalf("60 deg of 56.2 is %s", f.Verdict)
	}
	choices := s.Choices()
	if len(choices) != 2 || choices[0].MuMin < choices[1].MuMin {
		t.Fatalf("choices %+v", choices)
	}
	for _, c := range choices {
		again := spec
		again.FourBar = c.FourBar
		got := stroke(t, again)
		if math.Abs(got.SwingDeg()-60) > 1e-6 {
			t.Errorf("%+v swings %v", c, got.SwingDeg())
		}
		lo, hi := math.Inf(1), 0.0
		for _, st := range got.Stations() {
			lo, hi = min(lo, st.TransmissionDeg), max(hi, st.TransmissionDeg)
		}
		if math.Abs(lo+hi-180) > 1e-6 || math.Abs(lo-c.MuMin) > 1e-6 {
			t.Errorf("%s: the transmission angle goes from %v to %v, said is %v", c.Changed, lo, hi, c.MuMin)
		}
	}
}

// The rod found puts the middle of the lever's swing where it is wanted.
func TestSolveRod(t *testing.T) {
	f := heron().FourBar
	for _, middle := range []float64{80, 90, 100} {
		got, ok := f.SolveRod(45, 135, middle)
		if !ok {
			t.Errorf("no rod for %v", middle)
			continue
		}
		a, _ := got.At(45 * deg)
		b, _ := got.At(135 * deg)
		if mean := (a.Lever + b.Lever) / 2 / deg; math.Abs(mean-middle) > 1e-8 {
			t.Errorf("a rod of %v puts the middle at %v, want %v", got.Rod, mean, middle)
		}
	}
}

// Torque and rod force per torque at the lever as an independent program has
// them, from two free bodies: a torque of 1 N·mm is a force of 1/c square to the
// lever at its pin. Negative is push.
func TestMechanismForcesReference(t *testing.T) {
	compared := 0
	for _, set := range fourBarSets(t) {
		f := set.fourBar()
		for _, p := range set.Pos {
			if p.W3 == nil || math.Abs(math.Sin(p.Mu*deg)) < 0.1 {
				continue
			}
			f.Crossed = p.Branch < 0
			m := fourBarMechanism(t, f, p.Th2)
			postures, _, err := m.Follow(p.Th2+1e-3, 2)
			if err != nil {
				t.Fatal(err)
			}
			load := geom.Polar(1/f.Lever, (p.Th4+90)*deg)
			forces, err := m.Forces(postures[0], map[string]geom.Point{"B": load})
			if err != nil {
				t.Fatal(err)
			}
			compared++
			if math.Abs(forces.Drive-p.TorqueRatio) > 1e-8 || math.Abs(forces.Bars["A-B"]-p.Coupler) > 1e-8 {
				t.Errorf("%v at %v: %v, rod %v; want %v, %v", f, p.Th2, forces.Drive, forces.Bars["A-B"], p.TorqueRatio, p.Coupler)
			}
		}
	}
	if compared < 80 {
		t.Errorf("compared %d positions", compared)
	}
}

// The report names the rod that puts the middle of the swing square to the frame:
// set so, it is; on a crossed linkage at -90 deg.
func TestRodForSquareLever(t *testing.T) {
	crossed := linkage.Spec{FourBar: heron().FourBar, FromDeg: -135, ToDeg: -45}
	crossed.Crossed = true
	for want, spec := range map[float64]linkage.Spec{90: heron(), -90: crossed} {
		rod, ok := stroke(t, spec).Values()["rod_for_square_lever"].(float64)
		if !ok {
			t.Fatalf("no rod for %v", want)
		}
		spec.Rod, spec.SwingDeg = rod, 0
		used := stroke(t, spec).Used()
		if middle := (used.LeverFromDeg + used.LeverToDeg) / 2; math.Abs(middle-want) > 1e-6 {
			t.Errorf("a rod of %v puts the middle at %v, want %v", rod, middle, want)
		}
	}
}
