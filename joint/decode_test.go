package joint_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pintle/check"
	"pintle/fit"
	"pintle/joint"
)

// head is the line every joint file starts with; tests count lines from it.
const head = "format = \"pintle-joint/1\"\n"

// drive is a servo, load and motion for gears to refer to.
const driveTables = `
[servo.s]
stall_torque = "9.4kgf.cm"
speed = "0.17 s/60deg"
points = [[1000, -45], [1500, 0], [2000, 45]]
[load.l]
mass = "180g"
inertia = 0.002
axis = "horizontal"
[motion.m]
swing = 45
time = "800ms"
`

func TestReadTakesUnits(t *testing.T) {
	file, err := joint.Read("heron.toml", []byte(head+driveTables+`
[place]
hottest = "104F"
[printer]
bead_width = "0.018in"
bore_error = { offset = -0.15, per_mm = -0.0006, sigma = 0.03 }
outside_error = "0.08mm"
[bearing.r4]
bore = "0.2500in"
outside = "0.6250in"
overall = "0.1960in"
[gears.g]
servo = "s"
load = "l"
motion = "m"
module = 1
teeth = [12, -40]
shift = "choose"
backlash = "100um"
face_width = "1cm"
[limits]
contact-ratio = { caution = 1.3, fail = "none" }
[accept]
"servo-torque@gears.g" = "tried on the bench"
`))
	if err != nil {
		t.Fatal(err)
	}
	// The definitions of the units; R4 in mm from the inch table, 6.350 x 15.875 x 4.9784.
	want := joint.Bearing{Bore: 6.35, Outside: 15.875, Overall: 0.196 * 25.4}
	if got := file.Bearings["r4"]; got != want {
		t.Errorf("bearing %+v, want %+v", got, want)
	}
	for _, test := range []struct {
		what      string
		got, want float64
	}{
		{"stall torque", file.Servos["s"].StallTorque, 9.4 * 0.0980665},
		{"speed", file.Servos["s"].SpeedDeg, 60 / 0.17},
		{"mass", file.Loads["l"].Mass, 0.18},
		{"inertia", file.Loads["l"].Inertia.Value, 0.002},
		{"time", file.Motions["m"].Time, 0.8},
		{"hottest", file.Place.Hottest, 40},
		{"bead width", file.Printer.BeadWidth, 0.018 * 25.4},
		{"backlash", file.Gears["g"].Backlash, 0.1},
		{"face width", file.Gears["g"].FaceWidth, 10},
		{"pressure angle of ISO 53", file.Gears["g"].PressureAngleDeg, 20},
	} {
		if diff := test.got - test.want; diff > 1e-12 || diff < -1e-12 {
			t.Errorf("%s %.15g, want %.15g", test.what, test.got, test.want)
		}
	}
	if got, want := file.Printer.Bore, (fit.Error{Offset: -0.15, PerMM: -0.0006, Sigma: 0.03}); got != want {
		t.Errorf("bore error %+v, want %+v", got, want)
	}
	if got, want := file.Printer.Outside, (fit.Error{Offset: 0.08, Sigma: fit.TypedSigma}); got != want {
		t.Errorf("outside error %+v, want %+v", got, want)
	}
	if g := file.Gears["g"]; g.Teeth != [2]int{12, -40} || g.Shift.Rule != joint.ShiftChoose {
		t.Errorf("gears %+v", g)
	}
	if l := file.Limits["contact-ratio"]; l.Caution != 1.3 || l.Fail == l.Fail {
		t.Errorf("limit %+v, want 1.3 and none", l)
	}
	if diff := cmp.Diff(map[string]string{"servo-torque@gears.g": "tried on the bench"}, file.Accept); diff != "" {
		t.Error(diff)
	}
}

