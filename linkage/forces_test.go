package linkage_test

import (
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/linkage"
)

// Euler loads and slenderness of threaded steel rods, computed by an independent
// program; core d3 = d - 1.226869 P with the coarse pitches of ISO 261.
func TestBucklingReference(t *testing.T) {
	var file struct {
		Rows []struct {
			Thread                  string
			D3, L, Pcr, Slenderness float64
		}
	}
	reference(t, "linkage-buckling.json", &file)
	pitch := map[string][2]float64{"M2": {2, 0.4}, "M2.5": {2.5, 0.45}, "M3": {3, 0.5}, "M4": {4, 0.7}}
	if len(file.Rows) != 20 {
		t.Fatalf("found %d rows", len(file.Rows))
	}
	for _, row := range file.Rows {
		p := pitch[row.Thread]
		core := linkage.ThreadCore(p[0], p[1])
		if math.Abs(core-row.D3) > 1e-9 {
			t.Errorf("%s: core %v, want %v", row.Thread, core, row.D3)
		}
		if got := linkage.Buckling(core, row.L, linkage.SteelModulus); math.Abs(got-row.Pcr) > 1e-9*row.Pcr {
			t.Errorf("%s, %v mm: %v N, want %v", row.Thread, row.L, got, row.Pcr)
		}
		if got := linkage.Slenderness(core, row.L); math.Abs(got-row.Slenderness) > 1e-9*got {
			t.Errorf("%s, %v mm: slenderness %v, want %v", row.Thread, row.L, got, row.Slenderness)
		}
	}
}

// Without eccentricity the secant formula is F/A; with it, at a quarter of the
// buckling load, sec(pi/4) = sqrt 2 (closed form).
func TestEccentricStress(t *testing.T) {
	r := linkage.RodStock{Diameter: 2}
	quarter := linkage.Buckling(2, 100, linkage.SteelModulus) / 4
	straight, _ := linkage.EccentricStress(r, 100, quarter)
	if want := quarter / math.Pi; math.Abs(straight-want) > 1e-12*want {
		t.Errorf("straight: %v, want %v", straight, want)
	}
	r.Eccentricity = 0.5 // e c/r² = 0.5 x 1/0.25 = 2
	bent, _ := linkage.EccentricStress(r, 100, quarter)
	if want := straight * (1 + 2*math.Sqrt2); math.Abs(bent-want) > 1e-12*want {
		t.Errorf("bent: %v, want %v", bent, want)
	}
	if _, ok := linkage.EccentricStress(r, 100, 5*quarter); ok {
		t.Error("a buckled rod has a stress")
	}
}

// pinned is a heron with a rod, pins and eyes that pass.
func pinned() linkage.Spec {
	s := heron()
	s.Stock = &linkage.RodStock{Diameter: linkage.ThreadCore(4, 0.7)}
	s.HornPin = &linkage.PinJoint{Diameter: 3, Thickness: 4, Width: 12, EndDistance: 6, Strength: 44, Play: 0.2}
	s.LeverPin = &linkage.PinJoint{Diameter: 3, Thickness: 4, Width: 12, EndDistance: 6, Strength: 44, Play: 0.2}
	s.TipRadius, s.Servo.PlayDeg = 95, 0.5
	return s
}

func finding(t *testing.T, s *linkage.Stroke, name string) check.Finding {
	t.Helper()
	for _, f := range s.Findings() {
		if f.Check == name {
			return f
		}
	}
	t.Fatalf("no finding %s", name)
	return check.Finding{}
}

