package joint

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pintle/check"
)

// townHall reads the file of three joints with some of its lines changed.
func townHall(t *testing.T, changes ...string) (*Result, error) {
	t.Helper()
	file, err := readDemo(t, "townhall.toml", changes...)
	if err != nil {
		return nil, err
	}
	return Design(file, Options{Tool: "pintle test"})
}

func mustTownHall(t *testing.T, changes ...string) *Result {
	t.Helper()
	result, err := townHall(t, changes...)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// Three joints from one file: each with its parts, plate, picture and pack under
// names of its own, no name twice, nothing failed.
func TestThreeJoints(t *testing.T) {
	result := mustTownHall(t)
	for _, f := range result.Failed() {
		t.Errorf("failed: %s %s: %s", f.Design, f.Check, f.Detail)
	}
	files := map[string]int{}
	for _, f := range result.Files {
		files[f.Name]++
		var content bytes.Buffer
		if err := f.Write(&content); err != nil || content.Len() == 0 {
			t.Errorf("%s: %d bytes, %v", f.Name, content.Len(), err)
		}
	}
	for _, joint := range []string{"neck", "jaw", "arm"} {
		for _, name := range []string{"-pinion.stl", "-wheel.stl", "-ring.stl", "-plate.stl", "-plate-drawing.svg", "-joint.png", "-joint.3mf"} {
			if files[joint+name] != 1 {
				t.Errorf("%d files %s%s", files[joint+name], joint, name)
			}
		}
		if !slices.ContainsFunc(result.Report.Findings, func(f check.Finding) bool {
			return f.Design == "plate."+joint && f.Check == "moving-clearance" && f.Verdict == check.Pass && f.Detail != ""
		}) {
			t.Errorf("nothing is said of the clearances of %s", joint)
		}
	}
	if len(files) != len(result.Files) {
		t.Errorf("%d names for %d files", len(files), len(result.Files))
	}
	codes := ""
	for _, c := range result.Report.Cautions {
		codes += c.Code + " "
	}
	for _, code := range []string{"C3", "C4", "C10"} { // raised masses, servos, a supply
		if !strings.Contains(codes, code+" ") {
			t.Errorf("caution %s is missing from %s", code, codes)
		}
	}
}

// The power sheet against closed forms: stall currents 2.4 + 0.7 + 2.4 A add up;
// running, each draws 0.2, 0.1 and 0.2 A and its share of the rest; 1.2 m of
// 1.5 mm² copper there and back have 2 x 1.2 / (58 x 1.5) Ω at 20 °C and
// 0.393 % more for each kelvin; 0.5 m of 0.04 Ω/m have 0.04 Ω.
func TestPowerSheet(t *testing.T) {
	designs := mustTownHall(t).Report.Designs
	share := func(drive string) float64 { return designs[drive]["peak_share"].(float64) }
	warm := 1 + 0.00393*15
	trunk := 2 * 1.2 / (58 * 1.5) * warm
	for _, test := range []struct {
		design, symbol string
		want           float64
	}{
		{"supply", "stall_current_sum", 5.5},
		{"supply", "running_current_sum", 0.5 + 2.2*share("drive.neck") + 0.6*share("drive.jaw") + 2.2*share("drive.arm")},
		{"wire.trunk", "loop_ohm", trunk},
		{"wire.trunk", "drop_start_v", 5.5 * trunk},
		{"wire.jaw", "loop_ohm", 0.04 * warm},
		{"wire.jaw", "stall_current_sum", 0.7},
		{"wire.jaw", "voltage_at_servo_start", 6 - 0.7*0.04*warm},
	} {
		if got := designs[test.design][test.symbol].(float64); math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%s %s = %.9g, want %.9g", test.design, test.symbol, got, test.want)
		}
	}
}

