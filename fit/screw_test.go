package fit_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"pintle/fit"
)

func reference(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "ref", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func screwRows(t *testing.T) [][]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", "ref", "fit-screws.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("fit-screws.csv: %d rows, %v", len(rows), err)
	}
	return rows[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Every cell of the table against testdata/ref/fit-screws.csv, which names the
// source of each: ISO 273 medium, ISO 4762, ISO 4032, and the computed range of
// pilot holes, whose middle is used.
func TestScrewTable(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range screwRows(t) {
		s, ok := fit.ScrewNamed(row[0])
		if !ok {
			t.Errorf("ScrewNamed(%q): not found", row[0])
			continue
		}
		seen[row[0]] = true
		have := map[string]float64{
			"diameter": s.Diameter, "clearance": s.Clearance, "head diameter": s.HeadDiameter, "head height": s.HeadHeight,
			"nut across flats": s.NutAcross, "nut height": s.NutHeight, "pilot": s.Pilot,
		}[row[1]]
		if want := (number(t, row[2]) + number(t, row[3])) / 2; math.Abs(have-want) > 1e-9 {
			t.Errorf("%s %s = %v, want %v (%s)", row[0], row[1], have, want, row[5])
		}
	}
	if len(seen) != len(fit.Screws()) {
		t.Errorf("%d screws have reference rows, %d are known", len(seen), len(fit.Screws()))
	}
}

func TestScrewsAscend(t *testing.T) {
	for i, s := range fit.Screws()[1:] {
		if before := fit.Screws()[i]; s.Diameter <= before.Diameter {
			t.Errorf("%s stands after %s", s.Size, before.Size)
		}
	}
	if s, ok := fit.ScrewNamed("M7"); ok {
		t.Errorf("ScrewNamed(M7) = %v", s)
	}
}

func TestLargestThrough(t *testing.T) {
	for _, test := range []struct {
		name string
		hole float64
		want string
	}{
		{"hole of a servo horn", 2.1, "M2"},
		{"hole of a servo tab", 4.4, "M4"},
		{"exactly the thread", 3, "M3"},
		{"larger than all", 20, "M8"},
		{"too small", 1.9, ""},
		{"not a number", math.NaN(), ""},
	} {
		if s, ok := fit.LargestThrough(test.hole); s.Size != test.want || ok != (test.want != "") {
			t.Errorf("%s: LargestThrough(%v) = %q, %v, want %q", test.name, test.hole, s.Size, ok, test.want)
		}
	}
}
