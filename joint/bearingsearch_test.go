package joint_test

import (
	"errors"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/joint"
	"pintle/quantity"
)

// Rows by the ways people ask for them. The sizes are those of bearing's table,
// which its own tests hold against testdata/ref/bearings.csv.
func TestSearchBearings(t *testing.T) {
	for _, test := range []struct {
		why, text string
		first     string // designation
		count     int    // of rows, or -1 for several
	}{
		{"everything", "", "", len(bearing.All())},
		{"designation", "608", "608", 1},
		{"seals do not matter", "608-2RS", "608", 1},
		{"small letters", "r4", "R4", -1},
		{"beginning of a designation", "302", "30202", -1},
		{"kind", "tapered", "30202", -1},
		{"three sizes", "8x22x7", "608", 1},
		{"two sizes", "17 x 40", "6203", -1},
		{"the other sign", "8×22×7", "608", 1},
		{"a worn bearing", "8.1x21.8x6.9", "608", 1},
		{"inches: R4 is 1/4 x 5/8 x 0.196", "0.25in x 0.625in x 0.196in", "R4", 1},
		{"read with a ruler", "about 8 x 22.6 x 7", "608", -1},
		{"bore, rows from a source first", "bore 8", "608", -1},
		{"outside with a unit", "outside 22mm", "", -1},
		{"bore or outside in inches", `0.25"`, "R4", -1},
	} {
		t.Run(test.why, func(t *testing.T) {
			found, nearest, err := joint.SearchBearings(test.text)
			if err != nil || nearest != nil || len(found) == 0 {
				t.Fatalf("%d rows, nearest %v, %v", len(found), nearest, err)
			}
			if test.first != "" && found[0].Designation != test.first {
				t.Errorf("first is %s, want %s", found[0].Designation, test.first)
			}
			if test.count >= 0 && len(found) != test.count || test.count < 0 && len(found) < 2 {
				t.Errorf("%d rows, want %d", len(found), test.count)
			}
			seen := map[string]bool{}
			for _, b := range found {
				if seen[b.Designation] {
					t.Errorf("%s is there twice", b.Designation)
				}
				seen[b.Designation] = true
			}
		})
	}
}

// Every row is found by its own designation and sizes, which then come first.
func TestSearchFindsEveryRow(t *testing.T) {
	for _, b := range bearing.All() {
		if found, _, err := joint.SearchBearings(b.Designation); err != nil || found[0].Designation != b.Designation {
			t.Errorf("%s: %v", b.Designation, err)
		}
		sizes := check.Number(b.Bore) + "mm x " + check.Number(b.Outside) + "mm x " + check.Number(b.Width) + "mm"
		found, _, err := joint.SearchBearings(sizes)
		if err != nil || len(found) == 0 {
			t.Errorf("%s: %d rows, %v", sizes, len(found), err)
			continue
		}
		if f := found[0]; f.Bore != b.Bore || f.Outside != b.Outside || f.Width != b.Width {
			t.Errorf("%s (%s): first is %s", sizes, b.Designation, f.Designation)
		}
	}
}

func TestSearchBearingsFindsNone(t *testing.T) {
	for _, test := range []struct{ text, nearest string }{
		{"8x22x8", "608"},
		{"about 11.2 x 23 x 9.5", "51100"},
		{"outside 1000", "6312"},
		{"6O8", "608"}, // the letter O
		{"30230", "30203"},
		{"wheelbarrow", ""},
	} {
		found, nearest, err := joint.SearchBearings(test.text)
		if err != nil || len(found) > 0 {
			t.Errorf("%s: %d rows, %v", test.text, len(found), err)
		}
		switch {
		case nearest == nil && test.nearest != "":
			t.Errorf("%s: nothing near, want %s", test.text, test.nearest)
		case nearest != nil && nearest.Designation != test.nearest:
			t.Errorf("%s: nearest %s, want %q", test.text, nearest.Designation, test.nearest)
		}
	}
	for _, text := range []string{"8x22,5x7", "8x22furlong", "1x2x3x4", "about eight", "bore -3", "8xx7", "0x22", "0.315x0.866", "bore 0.25"} {
		_, _, err := joint.SearchBearings(text)
		var read *quantity.Error
		var field *check.FieldError
		if !errors.As(err, &read) && !errors.As(err, &field) {
			t.Errorf("%s: error %v", text, err)
		} else if strings.Contains(err.Error(), "NaN") {
			t.Errorf("%s: %v", text, err)
		}
	}
}