// What the sheet refuses or warns of, and that the remedy's number cures it.
func TestPowerFindings(t *testing.T) {
	for _, test := range []struct {
		name, design, check string
		change, to          string
		verdict             check.Verdict
		remedy              string
		followed            string // in the place of to
	}{
		{"a supply that sags at the start", "supply", "supply-peak", `peak_current = "10A"`, `peak_current = "8A"` + "\n[servo.spare]\nstall_torque = 1\nspeed = 300\nstall_current = 4\npoints = [[500, -90], [2500, 90]]\n[nothing]", check.Caution, "a supply of 9.5 A", ""},
		{"a thin wire", "wire.trunk", "wire-drop", "section = 1.5 ", "section = 0.5 ", check.Caution, "section >= 0.81 mm²", "section = 0.81 "},
		{"a wire as thin as a hair", "wire.trunk", "wire-drop", "section = 1.5 ", "section = 0.1 ", check.Fail, "section >= 0.81 mm²", "section = 0.81 "},
		{"a fuse that ages", "supply", "fuse-running", `fuse = "5A"`, `fuse = "1A"`, check.Caution, "a fuse of", ""},
		{"a fuse that the wire is too weak for", "wire.jaw", "fuse-wire", "current = 7", "current = 3", check.Fail, "a fuse of 3 A or less", ""},
		{"no fuse: the supply itself must not burn the wire", "wire.jaw", "fuse-wire", `fuse = "5A"`, "", check.Fail, "a fuse of 7 A or less", `fuse = "7A"`},
		{"a servo of which nobody said what it draws", "supply", "not-checked", "stall_current = \"0.7A\"\nidle_current = \"0.1A\"\n", "", check.Caution, "stall_current", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			to := strings.TrimSuffix(test.to, "[nothing]")
			if strings.Contains(to, "[servo.spare]") { // its table must not end that of the supply
				to = strings.Replace(to, "\n[servo.spare]", "\nfuse = \"5A\"\n[servo.spare]", 1)
			}
			changes := []string{test.change, to}
			if strings.Contains(to, "[servo.spare]") {
				changes = append(changes, "\nfuse = \"5A\"\n\n[wire.trunk]", "\n[wire.trunk]")
			}
			found := false
			for _, f := range mustTownHall(t, changes...).Report.Findings {
				if f.Design == test.design && f.Check == test.check {
					found = true
					if f.Verdict != test.verdict || !strings.Contains(f.Remedy, test.remedy) {
						t.Errorf("%s %s: %s", f.Verdict, f.Check, f.Remedy)
					}
				}
			}
			if !found {
				t.Errorf("no %s", test.check)
			}
			if test.followed == "" {
				return
			}
			for _, f := range mustTownHall(t, test.change, test.followed).Report.Findings {
				if f.Design == test.design && f.Check == test.check && f.Verdict != check.Pass {
					t.Errorf("followed: %s %g", f.Verdict, f.Value)
				}
			}
		})
	}
}

// Typed by mistake, refused with what to do.
func TestPowerRefuses(t *testing.T) {
	for _, test := range []struct{ name, change, to, says string }{
		{"both section and resistance", "resistance = 0.04 ", "resistance = 0.04\nsection = 1 ", "needs one of the two"},
		{"the maker's ohm per kilometre", "resistance = 0.04 ", "resistance = 40 ", "resistance of the wire"},
		{"a servo that is not there", `servos = ["jaw"]`, `servos = ["jay"]`, "there is no [servo.jay]"},
		{"a peak below the current", `peak_current = "10A"`, `peak_current = "5A"`, "peak current"},
		{"more current idle than at stall", `idle_current = "0.1A"`, `idle_current = "1A"`, "idle_current"},
		{"wires without a supply", "[supply]                       # as its label and the fuse say\nvoltage = 6\ncurrent = \"8A\"                 # for as long as one likes\npeak_current = \"10A\"\nfuse = \"5A\"\n", "", "no supply"},
		{"two servos on one channel", "channel = 4", "channel = 1", "is that of servo"},
		{"volts for amperes", `stall_current = "0.7A"`, `stall_current = "0.7V"`, "current"},
	} {
		t.Run(test.name, func(t *testing.T) {
			if _, err := townHall(t, test.change, test.to); err == nil || !strings.Contains(err.Error(), test.says) {
				t.Errorf("says %v", err)
			}
		})
	}
}

// Joints that share what can be in one of them only are refused, each with the
// table to change.
func TestSharedPartsAreRefused(t *testing.T) {
	for _, test := range []struct{ name, change, to, says string }{
		{"one servo for two joints", "[gears.jaw]\nservo = \"jaw\"", "[gears.jaw]\nservo = \"neck\"", "[gears.jaw] already"},
		{"one bearing under two wheels", `hub = "journal", bearing = "jaw"`, `hub = "journal", bearing = "neck"`, "[gears.jaw] already"},
		{"one bearing in two rings", "[housing.jaw]\nbearing = \"jaw\"", "[housing.jaw]\nbearing = \"arm\"", "[housing.arm] already"},
		{"one pair on two plates", "housing = \"jaw\"\ngears = \"jaw\"", "housing = \"jaw\"\ngears = \"arm\"", "[plate.arm] already"},
		{"one ring in two plates", "housing = \"jaw\"\ngears = \"jaw\"", "housing = \"arm\"\ngears = \"jaw\"", "[plate.arm] already"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := townHall(t, test.change, test.to)
			if err == nil || !strings.Contains(err.Error(), test.says) || !strings.Contains(err.Error(), "townhall.toml:") {
				t.Errorf("says %v, want %q and its place", err, test.says)
			}
		})
	}
}

