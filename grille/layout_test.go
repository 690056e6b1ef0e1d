package grille

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// card returns a printer whose bores come out as drawn.
func card() fit.Card {
	return fit.Card{Name: "test", BeadWidth: 0.4, LayerThickness: 0.2, Bed: [2]float64{220, 220}}
}

func mustNew(t testing.TB, spec Spec) *Grille {
	t.Helper()
	g, err := New(spec)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// Whole holes in a disc, counted and summed by independent programs:
// testdata/ref/perforation.json. A hole stands in the centre there; our choice
// of the centre may only give more.
func TestWholeHolesInDisc(t *testing.T) {
	var ref struct {
		Disc []struct {
			Shape, Pattern, Rule        string
			Hole, Length, Pitch, Pitch2 float64
			Disc                        float64
			Holes                       int
			Open                        float64 `json:"open_pct"`
			Endless                     float64 `json:"infinite_sheet_pct"`
		}
	}
	if err := json.Unmarshal(reference(t, "perforation.json"), &ref); err != nil {
		t.Fatal(err)
	}
	tested := 0
	for _, row := range ref.Disc {
		letter := map[string]string{"round": "R", "square": "C", "hex": "H", "slot": "L"}[row.Shape]
		pattern := patternOf(letter + row.Pattern)
		if row.Rule != "whole" || pattern == "" { // cut holes, and arrangements we do not make
			continue
		}
		tested++
		const margin = 3
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Disc, Diameter: row.Disc + 2*margin}, Margin: margin, Pattern: pattern,
			Hole: row.Hole, SlotLength: row.Length, Pitch: row.Pitch, PitchAlong: slotOnly(pattern, row.Pitch2),
			Thickness: 2, Card: card(),
		})
		centred := len(g.placeFrom([2]int{0, 0}))
		if centred != row.Holes || len(g.holes) < centred {
			t.Errorf("%s %g/%g in %g: %d holes about a hole, %d chosen, want %d", pattern, row.Hole, row.Pitch, row.Disc, centred, len(g.holes), row.Holes)
		}
		if len(g.holes) == row.Holes && math.Abs(100*g.OpenAreaInside()-row.Open) > 1e-9 {
			t.Errorf("%s %g/%g in %g: %.12g %% open, want %.12g", pattern, row.Hole, row.Pitch, row.Disc, 100*g.OpenAreaInside(), row.Open)
		}
		if math.Abs(100*g.OpenArea()-row.Endless) > 1e-9 {
			t.Errorf("%s: %.12g %% in an endless sheet, want %.12g", pattern, 100*g.OpenArea(), row.Endless)
		}
	}
	if tested < 6 {
		t.Errorf("only %d reference discs were found", tested)
	}
}

func slotOnly(pattern string, along float64) float64 {
	if pattern == Slot {
		return along
	}
	return 0
}

// randomSpec returns a spec that is often, not always, usable.
func randomSpec(rnd *rand.Rand) Spec {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	s := Spec{
		Pattern: Patterns()[rnd.IntN(len(Patterns()))], Hole: between(1, 6), Thickness: between(1, 5),
		Margin: between(0.5, 5), HazardDepth: between(0, 120), OpenTarget: between(0.2, 0.7), Card: card(), ChordError: 0.01,
	}
	s.Card.Bore.Offset = between(-0.3, 0.1)
	s.Pitch = s.Hole + between(0.3, 3)
	s.Outline = Outline{Kind: Disc, Diameter: between(20, 45)}
	if rnd.IntN(2) == 0 {
		s.Outline = Outline{Kind: Rectangle, Length: between(20, 45), Width: between(20, 45), CornerRadius: between(0, 10)}
	}
	if s.Pattern == Slot {
		s.SlotLength = s.Hole * between(1.2, 5)
		if rnd.IntN(2) == 0 {
			s.PitchAlong = s.SlotLength + between(0.3, 20)
			s.Pitch *= between(1, 2)
		}
	}
	if rnd.IntN(2) == 0 {
		screw, _ := fit.ScrewNamed("M2")
		s.Screws = &Screws{Screw: screw, Count: 4 + 2*rnd.IntN(2)}
	}
	return s
}

// The narrowest bar, measured between the sampled outlines of every pair of
// holes, holes and edge, and screw holes. Circumscribed facets stand up to a
// chord error into a bar from both sides.
func TestWebAgainstAllPairs(t *testing.T) {
	const seed, cases = 1, 150
	rnd := rand.New(rand.NewPCG(seed, seed))
	made := 0
	for i := range cases {
		spec := randomSpec(rnd)
		g, err := New(spec)
		if err != nil {
			continue
		}
		made++
		got, want := g.asDrawn.least(), leastByPairs(g.part.Slabs()[1].Bottom)
		if math.Abs(got-want) > 2.1*spec.ChordError {
			t.Errorf("seed %d, case %d (%+v): web %.4f mm, measured %.4f", seed, i, spec, got, want)
		}
	}
	if made < cases/3 {
		t.Errorf("only %d of %d specs made a grille", made, cases)
	}
}