// One broken line each: the place, the key and the words of the error.
func TestReadRefuses(t *testing.T) {
	const gears = "[gears.g]\nbacklash = 0.2\nface_width = 10\n" // lines 2 to 4
	for _, test := range []struct {
		why, text    string
		place        string // line:column: key
		says, remedy string
	}{
		{"unknown key", head + gears + "modul = 1.5\nmodule = 1.5", "5:1: gears.g.modul", "not a known key", `"module"`},
		{"unknown table", head + "[geers.g]", "2:2: geers", "not a known key", `"gears"`},
		{"unknown key without neighbour", head + "[place]\nelevator = 1", "3:1: place.elevator", "not a known key", "known here: coldest, hottest"},
		{"unknown key in an inline table", head + gears + "module = 1\nwheel = { hubb = \"round\" }", "6:11: gears.g.wheel.hubb", "not a known key", `"hub"`},
		{"misspelt word", head + gears + "module = 1\npinion = { hub = \"hron\" }", "6:18: gears.g.pinion.hub", "must be one of horn", `"horn"`},
		{"journal on a pinion", head + gears + "module = 1\npinion = { hub = \"journal\" }", "6:18: gears.g.pinion.hub", "must be one of horn", ""},
		{"text for a number", head + gears + "module = \"big\"", "5:10: gears.g.module", `"big": is not a number`, "mm"},
		{"decimal comma", head + gears + "module = \"1,5\"", "5:10: gears.g.module", "has a comma", "use a point: 1.5"},
		{"unknown unit", head + gears + "module = \"1.5furlong\"", "5:10: gears.g.module", `"furlong" is not known`, "mm, cm"},
		{"not a number", head + gears + "module = nan", "5:10: gears.g.module", "not a finite number", ""},
		{"infinite", head + gears + "module = -inf", "5:10: gears.g.module", "not a finite number", ""},
		{"yes for a number", head + gears + "module = true", "5:10: gears.g.module", "must be a length, not true or false", "mm"},
		{"date for a number", head + gears + "module = 2026-01-02", "5:10: gears.g.module", "not a date", ""},
		{"three teeth", head + gears + "module = 1\nteeth = [1, 2, 3]", "6:9: gears.g.teeth", "list of 2 values, has 3", ""},
		{"half a tooth", head + gears + "module = 1\nteeth = [12, 36.5]", "6:14: gears.g.teeth[1]", "whole number", ""},
		{"teeth and ratio", head + gears + "module = 1\nteeth = [12, 36]\nratio = 3", "7:9: gears.g.ratio", `"teeth" is given as well`, ""},
		{"unknown shift", head + gears + "module = 1\nshift = \"chose\"", "6:9: gears.g.shift", "choose, balanced", `"choose"`},
		{"missing key", head + "[gears.g]\nmodule = 1", "2:8: gears.g", `"face_width" is missing`, "face_width = ..."},
		{"missing servo", head + gears + "module = 1\nservo = \"lamp\"", "6:9: gears.g.servo", "there is no [servo.lamp]", "add a table"},
		{"misspelt servo", head + gears + "module = 1\nservo = \"z\"" + driveTables, "6:9: gears.g.servo", "there is no [servo.z]", "the file has s"},
		{"unknown material", head + gears + "module = 1\nmaterial = \"cheese\"", "6:12: gears.g.material", `"cheese" is not known`, "PETG"},
		{"upper-case name", head + "[housing.Lamp]\nbearing = \"x\"", "2:10: housing.Lamp", "lower-case", ""},
		{"path for a name", head + "[housing.\"../x\"]\nbearing = \"x\"", "2:10: housing.../x", "lower-case", ""},
		{"number for a table", head + "housing = 1", "2:11: housing", "must be a table", ""},
		{"array of tables", head + "[[housing]]\nbearing = \"x\"", "2:3: housing", "must be a table, not a list", ""},
		{"bad tolerance class", head + "[bearing.b]\ndesignation = \"608\"\n[housing.h]\nbearing = \"b\"\nfit = \"I7\"", "6:7: housing.h.fit", "press, slip", ""},
		{"bearing without size", head + "[bearing.b]\nbore = 8\noutside = 22", "2:10: bearing.b", `"overall" is missing`, ""},
		{"point without angle", head + strings.Replace(driveTables, "[1500, 0]", "[1500]", 1), "6:25: servo.s.points[1]", "list of 2 values", "pulse"},
		{"solid without radius", head + strings.Replace(driveTables, "0.002", `{ solid = "disc" }`, 1), "9:11: load.l.inertia", `"radius" is missing`, ""},
		{"card and measurement", head + "[printer]\ncard = \"c.toml\"\nbead_width = 0.4", "4:14: printer.bead_width", "the card holds it", ""},
		{"unknown check", head + "[limits]\ncontact-rato = { caution = 1, fail = 1 }", "3:1: limits.contact-rato", "not the name of a check", `"contact-ratio"`},
		{"half a limit", head + "[limits]\ncontact-ratio = { caution = 1 }", "3:17: limits.contact-ratio", `"fail" is missing`, ""},
		{"no reason", head + "[accept]\ncontact-ratio = \" \"", "3:17: accept.contact-ratio", "has no reason", ""},
		{"never acceptable", head + "[accept]\nmesh-closed = \"please\"", "3:1: accept.mesh-closed", "can never be accepted", ""},
		{"control character", head + "title = \"a\\u0000b\"", "2:9: title", "control character", ""},
		{"column in characters", head + "\"µµ\" = 1", "2:1: µµ", "not a known key", ""},
		{"value after wide characters", head + "[material.\"µµ\"]\n\"like\"=3", "3:8: material.µµ.like", "must be a text", ""},
		{"no format", "title = \"x\"", "", `"format" is missing`, ""},
		{"other format", "format = \"pintle-joint/2\"", "1:10: format", "not a format this version reads", "pintle-joint/1"},
		{"no TOML", head + "title = ", "2:8", "not valid TOML", ""},
		{"key twice", head + "title = \"a\"\ntitle = \"b\"", "3:1", "already defined", ""},
		{"number beyond 64 bits", head + "title = 99999999999999999999", "2:9", "too large", ""},
		{"no text", head + "title = \"\xff\"", "2", "UTF-8", ""},
		{"huge", strings.Repeat("#\n", 1<<20), "", "larger than 1 MB", ""},
	} {
		t.Run(test.why, func(t *testing.T) {
			_, err := joint.Read("x.toml", []byte(test.text))
			var e *joint.InputError
			if !errors.As(err, &e) {
				t.Fatalf("error %v, want a *joint.InputError", err)
			}
			place := "x.toml:"
			if test.place != "" {
				place += test.place + ":"
			}
			for _, line := range strings.Split(err.Error(), "\n") {
				if strings.HasPrefix(line, place) && strings.Contains(line, test.says) && strings.Contains(e.Remedy, test.remedy) {
					return
				}
			}
			t.Errorf("got %v\nremedy %q\nwant %s ... %s\nremedy %q", err, e.Remedy, place, test.says, test.remedy)
		})
	}
}

