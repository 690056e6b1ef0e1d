package fit_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pintle/fit"
)

func refRows(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", "ref", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	return rows[1:]
}

// Every row of testdata/ref/fit-keys.csv (ISO 773, DIN 6885-1), which names its
// sources: at the upper end of its shafts and just above the lower one. Standard
// tables give a key that bears on its sides: t1 + t2 is more than its height.
func TestKeyFor(t *testing.T) {
	for _, row := range refRows(t, "fit-keys.csv") {
		over, to, want := number(t, row[0]), number(t, row[1]), number(t, row[3])
		for _, shaft := range []float64{over + 0.01, to} {
			k, ok := fit.KeyFor(shaft)
			if !ok {
				t.Fatalf("no key for %g mm", shaft)
			}
			got := map[string]float64{
				"width": k.Width, "height": k.Height, "depth in shaft": k.Shaft, "depth in hub": k.Hub, "largest depth in hub": k.HubMost,
			}[row[2]]
			if got != want {
				t.Errorf("shaft %g: %s %g, want %g", shaft, row[2], got, want)
			}
			if room := k.Shaft + k.Hub - k.Height; !(room > 0.15 && room < 0.35) {
				t.Errorf("shaft %g: %g mm over the key", shaft, room)
			}
		}
	}
	for _, shaft := range []float64{0, 5.9, 30.1, math.NaN(), math.Inf(1)} {
		if k, ok := fit.KeyFor(shaft); ok {
			t.Errorf("a key %v for %g mm", k, shaft)
		}
	}
	if k, ok := fit.KeyFor(6); !ok || k.Width != 2 {
		t.Error("no key for exactly 6 mm, where both sources start")
	}
}

// Recesses against testdata/ref/fit-holes.csv: a knurled head goes in, a
// countersink takes the theoretical head, an insert's hole is in its range and
// deeper than the insert.
func TestScrewHole(t *testing.T) {
	for _, row := range refRows(t, "fit-holes.csv") {
		s, _ := fit.ScrewNamed(row[0])
		low, high := number(t, row[2]), number(t, row[3])
		hole := func(kind string) fit.ScrewHole {
			h, ok := s.Hole(kind, 0.1, 0.2)
			if !ok {
				t.Fatalf("%s: no %s hole", s.Size, kind)
			}
			return h
		}
		switch row[1] {
		case "countersink":
			// A cone of 90 degrees from the head down to the hole: depth = half the
			// difference of the diameters.
			if h := hole(fit.Countersink); h.Recess != low || math.Abs(2*h.Depth-(low-s.Clearance)) > 1e-12 {
				t.Errorf("%s: %+v", s.Size, h)
			}
		case "knurled head":
			if h := hole(fit.Counterbore); !(h.Recess > low && h.Recess < low+0.5 && h.Depth > s.HeadHeight) {
				t.Errorf("%s: %+v", s.Size, h)
			}
		case "insert hole":
			if h := hole(fit.Insert); h.Bore < low || h.Bore > high {
				t.Errorf("%s: %+v", s.Size, h)
			}
		case "insert length":
			if h := hole(fit.Insert); math.Abs(h.Depth-high-0.5) > 1e-12 {
				t.Errorf("%s: %+v", s.Size, h)
			}
		}
	}
	m3, _ := fit.ScrewNamed("M3")
	for kind, want := range map[string]fit.ScrewHole{
		fit.SelfCutting: {Kind: fit.SelfCutting, Bore: 2.525},
		fit.Clearance:   {Kind: fit.Clearance, Bore: 3.4},
		fit.Nut:         {Kind: fit.Nut, Bore: 3.4, Recess: 5.6, Depth: 2.6},
	} {
		if got, ok := m3.Hole(kind, 0.1, 0.2); !ok || got != want {
			t.Errorf("%s: %+v, want %+v", kind, got, want)
		}
	}
	m8, _ := fit.ScrewNamed("M8")
	if _, ok := m8.Hole(fit.Insert, 0.1, 0.2); ok {
		t.Error("an insert M8, of which no size is known")
	}
	if _, ok := m3.Hole("rivet", 0.1, 0.2); ok {
		t.Error("a rivet is a kind of screw hole")
	}
}
