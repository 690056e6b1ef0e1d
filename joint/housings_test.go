package joint

import (
	"math"
	"os"
	"strings"
	"testing"

	"pintle/check"
)

const rings = `format = "pintle-joint/1"
[printer]
material = "PETG"
[bearing.a]
designation = "608"
[bearing.t]
designation = "51106"
washer_bore = 32
`

func designed(t *testing.T, text string) (*Result, error) {
	t.Helper()
	file, err := Read("x.toml", []byte(rings+text))
	if err != nil {
		t.Fatal(err)
	}
	return Design(file, Options{Tool: "pintle test"})
}

// Every key of a housing reaches its ring: the parts are made, and the report
// holds what was asked for.
func TestHousingKeys(t *testing.T) {
	result, err := designed(t, `
[housing.cap]
bearing = "a"
mount = { kind = "foot", screw_size = "M4", screw_count = 2, thickness = 4 }
retention = { kind = "cap", screw_size = "M2", screw_count = 4, thickness = 3.5 }
pressing_disc = true
inspection_slots = 3
shoulder_thickness = 4
[housing.lip]
bearing = "a"
fit = "crush-ribs"
ribs = { count = 6, height = 0.35 }
retention = { kind = "lip", height = 0.12 }
knock_out = { count = 2, width = 3 }
corner_relief = { width = 0.5, depth = 0.4 }
shoulder_hole = 17
[housing.tube]
bearing = "a"
fit = "N7"
bore_depth = 30
[housing.base]
bearing = "t"
rod = { class = "g6", slides = true, shoulder = 45, flat = 3, flat_length = 20, torque = "0.5 Nm" }
[housing.slit]
bearing = "a"
mount = { kind = "clamp", screw_size = "M2.5", thickness = 7.2, nut = true, slit = 2.5 }
[place]
coldest = -10
`)
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]bool{}
	for _, p := range result.Report.Parts {
		parts[p.Name] = true
	}
	for _, name := range []string{"cap-ring", "cap-cap", "cap-pressing-disc", "lip-ring", "tube-ring", "base-ring"} {
		if !parts[name] {
			t.Errorf("no part %s among %v", name, parts)
		}
	}
	cold, closed := 0, 0
	for _, f := range result.Report.Findings {
		switch {
		case f.Check == "cold-strain" && f.Value > 0:
			cold++
		case strings.HasPrefix(f.Check, "mesh") && f.Design == "housing.slit" && f.Verdict == check.Pass:
			closed++
		}
	}
	if cold != 4 || closed == 0 {
		t.Errorf("%d rings strained by cold, %d proofs of the clamp's mesh", cold, closed)
	}
	for _, test := range []struct {
		design, key string
		want        any
	}{
		{"cap", "foot_thickness", 4.0},
		{"cap", "screw_size", "M4"},
		{"cap", "cap_screw_size", "M2"},
		{"cap", "seat_height", 4.0},
		{"lip", "rib_count", 6},
		{"lip", "rib_height", 0.35},
		{"lip", "lip_height", 0.12},
		{"lip", "knock_out_width", 3.0},
		{"lip", "corner_relief_width", 0.5},
		{"lip", "shoulder_hole", 17.0},
		{"tube", "bore_depth", 30.0},
		{"tube", "seat_lower_um", -28.0},
		{"base", "shoulder_hole_min", 32.0},
		{"base", "rod_class", "g6"},
		{"base", "flat_across", 27.0},
		{"slit", "fit", "slip"},
		{"slit", "slit_width", 2.5},
		{"slit", "ear_thickness", 7.2},
		{"slit", "captive_nut", true},
		{"slit", "screw_size", "M2.5"},
	} {
		if have := result.Report.Designs["housing."+test.design][test.key]; have != test.want {
			t.Errorf("%s %s = %v, want %v", test.design, test.key, have, test.want)
		}
	}
}

