package grille

import (
	"fmt"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A talking mayor's grille: 90 x 60 x 2.4, round holes, staggered; the expected
// open areas and verdicts were computed independently (R T 90.69 w²/t²).
func TestMayor(t *testing.T) {
	for _, test := range []struct {
		hole, pitch float64
		percent     string
		web         float64
		open        check.Verdict
	}{
		{3, 4.5, "40.3", 1.5, check.Caution},
		{3, 4, "51.0", 1, check.Pass},
		{4, 5, "58.0", 1, check.Pass},
	} {
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Rectangle, Length: 90, Width: 60}, Pattern: RoundStaggered,
			Hole: test.hole, Pitch: test.pitch, Thickness: 2.4, HazardDepth: 12, Card: card(),
		})
		if got := fmt.Sprintf("%.1f", 100*g.OpenArea()); got != test.percent {
			t.Errorf("%g on %g: %s %% open, want %s", test.hole, test.pitch, got, test.percent)
		}
		if math.Abs(g.Web()-test.web) > 1e-9 {
			t.Errorf("%g on %g: web %g, want %g", test.hole, test.pitch, g.Web(), test.web)
		}
		for rule, want := range map[string]check.Verdict{
			"grille-web": check.Pass, "grille-web-drawn": check.Pass, "grille-open-area": test.open,
			"hole-to-thickness": check.Pass, "grille-reach": check.Pass,
		} {
			if f := verdictOf(t, g.Findings(), rule); f.Verdict != want || (f.Remedy == "") != (want == check.Pass) {
				t.Errorf("%g on %g: %s is %s (remedy %q), want %s", test.hole, test.pitch, rule, f.Verdict, f.Remedy, want)
			}
		}
	}
}

func plinth(t testing.TB) Spec {
	screw, ok := fit.ScrewNamed("M3")
	if !ok {
		t.Fatal("no M3")
	}
	printer := card()
	printer.BeadWidth, printer.Bore.Offset, printer.FirstLayerGrowth = 0.45, -0.18, 0.2
	return Spec{
		Name: "voice", Outline: Outline{Kind: Disc, Diameter: 70}, Pattern: RoundStaggered, Hole: 3, Pitch: 4,
		Thickness: 2.4, Screws: &Screws{Screw: screw, Count: 6, Circle: 62}, Card: printer,
	}
}

// A lighthouse keeper's plinth grille: every check passes with a bead of 0.45
// mm, whose web limit 2 x 0.45 + 0.1 is the web 4 - 3 itself.
func TestPlinth(t *testing.T) {
	g := mustNew(t, plinth(t))
	for _, f := range g.Findings() {
		if f.Verdict != check.Pass {
			t.Errorf("%s: %s, %v %s", f.Check, f.Verdict, f.Value, f.Remedy)
		}
		if f.Part != "voice-grille" {
			t.Errorf("%s names the part %q", f.Check, f.Part)
		}
	}
	part := g.Parts()[0]
	lo, hi := part.Bounds()
	if size := hi.Sub(lo); size.X != 70 || size.Y != 70 || math.Abs(part.Height()-2.4) > 1.0/geom.PerMM {
		t.Errorf("size %v x %g, want 70 x 70 x 2.4", size, part.Height())
	}
	for _, c := range g.Holes() {
		for i := range 6 {
			screw := geom.Polar(31, math.Pi/2+float64(i)*math.Pi/3)
			if bar := c.Sub(screw).Len() - 1.5 - 1.7; bar < 1-1e-9 {
				t.Errorf("the hole at %v leaves %.3f mm beside a screw hole", c, bar)
			}
		}
	}
	// Drawn = wanted - bore error: 3.18, and ISO 273 medium 3.4 + 0.18.
	for i, want := range []float64{3.18, 3.58} {
		if f := g.Fits()[i]; math.Abs(f.Drawn-want) > 1e-12 || f.Part != "voice-grille" {
			t.Errorf("%s of %s drawn %g, want %g", f.Feature, f.Part, f.Drawn, want)
		}
	}
}

