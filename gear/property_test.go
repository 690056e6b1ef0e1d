package gear

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/fit"
	"pintle/geom"
)

func samePoints(t *testing.T, what string, a, b []geom.Point, scale, tol float64) {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("%s: %d and %d points", what, len(a), len(b))
	}
	for i := range a {
		if off := a[i].Scale(scale).Sub(b[i]).Len(); off > tol {
			t.Fatalf("%s: point %d is off by %g mm", what, i, off)
		}
	}
}

// A pair with pinion and wheel changed over has the same teeth the other way
// round, and runs the same.
func TestSwappedPairSwaps(t *testing.T) {
	const seed = 17
	rnd := rand.New(rand.NewPCG(seed, seed))
	done := 0
	for range 60 {
		spec := bareSpec(10+rnd.IntN(30), 10+rnd.IntN(60))
		spec.Shift = [2]float64{0.8*rnd.Float64() - 0.2, 0.8*rnd.Float64() - 0.2}
		spec.Card.Outside = fit.Error{Offset: 0.1 * rnd.Float64()}
		p, err := NewPair(spec)
		if err != nil {
			continue
		}
		done++
		spec.Teeth[0], spec.Teeth[1] = spec.Teeth[1], spec.Teeth[0]
		spec.Shift[0], spec.Shift[1] = spec.Shift[1], spec.Shift[0]
		q := mustPair(t, spec)
		samePoints(t, "pinion", p.Pinion().Outline().Points, q.Wheel().Outline().Points, 1, 0)
		samePoints(t, "wheel", p.Wheel().Outline().Points, q.Pinion().Outline().Points, 1, 0)
		near(t, "a_w", p.CentreDistance(), q.CentreDistance(), 1e-12)
		near(t, "contact ratio", p.ContactRatio(), q.ContactRatio(), 1e-9)
		near(t, "backlash", p.Backlash(), q.Backlash(), 1e-12)
		near(t, "measured backlash", p.proof.print.min, q.proof.print.min, p.spec.ChordError)
	}
	if done < 30 {
		t.Errorf("only %d pairs", done)
	}
}

// Twice of every length gives the same pair twice as large: lengths by 2, areas
// by 4, angles and ratios as they were.
func TestPairScales(t *testing.T) {
	small := bareSpec(17, 40)
	small.Shift, small.ChordError, small.Card.Outside = [2]float64{0.3, 0.1}, 0.002, fit.Error{Offset: 0.04}
	large := small
	large.Module, large.Backlash, large.ChordError, large.FaceWidth = 2*small.Module, 2*small.Backlash, 0.004, 2*small.FaceWidth
	large.CentreTolerance, large.Card.Outside.Offset = 2*DefaultCentreTolerance, 0.08
	a, b := mustPair(t, small), mustPair(t, large)
	va, vb := a.Values(), b.Values()
	for _, name := range []string{"a_w", "d1", "da2", "df1", "j_wt", "j_bn", "W1", "W2", "s_a1", "c2", "d_Ff1", "tight_mesh_centre_distance"} {
		near(t, name, vb[name].(float64), 2*va[name].(float64), 1e-8)
	}
	for _, name := range []string{"epsilon_alpha", "alpha_w_deg", "lost_motion_deg", "zeta_f2", "Y1"} {
		near(t, name, vb[name].(float64), va[name].(float64), 1e-8)
	}
	area := func(p *Pair) float64 { return polygonArea(p.Pinion().Outline().Points) }
	near(t, "area", area(b), 4*area(a), 4*area(a)*1e-5) // curves are fitted to the same absolute error
}

// Teeth keep their shape over the whole range of what can be made: the outline
// is simple, every tooth a copy of the first, and each the mirror of itself.
func TestOutlineOverTheLegalRange(t *testing.T) {
	made := 0
	for z := 6; z <= 120; z += 19 {
		for _, x := range []float64{-0.5, 0, 0.3, 0.7} {
			for _, alpha := range []float64{14.5, 20, 25, 30} {
				tooth := newTooth(z, 1.5, alpha*degree, x, ProfileA().Fitted(alpha*degree), 0.1, 0)
				s := solution{spec: PairSpec{Teeth: [2]int{z, z}, PressureAngle: alpha * degree, Rack: ProfileA()}}
				if s.possible(0, tooth) != nil {
					continue
				}
				made++
				outline := tooth.outline(0.005)
				if _, err := geom.NewPart("gear", geom.Slab{Z0: 0, Z1: 1, Bottom: []geom.Contour{outline}}); err != nil {
					t.Fatalf("z %d x %g alpha %g: %v", z, x, alpha, err)
				}
				g := ofPoints(tooth, outline.Points, 0)
				if len(g.upper[0]) < len(g.lower[0])-1 || len(g.lower[0]) < 4 {
					t.Fatalf("z %d x %g alpha %g: %d and %d points to a side", z, x, alpha, len(g.upper[0]), len(g.lower[0]))
				}
				for k := range min(len(g.upper[0]), len(g.lower[0])) {
					a, b := g.upper[0][len(g.upper[0])-1-k], g.lower[0][len(g.lower[0])-1-k]
					if a.Len() > tooth.rf+1e-6 && a.Sub(b).Len() > 1e-9 {
						t.Fatalf("z %d x %g alpha %g: sides differ by %g mm", z, x, alpha, a.Sub(b).Len())
					}
				}
			}
		}
	}
	if made < 60 {
		t.Errorf("only %d teeth", made)
	}
}

// The lamp's readings as the drawing prints them, and what holds it together.
func TestAssembly(t *testing.T) {
	spec := crossSpec("cross")
	m6, _ := fit.ScrewNamed("M6")
	spec.Wheel.Journal.Hollow, spec.Wheel.Retain = 0, &Retain{"nut", m6}
	text := strings.Join(mustPair(t, spec).Assembly(), "\n")
	for _, want := range []string{"15.99 mm over 4 teeth", "45.04 mm over pins of 2.5 mm", "13 and 8 mm from its axis", "M6 nut", "48 mm apart", "0.42 deg", "apart with 34 N", "give way by", "spline"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	if math.IsNaN(mustPair(t, ringSpec(24, 60)).pinBand(1, 0.1)) {
		t.Error("no band between pins")
	}
}
