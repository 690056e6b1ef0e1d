package geom

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// slowGap looks at every pair of edges, and at every corner for one that lies in
// the other region.
func slowGap(a, b Region, m Motion) float64 {
	best := math.Inf(1)
	moved := make([][]Point, len(b.loops))
	for i, l := range b.loops {
		for _, v := range l {
			moved[i] = append(moved[i], m.Move(v.Point()))
		}
	}
	for _, l := range a.loops {
		for i := range l {
			p, q := l[i].Point(), l[(i+1)%len(l)].Point()
			for _, other := range moved {
				for k := range other {
					width2, _, _ := segments(p, q, other[k], other[(k+1)%len(other)])
					best = min(best, width2)
				}
			}
		}
	}
	for _, l := range moved {
		for _, p := range l {
			if windingAt(a.loops, p.Scale(PerMM)) > 0 {
				return 0
			}
		}
	}
	back := m.Back()
	for _, v := range a.verts {
		if windingAt(b.loops, back.Move(v.Point()).Scale(PerMM)) > 0 {
			return 0
		}
	}
	return math.Sqrt(best)
}

func TestGapAgainstAllPairs(t *testing.T) {
	const seed = 8
	rnd := rand.New(rand.NewPCG(seed, seed))
	apart, met := 0, 0
	for i := range 6000 {
		a, errA := NewRegion(cells(rnd))
		b, errB := NewRegion(cells(rnd))
		if errA != nil || errB != nil {
			continue
		}
		m := Motion{rnd.Float64() * 7, Point{(rnd.Float64() - 0.5) * 14 / PerMM, (rnd.Float64() - 0.5) * 14 / PerMM}}
		gap, want := NewFeeler(a).Gap(NewFeeler(b), m), slowGap(a, b, m)
		if math.Abs(gap.Width-want) > 1e-12 || math.Abs(gap.A.Sub(gap.B).Len()-want) > 1e-12 {
			t.Fatalf("seed %d, case %d: gap %+v, want %g", seed, i, gap, want)
		}
		if want > 0 {
			apart++
		} else {
			met++
		}
	}
	if apart < 50 || met < 50 {
		t.Errorf("only %d apart and %d that meet", apart, met)
	}
}

// Closed forms: circles, a peg in a bore, one plate in the window of another,
// and a bar that turns past a wall.
func TestGap(t *testing.T) {
	peg := func(x, d float64) Region { return mustRegion(t, Peg(Point{x, 0}, d, ChordFit)) }
	ring := mustRegion(t, Peg(Point{}, 60, ChordFit), Bore(Point{}, 40, ChordFit))
	for _, test := range []struct {
		name string
		a, b Region
		want float64
	}{
		{"side by side", peg(0, 10), peg(30, 20), 15},
		{"peg in a bore", ring, peg(0, 30), 5},
		{"peg off the middle of a bore", peg(3, 30), ring, 2},
		{"peg in the ring's material", ring, peg(25, 4), 0},
		{"one over the other", peg(0, 50), peg(1, 10), 0},
	} {
		// Vertices of the peg and flats of the bore may miss each other by a chord error.
		if got := Distance(test.a, test.b).Width; math.Abs(got-test.want) > 2*ChordFit {
			t.Errorf("%s: %g mm, want %g", test.name, got, test.want)
		}
	}
	bar := NewFeeler(mustRegion(t, Rectangle(Point{}, 40, 6, 0, 0, ChordPlain)))
	wall := NewFeeler(mustRegion(t, Rectangle(Point{26, 0}, 10, 100, 0, 0, ChordPlain)))
	var motions []Motion
	for k := range 181 {
		motions = append(motions, TurnAbout(Point{}, float64(k)*math.Pi/180))
	}
	gap, at := wall.LeastGap(bar, motions)
	// The corner of the bar comes nearest when it points at the wall.
	want, turn := 21-math.Hypot(20, 3), math.Atan2(3, 20)
	if gap.Width < want-1e-9 || gap.Width > want+21*math.Pow(math.Pi/360, 2)/2+1e-9 {
		t.Errorf("least gap %g mm, want %g", gap.Width, want)
	}
	if d := math.Abs(motions[at].Turn - turn); d > math.Pi/360 && math.Abs(motions[at].Turn-math.Pi+turn) > math.Pi/360 {
		t.Errorf("least gap at %g rad, want %g", motions[at].Turn, turn)
	}
	for i, m := range motions {
		if g := wall.Gap(bar, m); g.Width < gap.Width || i == at && g.Width != gap.Width {
			t.Errorf("position %d: %g mm, less than the least %g", i, g.Width, gap.Width)
		}
	}
}

