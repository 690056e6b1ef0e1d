package bearing_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pintle/bearing"
	"pintle/fit"
	"pintle/geom"
)

// Every row of testdata/ref/bearing-fit-tables.json is compared: standard
// tolerances, deviations, bearing tolerances, the formula beside the table, and the
// classes that guides choose. A table that is new there must be named here.
func TestEveryFitTable(t *testing.T) {
	var ref struct {
		IT       map[string][]float64   `json:"it_table"`
		Ranges   [][2]float64           `json:"ranges"`
		Formula  []formulaRow           `json:"it_formula_check"`
		Up       map[string][]float64   `json:"shaft_up"`
		Lo       map[string][]float64   `json:"shaft_lo"`
		LoFine   map[string][]float64   `json:"shaft_lo_fine"`
		Fine     [][2]float64           `json:"fine_ranges"`
		J        map[string][]float64   `json:"j_shaft"`
		BoreJ    map[string][]float64   `json:"J_hole"`
		Rings    map[string]any         `json:"iso492_normal"`
		Housings []struct{ Cls string } `json:"housing_choice"`
		Shafts   []struct{ Cls string } `json:"shaft_choice"`
	}
	reference(t, "bearing-fit-tables.json", &ref)
	cells := 0
	compare := func(ranges [][2]float64, column []float64, class string, deviation func(bearing.Deviations) float64) {
		t.Helper()
		if len(column) != len(ranges) {
			t.Fatalf("%s: %d cells for %d ranges", class, len(column), len(ranges))
		}
		for i, r := range ranges {
			for _, size := range []float64{max(r[0]+0.01, 0.1), r[1]} { // over and up to
				d, _, err := bearing.ToleranceClass(class, size)
				if err != nil || deviation(d) != column[i] {
					t.Errorf("%s of %v mm: %+v, want %v, %v", class, size, d, column[i], err)
				}
			}
			cells++
		}
	}
	lower := func(d bearing.Deviations) float64 { return d.Lower }
	upper := func(d bearing.Deviations) float64 { return d.Upper }
	for grade, column := range ref.IT {
		compare(ref.Ranges, column, "H"+grade, upper)
	}
	for letter, column := range ref.Up {
		compare(ref.Ranges, column, letter+"7", func(d bearing.Deviations) float64 { return 0 - d.Upper })
	}
	for letter, column := range ref.Lo {
		compare(ref.Ranges, column, letter+"6", lower)
	}
	for letter, column := range ref.LoFine {
		compare(ref.Fine, column, letter+"6", lower)
	}
	for grade, column := range ref.J {
		compare(ref.Ranges, column, "j"+grade, lower)
	}
	for grade, column := range ref.BoreJ {
		compare(ref.Ranges, column, "J"+grade, upper)
	}
	if cells != 10*(len(ref.IT)+len(ref.Up)+len(ref.Lo)+len(ref.J)+len(ref.BoreJ))+16*len(ref.LoFine) || cells < 250 {
		t.Errorf("%d cells compared", cells)
	}
	judgeFormula(t, ref.Formula)
	judgeRings(t, ref.Rings)
	for _, choice := range append(ref.Housings, ref.Shafts...) {
		for class := range strings.SplitSeq(choice.Cls, "/") {
			if _, _, err := bearing.ToleranceClass(class, 22); err != nil {
				t.Errorf("%s, which a guide chooses: %v", class, err)
			}
		}
	}
	named := []string{
		"it_table", "ranges", "it_formula_check", "shaft_up", "shaft_lo", "shaft_lo_fine", "fine_ranges", "j_shaft", "J_hole", "iso492_normal", "housing_choice", "shaft_choice",
		"it_formula", "it_formula_worst", // the formula is written out below, its worst cell is one of the rows
		"hole_rule",                                                        // held by the published cells of bearing-fits.csv
		"table_provenance", "housing_choice_source", "shaft_choice_source", // words
	}
	answered(t, "bearing-fit-tables.json", named)
}

