package joint

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"pintle/check"
)

// readMoon reads the puppet theatre's moon with places changed, old before new.
func readMoon(t *testing.T, changes ...string) (*File, error) {
	t.Helper()
	data, err := os.ReadFile("../testdata/puppet-moon.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("the moon has no %q to change", changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return Read("puppet-moon.toml", []byte(text))
}

func buildMoon(t *testing.T, changes ...string) *Result {
	t.Helper()
	file, err := readMoon(t, changes...)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Design(file, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The rack drive from file to report, by hand: d = 45, half a turn of the servo
// moves the rack by 22.5 pi = 70.69 mm, of which 60 leave (180 deg - 60/22.5)/2 =
// 13.61 deg at either end; 2 N at 22.5 mm through 0.9 are 0.05 N·m of 9.4 kgf·cm
// = 0.9218; the path of contact is sqrt(24^2 - rb^2) - 22.5 sin 20 + 1.5/sin 20.
func TestRackDriveFromFile(t *testing.T) {
	r := buildMoon(t)
	if failed := r.Failed(); len(failed) > 0 {
		t.Fatalf("failed: %+v", failed)
	}
	rack, servo := r.Report.Designs["rack.moon"], r.Report.Designs["drive.moon"]
	const deg = math.Pi / 180
	rb := 22.5 * math.Cos(20*deg)
	path := math.Sqrt(24*24-rb*rb) - 22.5*math.Sin(20*deg) + 1.5/math.Sin(20*deg)
	for _, q := range []struct {
		values    map[string]any
		key       string
		want, tol float64
	}{
		{rack, "a_axis_to_reference_line", 22.5, 1e-9},
		{rack, "a_axis_to_back", 22.5 + 1.875 + 7, 1e-9}, // seven: M3's 3.4 and four beads on either side
		{rack, "epsilon_alpha", path / (1.5 * math.Pi * math.Cos(20*deg)), 1e-4},
		{rack, "turn_for_travel_deg", 60 / 22.5 / deg, 1e-9},
		{rack, "lost_motion_mm", 0.2, 1e-12},
		{servo, "spare_travel_deg", (180 - 60/22.5/deg) / 2, 1e-9},
		{servo, "servo_peak_torque", 0.05, 1e-3},
		{servo, "available_swing_deg", 180, 1e-9},
	} {
		if got, ok := q.values[q.key].(float64); !ok || math.Abs(got-q.want) > q.tol {
			t.Errorf("%s = %v, want %g", q.key, q.values[q.key], q.want)
		}
	}
	var names []string
	for _, p := range r.Report.Parts {
		names = append(names, p.Name)
	}
	if got := strings.Join(names, " "); got != "moon-pinion moon-rack" {
		t.Errorf("parts %q", got)
	}
	files := ""
	for _, f := range r.Files {
		files += f.Name + " "
	}
	for _, want := range []string{"moon-rack.stl", "moon-rack-drawing.svg", "moon-joint.png", "moon-joint.3mf"} {
		if !strings.Contains(files, want) {
			t.Errorf("no %s among %s", want, files)
		}
	}
	text := strings.Join(r.Report.Assembly, "\n")
	for _, want := range []string{"mm from back over a pin of 3 mm", "back runs 31.38 mm from the pinion's axis", "the rack comes within"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	if len(r.Report.Curves) != 3 || !strings.HasPrefix(r.Report.Curves[2].Title, "rack.moon: transmission error") {
		t.Errorf("%d curves", len(r.Report.Curves))
	}
	for _, c := range r.Report.Cautions {
		if c.Code == "C2" && !strings.Contains(c.When, "rack.moon") {
			t.Errorf("C2 when %s", c.When)
		}
	}
}

// The rack moves by as much as the pinion rolls, in the middle of its travel where
// it is placed, with a tooth of the pinion over a space.
func TestMotionsOfTheMoon(t *testing.T) {
	r := buildMoon(t)
	for _, m := range r.Report.Motions {
		first, last := m.At[0], m.At[len(m.At)-1]
		roll := (last[0] - first[0]) * math.Pi / 180 * 22.5
		if m.Joint != "moon" || math.Abs(roll-60) > 1e-9 {
			t.Errorf("%s of %s rolls by %g mm, want 60", m.Name, m.Joint, roll)
		}
		if shift := last[1] - first[1]; m.Name == "rack" && math.Abs(shift-60) > 1e-9 {
			t.Errorf("the rack moves by %g mm, want 60", shift)
		}
	}
	const pitch = 1.5 * math.Pi
	for _, p := range r.Report.Placed {
		if spaces := -p.X / pitch; p.Part == "moon-rack" && (math.Abs(spaces-math.Round(spaces)) > 1e-9 || p.Y != -22.5) {
			t.Errorf("the rack stands at %g, %g", p.X, p.Y)
		}
	}
	if len(r.Report.Motions) != 2 || len(r.Report.Placed) != 2 {
		t.Errorf("%d motions of %d parts", len(r.Report.Motions), len(r.Report.Placed))
	}
}

// A travel that the servo does not give names the number of teeth that gives it,
// and with that number the check passes: 75 mm and 5 deg at either end need a
// pinion of 75/(170 deg) = 25.28 mm radius, 34 teeth.
func TestRackTravelRemedy(t *testing.T) {
	r := buildMoon(t, "travel = 60", "travel = 75")
	f := findingOf(t, r, "", "servo-travel")
	if f.Verdict != check.Fail || f.Remedy != "teeth >= 34" {
		t.Fatalf("%s, %q", f.Verdict, f.Remedy)
	}
	r = buildMoon(t, "travel = 60", "travel = 75", "teeth = 30", "teeth = 34")
	if f = findingOf(t, r, "", "servo-travel"); f.Verdict != check.Pass || len(r.Failed()) > 0 {
		t.Errorf("with 34 teeth: %s, failed %v", f.Verdict, r.Failed())
	}
	r = buildMoon(t, "force = 2.0", "force = 30")
	if f = findingOf(t, r, "", "servo-torque"); f.Verdict != check.Fail || !strings.Contains(f.Remedy, "stronger servo") {
		t.Errorf("30 N: %s, %q", f.Verdict, f.Remedy)
	}
	r = buildMoon(t, "servo = \"moon\"\n", "", `pinion = { hub = "horn" }`, "pinion = { bore = 6 }")
	if f = findingOf(t, r, "", "not-checked"); f.Verdict != check.Caution {
		t.Errorf("without a servo: %s", f.Verdict)
	}
}

// What a rack table cannot mean is refused at its place.
func TestRackRefuses(t *testing.T) {
	gears := "[gears.moon]\nmodule = 1\nteeth = [20, 40]\nbacklash = 0.1\nface_width = 6\n\n[rack.moon]"
	for _, test := range []struct{ from, to, want string }{
		{"travel = 60", "travle = 60", "rack.moon.travle"},
		{"travel = 60", "travel = 1", "rack.moon.travel"},
		{"teeth = 30", "teeth = 5", "rack.moon.teeth"},
		{"teeth = 30", "teeth = [30, 40]", "rack.moon.teeth"},
		{"teeth = 30", "teeth = 30\nshift = \"balanced\"", "rack.moon.shift"},
		{"teeth = 30", "teeth = 30\nbasic_rack = { addendum = 1, clearance = 0.25, fillet_radius = 0.6 }", "rack.moon.basic_rack.fillet_radius"},
		{"teeth = 30", "teeth = 30\nmeasured = { W2 = 12 }", "rack.moon.measured.W2"},
		{"teeth = 30", "teeth = 30\nheight = 3", "rack.moon.height"},
		{"screw_count = 3", "screw_count = 40", "rack.moon.screw_count"},
		{"backlash = 0.2", "", "backlash"},
		{"module = 1.5", "module = 0", "rack.moon.module"},
		{"servo = \"moon\"", "servo = \"sun\"", "rack.moon.servo"},
		{"[rack.moon]", gears, "rename one"},
	} {
		file, err := readMoon(t, test.from, test.to)
		if err == nil {
			_, err = Design(file, Options{})
		}
		var placed *InputError
		if !errors.As(err, &placed) || !strings.Contains(err.Error()+"\n"+placed.Remedy, test.want) {
			t.Errorf("%s: got %v", test.to, err)
		}
	}
}
