package joint

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"

	"pintle/check"
	"pintle/export"
	"pintle/mesh"
)

func carousel(t *testing.T, changes ...string) (*Result, error) {
	t.Helper()
	data, err := os.ReadFile("../testdata/carousel.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("the carousel has no %q to change", changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	file, err := Read("carousel.toml", []byte(text))
	if err != nil {
		return nil, err
	}
	return Design(file, Options{Tool: "pintle test"})
}

// The figures of the carousel by hand: key of 12 mm after ISO 773 (4 x 4, 2.5 in
// the shaft, 1.8 in the hub); its side, 4 - 2.5 mm high, 20 mm long, at half the
// strength of 44 MPa, carries 22 x 1.5 x 20 x 6 mm = 3.96 N·m. The D of 6 mm,
// 5.4 over the flat, has a flat 2 sqrt(0.6 x 5.4) = 3.6 mm wide, and 22 x L x
// 3.6² / 12 with L = 12 and what the set screw needs of hub. The stall of 3.5
// kgf·cm is 0.34323 N·m, 72/20 of it on the wheel.
func TestCarousel(t *testing.T) {
	r, err := carousel(t)
	if err != nil {
		t.Fatal(err)
	}
	if failed := r.Failed(); len(failed) > 0 {
		t.Fatalf("%+v", failed)
	}
	v := r.Report.Designs["gears.turntable"]
	number := func(key string) float64 {
		x, ok := v[key].(float64)
		if !ok {
			t.Fatalf("%s is missing", key)
		}
		return x
	}
	for _, q := range []struct {
		key       string
		want, tol float64
	}{
		{"key_width2", 4, 0},
		{"key_hub_depth2", 1.8, 0},
		{"shaft_torque2", 3.96, 1e-9},
		{"flat_depth1", 0.6, 1e-9},
		{"flat_width1", 3.6, 1e-9},
		{"shaft_torque1", 22 * (12 + number("hub_length1")) * 3.6 * 3.6 / 12 / 1000, 1e-9},
		{"rim2", 2.5, 1e-9}, // 2 m
		{"web2", 3.5, 0},
	} {
		if got := number(q.key); math.Abs(got-q.want) > q.tol {
			t.Errorf("%s = %g, want %g", q.key, got, q.want)
		}
	}
	if f := findingOf(t, r, "turntable-wheel", "shaft-torque"); f.Verdict != check.Pass || math.Abs(f.Value-3.96) > 1e-9 || !strings.Contains(f.Detail, "1.2356 N·m") {
		t.Errorf("%+v", f)
	}
	// Every fit of a bore: wanted with its clearance, drawn larger by 0.18 mm.
	for feature, want := range map[string]float64{
		"turntable-pinion bore over the flat": 5.5, "turntable-wheel keyway width": 4.1, "turntable-wheel bore over the keyway": 13.9,
		"canopy-pinion bore": 5.1, "canopy-wheel seat": 22 * (1 - 0.0025), "canopy-wheel M3 nut across flats": 5.6,
	} {
		found := false
		for _, f := range r.Report.Fits {
			if f.Part+" "+f.Feature == feature {
				found = true
				if math.Abs(f.Wanted-want) > 1e-9 || math.Abs(f.Drawn-f.Wanted-0.18) > 1e-9 {
					t.Errorf("%s: %+v, want %g", feature, f, want)
				}
			}
		}
		if !found {
			t.Errorf("no fit %q", feature)
		}
	}
	text := strings.Join(r.Report.Assembly, "\n")
	for _, want := range []string{"M3 nut into the slot", "onto the flat", "M2 nut into the slot of the clamp", "608 bearing into the canopy-wheel", "nuts in the pockets"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in the assembly:\n%s", want, text)
		}
	}
}

// Every STL of the carousel, read back from its bytes, is one sound body.
func TestCarouselFilesAreClosed(t *testing.T) {
	r, err := carousel(t)
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	for _, file := range r.Files {
		if !strings.HasSuffix(file.Name, ".stl") {
			continue
		}
		var out bytes.Buffer
		if err := file.Write(&out); err != nil {
			t.Fatal(err)
		}
		soup, _, err := export.ReadSTL(bytes.NewReader(out.Bytes()), int64(out.Len()))
		if err != nil {
			t.Fatal(err)
		}
		if e := mesh.Inspect(soup); !e.Sound() || e.Shells != 1 {
			t.Errorf("%s: %d bodies, %+v", file.Name, e.Shells, e.Faults)
		}
		read++
	}
	if read != 4 {
		t.Errorf("%d STL files, want 4", read)
	}
}