// answered says which keys of a reference file nobody has answered.
func answered(t *testing.T, file string, named []string) {
	t.Helper()
	var all map[string]any
	reference(t, file, &all)
	for key := range all {
		if !slices.Contains(named, key) {
			t.Errorf("%s: %q is neither compared nor out of scope", file, key)
		}
	}
}

type formulaRow struct {
	Range   [2]float64
	Grade   int
	Table   float64
	Formula float64
}

// judgeFormula recomputes i = 0.45 D^(1/3) + 0.001 D, D the geometric mean of the
// range, from 1 mm in the first: the rows print it to 0.01 µm.
func judgeFormula(t *testing.T, rows []formulaRow) {
	t.Helper()
	for _, r := range rows {
		mean := math.Sqrt(max(r.Range[0], 1) * r.Range[1])
		times := []float64{7, 10, 16, 25, 40, 64, 100, 160}[r.Grade-5]
		if i := 0.45*math.Cbrt(mean) + 0.001*mean; !near(times*i, r.Formula, 0.006) {
			t.Errorf("IT%d, %v: formula %v, printed %v", r.Grade, r.Range, times*i, r.Formula)
		}
		if d, _, err := bearing.ToleranceClass("H"+strconv.Itoa(r.Grade), r.Range[1]); err != nil || d.Upper != r.Table {
			t.Errorf("IT%d, %v: %v, table %v, %v", r.Grade, r.Range, d.Upper, r.Table, err)
		}
	}
	if len(rows) != 80 {
		t.Errorf("%d rows of the formula", len(rows))
	}
}

// judgeRings compares the tolerances of bearings of normal class: H6 begins at 0,
// so that a fit ends at the bore's upper deviation plus the ring's tolerance.
func judgeRings(t *testing.T, rings map[string]any) {
	t.Helper()
	for what, fits := range map[string]func(size float64) (bearing.ResultantFit, error){
		"outside": func(size float64) (bearing.ResultantFit, error) { return bearing.FitInHousing("H6", size) },
		"bore":    func(size float64) (bearing.ResultantFit, error) { return bearing.FitOnShaft("h6", size) },
	} {
		for _, row := range rings[what].([]any) {
			r := row.([]any)
			over, upTo, want := r[0].(float64), r[1].(float64), r[2].(float64)
			for _, size := range []float64{over + 0.01, upTo} {
				f, err := fits(size)
				it, _, _ := bearing.ToleranceClass("H6", size)
				have := it.Upper - f.Loosest
				if what == "bore" { // an h shaft ends at 0
					have = f.Tightest
				}
				if err != nil || have != want {
					t.Errorf("%s of %v mm: %v, want %v, %v", what, size, have, want, err)
				}
			}
		}
	}
}

// Every part of testdata/ref/bearing-capacity.json and pressfit.json is compared by
// a test, named here, or out of scope.
func TestEveryCapacityAndPressFitKey(t *testing.T) {
	answered(t, "bearing-capacity.json", []string{
		"worked",              // TestWorkedLives
		"own_vectors_tapered", // TestDynamicLoad, TestStaticLoad
		"s0_table",            // TestStaticLimits: columns normal and non-rotating; quiet and high ask for a running accuracy that print does not promise
		"formulas",            // TestStaticLoad, TestStaticLoadOtherKinds; C0_stress is how makers find C0, which the table quotes
	})
	answered(t, "pressfit.json", []string{
		"worked",                       // TestEveryWorkedPressFit
		"vectors",                      // TestPressFitVectors
		"roughness_loss",               // TestPractice: 0.4 Rz of the later edition
		"maker_effective_interference", // of ground and turned metal seats, from memory: not for a print
		"ring_thickness",               // TestPressFitVectors: RingInner of each vector
	})
}

