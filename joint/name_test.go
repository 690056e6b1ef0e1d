package joint_test

import (
	"testing"

	"pintle/joint"
)

// kitten and sitting differ by three letters: the textbook example of the
// Levenshtein distance. It is too far for a word of six letters.
func TestNearest(t *testing.T) {
	known := []string{"module", "teeth", "backlash", "face_width", "x"}
	for word, want := range map[string]string{
		"modul": "module", "moduel": "module", "tooth": "teeth", "facewidth": "face_width",
		"sitting": "", "": "", "y": "",
	} {
		if got, ok := joint.Nearest(word, known); got != want || ok != (want != "") {
			t.Errorf("Nearest(%q) = %q, %v, want %q", word, got, ok, want)
		}
	}
	if got, ok := joint.Nearest("kitten", []string{"sitting"}); ok {
		t.Errorf("kitten is near %q", got)
	}
	if got, _ := joint.Nearest("kittens", []string{"sitting", "kitting"}); got != "kitting" {
		t.Errorf("kittens is nearest to %q", got)
	}
}

func TestValidName(t *testing.T) {
	for name, want := range map[string]bool{
		"lamp": true, "lamp-2": true, "2": true,
		"": false, "Lamp": false, "-lamp": false, "lamp-": false, "a/b": false, "..": false, "a.b": false,
		"a b": false, "a_b": false, "lämp": false, "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa": false,
	} {
		if got := joint.ValidName(name) == nil; got != want {
			t.Errorf("ValidName(%q) is %v", name, got)
		}
	}
}
