package joint_test

import (
	"reflect"
	"strings"
	"testing"

	"pintle/fit"
	"pintle/joint"
)

const cardText = `format = "pintle-card/1"
name = "petg04"
material = "PETG"
bead_width = 0.45
layer_thickness = 0.2
bore_error = { offset = -0.15, per_mm = -0.0006, sigma = 0.03 }
outside_error = 0.08
first_layer_growth = 0.2
bed = [220, 200]
`

func TestReadCard(t *testing.T) {
	card, material, err := joint.ReadCard("petg04.toml", []byte(cardText))
	if err != nil {
		t.Fatal(err)
	}
	want := fit.Card{
		Name: "petg04", BeadWidth: 0.45, LayerThickness: 0.2, Bore: fit.Error{Offset: -0.15, PerMM: -0.0006, Sigma: 0.03},
		Outside: fit.Error{Offset: 0.08, Sigma: fit.TypedSigma}, FirstLayerGrowth: 0.2, Bed: [2]float64{220, 200}, Material: "PETG",
	}
	if !reflect.DeepEqual(card, want) || material != "PETG" || !card.Measured() {
		t.Errorf("got %+v and %q, want %+v", card, material, want)
	}
}

func TestReadCardRefuses(t *testing.T) {
	for _, test := range []struct{ old, new, want string }{
		{"bed = [220, 200]\n", "", `the key "bed" is missing`},
		{"pintle-card/1", "pintle-joint/1", "c.toml:1:10: format"},
		{`"petg04"`, `"none"`, "c.toml:2:8: name: cannot name a card"},
		{"0.45", "0", "c.toml:4:14: bead_width 0 mm: must be from"},
		{"bead_width", "beadwidth", "c.toml:4:1: beadwidth: is not a known key"},
	} {
		_, _, err := joint.ReadCard("c.toml", []byte(strings.Replace(cardText, test.old, test.new, 1)))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("with %q got %v, want %s", test.new, err, test.want)
		}
	}
}

// A file without measurements gets the first guesses, one with them keeps them.
func TestCardOfFile(t *testing.T) {
	file, err := joint.Read("a/x.toml", []byte(head+"[printer]\nbead_width = 0.6\nbore_error = -0.1\n"))
	if err != nil {
		t.Fatal(err)
	}
	card := file.Card()
	if card.BeadWidth != 0.6 || card.Bore.Offset != -0.1 || card.Outside != fit.FirstGuessOutside || card.Measured() {
		t.Errorf("got %+v", card)
	}
	if err := card.Validate(); err != nil {
		t.Error(err)
	}
	file, err = joint.Read("a/x.toml", []byte(head+"[printer]\ncard = \"b/c.toml\"\n"))
	if err != nil || file.CardPath() != "a/b/c.toml" {
		t.Errorf("card at %q, %v", file.CardPath(), err)
	}
}