// Spokes and a thin web leave the wheel lighter by what the report says.
func TestCarouselMassSaved(t *testing.T) {
	volume := func(changes ...string) float64 {
		r, err := carousel(t, changes...)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range r.Report.Parts {
			if p.Name == "turntable-wheel" {
				return p.VolumeMM3
			}
		}
		t.Fatal("no wheel")
		return 0
	}
	r, err := carousel(t)
	if err != nil {
		t.Fatal(err)
	}
	v := r.Report.Designs["gears.turntable"]
	saved, _ := v["lightened_mm3_2"].(float64)
	grams, _ := v["mass_saved_g_2"].(float64)
	real := volume("lighten = { kind = \"spokes\", count = 6, web = 3.5 }, ", "") - volume()
	if math.Abs(saved-real) > 0.01*real { // chamfers of the windows come to 1 %
		t.Errorf("saved %g mm³, the two wheels differ by %g", saved, real)
	}
	if math.Abs(grams-saved*1.27e-3) > 1e-6 { // density of PETG, testdata/ref/fit-materials.json
		t.Errorf("saved %g g of %g mm³", grams, saved)
	}
}

// What cannot be made says where in the file, why and what to do instead; each
// remedy that is a number is then followed.
func TestCarouselRefuses(t *testing.T) {
	const pinion, wheel = `hub = "d-bore", shaft = 6.0, over_flat = 5.4, set_screw = "M3", top_chamfer = 0.4`, `hub = "keyway", shaft = 12.0, hub_diameter = 24, hub_length = 8, lighten = { kind = "spokes", count = 6, web = 3.5 }`
	for _, q := range []struct {
		name, from, to string
		key, reason    string
		follow         string // the change that the remedy asks for
	}{
		{"bore beside shaft", pinion, pinion + ", bore = 6.1", "gears.turntable.pinion.bore", "hole of a round hub", ""},
		{"no shaft", "shaft = 12.0, ", "", "gears.turntable.wheel", `"shaft" is missing`, ""},
		{"flat of another hub", wheel, wheel + ", over_flat = 11", "gears.turntable.wheel.over_flat", "d-bore", ""},
		{"set screw without shaft", `hub = "bearing"`, `hub = "bearing", set_screw = "M3"`, "gears.canopy.wheel.set_screw", "needs the shaft", ""},
		{"clamp on another hub", wheel, wheel + `, clamp = { slit = 1 }`, "gears.turntable.wheel.clamp", `hub = "clamp"`, ""},
		{"misspelt", `kind = "spokes"`, `kind = "spoke"`, "gears.turntable.wheel.lighten.kind", "not known", `kind = "spokes"`},
		{"key of no table", "shaft = 12.0", "shaft = 5.0", "gears.turntable.wheel.shaft", "no parallel key", "shaft = 6"},
		{"flat too deep", "over_flat = 5.4", "over_flat = 3", "gears.turntable.pinion.over_flat", "no flat of this rod", "over_flat = 3.6"},
		{"thin hub", "hub_diameter = 24", "hub_diameter = 16", "gears.turntable.wheel.hub_diameter", "no wall around the bore", "hub_diameter = 19.5"},
		{"short hub", `set_screw = "M3"`, `set_screw = "M3", hub_length = 3`, "gears.turntable.pinion.hub_length", "no room for the M3 set screw", `set_screw = "M3", hub_length = 7.1`},
		{"narrow hub", `set_screw = "M3"`, `set_screw = "M3", hub_diameter = 14`, "gears.turntable.pinion.hub_diameter", "no room for the M3 set screw", `set_screw = "M3", hub_diameter = 19.6`},
		{"spokes fill the wheel", "count = 6, web", "count = 24, web", "gears.turntable.wheel.lighten", "no window", "count = 6, web"},
		{"web as thick as the wheel", "web = 3.5", "web = 11.5", "gears.turntable.wheel.lighten.web", "must be from", "web = 3.5"},
		{"slit that closes", `screw_size = "M2" }`, `screw_size = "M2", slit = 0.3 }`, "gears.canopy.pinion.clamp.slit", "closed before", `screw_size = "M2", slit = 0.63 }`},
		{"large screw for a small shaft", `set_screw = "M3"`, `set_screw = "M5"`, "gears.turntable.pinion.set_screw", "too large for a shaft", `set_screw = "M3"`},
		{"bearing larger than the wheel", `teeth = [24, 60]`, `teeth = [24, 18]`, "gears.canopy.wheel.bearing", "no room for a bearing", `teeth = [24, 60]`},
		{"bore beside a seat", `hub = "bearing"`, `hub = "bearing", bore = 5`, "gears.canopy.wheel.bore", "beside the seat", `hub = "bearing"`},
		{"mark that no letters can say", `mark = "sunk"`, `mark = { style = "sunk", text = "\u65e5" }`, "gears.canopy.wheel.mark.text", "letters lack", `mark = "sunk"`},
	} {
		t.Run(q.name, func(t *testing.T) {
			_, err := carousel(t, q.from, q.to)
			if err == nil {
				t.Fatal("was made")
			}
			text := err.Error()
			if !strings.Contains(text, q.key) || !strings.Contains(text, q.reason) {
				t.Errorf("%v\nwant %s: %s", err, q.key, q.reason)
			}
			if q.follow != "" {
				if _, err := carousel(t, q.from, q.follow); err != nil {
					t.Errorf("followed: %v", err)
				}
			}
		})
	}
}
