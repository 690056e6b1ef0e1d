package joint_test

import (
	"errors"
	"testing"

	"pintle/check"
	"pintle/joint"
)

const blameFile = head + `[printer]
bead_width = 9
bed = [220, 1]
[bearing.b]
bore = 22
outside = 8
overall = 7
[housing.h]
bearing = "b"
mount = { kind = "flange", screw_size = "M99" }
[gears.g]
module = 0
teeth = [3, 36]
backlash = 9
face_width = 10
wheel = { bore = 99 }
`

// The word of the trade leads to the key that holds the value, also in a table
// that the design's own table names.
func TestBlame(t *testing.T) {
	file, err := joint.Read("x.toml", []byte(blameFile))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		table string
		err   check.FieldError
		want  string
	}{
		{"gears.g", check.FieldError{Field: "module", Unit: "mm", Reason: "must be greater than 0"}, "x.toml:13:10: gears.g.module 0 mm: must be greater than 0"},
		{"gears.g", check.FieldError{Field: "number of teeth", Value: 3, Reason: "r"}, "x.toml:14:9: gears.g.teeth 3: r"},
		{"gears.g", check.FieldError{Field: "number of teeth of the pinion", Value: 3, Reason: "r"}, "x.toml:14:10: gears.g.teeth[0] 3: r"},
		{"gears.g", check.FieldError{Field: "backlash", Value: 9, Unit: "mm", Reason: "r"}, "x.toml:15:12: gears.g.backlash 9 mm: r"},
		{"gears.g", check.FieldError{Field: "bore of g-wheel", Value: 99, Unit: "mm", Reason: "r"}, "x.toml:17:18: gears.g.wheel.bore 99 mm: r"},
		{"gears.g", check.FieldError{Field: "profile shift", Value: 2, Reason: "r"}, "x.toml:12:8: gears.g: profile shift 2: r"},
		{"housing.h", check.FieldError{Field: "bearing bore", Value: 22, Unit: "mm", Reason: "r"}, "x.toml:6:8: bearing.b.bore 22 mm: r"},
		{"housing.h", check.FieldError{Field: "screw size", Text: "M99", Reason: "r"}, `x.toml:11:41: housing.h.mount.screw_size "M99": r`},
		{"housing.h", check.FieldError{Field: "wall", Value: 1, Unit: "mm", Reason: "r"}, "x.toml:9:10: housing.h: wall 1 mm: r"},
		{"housing.h", check.FieldError{Field: "bead width", Value: 9, Unit: "mm", Reason: "r"}, "x.toml:3:14: printer.bead_width 9 mm: r"},
		{"printer", check.FieldError{Field: "bed width", Value: 1, Unit: "mm", Reason: "r"}, "x.toml:4:13: printer.bed[1] 1 mm: r"},
		{"plate.p", check.FieldError{Field: "thickness", Value: 1, Unit: "mm", Reason: "r"}, "x.toml: plate.p: thickness 1 mm: r"},
	} {
		given := test.err
		given.Remedy = "do it"
		got := file.Blame(test.table, &given)
		if got.Error() != test.want {
			t.Errorf("%s, %s:\n got %s\nwant %s", test.table, test.err.Field, got, test.want)
		}
		var input *joint.InputError
		var field *check.FieldError
		if !errors.As(got, &input) || input.Remedy != "do it" || !errors.As(got, &field) {
			t.Errorf("%s, %s: lost its remedy or field: %#v", test.table, test.err.Field, got)
		}
		if again := file.Blame("gears.g", got); again != got {
			t.Errorf("a placed error was placed again: %v", again)
		}
	}
	if err := file.Blame("gears.g", nil); err != nil {
		t.Errorf("blame for nothing: %v", err)
	}
}

// A joint made from flags blames the flag, or nothing.
func TestBlameNamesTheFlag(t *testing.T) {
	file := &joint.File{}
	file.Mark("gears.g.module", "--module")
	for field, want := range map[string]string{
		"module":     "--module 0 mm: must be greater than 0",
		"face width": "face width 0 mm: must be greater than 0",
	} {
		got := file.Blame("gears.g", &check.FieldError{Field: field, Unit: "mm", Reason: "must be greater than 0"})
		if got.Error() != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if !file.Has("gears.g.module") || file.Has("gears.g.teeth") {
		t.Error("Has does not follow Mark")
	}
}
