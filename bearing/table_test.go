package bearing_test

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

func reference(t *testing.T, name string, into any) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "ref", name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// referenceRows reads testdata/ref/bearings.csv as one map per row.
func referenceRows(t *testing.T) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", "ref", "bearings.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil || len(records) < 2 {
		t.Fatalf("bearings.csv: %d rows, %v", len(records), err)
	}
	rows := make([]map[string]string, 0, len(records)-1)
	for _, r := range records[1:] {
		row := map[string]string{}
		for i, head := range records[0] {
			row[head] = r[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	if text == "" {
		return 0
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func find(t *testing.T, designation string) bearing.Bearing {
	t.Helper()
	b, ok := bearing.Find(designation)
	if !ok {
		t.Fatalf("Find(%q): no such row", designation)
	}
	return b
}

// Every cell against testdata/ref/bearings.csv, which names the source of each
// row; every row passes validation and says where it comes from.
func TestTableRows(t *testing.T) {
	rows := referenceRows(t)
	if len(rows) != len(bearing.All()) {
		t.Fatalf("%d rows in the reference, %d in the table", len(rows), len(bearing.All()))
	}
	for _, row := range rows {
		b := find(t, row["designation"])
		a := b.Abutment
		for column, have := range map[string]float64{
			"d": b.Bore, "D": b.Outside, "width": b.Width, "cone": b.ConeWidth, "cup": b.CupWidth, "r_min": b.RMin,
			"e": b.E, "Y": b.Y, "Y0": b.Y0, "a": b.LoadCentre, "C": b.C, "C0": b.C0,
			"da_min": a.DaShaftMin, "db_max": a.DbShaftMax, "Da_max": a.DaHousingMax, "Da_min": a.DaHousingMin, "Db_min": a.DbHousingMin, "Sa": a.Sa, "Sb": a.Sb,
		} {
			if want := number(t, row[column]); have != want {
				t.Errorf("%s: %s = %v, want %v (%s)", b.Designation, column, have, want, row["sources"])
			}
		}
		if string(b.Kind) != row["kind"] || b.Provenance != row["provenance"] {
			t.Errorf("%s: %s, %s, want %s, %s", b.Designation, b.Kind, b.Provenance, row["kind"], row["provenance"])
		}
		if recalled := row["sources"] == "memory"; recalled != (b.Provenance == bearing.Memory) {
			t.Errorf("%s: provenance %q, source %q", b.Designation, b.Provenance, row["sources"])
		}
		if err := b.Validate(); err != nil {
			t.Errorf("%s: %v", b.Designation, err)
		}
	}
}

// The bearings of the figures: 608 in two size lists; 30203 in a maker's table
// (d, D, T, B, C); R4 is 0.25 x 0.625 x 0.196 in.
func TestKnownBearings(t *testing.T) {
	for _, test := range []struct {
		name                 string
		bore, outside, width float64
		seat                 float64
	}{
		{"608", 8, 22, 7, 7},
		{"30203", 17, 40, 13.25, 11},
		{"R4", 0.25 * 25.4, 0.625 * 25.4, 4.978, 4.978},
		{"51106", 30, 47, 11, 2.75},
	} {
		b := find(t, test.name)
		if b.Bore != test.bore || b.Outside != test.outside || b.Width != test.width || b.SeatWidth() != test.seat {
			t.Errorf("%s: %v x %v x %v, seat %v", test.name, b.Bore, b.Outside, b.Width, b.SeatWidth())
		}
	}
}

func TestFindForms(t *testing.T) {
	for _, test := range []struct{ text, want, reason string }{
		{"608-2RS", "608", "seals"},
		{"608ZZ", "608", "shields"},
		{"608 zz c3", "608", "case, shields and clearance"},
		{"62042RS", "6204", "suffix written together"},
		{"6302ZZ", "6302", "a figure 2 before the shields is not a suffix"},
		{"6302-2Z", "6302", "two shields"},
		{"6204 2RS", "6204", "suffix after a space"},
		{"30203 A", "30203", "design letter"},
		{"683", "618/3", "thin series, small bore"},
		{"693ZZ", "619/3", "thin series, shields"},
		{"6800", "61800", "thin series"},
		{"r3-2rs", "R3ZZ", "sealed inch bearings are as wide as shielded ones"},
		{"R3", "R3", "open"},
		{"R4A", "R4A", "letter of the size"},
		{"R4ZZ", "R4", "open and shielded are equally wide"},
		{"  ", "", "nothing asked"},
		{"R", "", "no figures"},
		{"600", "", "not a bearing"},
		{"lamp", "", "not a bearing"},
	} {
		if b, ok := bearing.Find(test.text); b.Designation != test.want || ok != (test.want != "") {
			t.Errorf("Find(%q) = %q, want %q: %s", test.text, b.Designation, test.want, test.reason)
		}
	}
}

func TestNearest(t *testing.T) {
	for _, b := range bearing.All() {
		near, off := bearing.Nearest(b.Bore, b.Outside, b.Width)
		if off != 0 || near.Bore != b.Bore || near.Outside != b.Outside || near.Width != b.Width {
			t.Errorf("Nearest of %s is %s, off by %v", b.Designation, near.Designation, off)
		}
	}
	if near, off := bearing.Nearest(8.02, 21.97, 0); near.Designation != "608" || math.Abs(off-0.03) > 1e-9 {
		t.Errorf("Nearest(8.02, 21.97, any) = %s, %v", near.Designation, off)
	}
}

func TestNamed(t *testing.T) {
	if b, err := bearing.Named("8x22x7"); err != nil || b.Designation != "608" || !b.Measured {
		t.Errorf("Named(8x22x7) = %+v, %v", b, err)
	}
	if b, err := bearing.Named("8.1x22x7"); err != nil || b.Designation != "" || b.Name() != "8.1x22x7" {
		t.Errorf("Named(8.1x22x7) = %+v, %v", b, err)
	}
	for _, text := range []string{"lamp", "8x22", "22x8x7", "0.5x1x0.25", ""} {
		var wrong *check.FieldError
		if b, err := bearing.Named(text); !errors.As(err, &wrong) {
			t.Errorf("Named(%q) = %v, %v, want a FieldError", text, b, err)
		}
	}
}

func TestValidateRefuses(t *testing.T) {
	for _, test := range []struct {
		name  string
		b     bearing.Bearing
		field string
		says  string
	}{
		{"bore not smaller", bearing.Sized(22, 22, 7), "bearing bore", "smaller than the outside"},
		{"swapped", bearing.Sized(22, 8, 7), "bearing bore", "smaller than the outside"},
		{"no width", bearing.Sized(8, 22, 0), "bearing width", "greater than 0"},
		{"negative", bearing.Sized(-8, 22, 7), "bearing bore", "greater than 0"},
		{"not a number", bearing.Sized(8, math.NaN(), 7), "bearing outside diameter", "finite"},
		{"infinite", bearing.Sized(8, math.Inf(1), 7), "bearing outside diameter", "finite"},
		{"22 in instead of 22 mm", bearing.Sized(203.2, 558.8, 177.8), "bearing outside diameter", "from 0 to 300"},
		{"inches", bearing.Sized(0.25, 0.625, 0.196), "bearing bore", "smaller than any bearing"},
		{"bore in inches", bearing.Sized(0.5, 22, 7), "bearing bore", "smaller than any bearing"},
		{"no room for balls", bearing.Sized(21.5, 22, 7), "bearing bore", "two rings"},
		{"a tube", bearing.Sized(8, 22, 30), "bearing width", "larger than the outside"},
		{"tapered without its cup", bearing.Bearing{Kind: bearing.Tapered, Bore: 17, Outside: 40, Width: 13.25}, "cup width", "must be known"},
		{"cup wider than the bearing", bearing.Bearing{Kind: bearing.Tapered, Bore: 17, Outside: 40, Width: 13.25, CupWidth: 14}, "cup width", "from 0 to 13.25"},
	} {
		var wrong *check.FieldError
		if err := test.b.Validate(); !errors.As(err, &wrong) || wrong.Field != test.field || !strings.Contains(wrong.Reason, test.says) || wrong.Remedy == "" {
			t.Errorf("%s: %v, want %s: ...%s...", test.name, err, test.field, test.says)
		}
	}
}

// recode turns decoded JSON into a struct.
func recode(t *testing.T, from, into any) {
	t.Helper()
	data, err := json.Marshal(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, into); err != nil {
		t.Fatal(err)
	}
}

// A size with a unit is no designation; letters for seals and clearance are.
func TestFindRefusesUnits(t *testing.T) {
	for _, text := range []string{"608 in", "608in", "608 mm", "608 furlong", "608 inch"} {
		if b, ok := bearing.Find(text); ok {
			t.Errorf("%q is taken for %s", text, b.Designation)
		}
	}
	for _, text := range []string{"608-2RS", "608ZZ", "608 C3", "608 LLU", "6204 2RS C3"} {
		if _, ok := bearing.Find(text); !ok {
			t.Errorf("%q is not found", text)
		}
	}
}
