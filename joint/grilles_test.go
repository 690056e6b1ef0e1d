package joint_test

import (
	"encoding/json"
	"errors"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pintle/joint"
)

const slots = `format = "pintle-joint/1"
[printer]
bore_error = { offset = -0.2, per_mm = 0.001, sigma = 0.05 }
material = "blue"
[material.blue]
like = "PETG"
strain_limit = 0.007
[grille.a]
outline = { kind = "rectangle", length = "90mm", width = 60, corner_radius = 5 }
pattern = "slot"
hole = 2
slot_length = 12
pitch = 3.5
pitch_along = 28
thickness = 2
margin = 10
hazard_depth = "1in"
open_target = 0.45
material = "PLA"
screws = { size = "M3", count = 4, inset = 5.5 }
`

func TestReadGrille(t *testing.T) {
	file, err := joint.Read("x.toml", []byte(slots))
	if err != nil {
		t.Fatal(err)
	}
	want := joint.Grille{
		Outline: joint.Outline{Kind: "rectangle", Length: 90, Width: 60, CornerRadius: 5},
		Pattern: "slot", Hole: 2, SlotLength: 12, Pitch: 3.5, PitchAlong: 28, Thickness: 2, Margin: 10,
		HazardDepth: 25.4, OpenTarget: 0.45, Material: "PLA", Screws: joint.Screws{Size: "M3", Count: 4, Inset: 5.5},
	}
	if diff := cmp.Diff(want, file.Grilles["a"]); diff != "" {
		t.Error(diff)
	}
	result := design(t, slots)
	if len(result.Failed()) > 0 || result.Report.Parts[0].Name != "a-grille" || result.Report.Parts[0].Material != "PLA" {
		t.Errorf("failed %+v, parts %+v", result.Failed(), result.Report.Parts)
	}
	for symbol, want := range map[string]float64{"hole": 2, "slot_length": 12, "pitch": 3.5, "pitch_along": 28, "thickness": 2, "margin": 10} {
		if got := result.Report.Designs["grille.a"][symbol]; got != want {
			t.Errorf("%s is %v, want %v", symbol, got, want)
		}
	}
}

// A grille that cannot be made is blamed on the key of the quantity.
func TestGrilleBlames(t *testing.T) {
	for _, test := range []struct{ why, from, to, place, says string }{
		{"diameter of a rectangle", "length = \"90mm\"", "diameter = 80, length = 90", "9:44: grille.a.outline.diameter", "length and width"},
		{"corners too round", "corner_radius = 5", "corner_radius = 31", "9:78: grille.a.outline.corner_radius", "must be from 0 to 30"},
		{"too long", "90mm", "9m", "9:42: grille.a.outline.length", "must be from"},
		{"slots on end", "pitch_along = 28", "pitch_along = 11", "14:15: grille.a.pitch_along", "slot length 12 mm"},
		{"short slots", "slot_length = 12", "slot_length = 2", "12:15: grille.a.slot_length", "must be from 2.1"},
		{"slots of another pattern", `"slot"`, `"square"`, "12:15: grille.a.slot_length", "only the pattern slot has one"},
		{"half open", "0.45", "45", "18:15: grille.a.open_target", "must be from 0.01 to 0.99"},
		{"behind the face", `"1in"`, "-1", "17:16: grille.a.hazard_depth", "must be from 0"},
		{"circle on a rectangle", "inset = 5.5", "circle = 50", "20:45: grille.a.screws.circle", "corners"},
		{"inset too small", "inset = 5.5", "inset = 1", "20:44: grille.a.screws.inset", "must be from"},
		{"no screw at all", "count = 4", "count = 0", "20:33: grille.a.screws.count", "even number from 4"},
		{"a screw nobody has", `"M3"`, `"M99"`, "20:19: grille.a.screws.size", "known screws"},
	} {
		t.Run(test.why, func(t *testing.T) {
			if !strings.Contains(slots, test.from) {
				t.Fatalf("no %q to change", test.from)
			}
			file, err := joint.Read("x.toml", []byte(strings.Replace(slots, test.from, test.to, 1)))
			if err != nil {
				t.Fatal(err)
			}
			_, err = joint.Design(file, joint.Options{})
			var e *joint.InputError
			if !errors.As(err, &e) || e.Remedy == "" || !strings.HasPrefix(err.Error(), "x.toml:"+test.place) || !strings.Contains(err.Error(), test.says) {
				t.Errorf("got %v\nwant x.toml:%s ... %s", err, test.place, test.says)
			}
		})
	}
}

// The inputs of the report read like the file: its keys in small letters.
func TestInputsReadLikeTheFile(t *testing.T) {
	file, err := joint.Read("x.toml", []byte(slots))
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(file.Inputs())
	if err != nil {
		t.Fatal(err)
	}
	keys := regexp.MustCompile(`"([^"]+)":`).FindAllStringSubmatch(string(data), -1)
	small := regexp.MustCompile(`^[a-z0-9_-]+$`)
	for _, key := range keys {
		if !small.MatchString(key[1]) {
			t.Errorf("key %q", key[1])
		}
	}
	for _, part := range []string{
		`"bore_error":{"offset":-0.2,"per_mm":0.001,"sigma":0.05}`, `"strain_limit":0.007`, `"slot_length":12`,
		`"outline":{"kind":"rectangle","length":90,"width":60,"corner_radius":5}`,
	} {
		if !strings.Contains(string(data), part) {
			t.Errorf("no %s in %s", part, data)
		}
	}
}
