package bearing_test

import (
	"testing"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
)

// The 16 rows of a maker's tapered table (testdata/ref/bearings.csv): the limits
// are the printed ones, and the rule of shoulder heights that other rows rely on
// gives the same Da_max and da_min.
func TestShoulderHeightRecoversTheMakersColumns(t *testing.T) {
	rows := 0
	for _, row := range referenceRows(t) {
		if row["Da_max"] == "" {
			continue
		}
		rows++
		b := find(t, row["designation"])
		lo, hi := bearing.HousingShoulder(b)
		if lo != number(t, row["Da_min"]) || hi != number(t, row["Da_max"]) {
			t.Errorf("%s: %v to %v, want the maker's %s to %s", b.Designation, lo, hi, row["Da_min"], row["Da_max"])
		}
		if min, _ := bearing.ShaftShoulder(b); min > number(t, row["da_min"]) {
			t.Errorf("%s: shaft shoulder from %v, the maker's da_min is %s", b.Designation, min, row["da_min"])
		}
		bare := b
		bare.Abutment = bearing.Abutment{}
		if b.Designation == "32205" {
			bare.RMin = 1 // one maker prints r 1.1, the other's shoulders imply 1
		}
		if _, rule := bearing.HousingShoulder(bare); rule != hi {
			t.Errorf("%s: D - 2h = %v, the maker's Da_max is %v", b.Designation, rule, hi)
		}
		bare.RMin = 0
		if _, rule := bearing.HousingShoulder(bare); !near(rule, hi, 2) { // a guess: h for one chamfer spreads as much
			t.Errorf("%s: chamfer unknown: %v, the maker's Da_max is %v", b.Designation, rule, hi)
		}
	}
	if rows != 16 {
		t.Errorf("%d rows with limits, want 16", rows)
	}
}

// 30203: da_min 22.5 and Da 33 to 34.5 as printed; (2d + D) / 3 = 24.67. 6300:
// a supported ring up to 30.5, the shoulder clear of the land from 18.2 (both
// worked out from seen da 14.2 / Da 30.8, testdata/ref/bearings.csv).
func TestShouldersOfKnownBearings(t *testing.T) {
	lo, hi := bearing.ShaftShoulder(find(t, "30203"))
	if lo != 22.5 || !near(hi, 74.0/3, 1e-9) {
		t.Errorf("30203 shaft shoulder %v to %v", lo, hi)
	}
	lo, hi = bearing.HousingShoulder(find(t, "6300"))
	if !near(lo, 18.2, 0.2) || !near(hi, 30.5, 1e-9) {
		t.Errorf("6300 housing shoulder %v to %v, want about 18.2 to 30.5", lo, hi)
	}
}

// Every row has limits in order, inside its rings.
func TestShouldersAreInOrder(t *testing.T) {
	for _, b := range bearing.All() {
		lo, hi := bearing.HousingShoulder(b)
		if !(b.Bore < lo && lo <= hi && hi < b.Outside) {
			t.Errorf("%s: housing shoulder %v to %v in a ring of %v x %v", b.Designation, lo, hi, b.Bore, b.Outside)
		}
		lo, hi = bearing.ShaftShoulder(b)
		if !(b.Bore < lo && lo <= hi && hi < b.Outside) {
			t.Errorf("%s: shaft shoulder %v to %v in a ring of %v x %v", b.Designation, lo, hi, b.Bore, b.Outside)
		}
	}
}

func TestRulesAreComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range bearing.Rules() {
		if r.Name == "" || r.Meaning == "" || r.Formula == "" || r.Source == "" || r.Change == "" {
			t.Errorf("rule %q is not complete", r.Name)
		}
		if seen[r.Name] {
			t.Errorf("two rules are named %q", r.Name)
		}
		seen[r.Name] = true
		if r.Final != (r.Name == "load-direction") {
			t.Errorf("rule %q: Final = %v", r.Name, r.Final)
		}
	}
	used := map[string]bool{}
	for _, f := range everyFinding(t) {
		if !seen[f.Check] && f.Check != "heat" && f.Check != "fit-unmeasured" {
			t.Errorf("finding %q has no rule", f.Check)
		}
		used[f.Check] = true
	}
	for name := range seen {
		if !used[name] {
			t.Errorf("rule %q is never used", name)
		}
	}
}

// everyFinding returns findings of a ring and loads that use every rule.
func everyFinding(t *testing.T) []check.Finding {
	t.Helper()
	var all []check.Finding
	spec := lampSpec(t)
	spec.Bearing = find(t, "618/8")
	spec.Flange.Thickness = 3
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	all = append(all, h.Findings()...)
	m2, _ := fit.ScrewNamed("M2")
	for _, change := range []func(*bearing.HousingSpec){
		func(s *bearing.HousingSpec) { s.Cap = &bearing.Cap{Screw: m2, Count: 4} },
		func(s *bearing.HousingSpec) { s.Lip = &bearing.Lip{} },
		func(s *bearing.HousingSpec) { s.Fit = bearing.CrushRibs },
		func(s *bearing.HousingSpec) { s.Fit = "N7" },
		func(s *bearing.HousingSpec) { s.MeasuredSeat = []float64{s.Bearing.Outside - 0.2} },
		func(s *bearing.HousingSpec) { s.Bearing = find(t, "51106") },
		func(s *bearing.HousingSpec) {
			s.Cooling, s.Rod = 40, &bearing.RodSpec{Flat: 1.5, FlatLength: 10, Torque: 1}
		},
		func(s *bearing.HousingSpec) { s.Fit, s.Flange, s.Clamp = bearing.Slip, nil, &bearing.Clamp{Screw: m2} },
	} {
		spec := lampSpec(t)
		change(&spec)
		h, err := bearing.NewHousing(spec)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, h.Findings()...)
	}
	for _, name := range []string{"608", "30203", "51106"} {
		all = append(all, bearing.CheckLoad(find(t, name), lamp(4), nil)...)
	}
	cone := find(t, "30203")
	all = append(all, bearing.CheckLoad(cone, bearing.Load{Axial: 20, Radial: 5, Second: &cone, Span: 40, RPM: 30}, nil)...)
	rod, err := bearing.OnRod(cone, "", false, 21, nil)
	if err != nil {
		t.Fatal(err)
	}
	all = append(all, rod.Findings...)
	_, found, err := bearing.Measured(find(t, "608"), bearing.Sizes{Bore: 8.1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return append(all, found...)
}