// testdata/ref/fit-printed.json: a polygon of n chords in a circle of d is narrower
// across its flats by the loss given there to a tenth of a micrometre; pegs are
// drawn so, bores with their flats outside.
func TestEveryFacetRow(t *testing.T) {
	var ref struct {
		Rows []struct{ D, N, Loss float64 } `json:"facet_table"`
	}
	reference(t, "fit-printed.json", &ref)
	if len(ref.Rows) != 28 {
		t.Fatalf("%d rows", len(ref.Rows))
	}
	for _, r := range ref.Rows {
		chord := r.D / 2 * (1 - math.Cos(math.Pi/r.N))
		outside := r.D / 2 * (1/math.Cos(math.Pi/r.N) - 1) // of the corners of a polygon round the circle, the stricter of the two
		peg, bore := geom.Peg(geom.Point{}, r.D, outside*1.0001), geom.Bore(geom.Point{}, r.D, chord)
		flats := 2 * peg.Points[0].Add(peg.Points[1]).Scale(0.5).Len()
		if len(peg.Points) != int(r.N) || !near(r.D-flats, r.Loss, 0.5e-4) {
			t.Errorf("%v mm: %d chords lose %v, want %v and %v", r.D, len(peg.Points), r.D-flats, r.N, r.Loss)
		}
		if flats := 2 * bore.Points[0].Add(bore.Points[1]).Scale(0.5).Len(); !near(flats, r.D, 1e-9) {
			t.Errorf("a bore of %v mm is %v across its flats", r.D, flats)
		}
	}
	answered(t, "fit-printed.json", []string{
		"facet_table",
		"practice",      // TestPractice
		"practice_note", // "common practice, no source"
		"holes",         // what others saw of printed holes, without sizes: no figure to compare but the inscribed polygon, which is the facet table
	})
}

// Habits of the trade in testdata/ref/fit-printed.json, each beside what a plain
// ring does; common practice, no source.
func TestPractice(t *testing.T) {
	var ref struct {
		Practice []struct{ Item, Value string }
	}
	reference(t, "fit-printed.json", &ref)
	ring := func(fitted, plastic, designation string) *bearing.Housing {
		t.Helper()
		spec := lampSpec(t)
		spec.Bearing, spec.Fit, spec.Interference, spec.Material, spec.Flange = find(t, designation), fitted, 0, material(t, plastic), nil
		h, err := bearing.NewHousing(spec)
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	ball, thin := ring(bearing.Press, "PETG", "608"), ring(bearing.Slip, "PETG", "608")
	lost := finding(t, ball.Findings(), "interference-smoothed")
	within := func(v, lo, hi float64) bool { return v >= lo-1e-9 && v <= hi+1e-9 }
	holds := map[string]bool{
		"hole offset, diametral, first guess before a coupon": within(-fit.FirstGuessBore.Offset, 0.1, 0.3),
		"interference for a bearing OD in PLA/PETG/ABS":       within(ball.Interference()/22, 0.002, 0.004) && within(ball.Interference(), 0.05, 0.15),
		"nylon":                          ring(bearing.Press, "PA", "6204").Interference() <= 0.005*47 && material(t, "PA").Moisture > 0,
		"slip seat with adhesive or cap": within(-thin.Interference(), 0.05, 0.15),
		"sustained hoop strain limit":    within(material(t, "PLA").StrainLimit, 0.004, 0.005) && within(material(t, "PETG").StrainLimit, 0.007, 0.01) && within(material(t, "ABS").StrainLimit, 0.007, 0.01) && within(material(t, "PA").StrainLimit, 0.015, 0.02),
		"creep modulus at room temperature after 1000 h": within(ball.Values()["retention_after_creep"].(float64)/ball.Values()["retention"].(float64), 0.3, 0.5),
		"minimum wall":  ball.Wall() >= 4*0.45,
		"elephant foot": (fit.Card{FirstLayerGrowth: 0.1}).BedChamfer() >= 0.3,
		"0.4 Rz of printed walls, Rz four to six times 6 to 18": within(ball.Interference()-lost.Value, 0.4*4*0.006, 0.4*6*0.018),
	}
	for _, p := range ref.Practice {
		ok, known := holds[p.Item]
		if !known || !ok {
			t.Errorf("%q (%s): answered %v, holds %v", p.Item, p.Value, known, ok)
		}
	}
	if len(holds) != len(ref.Practice)+1 || !holds["0.4 Rz of printed walls, Rz four to six times 6 to 18"] {
		t.Errorf("%d habits, %d in the reference; %v", len(holds), len(ref.Practice), holds)
	}
}