// A refusal names the line of the key that holds the quantity.
func TestHousingErrorsHaveAPlace(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"no screws of the cap", "retention = { kind = \"cap\", screw_count = 0 }", "x.toml:11:43: housing.h.retention.screw_count"},
		{"too many slots", "knock_out = { count = 9 }", "x.toml:11:23: housing.h.knock_out.count"},
		{"short tube", "bore_depth = 3", "x.toml:11:14: housing.h.bore_depth"},
		{"no wall at all", "wall = 0", "x.toml:11:8: housing.h.wall"},
		{"no lip at all", "retention = { kind = \"lip\", height = 0 }", "x.toml:11:38: housing.h.retention.height"},
		{"two clamp screws", "mount = { kind = \"clamp\", screw_count = 2 }", "x.toml:11:41: housing.h.mount.screw_count"},
		{"clamp in a press fit", "fit = \"press\"\nmount = { kind = \"clamp\" }", "x.toml:11:7: housing.h.fit"},
		{"unknown class of the rod", "rod = { class = \"N7\" }", "x.toml:11:17: housing.h.rod.class"},
		{"flat deeper than the rod", "rod = { flat = 6, flat_length = 5 }", "x.toml:11:16: housing.h.rod.flat"},
		{"ribs of no height", "fit = \"crush-ribs\"\nribs = { count = 6, height = 0 }", "x.toml:12:30: housing.h.ribs.height"},
		{"slots of no width", "knock_out = { count = 2, width = 0 }", "x.toml:11:34: housing.h.knock_out.width"},
		{"a relief of no depth", "corner_relief = { width = 0.4, depth = 0 }", "x.toml:11:40: housing.h.corner_relief.depth"},
		{"no flat", "rod = { flat = 0, flat_length = 5 }", "x.toml:11:16: housing.h.rod.flat"},
		{"a flat of no length", "rod = { flat = 1, flat_length = 0 }", "x.toml:11:33: housing.h.rod.flat_length"},
		{"no torque", "rod = { flat = 1, flat_length = 5, torque = 0 }", "x.toml:11:45: housing.h.rod.torque"},
		{"no collar", "rod = { shoulder = 0 }", "x.toml:11:20: housing.h.rod.shoulder"},
		{"bearings at one place", "second_bearing = \"t\"\nspan = 0", "x.toml:12:8: housing.h.span"},
		{"standing still", "rpm = 0", "x.toml:11:7: housing.h.rpm"},
		{"ribs in a press fit", "ribs = { count = 6 }", "x.toml:11:18: housing.h.ribs.count"},
	} {
		_, err := designed(t, "[housing.h]\nbearing = \"a\"\n"+test.text+"\n")
		if err == nil || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%s: %v, want %s", test.name, err, test.want)
		}
	}
	for _, test := range []struct{ name, text, want string }{
		{"span is missing", "second_bearing = \"a\"", `"span" is missing`},
		{"no such second bearing", "second_bearing = \"b\"\nspan = 20", "there is no [bearing.b]"},
		{"unknown retention", "retention = { kind = \"glue\" }", "lip, cap"},
		{"unknown running", "running = \"wild\"", "smooth, normal, shock"},
	} {
		_, err := Read("x.toml", []byte(rings+"[housing.h]\nbearing = \"a\"\n"+test.text+"\n"))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %s", test.name, err, test.want)
		}
	}
}

// A ring that carries no wheel names its load: 2 kg hanging from a 608 pull its
// ring out, and turning at 60 rpm its life is told (capacity in the table). Without
// a load nothing is judged, and a ring under a wheel has its load from there.
func TestRingLoad(t *testing.T) {
	const hung = "[load.sign]\nmass = 2\naxis = \"inverted\"\n[housing.h]\nbearing = \"a\"\nretention = { kind = \"cap\", screw_size = \"M2\", screw_count = 4 }\n"
	seen := func(text string) map[string]check.Finding {
		t.Helper()
		result, err := designed(t, text)
		if err != nil {
			t.Fatal(err)
		}
		all := map[string]check.Finding{}
		for _, f := range result.Report.Findings {
			all[f.Check] = f
		}
		return all
	}
	loaded := seen(hung + "load = \"sign\"\nrpm = 60\n")
	if f := loaded["load-direction"]; f.Verdict != check.Caution || math.Abs(f.Value+2*9.80665) > 1e-3 {
		t.Errorf("a hanging load: %+v", f)
	}
	if loaded["rating-life"].Value == 0 {
		t.Error("a bearing that turns has no life")
	}
	if free := seen(hung); free["load-direction"].Check != "" {
		t.Errorf("no load was named: %+v", free["load-direction"])
	}
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := Read("l.toml", []byte(strings.Replace(string(data), "[housing.lamp]", "[housing.lamp]\nload = \"lamp\"", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Design(file, Options{Tool: "pintle test"}); err == nil || !strings.Contains(err.Error(), "housing.lamp.load") {
		t.Errorf("a load beside that of the wheel: %v", err)
	}
}

// A second bearing on the lighthouse's axis takes its moment: nothing tips, and
// the pair is judged instead.
func TestSecondBearing(t *testing.T) {
	result := build(t, "[housing.lamp]", "[bearing.guide]\ndesignation = \"6003\"\n\n[housing.lamp]\nsecond_bearing = \"guide\"\nspan = 30")
	seen := map[string]check.Verdict{}
	for _, f := range result.Report.Findings {
		if f.Design == "bearing.lamp" {
			seen[f.Check] = f.Verdict
		}
	}
	if _, tips := seen["tipping"]; tips || seen["bearing-span"] == "" {
		t.Errorf("findings of the lamp's bearing: %v", seen)
	}
}
