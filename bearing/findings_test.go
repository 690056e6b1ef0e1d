package bearing_test

import (
	"math/rand/v2"
	"regexp"
	"strconv"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

func judged(t *testing.T, spec bearing.HousingSpec, name string) check.Finding {
	t.Helper()
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return finding(t, h.Findings(), name)
}

// Limits of the design table, each just inside and just outside: hoop strain PLA
// 0.5 %, PETG and ABS 0.8 %, PA 1.5 % with a caution at 70 % of it; wall 4 beads,
// 0.12 D or 3 mm with a fail below 2 beads (all common practice, no source).
func TestStrainLimits(t *testing.T) {
	for _, test := range []struct {
		material string
		delta    float64 // on 40 mm
		want     check.Verdict
	}{
		{"PLA", 0.14, check.Pass},
		{"PLA", 0.141, check.Caution},
		{"PLA", 0.2, check.Caution},
		{"PLA", 0.201, check.Fail},
		{"PETG", 0.224, check.Pass},
		{"PETG", 0.225, check.Caution},
		{"PETG", 0.32, check.Caution},
		{"PETG", 0.321, check.Fail},
		{"ABS", 0.321, check.Fail},
		{"PA", 0.42, check.Pass},
		{"PA", 0.6, check.Caution},
		{"PA", 0.601, check.Fail},
	} {
		spec := lampSpec(t)
		spec.Material, spec.Interference = material(t, test.material), test.delta
		if f := judged(t, spec, "hoop-strain"); f.Verdict != test.want || !near(f.Value, 100*test.delta/40, 1e-9) {
			t.Errorf("%s, %v mm: %+v, want %s", test.material, test.delta, f, test.want)
		}
	}
}

func TestWallLimits(t *testing.T) {
	for _, test := range []struct {
		name, bearing string
		bead, wall    float64
		want          check.Verdict
	}{
		{"0.12 D", "30203", 0.45, 4.8, check.Pass},
		{"below 0.12 D", "30203", 0.45, 4.79, check.Caution},
		{"3 mm", "608", 0.45, 3, check.Pass},
		{"below 3 mm", "608", 0.45, 2.99, check.Caution},
		{"4 beads", "608", 0.8, 3.2, check.Pass},
		{"below 4 beads", "608", 0.8, 3.19, check.Caution},
		{"2 beads", "608", 0.45, 0.9, check.Caution},
		{"below 2 beads", "608", 0.45, 0.89, check.Fail},
	} {
		spec := lampSpec(t)
		spec.Bearing, spec.Card.BeadWidth, spec.Wall = find(t, test.bearing), test.bead, test.wall
		if f := judged(t, spec, "housing-wall"); f.Verdict != test.want {
			t.Errorf("%s: %+v, want %s", test.name, f, test.want)
		}
	}
}

func TestFindingVerdicts(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(*bearing.HousingSpec)
		check  string
		want   check.Verdict
	}{
		{"hole at Da_max", func(s *bearing.HousingSpec) { s.ShoulderHole = 34.5 }, "shoulder-support", check.Pass},
		{"hole above Da_max", func(s *bearing.HousingSpec) { s.ShoulderHole = 34.6 }, "shoulder-support", check.Fail},
		{"hole at Da_min", func(s *bearing.HousingSpec) { s.ShoulderHole = 33 }, "shoulder-clearance", check.Pass},
		{"hole below Da_min", func(s *bearing.HousingSpec) { s.ShoulderHole = 32.9 }, "shoulder-clearance", check.Fail},
		{"thin shoulder", func(s *bearing.HousingSpec) { s.ShoulderThickness = 1.9 }, "shoulder-thickness", check.Caution},
		{"no room for the lead-in", func(s *bearing.HousingSpec) { s.Wall = 0.9 }, "lead-in", check.Caution},
		{"load presses in", func(s *bearing.HousingSpec) {}, "retention", check.Pass},
		{"no load known", func(s *bearing.HousingSpec) { s.Load = bearing.Load{} }, "retention", check.Caution},
		{"load pulls, a third of what holds", func(s *bearing.HousingSpec) { s.Load.Axial = -11 }, "retention", check.Pass},
		{"load pulls, half of what holds", func(s *bearing.HousingSpec) { s.Load.Axial = -17 }, "retention", check.Caution},
		{"load pulls more than holds", func(s *bearing.HousingSpec) { s.Load.Axial = -37 }, "retention", check.Fail},
		{"moist nylon, load presses in", func(s *bearing.HousingSpec) { s.Material = material(t, "PA") }, "interference-left", check.Caution},
		{"moist nylon, load pulls out", func(s *bearing.HousingSpec) { s.Material, s.Load.Axial = material(t, "PA"), -5 }, "interference-left", check.Fail},
		{"interference below the scatter", func(s *bearing.HousingSpec) { s.Interference = 0.04 }, "interference-scatter", check.Caution},
		{"recalled sizes", func(s *bearing.HousingSpec) { s.Bearing = find(t, "6002") }, "bearing-source", check.Caution},
		{"miniature", func(s *bearing.HousingSpec) { s.Bearing = find(t, "623") }, "bearing-source", check.Caution},
		{"6300 shows a rim", func(s *bearing.HousingSpec) { s.Bearing = find(t, "6300") }, "removal", check.Pass},
		{"6300 behind a small hole", func(s *bearing.HousingSpec) { s.Bearing, s.ShoulderHole = find(t, "6300"), 20 }, "removal", check.Pass},
		{"6300 behind a small hole, no slots wanted", func(s *bearing.HousingSpec) {
			s.Bearing, s.ShoulderHole, s.KnockOut = find(t, "6300"), 20, &bearing.KnockOut{}
		}, "removal", check.Caution},
		{"washer not measured", func(s *bearing.HousingSpec) { s.Bearing, s.Flange = find(t, "51106"), nil }, "seat-depth", check.Caution},
		{"hard press", func(s *bearing.HousingSpec) { s.Interference, s.Wall, s.Material = 0.7, 20, material(t, "PLA") }, "insertion-force", check.Caution},
		{"torn", func(s *bearing.HousingSpec) { s.Interference, s.Material = 0.7, material(t, "PLA") }, "hoop-stress", check.Fail},
		{"flange edge", func(s *bearing.HousingSpec) {}, "edge-distance", check.Pass},
	} {
		spec := lampSpec(t)
		test.change(&spec)
		if f := judged(t, spec, test.check); f.Verdict != test.want || (f.Verdict == check.Fail && f.Remedy == "") {
			t.Errorf("%s: %+v, want %s", test.name, f, test.want)
		}
	}
}

