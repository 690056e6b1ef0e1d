package linkage_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"pintle/geom"
	"pintle/linkage"
)

// anyFourBar draws a four-bar and an angle of its horn at which it closes well
// away from dead points.
func anyFourBar(t *rapid.T) (linkage.FourBar, float64, linkage.Pose) {
	length := rapid.Float64Range(5, 100)
	f := linkage.FourBar{
		Horn: length.Draw(t, "horn"), Rod: length.Draw(t, "rod"), Lever: length.Draw(t, "lever"), Frame: length.Draw(t, "frame"),
		Crossed: rapid.Bool().Draw(t, "crossed"),
	}
	angle := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle")
	p, ok := f.At(angle)
	if !ok || math.Sin(p.Transmission) < 0.1 {
		t.Skip("does not close there")
	}
	return f, angle, p
}

// The pins are as far apart as the bars are long, and the sides are as said.
func TestPoseCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, angle, p := anyFourBar(t)
		o4 := geom.Point{X: f.Frame}
		for name, off := range map[string]float64{
			"horn":  p.HornPin.Sub(geom.Polar(f.Horn, angle)).Len(),
			"rod":   p.LeverPin.Sub(p.HornPin).Len() - f.Rod,
			"lever": p.LeverPin.Sub(o4).Len() - f.Lever,
		} {
			if math.Abs(off) > 1e-9 {
				t.Errorf("%s is off by %v", name, off)
			}
		}
		reach, rod := o4.Sub(p.HornPin), p.LeverPin.Sub(p.HornPin)
		if left := reach.X*rod.Y-reach.Y*rod.X > 0; left == f.Crossed {
			t.Errorf("crossed %v, but the lever's pin lies left: %v", f.Crossed, left)
		}
	})
}

// First and second derivatives against central differences of the positions.
func TestRatesAreDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, angle, p := anyFourBar(t)
		const h = 1e-5
		before, ok := f.At(angle - h)
		after, ok2 := f.At(angle + h)
		if !ok || !ok2 {
			t.Skip("at the end of its range")
		}
		diff := func(a, b float64) float64 { return math.Remainder(a-b, 2*math.Pi) }
		// The differences err by h²/6 of the third derivative, which grows as the
		// fifth power of 1/sin mu times the ratios of lengths.
		scale := (1 + math.Abs(p.Ratio) + math.Abs(p.RodRate) + math.Abs(p.Acceleration) + math.Abs(p.RodAcceleration)) / math.Pow(math.Sin(p.Transmission), 4)
		for name, off := range map[string]float64{
			"ratio":              diff(after.Lever, before.Lever)/(2*h) - p.Ratio,
			"rod rate":           diff(after.Rod, before.Rod)/(2*h) - p.RodRate,
			"lever acceleration": (after.Ratio-before.Ratio)/(2*h) - p.Acceleration,
			"rod acceleration":   (after.RodRate-before.RodRate)/(2*h) - p.RodAcceleration,
		} {
			if math.Abs(off) > 1e-6*scale*scale {
				t.Errorf("%s is off by %v (%v)", name, off, scale)
			}
		}
	})
}

// Virtual work against two free bodies: what the horn bears of the rod's force is
// the lever's torque times the velocity ratio.
func TestVirtualWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, _, p := anyFourBar(t)
		rod := 1 / (f.Lever * math.Sin(p.Transmission))
		horn := rod * f.Horn * math.Sin(p.HornAngle)
		if math.Abs(horn-math.Abs(p.Ratio)) > 1e-9*(1+horn) {
			t.Errorf("statics %v, virtual work %v", horn, math.Abs(p.Ratio))
		}
	})
}

// A linkage k times as large moves alike; mirrored in the line of the axes it
// moves the mirrored way.
func TestScaleAndMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, angle, p := anyFourBar(t)
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		large, ok := linkage.FourBar{Horn: k * f.Horn, Rod: k * f.Rod, Lever: k * f.Lever, Frame: k * f.Frame, Crossed: f.Crossed}.At(angle)
		if !ok || large.LeverPin.Sub(p.LeverPin.Scale(k)).Len() > 1e-9*k*f.Frame || math.Abs(large.Ratio-p.Ratio) > 1e-9*(1+math.Abs(p.Ratio)) {
			t.Errorf("larger: %+v, want %+v", large, p)
		}
		g := f
		g.Crossed = !f.Crossed
		m, ok := g.At(-angle)
		if !ok || m.LeverPin.Sub(geom.Point{X: p.LeverPin.X, Y: -p.LeverPin.Y}).Len() > 1e-9 ||
			math.Abs(m.Ratio-p.Ratio) > 1e-9*(1+math.Abs(p.Ratio)) || math.Abs(m.Acceleration+p.Acceleration) > 1e-7*(1+math.Abs(p.Acceleration)) {
			t.Errorf("mirrored: %+v, want the mirror of %+v", m, p)
		}
	})
}

// The horn locks where the closed form says, not a thousandth of a degree before,
// and the lengths of rod of RodRange keep the transmission angle as promised.
func TestReachAndRodRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, _, _ := anyFourBar(t)
		from := rapid.Float64Range(-180, 170).Draw(t, "from")
		to := from + rapid.Float64Range(1, 360).Draw(t, "travel")
		least := rapid.Float64Range(5, 60).Draw(t, "least")
		lo, hi, ok := f.RodRange(from, to, least)
		if !ok {
			return
		}
		for _, rod := range []float64{max(lo, 0.1), hi, (max(lo, 0.1) + hi) / 2} {
			g := f
			g.Rod = rod
			for i := range 181 {
				p, ok := g.At((from + (to-from)*float64(i)/180) * deg)
				if !ok || linkage.OffSquareDeg(p.Transmission/deg) < least-1e-6 {
					t.Fatalf("a rod of %v has %v deg, wanted %v", rod, p.Transmission/deg, least)
				}
			}
		}
		g := f // just outside the range the promise breaks
		g.Rod = hi + 0.01
		broken := false
		for i := range 3601 {
			p, ok := g.At((from + (to-from)*float64(i)/3600) * deg)
			broken = broken || !ok || linkage.OffSquareDeg(p.Transmission/deg) < least
		}
		if !broken {
			t.Errorf("a rod of %v still keeps %v deg", g.Rod, least)
		}
	})
}

// Closed form and solver agree wherever the closed form closes.
func TestSolverMeetsAnyFourBar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, angle, p := anyFourBar(t)
		m, err := linkage.NewMechanism(linkage.MechanismSpec{
			Points: []linkage.Pin{
				{Name: "O", Fixed: true}, {Name: "A", At: p.HornPin}, {Name: "B", At: p.LeverPin}, {Name: "P", At: geom.Point{X: f.Frame}, Fixed: true},
			},
			Bars:  []linkage.BarSpec{{From: "O", To: "A"}, {From: "A", To: "B"}, {From: "P", To: "B"}},
			Drive: linkage.DriveSpec{Centre: "O", Pin: "A", Start: angle / deg},
		})
		if err != nil {
			t.Fatal(err)
		}
		postures, limit, err := m.Follow(angle/deg+40, 21)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range postures {
			want, ok := f.At(q.Drive * deg)
			if !ok || q.Points[2].Sub(want.LeverPin).Len() > 1e-6 {
				t.Fatalf("at %v the solver stands at %v, the closed form at %v", q.Drive, q.Points[2], want.LeverPin)
			}
		}
		if limit == nil {
			return
		}
		if _, ok := f.At((limit.Drive + 0.001) * deg); ok {
			t.Fatalf("locks at %v, but a thousandth of a degree on it closes", limit.Drive)
		}
	})
}
