package bearing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

func TestMeasuredOverridesTheRow(t *testing.T) {
	named := find(t, "30203")
	b, found, err := bearing.Measured(named, bearing.Sizes{Outside: 40.05, CupWidth: 11.1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if b.Outside != 40.05 || b.CupWidth != 11.1 || b.Bore != 17 || !b.Measured || b.Designation != "30203" {
		t.Errorf("measured bearing: %+v", b)
	}
	if b.Abutment != named.Abutment {
		t.Error("0.05 mm took the maker's shoulder limits away")
	}
	if len(found) != 1 || found[0].Verdict != check.Pass || math.Abs(found[0].Value-0.1) > 1e-9 {
		t.Errorf("findings: %+v", found)
	}
}

// A bearing that is not the one it was named keeps its measured sizes, loses the
// limits of the other one, and is told what it looks like.
func TestMeasuredStrays(t *testing.T) {
	for _, test := range []struct {
		name    string
		named   string
		sizes   bearing.Sizes
		verdict check.Verdict
		remedy  string
	}{
		{"just within", "608", bearing.Sizes{Outside: 22.19}, check.Pass, ""},
		{"just beyond", "608", bearing.Sizes{Outside: 22.21}, check.Caution, "measure again"},
		{"an inch bearing named metric", "608", bearing.Sizes{Bore: 6.35, Outside: 15.88, Width: 4.98}, check.Caution, "looks like a R4 "},
		{"width of the wrong series", "6000", bearing.Sizes{Bore: 10, Outside: 30, Width: 9}, check.Caution, "looks like a 6200 "},
	} {
		b, found, err := bearing.Measured(find(t, test.named), test.sizes, nil)
		if err != nil || len(found) != 1 {
			t.Errorf("%s: %v, %v", test.name, found, err)
			continue
		}
		f := found[0]
		if f.Check != "bearing-measured" || f.Verdict != test.verdict || !strings.Contains(f.Remedy, test.remedy) {
			t.Errorf("%s: %+v, want %s with a remedy that says %q", test.name, f, test.verdict, test.remedy)
		}
		if b.Outside != test.sizes.Outside {
			t.Errorf("%s: outside %v is not the measured one", test.name, b.Outside)
		}
	}
}

func TestMeasuredDropsForeignLimits(t *testing.T) {
	b, _, err := bearing.Measured(find(t, "30203"), bearing.Sizes{Outside: 42}, nil)
	if err != nil || b.Abutment != (bearing.Abutment{}) {
		t.Errorf("limits of a 40 mm cup kept for one of 42 mm: %+v, %v", b.Abutment, err)
	}
}

func TestMeasuredRefuses(t *testing.T) {
	for _, sizes := range []bearing.Sizes{{Outside: math.NaN()}, {Bore: -1}, {Bore: 50}, {CupWidth: 20}, {CupWidth: math.NaN()}} {
		var wrong *check.FieldError
		if b, _, err := bearing.Measured(find(t, "30203"), sizes, nil); !errors.As(err, &wrong) {
			t.Errorf("%+v: %+v, %v", sizes, b, err)
		}
	}
}

// Nothing measured, nothing said; a user's own limit is used.
func TestMeasuredLimits(t *testing.T) {
	b, found, err := bearing.Measured(find(t, "608"), bearing.Sizes{}, nil)
	if err != nil || b.Measured || len(found) != 0 {
		t.Errorf("nothing measured: %+v, %v, %v", b, found, err)
	}
	limits := check.Limits{"bearing-measured": {Caution: 0.05, Fail: check.None}}
	_, found, _ = bearing.Measured(find(t, "608"), bearing.Sizes{Outside: 22.1}, limits)
	if len(found) != 1 || found[0].Verdict != check.Caution {
		t.Errorf("own limit of 0.05 mm: %+v", found)
	}
}

// Sizes alone that come near to a row say so and stay as they are; far from all
// rows nothing is said.
func TestSizesAloneResemble(t *testing.T) {
	b, found, err := bearing.Measured(bearing.Bearing{}, bearing.Sizes{Bore: 8, Outside: 22.05, Width: 6.9}, nil)
	if err != nil || len(found) != 1 || found[0].Verdict != check.Note || !strings.Contains(found[0].Detail, "looks like a 608 ") || !near(found[0].Value, 0.1, 1e-9) {
		t.Errorf("%+v, %v", found, err)
	}
	if b.Outside != 22.05 || b.Kind != bearing.Unknown || !b.BoreMeasured {
		t.Errorf("%+v", b)
	}
	if _, found, err := bearing.Measured(bearing.Bearing{}, bearing.Sizes{Bore: 9.5, Outside: 33, Width: 8}, nil); err != nil || len(found) != 0 {
		t.Errorf("%+v, %v", found, err)
	}
}
