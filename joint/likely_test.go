package joint

import (
	"strings"
	"testing"

	"pintle/check"
)

// A slip of a unit is seen: 20 kgf·cm are 1.96 N·m, a tenth of 20 N·m and ten
// times 20 N·cm; a lamp of 1.9 kg is no 1900 kg.
func TestLikelyValues(t *testing.T) {
	for _, test := range []struct {
		name, from, to, check string
		want                  check.Verdict
	}{
		{"as measured", "", "", "servo-torque-unit", check.Pass},
		{"kg·cm as N·m", `"20kgf.cm"`, "20", "servo-torque-unit", check.Caution},
		{"kg·cm as N·cm", `"20kgf.cm"`, `"20N.cm"`, "servo-torque-unit", check.Caution},
		{"kg·cm as oz·in", `"20kgf.cm"`, `"20oz.in"`, "servo-torque-unit", check.Caution},
		{"as measured", "", "", "load-mass-unit", check.Pass},
		{"grams as kilograms", "mass = 1.9", "mass = 1900", "load-mass-unit", check.Caution},
		{"as measured", "", "", "load-inertia-unit", check.Pass},
		{"kg·cm² as kg·m²", `inertia = { solid = "disc", radius = 90 }`, "inertia = 77", "load-inertia-unit", check.Caution},
		{"left out", `inertia = { solid = "disc", radius = 90 }`, "", "load-inertia-unit", check.Caution},
	} {
		for _, f := range build(t, test.from, test.to).Report.Findings {
			if f.Check == test.check && (f.Verdict != test.want || (f.Remedy == "") != (test.want == check.Pass)) {
				t.Errorf("%s: %s %g is %s, want %s; remedy %q", test.name, f.Check, f.Value, f.Verdict, test.want, f.Remedy)
			}
		}
		findingOf(t, build(t, test.from, test.to), "", test.check)
	}
}

// The slips are seen on a lever and on a bearing's load as well.
func TestLikelyValuesOfLevers(t *testing.T) {
	jaw, err := figure(t, "mayor", `mass = "60g"`, "mass = 60", `"1.8kgf.cm"`, "2.2")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"load-mass-unit", "servo-torque-unit"} {
		if f := findingOf(t, jaw, "", name); f.Verdict != check.Caution || f.Remedy == "" {
			t.Errorf("%s is %s: %q", name, f.Verdict, f.Remedy)
		}
	}
	file := &File{
		Printer: Printer{Material: "PETG"}, Bearings: map[string]Bearing{"neck": {Designation: "608"}},
		Loads:    map[string]Load{"head": {Mass: 600, Axis: "vertical"}},
		Housings: map[string]Housing{"neck": {Bearing: "neck", Fit: "press", Load: "head"}},
	}
	ring, err := Design(file, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if f := findingOf(t, ring, "", "load-mass-unit"); f.Verdict != check.Caution {
		t.Errorf("600 kg on a 608 is %s", f.Verdict)
	}
}

// What the file says of servo, load and motion reaches the drive: 5 of 6 V, 4 µs
// of 2000 for 180 deg, a dry bush of 20 mm under 1.9 kg (0.5 x 0.3 x 18.63 N x
// 20 mm: 0.0559 N·m by hand), a cable, 100 cycles a day.
func TestDriveKeys(t *testing.T) {
	r := build(t,
		"spline_teeth = 25", "spline_teeth = 25\nvoltage = 6\nsupply = 5\ndead_band = 4\nplay = 0.9",
		`axis = "vertical"`, "axis = \"vertical\"\nfriction = { bearing = \"plain\", bore = 20 }\ncable_torque = \"5N.cm\"",
		`law = "cosine"`, "law = \"cosine\"\ncycles_per_day = 100\nstrikes = true")
	v := r.Report.Designs["drive.lamp"]
	for key, want := range map[string]float64{
		"voltage_share": 0.8333, "stall_torque": 1.6344, "resolution_deg": 0.28, "cable_torque": 0.05,
		"friction_torque": 0.0559 + 0.00029, "cycles_a_year": 36500, "lost_motion_deg": 0.4244 + 0.7,
	} {
		if got, ok := v[key].(float64); !ok || got < want*0.998 || got > want*1.002 {
			t.Errorf("%s = %v, want %g", key, v[key], want)
		}
	}
	if f := findingOf(t, r, "", "strike"); !strings.Contains(f.Remedy, "rubber") {
		t.Errorf("strike: %q", f.Remedy)
	}
	if _, err := readChanged(t, `axis = "vertical"`, `friction = { bearing = "magnetic", bore = 3 }`); err == nil || !strings.Contains(err.Error(), "load.lamp.friction.bearing") {
		t.Errorf("a magnetic bearing: %v", err)
	}
}
