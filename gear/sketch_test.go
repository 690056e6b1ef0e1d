package gear

import (
	"math"
	"slices"
	"testing"

	"pintle/check"
)

// A sketch says what the whole pair says, but for what shows only in outlines.
func TestSketchAgreesWithPair(t *testing.T) {
	for _, teeth := range [][2]int{{28, 36}, {12, 40}, {20, 24}, {26, 80}, {9, 60}, {30, 30}} {
		for _, module := range []float64{0.8, 1.5, 2} {
			for _, rule := range []ShiftRule{ShiftGiven, ShiftChoose} {
				spec := lampSpec()
				spec.Module, spec.Teeth, spec.ShiftRule = module, teeth, rule
				sketch, err := NewSketch(spec)
				if err != nil {
					if _, again := NewPair(spec); again == nil {
						t.Errorf("%v m %g: %v, but the pair is made", teeth, module, err)
					}
					continue
				}
				failed, cautions := sketch.Judge()
				pair, err := NewPair(spec)
				if err != nil {
					if len(failed) == 0 {
						t.Errorf("%v m %g: the sketch fails nothing, the pair %v", teeth, module, err)
					}
					continue
				}
				var all [2][]string
				for _, f := range pair.Findings() {
					if f.Check == "interference" || f.Check == "mesh-by-motion" || f.Check == "false-contact" || f.Check == "face-width" || f.Check == "flank-allowance" {
						continue
					}
					if n := slices.Index([]check.Verdict{check.Fail, check.Caution}, f.Verdict); n >= 0 && !slices.Contains(all[n], f.Check) {
						all[n] = append(all[n], f.Check)
					}
				}
				all[1] = slices.DeleteFunc(all[1], func(name string) bool { return slices.Contains(all[0], name) })
				for n, got := range [][]string{failed, cautions} {
					want := slices.Sorted(slices.Values(all[n]))
					if got := slices.Sorted(slices.Values(got)); !slices.Equal(got, want) {
						t.Errorf("%v m %g rule %d: sketch %v, pair %v", teeth, module, rule, got, want)
					}
				}
			}
		}
	}
}

// Proportions are the sizes of the finished pair, also at a given distance.
func TestProportions(t *testing.T) {
	for _, farther := range []float64{0, -0.3, 1} {
		for _, teeth := range [][2]int{{28, 36}, {12, 50}} {
			spec := lampSpec()
			spec.Teeth, spec.ShiftRule, spec.Pinion, spec.Wheel = teeth, ShiftChoose, Body{}, Body{}
			if farther != 0 {
				spec.CentreDistance = spec.referenceDistance() + farther
			}
			got, err := spec.Proportions()
			if err != nil {
				t.Fatal(err)
			}
			p := mustPair(t, spec)
			for name, test := range map[string][2]float64{
				"a_w": {got.CentreDistance, p.CentreDistance()}, "d_w2": {got.Working[1], 2 * p.contact.working(1)},
				"d_a1": {got.Tip[0], p.Pinion().TipDiameter()}, "d_a2": {got.Tip[1], p.Wheel().TipDiameter()},
				"d_f1": {got.Root[0], p.Pinion().RootDiameter()}, "d_f2": {got.Root[1], p.Wheel().RootDiameter()},
				"x1": {got.Shift[0], p.Pinion().Shift()}, "x2": {got.Shift[1], p.Wheel().Shift()},
			} {
				if math.Abs(test[0]-test[1]) > 1e-9 {
					t.Errorf("%v, %g farther: %s %.9f, of the pair %.9f", teeth, farther, name, test[0], test[1])
				}
			}
		}
	}
}

// A wheel sized to its bearing: with one tooth less than the least root asks for
// its walls fail, with that many they do not; likewise the pinion for its horn.
func TestLeastRoot(t *testing.T) {
	for i, name := range []string{"pinion", "wheel"} {
		for _, want := range []check.Verdict{check.Fail, check.Caution} {
			spec := lampSpec()
			failing, caution := spec.LeastRoot(i)
			least := map[check.Verdict]float64{check.Fail: failing, check.Caution: caution}[want]
			z := int(math.Ceil(least/spec.Module + 2.5)) // d_f = m (z - 2.5)
			for _, test := range []struct {
				z    int
				have bool
			}{{z - 1, true}, {z, false}} {
				spec.Teeth = [2]int{60, 60}
				spec.Teeth[i] = test.z
				s, err := NewSketch(spec)
				if err != nil {
					t.Fatal(err)
				}
				failed, cautions := s.Judge()
				walls := failed
				if want == check.Caution {
					walls = append(walls, cautions...)
				}
				bad := slices.ContainsFunc(walls, func(n string) bool {
					return slices.Contains([]string{"rim", "hub-wall", "journal-wall", "hole-web"}, n)
				})
				if bad != test.have {
					t.Errorf("%s of %d teeth, root %.2f wanted: %s %v, fails %v cautions %v", name, test.z, least, want, bad, failed, cautions)
				}
			}
		}
	}
	bare := lampSpec()
	bare.Pinion = Body{}
	if failing, caution := bare.LeastRoot(0); failing != 0 || caution != 0 {
		t.Errorf("a gear without a body needs roots of %g and %g mm", failing, caution)
	}
	bare.Pinion = Body{Bore: 8}
	bead := bare.Card.BeadWidth
	failing, caution := bare.LeastRoot(0)
	if want := 8 + 4*bead; math.Abs(failing-want) > 0.02 { // a rim of two beads around the bore
		t.Errorf("around a bore of 8 mm: root %.3f, want %.3f", failing, want)
	}
	if want := 8 + 2*max(2*bare.Module, 4*bead); math.Abs(caution-want) > 0.02 {
		t.Errorf("without a caution: root %.3f, want %.3f", caution, want)
	}
}

// Without thinning and tip alteration the two form factors are the same.
func TestLewisFactorOf(t *testing.T) {
	spec := lampSpec()
	spec.Backlash, spec.Pinion, spec.Wheel = 0, Body{}, Body{}
	p := mustPair(t, spec)
	if got, want := LewisFactorOf(28, 0, spec.PressureAngle, Rack{}), p.Pinion().LewisFactor(); math.Abs(got-want) > 1e-9 {
		t.Errorf("Y = %.6f, of the gear %.6f", got, want)
	}
}

func BenchmarkSketch(b *testing.B) {
	spec := lampSpec()
	for b.Loop() {
		s, err := NewSketch(spec)
		if err != nil {
			b.Fatal(err)
		}
		s.Judge()
	}
}

func BenchmarkLeastRoot(b *testing.B) {
	for b.Loop() {
		lampSpec().LeastRoot(1)
	}
}

func BenchmarkProportions(b *testing.B) {
	spec := lampSpec()
	spec.Teeth, spec.ShiftRule = [2]int{12, 36}, ShiftChoose
	for b.Loop() {
		if _, err := spec.Proportions(); err != nil {
			b.Fatal(err)
		}
	}
}