// By hand for the heron with the servo stalled at 0.9218 N·m. At its worst end
// the horn stands 37.0774 deg to the rod: F = 921.8 N·mm/(20 mm x sin) = 76.46 N.
// p = F/(3 x 4), net section F/(9 x 4)/44, tear-out F/(2 x 4 x 4.5)/44.
func TestForcesByHand(t *testing.T) {
	s := stroke(t, pinned())
	force := 9.4 * kgfcm * 1000 / (20 * math.Sin(37.0774*deg))
	for name, want := range map[string]float64{
		"pin-bearing-stress": force / 12,
		"eye-wall":           4,
		"eye-end":            2,
		"eye-net-section":    force / 36 / 44,
		"eye-tear-out":       force / 36 / 44,
		"rod-buckling":       force / linkage.Buckling(linkage.ThreadCore(4, 0.7), 90.55, 2e5),
	} {
		f := finding(t, s, name)
		if math.Abs(f.Value-want) > 1e-4*want || f.Verdict != check.Pass {
			t.Errorf("%s = %v %s, want %v pass", name, f.Value, f.Verdict, want)
		}
		if name[:3] != "eye" && !strings.Contains(f.Detail, "horn at 45.0 deg") {
			t.Errorf("%s: the worst position is not named: %s", name, f.Detail)
		}
	}
}

// The power that the servo puts in comes out at the lever: rod force from the
// lever's side and from the servo's side agree at every station (virtual work
// against the two free bodies).
func TestVirtualWorkMeetsStatics(t *testing.T) {
	s := stroke(t, heron())
	for _, st := range s.Stations() {
		const torque = 0.168
		rod := s.RodForce(st, torque)
		atServo := rod * 20 * math.Sin(st.HornAngleDeg*deg) / 1000
		if want := torque * math.Abs(st.Ratio); math.Abs(atServo-want) > 1e-12 {
			t.Fatalf("at %v deg the horn bears %v, virtual work says %v", st.HornDeg, atServo, want)
		}
	}
}

// By hand at the middle of the stroke, rod along the square horn and lever:
// 0.2 + 0.2 mm of pins at the lever of 30 mm (mu there 83.66 deg), 0.5 deg of
// servo times 0.667.
func TestPlayByHand(t *testing.T) {
	s := stroke(t, pinned())
	at, _ := s.At(90)
	jointDeg, tip := linkage.TotalPlay(s.Plays(at))
	want := 0.4/(30*math.Sin(at.TransmissionDeg*deg))/deg + 0.5*20.0/30
	const tol = 1e-5 // the rod is rounded to 0.01 mm
	if math.Abs(jointDeg-want) > tol || math.Abs(tip-jointDeg*deg*95) > 1e-12 {
		t.Errorf("play %v deg, %v mm; want %v deg", jointDeg, tip, want)
	}
	if f := finding(t, s, "tip-play"); f.Value < tip {
		t.Errorf("the worst play %v is less than at the middle, %v", f.Value, tip)
	}
}

// A rod of 100 mm whose ends lie 30.9017 mm apart in height stands 18 deg out of
// the plane and looks 95.1057 mm long (sin and cos of 18 deg).
func TestOffsetRod(t *testing.T) {
	spec := heron()
	spec.Rod, spec.Offset = 100, 100*math.Sin(18*deg)
	spec.LeverPin = &linkage.PinJoint{BallLimit: 18}
	s := stroke(t, spec)
	if got := s.Values()["rod_in_plane"].(float64); math.Abs(got-100*math.Cos(18*deg)) > 1e-9 {
		t.Errorf("rod in the plane %v", got)
	}
	f := finding(t, s, "ball-joint")
	if math.Abs(f.Value-18) > 1e-9 || f.Verdict != check.Fail {
		t.Errorf("misalignment %v is %s", f.Value, f.Verdict)
	}
	spec.Offset = 100 * math.Sin(11.9*deg)
	if f := finding(t, stroke(t, spec), "ball-joint"); f.Verdict != check.Pass {
		t.Errorf("11.9 deg of 18 is %s", f.Verdict)
	}
}

// A bent rod's stress stands among the values: pinned, M4's core, 2 mm off.
func TestBentRodStress(t *testing.T) {
	spec := pinned()
	spec.Stock.Eccentricity = 2
	v := stroke(t, spec).Values()
	want, _ := linkage.EccentricStress(*spec.Stock, spec.Rod, v["rod_force_n"].(float64))
	straight := v["rod_force_n"].(float64) / (math.Pi * spec.Stock.Diameter * spec.Stock.Diameter / 4)
	if got := v["rod_stress_mpa"].(float64); got != want || got < 5*straight {
		t.Errorf("%v MPa, want %v", got, want)
	}
}
