package gear

import (
	"math"
	"math/rand/v2"
	"testing"

	"pintle/geom"
)

// The shaper by other means than the code's: its flank sampled from the involute
// of its base circle, thick enough to fill the space at the pitch circles. The
// rounding of its tip touches flank and tip circle; rolled past, it never reaches
// into the fillet and touches every place of it; fillet and flank meet in one
// point with one direction.
func TestShaperLeavesTheFillet(t *testing.T) {
	for _, q := range []struct {
		why        string
		z, zc      int
		x, xc      float64
		rack       Rack
		thin       float64
		fullHeight bool
	}{
		{"a usual pair", 60, 24, -0.3, 0.3, ProfileA(), 0.1, true},
		{"short teeth", 40, 20, 0, 0, Rack{0.8, 0.45, 0.38}, 0, true},
		{"a shaper too pointed for the root", 90, 15, 0.2, 0.4, ProfileD(), 0.2, false},
		{"a sharp rack", 36, 24, 0, 0, Rack{1, 0.25, 0.05}, 0, true},
	} {
		const m = 2.0
		g := newInner(q.z, m, 20*degree, q.x, q.rack, shaper{q.zc, q.xc}, q.thin, 0)
		root := g.r + m*(q.rack.dedendum()-q.x)
		if math.Abs(g.rf-root) < 1e-9 != q.fullHeight {
			t.Errorf("%s: root radius %g, by the rack %g", q.why, g.rf, root)
		}
		spec := PairSpec{Module: m, Teeth: [2]int{q.zc, -q.z}, PressureAngle: 20 * degree}
		a := spec.distanceFor(q.xc + q.x)
		working := func(z int) float64 { return a * float64(z) / float64(q.z-q.zc) }
		rb := m * float64(q.zc) / 2 * math.Cos(20*degree)
		space := 2*math.Pi*working(q.z)/float64(q.z) - g.thickness(working(q.z))
		base := space/(2*working(q.zc)) + Involute(math.Acos(rb/working(q.zc)))
		centre := geom.Polar(g.rf-a-g.rho, g.tool.lead)
		off := math.Inf(1)
		for roll := 0.0; roll < 1.5; roll += 1e-5 {
			sin, cos := math.Sincos(base - roll)
			off = math.Min(off, centre.Sub(geom.Point{X: rb * (cos - roll*sin), Y: rb * (sin + roll*cos)}).Len())
		}
		near(t, q.why+": rounding on its flank", off, g.rho, 1e-8)

		for share := 0.0; share <= 1; share += 0.125 {
			p, _ := g.fillet(g.bottom * share)
			closest := math.Inf(1)
			for turn := -0.6; turn < 0.6; turn += 1e-4 {
				c := geom.Point{X: a}.Add(centre.Rotate(turn)).Rotate(-turn * float64(q.zc) / float64(q.z))
				closest = math.Min(closest, c.Sub(p).Len())
			}
			near(t, q.why+": nearest the rounding's centre comes", closest, g.rho, 1e-6)
		}
		end, along := g.fillet(g.bottom)
		start, rise := g.flank(g.from)
		near(t, q.why+": fillet meets flank", end.Sub(start).Len(), 0, 1e-9)
		near(t, q.why+": in one direction", (along.X*rise.Y-along.Y*rise.X)/along.Len()/rise.Len(), 0, 1e-9)
	}
}

// The mate's own teeth, taller by the clearance, cut the wheel: however pinion
// and wheel are shifted, the wheel's involute begins beyond where the pinion's
// tip works.
func TestShaperClearsTheMate(t *testing.T) {
	const seed = 41
	rnd := rand.New(rand.NewPCG(seed, seed))
	done := 0
	for i := range 400 {
		z1 := 8 + rnd.IntN(40)
		spec := bareSpec(z1, -z1-9-rnd.IntN(80))
		spec.Shift = [2]float64{rnd.Float64() - 0.2, 0.5 - rnd.Float64()}
		s, err := solve(spec)
		if err != nil {
			continue
		}
		done++
		if room := s.contact.t[1].form() - s.contact.active(1)/2; room < -1e-9 {
			t.Fatalf("seed %d case %d: the pinion's tip works %g mm below the wheel's involute: %v %v", seed, i, -room, spec.Teeth, spec.Shift)
		}
	}
	if done < 150 {
		t.Errorf("only %d pairs", done)
	}
}

// Ever more teeth make an internal gear a rack, and its form factor the rack's;
// few teeth widen faster outwards and bear more.
func TestInternalFormFactor(t *testing.T) {
	b := newBar(PairSpec{Module: 1, PressureAngle: 20 * degree, Rack: ProfileA()}, 0, 0)
	large := newInner(400000, 1, 20*degree, 0, ProfileA(), shaper{200000, 0}, 0, 0)
	near(t, "Y of 400000 teeth", large.lewis(), b.lewis(), 1e-3)
	last := math.Inf(1)
	for _, z := range []int{36, 60, 120, 400} {
		y := newInner(z, 1, 20*degree, 0, ProfileA(), shaper{20, 0}, 0, 0).lewis()
		if y >= last || y < b.lewis() {
			t.Errorf("Y of %d internal teeth %g, after %g, rack %g", z, y, last, b.lewis())
		}
		last = y
	}
}

// Weakest section of an internal tooth by brute force: of all isosceles parabolas
// with their top where the load's line crosses the centre line, the widest that
// stays within the tooth's drawn outline touches it at the root.
func TestInternalParabola(t *testing.T) {
	g := newInner(60, 1.5, 20*degree, -0.3, Rack{0.8, 0.45, 0.38}, shaper{24, 0.3}, 0.1, 0)
	tip, _ := g.flank(g.to)
	tip = tip.Rotate(-math.Pi / 60)
	_, rise := g.flank(g.to)
	along := rise.Rotate(-math.Pi/60 + math.Pi/2) // the load, square to the flank
	top := tip.X - tip.Y*along.X/along.Y
	widest := math.Inf(1)
	for share := 0.0; share <= 1; share += 1e-4 {
		p, _ := g.fillet(g.bottom * share)
		if p = p.Rotate(-math.Pi / 60); p.X > top {
			widest = math.Min(widest, p.Y*p.Y/(p.X-top))
		}
	}
	near(t, "Y", g.lewis(), 2.0/3*widest/1.5, 1e-4)
}
