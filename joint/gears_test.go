package joint

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"pintle/geom"

	"pintle/check"
)

// crossHorn is a cross horn as its builder would measure it.
const crossHorn = `horn = { kind = "cross", arm = 16, width_at_hub = 5.6, width_at_tip = 4.2, hub_diameter = 9.2, hub_height = 3.6, thickness = 2.4, holes_at = [8, 10.5, 13], hole = 1.6, at_neutral = 3, wanted = 20 }`

const discHorn = `horn = { kind = "disc", diameter = 20.3, thickness = 2.6, hub_diameter = 9.2, hub_height = 3.6, holes = 4, hole_circle = 14.0, hole = 2.1 }`

func findingOf(t *testing.T, r *Result, part, name string) check.Finding {
	t.Helper()
	for _, f := range r.Report.Findings {
		if f.Check == name && f.Part == part {
			return f
		}
	}
	t.Fatalf("no finding %s of %q", name, part)
	return check.Finding{}
}

// What a table says of the pair reaches its values: 0.5 mm at 120 mm is
// 0.2387 deg; of the horn's four arms one comes within 17 - (90 - 72) deg.
func TestGearsTableReachesThePair(t *testing.T) {
	r := build(t, discHorn, crossHorn, "[0, 0]", "[0, 0]\nrack = \"C\"\ntip_alteration = -0.1\ncentre_tolerance = 0.05\n"+
		"lost_motion = { radius = 120, limit_mm = 0.5 }\ntemperature = { coldest = -5, hottest = 40, base_expansion = 23e-6 }\n"+
		"measured = [{ W1 = 16.02, tip2 = 57.1 }, { W1 = 16.0 }]\nservice_factor = 2\nallowable_bending = 20")
	v := r.Report.Designs["gears.lamp"]
	near := func(key string, want, tol float64) {
		t.Helper()
		got, ok := v[key].(float64)
		if !ok || math.Abs(got-want) > tol {
			t.Errorf("%s = %v, want %g", key, v[key], want)
		}
	}
	near("k", -0.1, 1e-12)
	near("da1", 45-2*0.1*1.5, 1e-9)
	near("a_w_tolerance", 0.05, 1e-12)
	near("lost_motion_radius", 120, 0)
	near("spline_residual_deg", -1, 1e-9)
	near("W1_correction", -(16.02-15.993)-(16.0-15.993), 1e-4)
	near("da2_correction", -0.15, 1e-9) // 57.1 read for 56.7: bounded
	if f := findingOf(t, r, "lamp-pinion", "tooth-bending"); f.Limit != "<= 20" {
		t.Errorf("allowable stress %q", f.Limit)
	}
	if f := findingOf(t, r, "", "lost-motion"); !strings.HasPrefix(f.Limit, "<= 0.2387") {
		t.Errorf("lost motion limit %q", f.Limit)
	}
	if f := findingOf(t, r, "", "backlash-climate"); !strings.Contains(f.Detail, "-5 °C") {
		t.Errorf("climate: %s", f.Detail)
	}
}

// A wheel that hangs is held by a nut, its journal by its wall.
func TestRetain(t *testing.T) {
	r := build(t, `bore = 8, retain = { kind = "screws", screw_size = "M2" }`, `retain = { kind = "nut", screw_size = "M5" }`)
	f := findingOf(t, r, "lamp-wheel", "retain")
	if f.Value != 5 || f.Verdict != check.Pass {
		t.Errorf("%g, %s: want the M5 screw", f.Value, f.Verdict)
	}
	findingOf(t, r, "lamp-wheel", "journal-wall")
}

// A horn whose holes of 1.6 mm an M2 does not pass is screwed on by M2 that cut
// their thread into it: the stack says which, how long and where the heads are.
// Face 10 and a stand-off of 1.65 mm make a grip of 11.65 that ends with the horn;
// 3.1 mm are free under it: 14 is the longest usual length that ends there.
func TestSelfCuttingHornScrews(t *testing.T) {
	r := build(t, discHorn, crossHorn)
	f := findingOf(t, r, "", "horn-screw")
	if f.Verdict != check.Pass || f.Value != 14 || !strings.Contains(f.Detail, "M2 x 14, heads on the pinion, cutting") {
		t.Errorf("%s %g: %s", f.Verdict, f.Value, f.Detail)
	}
	if text := strings.Join(r.Report.Assembly, "\n"); !strings.Contains(text, "8 screws M2 x 14") {
		t.Errorf("no screws for the horn in:\n%s", text)
	}
}

// Sunk heads of M2 lie 2.2 mm deep: the grip of 11.65 mm is 9.45, the shortest
// usual length that fills a nut of 1.6 mm with 0.5 mm to spare is 12, and no head
// stands above the pinion.
func TestSunkHornScrews(t *testing.T) {
	r := build(t, `pinion = { hub = "horn" }`, `pinion = { hub = "horn", horn_screws = "counterbore" }`, "hole_circle = 14.0", "hole_circle = 16.0")
	f := findingOf(t, r, "", "horn-screw")
	if f.Verdict != check.Pass || f.Value != 12 || !strings.Contains(f.Detail, "M2 x 12, heads sunk into the pinion, nuts under the disc") {
		t.Errorf("%s %g: %s", f.Verdict, f.Value, f.Detail)
	}
	for _, p := range r.Report.Clearances {
		if strings.Contains(p.A+p.B, "horn screws above the pinion") {
			t.Errorf("heads above the pinion: %v", p)
		}
	}
}

