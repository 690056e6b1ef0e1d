package fit_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"pintle/fit"
)

// Every row carries its own source.
func TestWashers(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "testdata", "ref", "fit-washers.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		s, ok := fit.ScrewNamed(row[0])
		if !ok {
			t.Fatalf("no screw %s", row[0])
		}
		w := s.Washer()
		for i, got := range []float64{w.Inner, w.Outer, w.Thickness} {
			if want, err := strconv.ParseFloat(row[i+1], 64); err != nil || got != want {
				t.Errorf("%s: %v, want %s", row[0], got, row[i+1])
			}
		}
	}
	for _, s := range fit.Screws() {
		if w := s.Washer(); !(w.Inner > s.Diameter && w.Outer > w.Inner && w.Thickness > 0) {
			t.Errorf("%s: washer %+v", s.Size, w)
		}
	}
}

// Every row carries its own source.
func TestPitches(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "testdata", "ref", "fit-pitches.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != len(fit.Screws())+1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		s, _ := fit.ScrewNamed(row[0])
		if want, err := strconv.ParseFloat(row[1], 64); err != nil || s.Pitch() != want {
			t.Errorf("%s: %v, want %s", row[0], s.Pitch(), row[1])
		}
	}
}