// The proved region's area is that of the outline less that of the holes, all
// as the polygons they are sampled to: inscribed n/2 r² sin(2 pi/n),
// circumscribed n r² tan(pi/n) (elementary).
func TestAreaOfRegion(t *testing.T) {
	screw, _ := fit.ScrewNamed("M3")
	circumscribed := func(d float64) float64 {
		n := float64(geom.CircleSides(d/2, geom.ChordPlain))
		return n * d * d / 4 * math.Tan(math.Pi/n)
	}
	for _, pattern := range Patterns() {
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Disc, Diameter: 70}, Pattern: pattern, Hole: 3, SlotLength: slotOnly(pattern, 8),
			Pitch: 4, Thickness: 2.4, Screws: &Screws{Screw: screw, Count: 4}, Card: card(),
		})
		one := g.wanted.area
		switch pattern {
		case RoundStaggered, RoundInline:
			one = circumscribed(3)
		case Slot:
			// Both ends together are a circumscribed polygon; its number of
			// sides is free, so only the chord error bounds it.
			one = circumscribed(3) + 3*(8-3)
		}
		n := float64(geom.CircleSides(35, geom.ChordPlain))
		want := n/2*35*35*math.Sin(2*math.Pi/n) - float64(len(g.holes))*one - 4*circumscribed(3.4)
		tol := float64(len(g.holes)) * 10.0 / geom.PerMM // a grid step along each hole's outline
		if pattern == Slot {
			tol = float64(len(g.holes)) * math.Pi * 3 * geom.ChordPlain
		}
		layers := g.part.Layers()
		if got := layers[1].Bottom.Area(); math.Abs(got-want) > tol {
			t.Errorf("%s: area %.4f mm², want %.4f within %.4f", pattern, got, want, tol)
		}
		holes := g.OpenAreaInside() * math.Pi * 32 * 32 // rim 3 mm
		if sum := float64(len(g.holes)) * g.wanted.area; math.Abs(holes-sum) > 1e-9 {
			t.Errorf("%s: open area inside the rim stands for %.6f mm², the holes have %.6f", pattern, holes, sum)
		}
	}
}

// The chamfer takes material from the outer edge and the screw holes of the bed
// side only: 0.4 mm on a plate that has room for it.
func TestBedChamfer(t *testing.T) {
	g := mustNew(t, plinth(t))
	layer := g.part.Layers()[0]
	lo, hi := layer.Bottom.Bounds()
	if got := hi.X - lo.X; math.Abs(got-69.2) > 2.0/geom.PerMM {
		t.Errorf("outline on the bed %.4f mm across, want 69.2", got)
	}
	if !layer.Loft || layer.Z1 != geom.SnapLength(0.4) {
		t.Errorf("the first layer ends at %d steps, want a chamfer of 0.4 mm", layer.Z1)
	}
	if loops := layer.Bottom.Loops(); len(loops) != 1+len(g.holes)+6 {
		t.Errorf("%d loops, want the outline, %d holes and 6 screw holes", len(loops), len(g.holes))
	}
}

// Sharp corners and corners smaller than the chamfer are drawn in without
// folding, and thin plates and narrow rims get a smaller chamfer.
func TestChamferOnAnyOutline(t *testing.T) {
	for _, radius := range []float64{0, 0.1, 0.4, 5, 20} {
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Rectangle, Length: 60, Width: 40, CornerRadius: radius}, Pattern: Hexagon, Hole: 3,
			Pitch: 4, Thickness: 0.6, Margin: 0.9, Card: card(),
		})
		if g.chamfer > 0.2+1e-12 || g.chamfer < 0.1 {
			t.Errorf("corner radius %g: chamfer %g mm on a plate of 0.6", radius, g.chamfer)
		}
	}
}

// A rim of 0.9 mm keeps two thirds of its width on the bed.
func TestChamferLeavesRim(t *testing.T) {
	g := mustNew(t, Spec{
		Outline: Outline{Kind: Rectangle, Length: 3 + 8*4 + 1.8, Width: 40}, Pattern: RoundInline, Hole: 3, Pitch: 4,
		Thickness: 3, Margin: 0.9, Card: card(),
	})
	if math.Abs(g.chamfer-0.3) > 1e-9 {
		t.Errorf("chamfer %g mm, want 0.3", g.chamfer)
	}
}

func ExampleNew() {
	g, err := New(Spec{
		Name: "mayor", Outline: Outline{Kind: Rectangle, Length: 90, Width: 60}, Pattern: RoundStaggered,
		Hole: 3, Pitch: 4.5, Thickness: 2.4, Card: card(),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d holes, %.1f %% open\n", len(g.Holes()), 100*g.OpenArea())
	for _, f := range g.Findings() {
		if f.Verdict != check.Pass {
			fmt.Println(f.Check, f.Verdict+":", f.Remedy)
		}
	}
	// Output:
	// 241 holes, 40.3 % open
	// grille-open-area caution: pitch <= 4.04 mm
}

func BenchmarkNew(b *testing.B) {
	for _, size := range []float64{104, 329, 1040} { // 1,000, 10,000 and 100,000 holes
		spec := Spec{
			Outline: Outline{Kind: Rectangle, Length: size, Width: size}, Pattern: RoundStaggered,
			Hole: 2, Pitch: 3.4, Thickness: 2.4, Card: card(),
		}
		b.Run(fmt.Sprintf("%d", len(mustNew(b, spec).holes)), func(b *testing.B) {
			for b.Loop() {
				mustNew(b, spec)
			}
		})
	}
}
