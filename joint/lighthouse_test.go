package joint

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pintle/check"
	"pintle/export"
)

// read reads the demo with some of its lines changed.
func read(t testing.TB, changes ...string) *File {
	t.Helper()
	file, err := readDemo(t, "lighthouse.toml", changes...)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// readDemo reads a joint file of testdata with some of its lines changed.
func readDemo(t testing.TB, name string, changes ...string) (*File, error) {
	t.Helper()
	data, err := os.ReadFile("../testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%s has no %q to change", name, changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return Read(name, []byte(text))
}

func build(t *testing.T, changes ...string) *Result {
	t.Helper()
	result, err := Design(read(t, changes...), Options{Tool: "pintle test"})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// The numbers a lighthouse builder was promised: calculated independently of
// this code for the scenario (pair, travel, load); the pair's other values from
// the closed forms of ISO 21771 as listed in the report's contract.
func TestLighthouseValues(t *testing.T) {
	designs := build(t).Report.Designs
	for _, test := range []struct {
		design, symbol string
		want, tol      float64
	}{
		{"gears.lamp", "a_w", 48, 1e-9},
		{"gears.lamp", "d1", 42, 1e-9},
		{"gears.lamp", "d2", 54, 1e-9},
		{"gears.lamp", "da1", 45, 1e-9},
		{"gears.lamp", "da2", 57, 1e-9},
		{"gears.lamp", "df1", 38.25, 1e-9},
		{"gears.lamp", "df2", 50.25, 1e-9},
		{"gears.lamp", "db1", 42 * 0.9396926208, 1e-8}, // m z cos 20°,
		{"gears.lamp", "db2", 50.7434, 5e-5},
		{"gears.lamp", "epsilon_alpha", 1.6652, 5e-5},
		{"gears.lamp", "j_bn", 0.18794, 5e-6},
		{"gears.lamp", "W1", 15.993, 5e-4},
		{"gears.lamp", "W2", 16.161, 5e-4},
		{"gears.lamp", "M1", 45.036, 5e-4},
		{"gears.lamp", "M2", 57.041, 5e-4},
		{"gears.lamp", "ratio", 1.28571, 5e-6},
		{"gears.lamp", "lost_motion_deg", 0.4244, 5e-5},
		{"gears.lamp", "tight_mesh_centre_distance", 47.7189, 5e-5},
		{"drive.lamp", "available_swing_deg", 140, 1e-9},
		{"drive.lamp", "used_travel_deg", 167.1, 0.05},
		{"drive.lamp", "spare_travel_deg", 6.4, 0.05},
		{"drive.lamp", "peak_speed_deg_s", 51, 0.1},
		{"drive.lamp", "inertia_torque", 0.0054, 5e-5},
	} {
		got, ok := designs[test.design][test.symbol].(float64)
		if !ok || math.Abs(got-test.want) > test.tol {
			t.Errorf("%s %s = %v, want %v", test.design, test.symbol, designs[test.design][test.symbol], test.want)
		}
	}
}

// What each variant of the scenario must do, as written there.
func TestLighthouseVariants(t *testing.T) {
	for _, test := range []struct {
		name    string
		changes []string
		failed  []string // checks, in the order found
	}{
		{"as measured", nil, nil},
		{"centre of gravity 12 mm off the axis tips it", []string{"offset = 4", "offset = 12"}, []string{"tipping"}},
		{"hanging upside down", []string{`axis = "vertical"`, `axis = "inverted"`}, []string{"load-direction", "tipping"}},
		{"hanging with nothing that holds the wheel", []string{`axis = "vertical"`, `axis = "inverted"`, `bore = 8, retain = { kind = "screws", screw_size = "M2" }, `, ""}, []string{"load-direction", "wheel-held"}},
		{"not enough travel", []string{"swing = 130", "swing = 150"}, []string{"servo-travel"}},
		{"too fast", []string{"time = 4.0", "time = 0.15"}, []string{"servo-torque", "servo-held-torque", "servo-speed"}},
		{"too heavy for a micro servo", []string{"20kgf.cm", "0.05kgf.cm"}, []string{"servo-torque", "servo-held-torque"}},
		{"servo across the ring's flange", []string{"servo_turn = 90", "servo_turn = 0"}, []string{"plate-bridge", "standing-clearance"}},
		{"softening in the sun", []string{"hottest = 40", "hottest = 60"}, []string{"heat", "heat", "heat", "heat"}},
		{"a tooth too fine", []string{"backlash = 0.2", "backlash = 0.0"}, []string{"backlash"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var failed []string
			for _, f := range build(t, test.changes...).Failed() {
				failed = append(failed, f.Check)
				if f.Remedy == "" || f.Source == "" || f.Design == "" {
					t.Errorf("%s says no remedy, source or design: %+v", f.Check, f)
				}
			}
			for _, want := range test.failed {
				if !slices.Contains(failed, want) {
					t.Errorf("failed %v, want %s among them", failed, want)
				}
			}
			if len(test.failed) == 0 && len(failed) > 0 {
				t.Errorf("failed %v, want none", failed)
			}
		})
	}
}

// One bearing alone must ask for a guide or for a look at tipping.
func TestLighthouseAsksForGuide(t *testing.T) {
	for _, f := range build(t).Report.Findings {
		if f.Check == "guide-bearing" && f.Verdict == check.Caution && f.Remedy != "" {
			return
		}
	}
	t.Error("nothing asks for a second guide bearing")
}

func TestAccept(t *testing.T) {
	tip := []string{"offset = 4", "offset = 12"}
	for _, test := range []struct {
		name    string
		accept  Accept
		changes []string
		left    int
	}{
		{"by check", Accept{"tipping", "", "a counterweight follows"}, tip, 0},
		{"by check and design", Accept{"tipping", "bearing.lamp", "a counterweight follows"}, tip, 0},
		{"of another design", Accept{"tipping", "bearing.other", "a counterweight follows"}, tip, 1},
		{"never a reversed load", Accept{"load-direction", "", "it will hold"}, []string{`axis = "vertical"`, `axis = "inverted"`}, 2},
	} {
		t.Run(test.name, func(t *testing.T) {
			result, err := Design(read(t, test.changes...), Options{Accept: []Accept{test.accept}})
			if err != nil {
				t.Fatal(err)
			}
			if got := len(result.Failed()); got != test.left {
				t.Errorf("%d failures left, want %d: %+v", got, test.left, result.Failed())
			}
		})
	}
}

// The parts stand in the joint as measured: the wheel's shoulder on the cone,
// 13.25 mm above the cup's back face; pinion and wheel at one height; the axes
// at the working centre distance; the ring's flange in its 2 mm recess.
func TestLighthouseStands(t *testing.T) {
	result := build(t)
	placed := map[string]export.Placed{}
	for _, p := range result.Report.Placed {
		placed[p.Part] = p
	}
	height := map[string]float64{}
	for _, p := range result.Report.Parts {
		height[p.Name] = p.SizeMM[2]
	}
	const tol = 2e-4 // two grid steps
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > tol {
			t.Errorf("%s = %.4f, want %.4f", what, got, want)
		}
	}
	stack := result.Report.Designs["stack.lamp"]
	near("cone above cup back", stack["z_cone_top"].(float64)-stack["z_cup_back"].(float64), 13.25)
	near("horn disc above the plate", stack["z_horn_disc"].(float64), 11+3.6)
	near("ring", placed["lamp-ring"].Z, -2)
	near("ring top is flush with the cup", -2+height["lamp-ring"], stack["z_cup_back"].(float64)+11)
	near("plate below its letters", placed["lamp-plate"].Z+height["lamp-plate"]-markRise, 0)
	near("wheel and pinion", placed["lamp-wheel"].Z, placed["lamp-pinion"].Z)
	near("pinion's foot on the horn disc", placed["lamp-pinion"].Z-height["lamp-pinion"], 14.6)
	near("servo axis", placed["lamp-pinion"].X, 48)
}

// A part that is larger than the bed fails; the module that the remedy names fits.
func TestBedRemedy(t *testing.T) {
	big := []string{"module = 1.5", "module = 6", "bed = [220, 220]", "bed = [180, 160]"}
	var remedy string
	for _, f := range build(t, big...).Failed() {
		if f.Check == "bed" && f.Part == "lamp-wheel" {
			remedy = f.Remedy
		}
	}
	_, named, _ := strings.Cut(remedy, "module <= ")
	module, _, found := strings.Cut(named, " mm")
	if !found {
		t.Fatalf("the remedy names no module: %q", remedy)
	}
	for _, f := range build(t, "module = 1.5", "module = "+module, "bed = [220, 220]", "bed = [180, 160]").Report.Findings {
		if f.Check == "bed" && f.Part == "lamp-wheel" && f.Verdict != check.Pass {
			t.Errorf("with module %s: %+v", module, f)
		}
	}
}

// What a plate is made from must have been measured: left out, it is named.
func TestPlateNeedsMeasuredServo(t *testing.T) {
	for key, line := range map[string]string{
		"servo.lamp.body":            "body = [40.4, 20.1, 37.5]      # long, wide, high\n",
		"servo.lamp.shaft_from_end":  "shaft_from_end = 10.1\n",
		"servo.lamp.horn.hub_height": ", hub_height = 3.6",
	} {
		_, err := Design(read(t, line, ""), Options{})
		if err == nil || !strings.Contains(err.Error(), key) || !strings.Contains(err.Error(), "missing or 0") {
			t.Errorf("without %s: %v", key, err)
		}
	}
}
