package joint

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"pintle/fit"
)

const readingsText = `format = "pintle-readings/1"
name = "petg04"
material = "PETG"
nozzle = 0.4
bead_width = 0.45
layer_thickness = 0.2
bed = [220, 220]
bores = [
  [21.80, 21.60, 21.60],
  [22.00, 21.80, 21.80],
  [22.20, 22.00, 22.00],
  [22.40, 0, 0],
  [3.00, 2.80, 2.80],
]
outsides = [
  [8.00, 8.05, 8.05],
  [12.00, 12.05, 12.05],
  [100.00, 100.05, "3.93897637795in"],
]
block = { drawn = 30, bed = [30.45, 30.45], above = [30.05, 30.05] }
[tried]
bearing = 22.00
by_hand = 0.30
press = 0.10
module = 1.5
teeth = [20, 20]
free = 0.20
least_web = 0.8
`

// Readings become a card that ReadCard reads back as it was, which says how each
// number was found; the numbers are worked by hand: 0.05 on both gears takes
// 0.1 / cos 20° = 0.1064 of the backlash.
func TestReadingsToCard(t *testing.T) {
	c, err := Calibrate("r.toml", []byte(readingsText))
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := WriteCard(&text, c); err != nil {
		t.Fatal(err)
	}
	card, material, err := ReadCard("c.toml", text.Bytes())
	if err != nil {
		t.Fatalf("%v\n%s", err, text.String())
	}
	want := fit.Card{
		Name: "petg04", Material: "PETG", Nozzle: 0.4, Orientation: "upright", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220},
		Bore: fit.Error{Offset: -0.2, Sigma: card.Bore.Sigma}, Outside: fit.Error{Offset: 0.05, Sigma: card.Outside.Sigma}, FirstLayerGrowth: 0.2,
		SlipClearance: 0.1, Interference: 0.1, InterferenceAt: 22, Backlash: 0.0936, LeastWeb: 0.8,
	}
	if !reflect.DeepEqual(card, want) || material != "PETG" {
		t.Errorf("got %+v\nwant %+v", card, want)
	}
	for _, says := range []string{"# 4 bores from 3 to 22.2 mm", "no slope", "# the ring marked +30 takes the bearing by hand", "# the block is 0.4 mm wider"} {
		if !strings.Contains(text.String(), says) {
			t.Errorf("the card does not say %q:\n%s", says, text.String())
		}
	}
}

// Nonsense is refused in one sentence with file, line and column of the reading.
func TestReadingsRefused(t *testing.T) {
	for _, test := range []struct{ old, new, want string }{
		{"[22.00, 21.80, 21.80]", "[22.00, 21.80, 19.80]", "r.toml:10:18: bores[1][2]: bore 19.8 mm: is -2.2 mm off the drawn 22 mm"},
		{"[22.00, 21.80, 21.80]", "[22.00, 0.858, 21.80]", "r.toml:10:11: bores[1][1]: bore 0.858 mm: is 1/25.4 of the drawn 22 mm: it was read in inches"},
		{"[8.00, 8.05, 8.05]", "[8.00, 8.75, 8.75]", "r.toml:16:10: outsides[0][1]: outside 8.75 mm: is +0.75 mm off the drawn 8 mm, the others are +0.05 mm off"},
		{"bed = [30.45, 30.45]", "bed = [30.45, 1.19]", "r.toml:20:37: block.bed[1]: block 1.19 mm: is 1/25.4"},
		{"by_hand = 0.30", "by_hand = 30", "r.toml:23:11: tried.by_hand 30 mm: is no step of a coupon"},
		{"press = 0.10", "press = 0.40", "r.toml:24:9: tried.press 0.4 mm: a ring that needs a press must be tighter"},
		{"[tried]", "kerf = { thickness = 3, bars = [88.0] }\n[tried]", "r.toml:21:8: kerf 1.2 mm: is no width of a cut"},
		{"[tried]", "kerf = { thickness = 3, bars = [98.2], window = [20.4] }\n[tried]", "by the bars is 0.4 mm by the window"},
		{"[tried]", "kerf = { thickness = 3, window = [0.79] }\n[tried]", "is 1/25.4 of the drawn 20 mm"},
		{"[tried]", "kerf = { bars = [98.2] }\n[tried]", "\"thickness\" is missing"},
		{"[tried]", "kerf = { thickness = 3, bar = [98.2] }\n[tried]", "r.toml:21:25: kerf.bar: is not a known key"},
		{"bearing = 22.00\n", "", `the key "bearing" is missing`},
		{"nozzle = 0.4", "nozle = 0.4", "r.toml:4:1: nozle: is not a known key"},
		{"[3.00, 2.80, 2.80]", "3.00", "r.toml:13:3: bores[4]: must be a row"},
		{"[3.00, 2.80, 2.80]", "[3.00, \"2,80\", 2.80]", "has a comma"},
		{"pintle-readings/1", "pintle-card/1", "r.toml:1:10: format"},
		{"  [22.00, 21.80, 21.80],\n  [22.20, 22.00, 22.00],\n", "", "r.toml:8:9: bores 2: must be at least 3"},
	} {
		if !strings.Contains(readingsText, test.old) {
			t.Fatalf("no %q", test.old)
		}
		_, err := Calibrate("r.toml", []byte(strings.Replace(readingsText, test.old, test.new, 1)))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("with %q got\n%v, want\n%s", test.new, err, test.want)
		}
	}
}

// Flats on the nibs make bores read low by what testdata/ref/coupon-nib.csv says.
func TestNibFlat(t *testing.T) {
	f, err := os.Open("../testdata/ref/coupon-nib.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatal(len(rows), err)
	}
	for _, row := range rows[1:] {
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		text := strings.Replace(readingsText, "bores = [", fmt.Sprintf("nib_flat = %g\nbores = [\n[%g, %g],[%g, %g],[%g, %g],", v[1], v[0], v[0]-v[2], v[0], v[0]-v[2], v[0], v[0]-v[2]), 1)
		for _, old := range []string{"  [21.80, 21.60, 21.60],\n", "  [22.00, 21.80, 21.80],\n", "  [22.20, 22.00, 22.00],\n", "  [3.00, 2.80, 2.80],\n"} {
			text = strings.Replace(text, old, "", 1)
		}
		c, err := Calibrate("r.toml", []byte(text[:strings.Index(text, "[tried]")]))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(c.Card.Bore.Offset) > 0.0006 { // rounding of the table
			t.Errorf("bore %g, flat %g: error %g left", v[0], v[1], c.Card.Bore.Offset)
		}
	}
}
