package bearing_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

// Every published cell and resultant fit of testdata/ref/bearing-fits.csv, which
// names the source of each. The cells marked there as misprints must differ.
func TestPublishedFits(t *testing.T) {
	file, err := os.Open("../testdata/ref/bearing-fits.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	count := map[string]int{}
	for _, r := range records[1:] {
		class, size, lower, upper := r[1], number(t, r[2]), number(t, r[3]), number(t, r[4])
		var have bearing.Deviations
		if r[0] == "resultant" {
			f, err := bearing.FitInHousing(class, size)
			if err != nil {
				t.Errorf("%s in %v mm: %v", class, size, err)
			}
			have = bearing.Deviations{Lower: f.Tightest, Upper: f.Loosest}
		} else if have, _, err = bearing.ToleranceClass(class, size); err != nil {
			t.Errorf("%s %v: %v", class, size, err)
		}
		// Half a micrometre: sources print whole ones, JS and j half-way.
		same := near(have.Lower, lower, 0.5) && near(have.Upper, upper, 0.5)
		if misprint := r[5] != ""; same == misprint {
			t.Errorf("%s %v %s: %+v, want %v to %v, misprint %q (%s)", r[0], size, class, have, lower, upper, r[5], r[6])
		}
		count[r[0]+r[5]]++
	}
	if count["limits"] < 300 || count["resultant"] != 108 {
		t.Errorf("cells compared: %v", count)
	}
}

// Ten spot values seen in printed tables, in µm; the resultant fits follow from
// them with the normal class of ISO 492.
func TestSpotFits(t *testing.T) {
	for _, test := range []struct {
		class        string
		size         float64
		lower, upper float64
	}{
		{"H7", 50, 0, 25},
		{"p6", 50, 26, 42},
		{"N7", 52, -39, -9},
		{"P7", 52, -51, -21},
		{"K7", 22, -15, 6},
		{"J7", 47, -11, 14},
		{"k6", 25, 2, 15},
		{"m6", 40, 9, 25},
		{"r6", 60, 41, 60},
		{"g6", 20, -20, -7},
		{"H11", 34, 0, 160}, // Shigley, 9th ed., example 7-7
	} {
		if d, _, err := bearing.ToleranceClass(test.class, test.size); err != nil || d != (bearing.Deviations{Lower: test.lower, Upper: test.upper}) {
			t.Errorf("%v %s: %+v, %v", test.size, test.class, d, err)
		}
	}
	if f, err := bearing.FitInHousing("N7", 52); err != nil || f != (bearing.ResultantFit{Tightest: -39, Loosest: 4}) {
		t.Errorf("52 in N7: %+v, %v", f, err)
	}
	if f, err := bearing.FitInHousing("P7", 22); err != nil || f != (bearing.ResultantFit{Tightest: -35, Loosest: -5}) {
		t.Errorf("22 in P7: %+v, %v", f, err)
	}
	// A bore of 25 mm (-10 to 0) on k6 (+2 to +15): 2 to 25 µm of interference.
	if f, err := bearing.FitOnShaft("k6", 25); err != nil || f != (bearing.ResultantFit{Tightest: -25, Loosest: -2}) {
		t.Errorf("25 on k6: %+v, %v", f, err)
	}
}

// The formula of ISO 286-1: i = 0.45 D^(1/3) + 0.001 D with D the geometric mean
// of the range, IT5 to IT12 = 7, 10, 16, 25, 40, 64, 100, 160 i. The table follows
// it within 9 % above 3 mm.
func TestTolerancesMeetTheFormula(t *testing.T) {
	over := 3.0
	for _, upTo := range []float64{6, 10, 18, 30, 50, 80, 120, 180, 250} {
		mean := math.Sqrt(over * upTo)
		i := 0.45*math.Cbrt(mean) + 0.001*mean
		for n, times := range []float64{7, 10, 16, 25, 40, 64, 100, 160} {
			class := []string{"H5", "H6", "H7", "H8", "H9", "H10", "H11", "H12"}[n]
			d, _, err := bearing.ToleranceClass(class, upTo)
			if err != nil || math.Abs(times*i/d.Upper-1) > 0.09 {
				t.Errorf("%s up to %v mm: %v, formula %v, %v", class, upTo, d.Upper, times*i, err)
			}
		}
		over = upTo
	}
}

func TestToleranceClassRefuses(t *testing.T) {
	for _, test := range []struct {
		class string
		size  float64
	}{
		{"", 20},
		{"I7", 20},
		{"N17", 20},
		{"J5", 20},
		{"j8", 20},
		{"K9", 20},
		{"ZC7", 20},
		{"N7", 251},
		{"N7", 0},
		{"N7", math.NaN()},
	} {
		var wrong *check.FieldError
		if d, _, err := bearing.ToleranceClass(test.class, test.size); !errors.As(err, &wrong) || wrong.Remedy == "" {
			t.Errorf("%q of %v mm: %+v, %v", test.class, test.size, d, err)
		}
	}
	for _, err := range []error{
		second(bearing.FitInHousing("h6", 22)), second(bearing.FitOnShaft("N7", 22)), second(bearing.FitInHousing("N7", 2)),
	} {
		var wrong *check.FieldError
		if !errors.As(err, &wrong) {
			t.Errorf("%v", err)
		}
	}
}

func second[T any](_ T, err error) error { return err }