// Where a motion takes a contour, its points and curves go together, and Back
// undoes it.
func TestMotion(t *testing.T) {
	m := Motion{0.7, Point{3, -2}}
	c := Rectangle(Point{5, 1}, 20, 8, 2, 0.2, 0.01)
	moved := c.Move(m)
	again := NewContour(moved.Curves, 0.01)
	for i, p := range again.Points {
		if d := p.Sub(moved.Points[i]).Len() + m.Back().Move(moved.Points[i]).Sub(c.Points[i]).Len(); d > 1e-9 {
			t.Fatalf("point %d is off by %g mm", i, d)
		}
	}
	if p := TurnAbout(Point{3, 4}, 1).Move(Point{3, 4}); p.Sub(Point{3, 4}).Len() > 1e-12 {
		t.Errorf("the centre of a turn moves to %v", p)
	}
}

func BenchmarkGap(b *testing.B) {
	for _, n := range []int{1000, 10_000, 100_000} {
		star := func(phase float64) *Feeler {
			points := make([]Point, n)
			for i := range points {
				a := 2 * math.Pi * float64(i) / float64(n)
				points[i] = Polar(200+10*math.Sin(100*a+phase), a)
			}
			r, err := RegionOf([]Contour{{Points: points}})
			if err != nil {
				b.Fatal(err)
			}
			return NewFeeler(r)
		}
		one, other := star(0), star(1)
		b.Run(fmt.Sprint(n, "edges"), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				one.Gap(other, Motion{float64(i%97) / 97, Point{425, 0}})
			}
		})
	}
}

// A gap below a width is the gap, or nothing where the outlines keep that far
// apart; a region turned over measures as its mirror image does.
func TestGapBelowAndOverturned(t *testing.T) {
	const seed = 12
	rnd := rand.New(rand.NewPCG(seed, seed))
	seen := map[bool]int{}
	for i := range 4000 {
		a, errA := NewRegion(cells(rnd))
		b, errB := NewRegion(cells(rnd))
		if errA != nil || errB != nil {
			continue
		}
		m := Motion{rnd.Float64() * 7, Point{(rnd.Float64() - 0.5) * 20 / PerMM, (rnd.Float64() - 0.5) * 20 / PerMM}}
		width := 6 * rnd.Float64() / PerMM
		want := slowGap(a, b, m)
		gap, below := NewFeeler(a).GapBelow(NewFeeler(b), m, width)
		if below != (want < width) || below && math.Abs(gap.Width-want) > 1e-12 {
			t.Fatalf("seed %d, case %d: gap %+v below %g: %v, want %g", seed, i, gap, width, below, want)
		}
		seen[below]++
		mirrored := Motion{-m.Turn, Point{m.Shift.X, -m.Shift.Y}}
		if got := FeelerOf(Overturned(a.loops)).Gap(FeelerOf(Overturned(b.loops)), mirrored).Width; math.Abs(got-want) > 1e-12 {
			t.Fatalf("seed %d, case %d: the mirror images are %g apart, want %g", seed, i, got, want)
		}
	}
	if seen[true] < 50 || seen[false] < 50 {
		t.Errorf("only %d below the width and %d beyond", seen[true], seen[false])
	}
}