// By hand. Interference left of 0.1 mm on 40 mm: PETG at 40 °C loses (65 - 12.5)e-6
// x 20 K x 40; nylon grows by 1.5 % of 40. The rim of a 30203's cup behind a hole of 33.75: inner
// diameter 0.95 x 177 / 5 less 11 x 0.35 / 1.5.
func TestFindingValues(t *testing.T) {
	spec := lampSpec(t)
	if f := judged(t, spec, "interference-left"); !near(f.Value, 0.1-0.042, 1e-9) {
		t.Errorf("PETG at 40 °C: %+v", f)
	}
	if f := judged(t, spec, "removal"); !near(f.Value, (33.75-33.63+11*0.35/1.5)/2, 1e-9) {
		t.Errorf("rim: %+v", f)
	}
	spec.Material, spec.HottestC = material(t, "PA"), 0
	if f := judged(t, spec, "interference-left"); !near(f.Value, 0.1-0.6, 1e-9) {
		t.Errorf("moist nylon: %+v", f)
	}
}

// A measured bearing is not called recalled.
func TestMeasuredRingHasNoGuess(t *testing.T) {
	spec := lampSpec(t)
	spec.Bearing = find(t, "6002")
	spec.Bearing.Measured = true
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range h.Findings() {
		if f.Check == "bearing-source" {
			t.Errorf("%+v", f)
		}
	}
}

// A remedy that names a number is followed, and the check passes.
func TestRingRemedies(t *testing.T) {
	const seed = 5
	rnd := rand.New(rand.NewPCG(seed, seed))
	follow := []struct {
		says  *regexp.Regexp
		apply func(*bearing.HousingSpec, float64)
	}{
		{regexp.MustCompile(`interference [<>]= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.Interference = v }},
		{regexp.MustCompile(`wall >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.Wall = v }},
		{regexp.MustCompile(`shoulder hole from ([0-9.]+) to`), func(s *bearing.HousingSpec, v float64) { s.ShoulderHole = v }},
		{regexp.MustCompile(`shoulder hole from [0-9.]+ to ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.ShoulderHole = v }},
		{regexp.MustCompile(`shoulder thickness >= ([0-9.]+) mm`), func(s *bearing.HousingSpec, v float64) { s.ShoulderThickness = v }},
	}
	followed := map[string]int{}
	for i := range 500 {
		spec := randomSpec(t, rnd)
		h, err := bearing.NewHousing(spec)
		if err != nil {
			continue
		}
		for _, f := range h.Findings() {
			for _, way := range follow {
				m := way.says.FindStringSubmatch(f.Remedy)
				if m == nil {
					continue
				}
				better := spec
				v, err := strconv.ParseFloat(m[1], 64)
				if err != nil {
					t.Fatalf("seed %d, case %d: %q", seed, i, f.Remedy)
				}
				way.apply(&better, v)
				again, err := bearing.NewHousing(better)
				if err != nil {
					t.Errorf("seed %d, case %d: %s: %q is refused: %v", seed, i, f.Check, f.Remedy, err)
					continue
				}
				if g := finding(t, again.Findings(), f.Check); g.Verdict != check.Pass {
					t.Errorf("seed %d, case %d: %s %v: followed %q, then %+v", seed, i, f.Check, f.Value, f.Remedy, g)
				}
				followed[f.Check]++
			}
		}
	}
	for _, name := range []string{"hoop-strain", "hoop-stress", "interference-scatter", "interference-left", "housing-wall", "lead-in", "shoulder-support", "shoulder-clearance", "shoulder-thickness"} {
		if followed[name] == 0 {
			t.Errorf("no remedy of %s was followed", name)
		}
	}
}

func TestOwnLimits(t *testing.T) {
	spec := lampSpec(t)
	spec.Limits = check.Limits{"housing-wall": {Caution: 6, Fail: 5}, "hoop-strain": {Caution: check.None, Fail: 0.2}}
	for _, name := range []string{"housing-wall", "hoop-strain"} {
		if f := judged(t, spec, name); f.Verdict != check.Fail {
			t.Errorf("own limit of %s: %+v", name, f)
		}
	}
}
