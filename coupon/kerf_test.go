package coupon_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/coupon"
	"pintle/fit"
	"pintle/geom"
)

// sizeOf returns the box around a closed run of lines.
func sizeOf(t *testing.T, path []geom.Curve) (lo, hi geom.Point) {
	t.Helper()
	lo, hi = geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for i, c := range path {
		if gap := c.End().Sub(path[(i+1)%len(path)].Start()).Len(); gap > 1e-9 {
			t.Errorf("a path is open by %v", gap)
		}
		p := c.Start()
		lo, hi = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}, geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo, hi
}

// The kerf pieces are closed paths on a bed of 150 mm, drawn on the line: ten bars
// of 10 x 30, a window of 20 square, slots round the measured sheet of 3.05 mm from
// -0.4 to +0.1, the tightest beside the cut corner, and tabs that pass through it.
func TestKerfPieces(t *testing.T) {
	s := spec(t, "608")
	s.Sheet = coupon.Sheet{Material: "birch", Thickness: 3.05}
	inside, outside := made(t, s).Cut()
	if len(outside) != 10+1+1+3 || len(inside) != 11+1 {
		t.Fatalf("%d outlines, %d windows", len(outside), len(inside))
	}
	var all geom.Point
	count := map[string]int{}
	for _, path := range outside {
		lo, hi := sizeOf(t, path)
		all = geom.Point{X: max(all.X, hi.X), Y: max(all.Y, -lo.Y)}
		switch d := hi.Sub(lo); {
		case math.Abs(d.X-10) < 1e-9 && math.Abs(d.Y-30) < 1e-9:
			count["bar"]++
		case math.Abs(d.X-20) < 1e-9 && math.Abs(d.Y-12-5.05) < 1e-9:
			count["tab"]++
		case len(path) == 5:
			count["comb with a corner off"]++
		}
	}
	if count["bar"] != 10 || count["tab"] != 3 || count["comb with a corner off"] != 1 || all.X > coupon.Side || all.Y+30 > coupon.Side {
		t.Errorf("%v, reaching %v", count, all)
	}
	last := math.Inf(-1)
	for i, path := range inside[:11] {
		lo, hi := sizeOf(t, path)
		if want := 3.05 - 0.4 + 0.05*float64(i); math.Abs(hi.X-lo.X-want) > 1e-9 || lo.X < last {
			t.Errorf("slot %d is %v wide from %v, want %v", i, hi.X-lo.X, lo.X, want)
		}
		last = hi.X
	}
	if lo, hi := sizeOf(t, inside[11]); math.Abs(hi.X-lo.X-coupon.Window) > 1e-9 {
		t.Errorf("window %v", hi.X-lo.X)
	}
	if plain := made(t, spec(t, "608")); plain.Spec().Sheet.Thickness == 0 {
		if _, outlines := plain.Cut(); len(outlines) > 0 {
			t.Error("pieces to cut without a sheet")
		}
	}
	// A thick sheet takes two rows of slots and still fits.
	s.Sheet.Thickness = 10
	_, outside = made(t, s).Cut()
	for _, path := range outside {
		if lo, hi := sizeOf(t, path); hi.X > coupon.Side || lo.Y < 30-coupon.Side {
			t.Errorf("thick sheet: a piece from %v to %v", lo, hi)
		}
	}
}

// Cutters of known kerf whose pieces are read with a caliper that repeats within
// 0.01 mm give their kerf back within two of its stated uncertainties: 0.001 mm
// from ten bars. A cutter that takes nothing changes nothing.
func TestKerfIsFoundBack(t *testing.T) {
	const seed = 7
	rnd := rand.New(rand.NewPCG(seed, seed))
	within := 0
	for range 400 {
		truth := 0.4 * rnd.Float64()
		noise := func() float64 { return 0.01 * rnd.NormFloat64() }
		c, err := fit.Calibrate(fit.Readings{Card: guess(), Kerf: fit.KerfReadings{
			Thickness: 3, Count: coupon.Bars, Together: coupon.BarsTogether, WindowOf: coupon.Window,
			Bars:   []float64{coupon.BarsTogether - coupon.Bars*truth + noise()},
			Window: []float64{coupon.Window + truth + noise()},
		}})
		if err != nil {
			t.Fatalf("seed %d, kerf %v: %v", seed, truth, err)
		}
		if math.Abs(c.Kerf-truth) <= 0.002 {
			within++
		}
	}
	if share := float64(within) / 400; share < 0.92 || share > 0.99 { // 95.4 % of a normal scatter
		t.Errorf("seed %d: %.3f of the kerfs lie within two standard uncertainties", seed, share)
	}
	still, err := fit.Calibrate(fit.Readings{Card: guess(), Kerf: fit.KerfReadings{Thickness: 3, Count: 10, Together: 100, WindowOf: 20, Bars: []float64{100}, Window: []float64{20}}})
	if err != nil || still.Kerf != 0 {
		t.Errorf("nothing was taken away: %v, %v", still.Kerf, err)
	}
}

// The revision changes with whatever changes the pieces, not with names; it stands
// on form and readings.
func TestRevision(t *testing.T) {
	s := spec(t, "608")
	first := made(t, s)
	s.CardName = "other"
	if second := made(t, s); second.Revision() != first.Revision() || len(first.Revision()) != 4 {
		t.Errorf("revisions %q and %q", first.Revision(), second.Revision())
	}
	s.Rings = coupon.Steps{From: -0.1, To: 0.4, Step: 0.05}
	if second := made(t, s); second.Revision() == first.Revision() {
		t.Error("other rings have the same revision")
	}
	var form, readings bytes.Buffer
	if err := first.WriteSheet(&form); err != nil {
		t.Fatal(err)
	}
	if err := first.WriteReadings(&readings); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(form.String(), "revision "+first.Revision()) || !strings.Contains(readings.String(), `revision = "`+first.Revision()) {
		t.Errorf("form or readings lack revision %s", first.Revision())
	}
}