// Whatever makes two parts of one name is refused: their files would be one.
func TestPartsOfOneName(t *testing.T) {
	b := newBuilder(read(t), Options{})
	if err := b.run(); err != nil {
		t.Fatal(err)
	}
	if err := b.checkNames(); err != nil {
		t.Errorf("the lighthouse: %v", err)
	}
	b.bodies = append(b.bodies, body{part: b.bodies[0].part, design: "panel.crest"})
	if err := b.checkNames(); err == nil || !strings.Contains(err.Error(), "lamp-pinion") {
		t.Errorf("two parts %s: %v", b.bodies[0].part.Name(), err)
	}
}

// The channel list against the measured points: 100 deg of the neck are
// 100 x 36/28 = 128.57 deg of its servo, 64.29 to either side of 1500 µs at
// 1000/90 µs for each degree; free channels go to servos without one.
func TestChannelList(t *testing.T) {
	result := mustTownHall(t, "channel = 4\n", "")
	i := slices.IndexFunc(result.Files, func(f OutputFile) bool { return f.Name == "channels.csv" })
	if i < 0 {
		t.Fatal("no channel list")
	}
	var list bytes.Buffer
	if err := result.Files[i].Write(&list); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&list).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, row := range rows[1:] {
		got = append(got, strings.Join(row, " "))
	}
	want := []string{
		"0 neck gears.neck 786 1500 2214 -64.29 0.00 64.29 -50.00 0.00 50.00 deg 2.4",
		"1 jaw gears.jaw 1356 1500 1644 -13.64 0.00 13.64 -12.50 0.00 12.50 deg 0.7",
		"2 arm gears.arm 642 1500 2358 -77.00 0.00 77.00 -35.00 0.00 35.00 deg 2.4",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// At switch-on: the jaw has fallen 12.5 deg, 13.64 deg of its servo below 1500 µs
// at 900/85 µs for each; the arm's rest is not said, so that half its swing counts.
func TestStartUp(t *testing.T) {
	findings := mustTownHall(t).Report.Findings
	for _, test := range []struct {
		design  string
		jump    float64
		verdict check.Verdict
		says    string
	}{
		{"drive.neck", 0, check.Pass, ""},
		{"drive.jaw", 12.5, check.Note, "1356 µs"},
		{"drive.arm", 35, check.Note, "rest = DEG"},
	} {
		i := slices.IndexFunc(findings, func(f check.Finding) bool { return f.Design == test.design && f.Check == "start-up-jump" })
		if i < 0 {
			t.Errorf("nothing is said of the start of %s", test.design)
			continue
		}
		if f := findings[i]; f.Value != test.jump || f.Verdict != test.verdict || !strings.Contains(f.Remedy, test.says) {
			t.Errorf("%s: %s %g deg: %s; %s", test.design, f.Verdict, f.Value, f.Detail, f.Remedy)
		}
	}
}

// A small servo has one hole in each tab, and openings so near each other that
// the bed's chamfer must shrink: the plate has two tab holes, and is made.
func TestServoWithOneHolePerTab(t *testing.T) {
	result := mustTownHall(t)
	assembly := strings.Join(result.Report.Assembly, "\n")
	if !strings.Contains(assembly, "2 screws M2 x ") || !strings.Contains(assembly, "4 screws M4 x ") {
		t.Errorf("the servos' screws are missing from\n%s", assembly)
	}
}

// A lug of the end stops over a screw hole of the wheel would close it.
func TestLugOverScrewHole(t *testing.T) {
	_, err := townHall(t, "bolt_circle = 30", "bolt_circle = 36")
	if err == nil || !strings.Contains(err.Error(), "lug") {
		t.Fatalf("says %v", err)
	}
	var input *InputError
	if !errors.As(err, &input) {
		t.Fatalf("%T", err)
	}
	number, _, _ := strings.Cut(strings.TrimPrefix(input.Remedy, "use "), " mm")
	result := mustTownHall(t, "bolt_circle = 30", "bolt_circle = "+number)
	for _, f := range result.Failed() {
		t.Errorf("with %s mm: %s %s", number, f.Check, f.Detail)
	}
}