// The pinion's boss around a cross horn of 16 mm arms reaches the root circle of
// 38.25 mm less a bead on either side: so much room it takes between horn and
// teeth, all the way round.
func TestStandOffOfArms(t *testing.T) {
	b := newBuilder(read(t, discHorn, crossHorn), Options{})
	if err := b.run(); err != nil {
		t.Fatal(err)
	}
	turning := b.turnings["lamp"]
	found := map[string]solid{}
	for _, s := range b.arrangements[0].all(b.drawnParts()) {
		found[s.name] = s
	}
	boss, horn := found["pinion stand-off"], found["horn"]
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, s := range boss.slices {
		lowest, highest = min(lowest, s.z0), max(highest, s.z1)
	}
	wall := 2*16 + 0.1 + 8*0.45 // arms, slip and four beads on either side
	near(t, "outside of the boss", 2*boss.slices[0].radius, min(wall, 38.25-2*0.45)-0.08)
	near(t, "foot", lowest, turning.discFoot)
	near(t, "height", highest-lowest, turning.standOff)
	near(t, "circle the arms sweep", horn.slices[0].radius, 16)
	if boss.moves != withServo || math.Abs(horn.z0-lowest) > 2.0/geom.PerMM {
		t.Errorf("boss %+v over the horn %+v", boss, horn)
	}
}

// Each plastic of its own.
func TestGearMaterials(t *testing.T) {
	r := build(t, `pinion = { hub = "horn" }`, `pinion = { hub = "horn", material = "PA" }`)
	for _, p := range r.Report.Parts {
		want := map[string]string{"lamp-pinion": "PA", "lamp-wheel": "PETG"}[p.Name]
		if want != "" && p.Material != want {
			t.Errorf("%s is of %s, want %s", p.Name, p.Material, want)
		}
	}
}

// An internal wheel and a sector, without a plate.
func TestInternalAndSectorFromFile(t *testing.T) {
	for _, test := range []struct{ teeth, wheel, part string }{
		{"[24, -60]", "rim = 8", "lamp-wheel"},
		{"[20, 60]", "bore = 8, sector = 25", "lamp-wheel"},
	} {
		data := "format = \"pintle-joint/1\"\n[printer]\nmaterial = \"PETG\"\n[gears.lamp]\nmodule = 1.5\nteeth = " + test.teeth +
			"\nshift = \"choose\"\nbacklash = 0.2\nface_width = 10\nrack = { addendum = 0.8, clearance = 0.45, fillet_radius = 0.3 }\nwheel = { " + test.wheel + " }\n"
		file, err := Read("x.toml", []byte(data))
		if err != nil {
			t.Fatal(err)
		}
		r, err := Design(file, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Failed()) > 0 || len(r.Report.Parts) != 2 || r.Report.Parts[1].Name != test.part {
			t.Errorf("%s: parts %v, failed %v", test.teeth, r.Report.Parts, r.Failed())
		}
	}
	file := read(t, "[28, 36]", "[24, -60]")
	_, err := Design(file, Options{})
	var placed *InputError
	if !errors.As(err, &placed) || placed.Key != "plate.lamp.gears" || !strings.Contains(placed.Remedy, "27 mm from the axis") || !strings.Contains(placed.Remedy, "teeth = [24, 60]") {
		t.Errorf("an internal pair on a plate: %v", err)
	}
}

// What cannot be used is refused at its place.
func TestGearsTableRefuses(t *testing.T) {
	for _, test := range []struct{ from, to, want string }{
		{"[0, 0]", "[0, 0]\nrack = \"E\"", "gears.lamp.rack"},
		{"[0, 0]", "[0, 0]\nrack = { addendum = 1 }", `"clearance" is missing`},
		{"[0, 0]", "[0, 0]\nlost_motion = { limit_mm = 1 }", `"radius" is missing`},
		{"[0, 0]", "[0, 0]\nmeasured = { W3 = 1 }", "gears.lamp.measured.W3"},
		{"[0, 0]", "[0, 0]\nmeasured = [1, 2]", "gears.lamp.measured[0]"},
		{"[0, 0]", "[0, 0]\ntemperature = { hottest = 40 }", `"coldest" is missing`},
		{discHorn, strings.Replace(crossHorn, "arm = 16, ", "", 1), `"arm" is missing`},
		{discHorn, strings.Replace(discHorn, "holes = 4", "holes_at = [4]", 1), "servo.lamp.horn.holes_at"},
		{discHorn, strings.Replace(crossHorn, `"cross"`, `"star"`, 1), "servo.lamp.horn.kind"},
	} {
		_, err := readChanged(t, test.from, test.to)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v", test.to, err)
		}
	}
	for _, test := range []struct{ from, to, want string }{
		{"[28, 36]", "[5, 36]", "gears.lamp.teeth"},
		{"backlash = 0.2", "backlash = 0.6", "gears.lamp.backlash"},
		{"backlash = 0.2", "backlash = -0.1", "gears.lamp.backlash"},
		{"shift = [0, 0]", "shift = [0, 0]\ncentre_distance = 30", "gears.lamp.centre_distance"},
		{"module = 1.5", "module = 0", "gears.lamp.module"},
		{discHorn, strings.Replace(crossHorn, "arm = 16", "arm = 22", 1), "servo.lamp.horn.arm"},
	} {
		file, err := readChanged(t, test.from, test.to)
		if err == nil {
			_, err = Design(file, Options{})
		}
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want it to name %s", test.to, err, test.want)
		}
	}
}

// readChanged reads the demo with one place changed.
func readChanged(t *testing.T, from, to string) (*File, error) {
	t.Helper()
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), from) {
		t.Fatalf("the demo has no %q to change", from)
	}
	return Read("lighthouse.toml", []byte(strings.Replace(string(data), from, to, 1)))
}
