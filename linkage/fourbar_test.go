package linkage_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pintle/linkage"
)

const deg = math.Pi / 180

// reference reads a file of testdata/ref.
func reference(t testing.TB, name string, into any) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "ref", name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

type fourBarSet struct {
	A, B, C, D  float64
	Cls         string
	SumOff      float64 `json:"S_plus_L_minus_rest"`
	InputToggle [][]any `json:"input_toggle_deg"`
	OutputLimit [][]any `json:"output_limit_deg"`
	Pos         []struct {
		Th2, Branch, Th3, Th4, Mu, Bx, By float64
		W3, W4, Al3, Al4                  *float64 // absent at dead points
		TorqueRatio                       float64  `json:"T_in_per_T_out"`
		Coupler                           float64  `json:"coupler_axial_per_T_out"`
	}
}

func (s fourBarSet) fourBar() linkage.FourBar {
	return linkage.FourBar{Horn: s.A, Rod: s.B, Lever: s.C, Frame: s.D}
}

func fourBarSets(t *testing.T) []fourBarSet {
	t.Helper()
	var file struct{ Sets []fourBarSet }
	reference(t, "fourbar.json", &file)
	if len(file.Sets) != 6 {
		t.Fatalf("found %d link sets, want 6", len(file.Sets))
	}
	return file.Sets
}

// same compares angles in deg, whole turns apart.
func same(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 360)) }

// Positions, velocities, accelerations and forces of six link sets, computed
// by an independent program; see the file. Near a change point the differences
// of nearly equal squares cost digits, hence 1e-8.
func TestFourBarReference(t *testing.T) {
	const tol = 1e-8
	positions, dead := 0, 0
	for _, set := range fourBarSets(t) {
		f := set.fourBar()
		for _, p := range set.Pos {
			f.Crossed = p.Branch < 0
			got, ok := f.At(p.Th2 * deg)
			if p.W3 == nil {
				dead++
				if ok {
					t.Errorf("%v at %v: a dead point has rates", f, p.Th2)
				}
				continue
			}
			positions++
			if !ok {
				t.Errorf("%v does not close at %v", f, p.Th2)
				continue
			}
			scale := 1 + math.Abs(*p.Al4)
			for name, off := range map[string]float64{
				"rod angle": same(got.Rod/deg, p.Th3), "lever angle": same(got.Lever/deg, p.Th4),
				"transmission angle": math.Abs(got.Transmission/deg - p.Mu),
				"B.x":                math.Abs(got.LeverPin.X - p.Bx), "B.y": math.Abs(got.LeverPin.Y - p.By),
				"rod rate": math.Abs(got.RodRate - *p.W3), "ratio": math.Abs(got.Ratio - *p.W4),
				"rod acceleration":   math.Abs(got.RodAcceleration-*p.Al3) / scale,
				"lever acceleration": math.Abs(got.Acceleration-*p.Al4) / scale,
				"torque ratio":       math.Abs(-got.Ratio - p.TorqueRatio),
			} {
				if !(off <= tol) {
					t.Errorf("%v at %v: %s is off by %g", f, p.Th2, name, off)
				}
			}
		}
	}
	if positions != 86 || dead != 4 {
		t.Errorf("compared %d positions and %d dead points", positions, dead)
	}
}

// Exact values worked by hand; closed forms.
func TestFourBarByHand(t *testing.T) {
	f := linkage.FourBar{Horn: 20, Rod: 60, Lever: 50, Frame: 70}
	at0, _ := f.At(0)
	at180, _ := f.At(math.Pi)
	change, _ := linkage.FourBar{Horn: 30, Rod: 70, Lever: 30, Frame: 70}.At(1)
	for _, test := range []struct {
		name      string
		got, want float64
	}{
		{"B.x", at0.LeverPin.X, 56},
		{"B.y", at0.LeverPin.Y, 48},
		{"mu at 0: cos = 3/5", math.Cos(at0.Transmission), 0.6},
		{"mu at 180: cos = -1/3", math.Cos(at180.Transmission), -1.0 / 3},
		{"rod rate", at0.RodRate, -0.4},
		{"ratio", at0.Ratio, -0.4},
		{"rod acceleration", at0.RodAcceleration, -0.49 / 3},
		{"lever acceleration", at0.Acceleration, 0.42},
		{"parallelogram", change.Ratio, 1},
	} {
		if math.Abs(test.got-test.want) > 1e-12 {
			t.Errorf("%s = %.15g, want %.15g", test.name, test.got, test.want)
		}
	}
}

// The antiparallelogram's angles keep tan(t4/2)/tan(t2/2) = -(d + a)/(d - a),
// -2.5 for 3, 7, 3, 7 (closed form).
func TestAntiparallelogram(t *testing.T) {
	f := linkage.FourBar{Horn: 3, Rod: 7, Lever: 3, Frame: 7, Crossed: true}
	for _, horn := range []float64{20, 75, 130, 170} {
		p, ok := f.At(horn * deg)
		if got := math.Tan(p.Lever/2) / math.Tan(p.Horn/2); !ok || math.Abs(got+2.5) > 1e-12 {
			t.Errorf("at %v deg: %.15g, want -2.5", horn, got)
		}
	}
}

// Classes, dead points and lever limits of the six sets, by the same program.
func TestFourBarClass(t *testing.T) {
	limits := 0
	for _, set := range fourBarSets(t) {
		f := set.fourBar()
		if got := string(f.Class()); got != set.Cls {
			t.Errorf("%v is a %s, want %s", f, got, set.Cls)
		}
		if math.Abs(f.Grashof()-set.SumOff) > 1e-12 {
			t.Errorf("%v: %v, want %v", f, f.Grashof(), set.SumOff)
		}
		limits += compareLimits(t, f.HornDeadPoints(), set.InputToggle, "folded")
		limits += compareLimits(t, f.LeverDeadPoints(), set.OutputLimit, "inner")
	}
	if limits < 10 {
		t.Errorf("compared %d limits", limits)
	}
}

func compareLimits(t *testing.T, got []linkage.DeadPoint, want [][]any, folded string) int {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("found %v, want %v", got, want)
		return 0
	}
	for i, w := range want {
		name, angle := w[0].(string), w[1].(float64)
		if math.Abs(got[i].Angle/deg-angle) > 1e-6 || got[i].Folded != (name == folded) {
			t.Errorf("found %.9f deg (%s), want %v", got[i].Angle/deg, got[i].How(), w)
		}
	}
	return len(want)
}