func TestReadTellsAllErrorsInOrder(t *testing.T) {
	_, err := joint.Read("x.toml", []byte(head+"[place]\nhotest = 1\n[motion.m]\nswing = \"1,5\"\n"))
	want := `x.toml:3:1: place.hotest: is not a known key
x.toml:4:9: motion.m: the key "time" is missing
x.toml:5:9: motion.m.swing: "1,5": has a comma`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestHasAndLocate(t *testing.T) {
	file, err := joint.Read("x.toml", []byte("\ufeff"+head+driveTables+"[bearing]\nb.designation = \"608\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]bool{
		"load.l.mass": true, "load.l.friction": false, "bearing.b.designation": true,
		"printer": false, "servo.s.points[2][1]": true, "servo.s.points[3]": false,
	} {
		if got := file.Has(path); got != want {
			t.Errorf("Has(%q) = %v", path, got)
		}
	}
	for _, test := range []struct {
		table, key   string
		line, column int
	}{
		{"load.l", "mass", 8, 8},
		{"load.l", "", 7, 7},
		{"load.l", "friction", 7, 7},
		{"servo.s", "points[1][0]", 6, 25},
		{"bearing.b", "designation", 15, 17},
		{"plate.p", "thickness", 0, 0},
	} {
		if line, column := file.Locate(test.table, test.key); line != test.line || column != test.column {
			t.Errorf("Locate(%q, %q) = %d:%d, want %d:%d", test.table, test.key, line, column, test.line, test.column)
		}
	}
}

// A material that is like a known one keeps what it does not change.
func TestReadMaterial(t *testing.T) {
	known, ok := fit.MaterialNamed("PETG")
	if !ok {
		t.Fatal("PETG is not known")
	}
	file, err := joint.Read("x.toml", []byte(head+"[material.red]\nlike = \"PETG\"\nmodulus = 1700\nsource = \"own bar\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	want := known
	want.Name, want.Modulus, want.Source = "red", 1700, "own bar"
	if diff := cmp.Diff(want, file.Materials["red"]); diff != "" {
		t.Error(diff)
	}
	_, err = joint.Read("x.toml", []byte(head+"[material.new]\nmodulus = 1700\n"))
	if err == nil || !strings.Contains(err.Error(), `"poisson" is missing`) {
		t.Errorf("got %v, want the missing keys of an unknown material", err)
	}
}

// Whatever is read: no panic, and each error has a file and something to say.
func FuzzRead(f *testing.F) {
	f.Add(head + driveTables)
	f.Add(head + "[gears.g]\nmodule = 1\nteeth = [1, 2]\nshift = [[1], {}]\npinion = { hub.x = 1 }")
	f.Add(head + "[[gears]]\n[[gears]]\na.b.c = [[[1]], 'x', {y=1}]")
	f.Add("[a]\n\"a.b\" = 1\n[a.\"a.b\"]\n")
	f.Add(head + "[limits]\nx = 1\n[accept]\n\"@\" = ''\n[bearing.b]\nbore = 1e999\n")
	f.Add("a = [ # comment\n 1, # x\n]\r\nb = 1979-05-27T07:32:00Z\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		file, err := joint.Read("x.toml", []byte(text))
		if (err == nil) == (file == nil) {
			t.Fatalf("file %v with error %v", file, err)
		}
		var input *joint.InputError
		if err != nil && (!errors.As(err, &input) || input.File != "x.toml" || input.Err.Error() == "") {
			t.Errorf("incomplete error %#v", err)
		}
		if _, _, err := joint.ReadCard("c.toml", []byte(text)); err == nil && file != nil {
			t.Error("one text is joint file and card")
		}
		if file != nil {
			var field *check.FieldError
			if e := file.Blame("gears.g", &check.FieldError{Field: "module"}); !errors.As(e, &field) {
				t.Errorf("the blame lost the error: %v", e)
			}
		}
	})
}