// leastByPairs measures every vertex of each contour against every side of
// every other: between polygons that do not meet this is their distance.
func leastByPairs(contours []geom.Contour) float64 {
	least := math.Inf(1)
	for i, a := range contours {
		for j, b := range contours {
			if i == j || (j > 0 && i > 0 && farApart(a, b)) {
				continue
			}
			for k, p := range b.Points {
				q := b.Points[(k+1)%len(b.Points)]
				for _, v := range a.Points {
					least = min(least, toSide(v, p, q))
				}
			}
		}
	}
	return least
}

// farApart skips pairs of holes that cannot decide: no hole here is 30 mm long.
func farApart(a, b geom.Contour) bool { return a.Points[0].Sub(b.Points[0]).Len() > 40 }

func toSide(v, p, q geom.Point) float64 {
	along, to := q.Sub(p), v.Sub(p)
	length := along.Len()
	if length == 0 {
		return to.Len()
	}
	share := min(max((to.X*along.X+to.Y*along.Y)/(length*length), 0), 1)
	return to.Sub(along.Scale(share)).Len()
}

// Every hole has its mirror images, without screws and with screws that have
// theirs.
func TestPatternIsSymmetrical(t *testing.T) {
	screw, _ := fit.ScrewNamed("M3")
	for _, pattern := range Patterns() {
		for _, screws := range []*Screws{nil, {Screw: screw, Count: 6}} {
			g := mustNew(t, Spec{
				Outline: Outline{Kind: Rectangle, Length: 83, Width: 61}, Pattern: pattern, Hole: 3, Pitch: 4.2,
				SlotLength: slotOnly(pattern, 9), Thickness: 2, Screws: screws, Card: card(),
			})
			made := map[cell]bool{}
			for _, c := range g.holes {
				made[c] = true
			}
			for c := range made {
				if !made[cell{-c.u, c.v}] || !made[cell{c.u, -c.v}] {
					t.Errorf("%s, %d screw holes: the hole at %v has no mirror image", pattern, len(g.screws), g.lattice.at(c))
					break
				}
			}
		}
	}
}

// As many holes as a plain count over all places gives, for the best of the
// four symmetrical centres.
func TestEveryWholeHoleIsMade(t *testing.T) {
	barWins := 0
	for diameter := 60.0; diameter < 72; diameter++ {
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Disc, Diameter: diameter}, Pattern: RoundInline, Hole: 3, Pitch: 4, Thickness: 2, Margin: 4, Card: card(),
		})
		most := 0
		for k, shift := range [][2]float64{{0, 0}, {2, 2}, {2, 0}, {0, 2}} {
			n := 0
			for i := -20; i <= 20; i++ {
				for j := -20; j <= 20; j++ {
					if math.Hypot(float64(4*i)+shift[0], float64(4*j)+shift[1])+1.5 <= diameter/2-4 {
						n++
					}
				}
			}
			if n > most && k > 0 {
				barWins++
			}
			most = max(most, n)
		}
		if len(g.holes) != most {
			t.Errorf("disc of %g mm: %d holes, want %d", diameter, len(g.holes), most)
		}
	}
	if barWins == 0 {
		t.Error("no disc has most holes about a bar: the test is blind")
	}
}

func verdictOf(t *testing.T, findings []check.Finding, rule string) check.Finding {
	t.Helper()
	for _, f := range findings {
		if f.Check == rule {
			return f
		}
	}
	t.Fatalf("no finding of %s", rule)
	return check.Finding{}
}

// Screws on any rectangle stand the inset from the edge, mirrored in both axes.
func TestScrewsOnRectangle(t *testing.T) {
	screw, _ := fit.ScrewNamed("M3")
	for _, radius := range []float64{0, 3, 12, 20} {
		for count := 4; count <= 14; count += 2 {
			o := Outline{Kind: Rectangle, Length: 90, Width: 40, CornerRadius: radius}
			places := Screws{Screw: screw, Count: count, Inset: 5}.places(o)
			if len(places) != count {
				t.Errorf("radius %g: %d screws, want %d", radius, len(places), count)
			}
			for _, p := range places {
				if depth := o.edge().depth(p); math.Abs(depth-5) > 1e-9 {
					t.Errorf("radius %g, %d screws: %v lies %.4f mm inside the edge, want 5", radius, count, p, depth)
				}
				mirrored := 0
				for _, q := range places {
					if math.Hypot(p.X-q.X, p.Y+q.Y) < 1e-9 || math.Hypot(p.X+q.X, p.Y-q.Y) < 1e-9 {
						mirrored++
					}
				}
				if mirrored != 2 {
					t.Errorf("radius %g, %d screws: %v has %d mirror images, want 2", radius, count, p, mirrored)
				}
			}
		}
	}
}
