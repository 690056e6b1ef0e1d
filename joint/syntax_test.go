package joint_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pintle/joint"
)

// What a builder types who does not know TOML: the file says so at that line, and
// what the remedy proposes is read.
func TestSlipsOfOneWhoDoesNotKnowTOML(t *testing.T) {
	starter, err := joint.Starter("turn", "owl")
	if err != nil {
		t.Fatal(err)
	}
	changed := func(was, line string) error {
		t.Helper()
		text := strings.Replace(starter, "\n"+was, "\n"+line+" #", 1)
		if text == starter {
			t.Fatalf("the starter has no line %s", was)
		}
		_, err := joint.Read("owl.toml", []byte(text))
		return err
	}
	for _, test := range []struct{ was, typed, remedy, cure string }{
		{"height = 70", "height = 70,5", "use a point: 70.5; a list stands in square brackets: [70, 5]", "height = 70.5"},
		{"mass = 0.45", "mass = .45", "write a digit before the point: 0.45", "mass = 0.45"},
		{"mass = 0.45", "mass = 0.45 kg", `put a number with its unit in quotes: "0.45 kg"`, `mass = "0.45 kg"`},
		{"mass = 0.45", "mass = 0.45;", "leave the semicolon out: 0.45", "mass = 0.45"},
		{"mass = 0.45", "mass: 0.45", "write = after the key: mass = 0.45", "mass = 0.45"},
		{"mass = 0.45", "mass =", "give it a value, or put # before the line", "mass = 1"},
		{`law = "cosine"`, "law = cosine", `put a text in quotes: "cosine"`, `law = "cosine"`},
		{`law = "cosine"`, "law = “cosine”", `use straight quotes: "cosine"`, `law = "cosine"`},
		{"overhead = false", "overhead = no", "write false", "overhead = false"},
		{"overhead = false", "overhead = True", "write true", "overhead = true"},
		{"teeth = [31, 41]", "teeth = 31, 41", "a list stands in square brackets: [31, 41]", "teeth = [31, 41]"},
	} {
		err := changed(test.was, test.typed)
		var input *joint.InputError
		if !errors.As(err, &input) || input.Line < 2 || input.Remedy != test.remedy || !strings.HasSuffix(input.Err.Error(), ": "+test.typed) {
			t.Errorf("%s: got %v, want the remedy %q", test.typed, err, test.remedy)
		}
		if err := changed(test.was, test.cure); err != nil {
			t.Errorf("%s: %v", test.cure, err)
		}
	}
	_, err = joint.Read("owl.toml", []byte(starter+"\n[motion.owl]\nswing = 3\n"))
	var input *joint.InputError
	if !errors.As(err, &input) || !strings.Contains(input.Remedy, "stands once") {
		t.Errorf("a table twice: got %v", err)
	}
}

// Too few teeth for the horn: the remedy is a number of teeth that is drawn.
func TestTooFewTeethForTheHorn(t *testing.T) {
	starter, err := joint.Starter("turn", "owl")
	if err != nil {
		t.Fatal(err)
	}
	designed := func(pinion int) error {
		file, err := joint.Read("owl.toml", []byte(strings.Replace(starter, "teeth = [31, 41]", fmt.Sprintf("teeth = [%d, 41]", pinion), 1)))
		if err != nil {
			t.Fatal(err)
		}
		_, err = joint.Design(file, joint.Options{})
		return err
	}
	var input *joint.InputError
	teeth := 0
	if err := designed(8); !errors.As(err, &input) {
		t.Fatalf("8 teeth: %v", err)
	}
	if _, err := fmt.Sscanf(input.Remedy, "z1 >= %d teeth", &teeth); err != nil {
		t.Fatalf("8 teeth: remedy %q", input.Remedy)
	}
	if err := designed(teeth); err != nil {
		t.Errorf("%d teeth: %v", teeth, err)
	}
}
