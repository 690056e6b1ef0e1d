package grille

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// reference reads a table under testdata/ref; its sources stand in the file.
func reference(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "ref", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func rows(t *testing.T, name string) [][]string {
	t.Helper()
	all, err := csv.NewReader(strings.NewReader(string(reference(t, name)))).ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	return all[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// patternOf names the pattern of a code's letters for shape and arrangement.
func patternOf(letters string) string {
	return map[string]string{"RT": RoundStaggered, "RU": RoundInline, "CU": Square, "HT": Hexagon, "LZ": Slot}[letters]
}

// Open area, bars and holes per square metre against testdata/ref/perforation.json.
func TestOpenAreaOfPatterns(t *testing.T) {
	var ref struct {
		Rows []struct {
			Code      string
			Open      float64 `json:"open_pct"`
			Web       float64
			PerMetre2 float64 `json:"per_m2"`
		} `json:"computed_metric"`
	}
	if err := json.Unmarshal(reference(t, "perforation.json"), &ref); err != nil || len(ref.Rows) == 0 {
		t.Fatal(len(ref.Rows), err)
	}
	const tol = 1e-12 // relative: a few roundings
	for _, row := range ref.Rows {
		split := strings.IndexAny(row.Code[1:], "TU") + 1
		hole, pitch := number(t, row.Code[1:split]), number(t, row.Code[split+1:])
		pattern := patternOf(row.Code[:1] + row.Code[split:split+1])
		l, s := latticeOf(pattern, pitch, 0), shapeOf(pattern, hole, 0)
		if got := 100 * s.area / l.share(); math.Abs(got-row.Open) > tol*100 {
			t.Errorf("%s: open area %.15g %%, want %.15g", row.Code, got, row.Open)
		}
		if got := l.bar(s); math.Abs(got-row.Web) > tol*pitch {
			t.Errorf("%s: bar %.15g mm, want %g", row.Code, got, row.Web)
		}
		if got := 1e6 / l.share(); math.Abs(got-row.PerMetre2) > tol*row.PerMetre2 {
			t.Errorf("%s: %.15g holes per m², want %.15g", row.Code, got, row.PerMetre2)
		}
	}
}

// Printed rows of perforators; they are rounded or cut off to a whole per cent.
func TestOpenAreaAsPublished(t *testing.T) {
	for _, row := range rows(t, "perforation-published.csv") {
		hole, pitch := number(t, row[0])*25.4, number(t, row[1])*25.4
		got := 100 * shapeOf(RoundStaggered, hole, 0).area / latticeOf(RoundStaggered, pitch, 0).share()
		if want := number(t, row[3]); math.Abs(got-want) >= 1 {
			t.Errorf("%s in on %s in: %.3f %%, printed %g", row[0], row[1], got, want)
		}
	}
}

// A square pattern turned by 45 degrees keeps its bars and its open area
// (elementary: turning changes no distance).
func TestSquareDiagonalIsSquareTurned(t *testing.T) {
	for _, pattern := range []string{Square, SquareDiagonal} {
		l, s := latticeOf(pattern, 5, 0), shapeOf(pattern, 4, 0)
		if bar := l.bar(s); math.Abs(bar-1) > 1e-12 {
			t.Errorf("%s: bar %.15g mm, want 1", pattern, bar)
		}
		if open := s.area / l.share(); math.Abs(open-0.64) > 1e-12 {
			t.Errorf("%s: open share %.15g, want 0.64", pattern, open)
		}
	}
}

// Bars between slots are closed forms: side by side, end to end, and from the
// end of one to the end of the next row's.
func TestBarsBetweenSlots(t *testing.T) {
	for _, test := range []struct {
		name                       string
		width, length, pitch, ends float64
		want                       float64
	}{
		{"side by side", 3, 12, 4, 40, 1},
		{"end to end", 3, 12, 30, 13, 1},
		{"staggered, ends apart by 3 and 4", 3, 12, 6, 26, 5 - 3},
		{"staggered, overlapping rows", 3, 12, 8, 14, 4 - 3},
	} {
		if got := latticeOf(Slot, test.pitch, test.ends).bar(shapeOf(Slot, test.width, test.length)); math.Abs(got-test.want) > 1e-12 {
			t.Errorf("%s: bar %.15g mm, want %g", test.name, got, test.want)
		}
	}
}

// Transparency index against testdata/ref/perforation-acoustic.json.
func TestTransparencyIndex(t *testing.T) {
	var ref struct {
		Computed []struct {
			Hole, Pitch, T, TI float64
			Pattern            string
		}
	}
	if err := json.Unmarshal(reference(t, "perforation-acoustic.json"), &ref); err != nil || len(ref.Computed) == 0 {
		t.Fatal(len(ref.Computed), err)
	}
	for _, row := range ref.Computed {
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Disc, Diameter: 60}, Pattern: patternOf("R" + row.Pattern),
			Hole: row.Hole, Pitch: row.Pitch, Thickness: row.T, Card: card(),
		})
		if got := g.TransparencyIndex(); math.Abs(got-row.TI) > 1e-11*row.TI {
			t.Errorf("R%g%s%g t %g: index %.12g, want %.12g", row.Hole, row.Pattern, row.Pitch, row.T, got, row.TI)
		}
	}
}
