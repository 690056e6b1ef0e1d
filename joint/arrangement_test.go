package joint

import (
	"math"
	"testing"

	"pintle/geom"
)

// How the lighthouse moves, in the report: the wheel turns by the swing asked
// for about the bearing; the pinion turns the other way, 36/28 as far, about the
// servo's axis at the centre distance of m (z1 + z2) / 2 = 48 mm. Both rest
// where they are placed at mid-swing.
func TestMotionsOfTheLighthouse(t *testing.T) {
	report := build(t).Report
	if len(report.Motions) != 2 {
		t.Fatalf("%d motions, want that of the load and that of the servo", len(report.Motions))
	}
	const tol = 1e-9
	for _, m := range report.Motions {
		axis, ratio := geom.Point{}, 1.0
		if m.Name == "servo" {
			axis, ratio = geom.Point{X: 48}, -36.0/28
		}
		first, last := m.At[0][0], m.At[len(m.At)-1][0]
		if m.Joint != "lamp" || m.Of != "wheel" || math.Abs(first+65) > tol || math.Abs(last-65) > tol {
			t.Errorf("%s of %s runs from %g to %g deg of the %s", m.Name, m.Joint, first, last, m.Of)
		}
		middle := false
		for _, at := range m.At {
			moved := geom.Motion{Turn: at[3] * math.Pi / 180, Shift: geom.Point{X: at[1], Y: at[2]}}
			if math.Abs(at[3]-at[0]*ratio) > tol || moved.Move(axis).Sub(axis).Len() > tol {
				t.Errorf("%s at %g deg turns by %g deg and moves its axis to %v", m.Name, at[0], at[3], moved.Move(axis))
			}
			middle = middle || at == [4]float64{}
		}
		if !middle {
			t.Errorf("%s has no station at mid-swing", m.Name)
		}
	}
	for _, p := range report.Placed {
		moving := map[string]string{"lamp-wheel": "load", "lamp-spacer": "load", "lamp-pinion": "servo"}
		if p.Joint != "lamp" || p.MovesWith != moving[p.Part] {
			t.Errorf("%s of %s moves with %q", p.Part, p.Joint, p.MovesWith)
		}
	}
}
