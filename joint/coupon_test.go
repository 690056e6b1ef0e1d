package joint

import (
	"math"
	"os"
	"strings"
	"testing"

	"pintle/check"
	"pintle/export"
	"pintle/fit"
)

// measuredCard is a card with everything a coupon can show.
func measuredCard() fit.Card {
	return fit.Card{
		Name: "petg04", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220}, FirstLayerGrowth: 0.2,
		Bore: fit.Error{Offset: -0.15, Sigma: 0.03}, Outside: fit.Error{Offset: 0.05, Sigma: 0.02},
		Material: "PETG", Nozzle: 0.4, Orientation: fit.Upright,
		SlipClearance: 0.14, Interference: 0.06, InterferenceAt: 22, Backlash: 0.23, LeastWeb: 0.8,
	}
}

func carded(t *testing.T, file *File, card *fit.Card) *Result {
	t.Helper()
	r, err := Design(file, Options{Card: card})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func fitOf(t *testing.T, r *Result, part, feature string) fit.Fit {
	t.Helper()
	for _, f := range r.Report.Fits {
		if f.Part == part && f.Feature == feature {
			return f
		}
	}
	t.Fatalf("no fit of %s, %s", part, feature)
	return fit.Fit{}
}

// A card moves every seat, bore, journal, tooth and pocket that is drawn, by what
// it says of bores or outsides, and brings its uncertainty along.
func TestCardMovesEveryFit(t *testing.T) {
	file := read(t)
	card := measuredCard()
	before := carded(t, file, &card)
	card.Bore.Offset, card.Outside.Offset = -0.25, 0.15
	card.Bore.Sigma, card.Outside.Sigma = 0.04, 0.05
	after := carded(t, file, &card)
	if len(before.Report.Fits) < 25 || len(before.Report.Fits) != len(after.Report.Fits) {
		t.Fatalf("%d and %d fits", len(before.Report.Fits), len(after.Report.Fits))
	}
	for i, f := range before.Report.Fits {
		g := after.Report.Fits[i]
		moved := g.Drawn - f.Drawn
		ok := g.Card == "petg04" && g.Wanted == f.Wanted
		switch f.Feature {
		case "recess for the ring", "flange": // the bolt circle follows the tube in steps of 0.5 mm
			ok = g.Card == "petg04" && moved != 0
		case "outside": // of the tube, drawn round the seat
			ok = g.Sigma == 0.05 && math.Abs(moved-0.1) < 1e-9
		default:
			ok = ok && (g.Sigma == 0.04 && math.Abs(moved-0.1) < 1e-9 || g.Sigma == 0.05 && math.Abs(moved+0.1) < 1e-9)
		}
		if !ok {
			t.Errorf("%s, %s: drawn %.4f, then %.4f; sigma %v, then %v", f.Part, f.Feature, f.Drawn, g.Drawn, f.Sigma, g.Sigma)
		}
	}
	for _, feature := range [][2]string{{"lamp-ring", "seat"}, {"lamp-wheel", "journal"}, {"lamp-wheel", "tip circle"}, {"lamp-pinion", "horn pocket"}, {"lamp-plate", "recess for the ring"}} {
		fitOf(t, after, feature[0], feature[1])
	}
}

// First layers that spread more get wider chamfers at the bed, on every part, but
// on teeth no wider than the tooth bears.
func TestCardMovesEveryBedChamfer(t *testing.T) {
	foot := func(growth float64) map[string]float64 {
		card := measuredCard()
		card.FirstLayerGrowth = growth
		b := newBuilder(read(t), Options{Card: &card})
		if err := b.run(); err != nil {
			t.Fatal(err)
		}
		inset := map[string]float64{}
		for _, body := range b.bodies {
			first := body.part.Layers()[0]
			inset[body.part.Name()] = first.Top.Area() - first.Bottom.Area()
		}
		return inset
	}
	usual, more := foot(0.3), foot(0.6)
	if len(usual) < 6 {
		t.Fatalf("%d parts", len(usual))
	}
	for part, area := range usual {
		teeth := part == "lamp-wheel" || part == "lamp-pinion" // a module of 1.5 bears 0.2 mm
		if area <= 0 || more[part] < area || !teeth && more[part] == area {
			t.Errorf("%s stands on %.2f mm² less than above the chamfer, with twice the growth %.2f", part, area, more[part])
		}
	}
}

// What a coupon showed is used where the file is silent, and said; where the file
// speaks the file is used. 0.06 on 22 mm is the hoop strain of 0.1091 on 40.
func TestCardIsUsedWhereTheFileIsSilent(t *testing.T) {
	card := measuredCard()
	for _, test := range []struct {
		name    string
		changes []string
		part    string
		feature string
		wanted  float64
		noted   string
	}{
		{"interference", nil, "lamp-ring", "seat", 40 - 0.06*40/22, "interference that held"},
		{"own interference", []string{`fit = "press"`, "fit = \"press\"\ninterference = 0.12"}, "lamp-ring", "seat", 39.88, ""},
		{"slip", []string{`fit = "press"`, `fit = "slip"`}, "lamp-ring", "seat", 40.14, "slip clearance"},
	} {
		r := carded(t, read(t, test.changes...), &card)
		if f := fitOf(t, r, test.part, test.feature); math.Abs(f.Wanted-test.wanted) > 1e-9 {
			t.Errorf("%s: wanted %v, want %v", test.name, f.Wanted, test.wanted)
		}
		noted := false
		for _, f := range r.Report.Findings {
			noted = noted || f.Check == "from-card" && f.Design == "housing.lamp" && test.noted != "" && strings.Contains(f.Detail, test.noted)
		}
		if noted != (test.noted != "") {
			t.Errorf("%s: noted %v", test.name, noted)
		}
	}
	r := carded(t, read(t, "backlash = 0.2 ", ""+"# "), &card)
	if j := r.Report.Designs["gears.lamp"]["j_wt"].(float64); math.Abs(j-0.23) > 1e-9 {
		t.Errorf("backlash %v of the card's 0.23", j)
	}
	if _, err := Design(read(t, "backlash = 0.2 ", "# "), Options{}); err == nil || !strings.Contains(err.Error(), "gears.lamp: backlash") {
		t.Errorf("neither file nor card gives a backlash: %v", err)
	}
	web := findingOf(t, r, "voice-grille", "grille-web")
	if web.Limit != ">= 0.9" && web.Limit != ">= 0.8" {
		t.Errorf("least web of the card is not the limit: %+v", web)
	}
}

// A card whose outsides nobody read is not a measured one.
func TestCardReadInPart(t *testing.T) {
	for _, test := range []struct {
		outside fit.Error
		want    bool
	}{{fit.Error{Offset: 0.05, Sigma: 0.02}, false}, {fit.FirstGuessOutside, true}} {
		card := measuredCard()
		card.Outside = test.outside
		got := false
		for _, f := range carded(t, read(t), &card).Report.Findings {
			got = got || f.Check == "fit-unmeasured"
		}
		if got != test.want {
			t.Errorf("outside error %+v: fit-unmeasured %v", test.outside, got)
		}
	}
}

// A card made with another material, nozzle or way up is a caution, one that
// fits is none.
func TestCardMismatch(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*fit.Card)
		want  string
	}{
		{"fits", func(*fit.Card) {}, ""},
		{"unknown", func(c *fit.Card) { c.Material, c.Nozzle, c.Orientation = "", 0, "" }, ""},
		{"material", func(c *fit.Card) { c.Material = "PLA" }, "measured with PLA, this is printed with PETG"},
		{"nozzle", func(c *fit.Card) { c.Nozzle = 0.6 }, "a nozzle of 0.6 mm, this is printed with 0.4 mm"},
		{"orientation", func(c *fit.Card) { c.Orientation = fit.Level }, "measured with axes level, this is printed upright"},
	} {
		card := measuredCard()
		test.spoil(&card)
		r := carded(t, read(t, "bed = [220, 220]", "bed = [220, 220]\nnozzle = 0.4\norientation = \"upright\""), &card)
		var got []check.Finding
		for _, f := range r.Report.Findings {
			if f.Check == "card-mismatch" {
				got = append(got, f)
			}
		}
		if (len(got) == 1) != (test.want != "") || len(got) == 1 && (!strings.Contains(got[0].Detail, test.want) || got[0].Verdict != check.Caution) {
			t.Errorf("%s: %+v", test.name, got)
		}
	}
}

// A seat that measured 0.06 mm small is drawn 0.06 mm larger the next time; a
// second print adds its own; a slip of the caliper counts 0.15 mm at most.
func TestMeasuredSeat(t *testing.T) {
	drawn := func(text string) (fit.Fit, check.Finding) {
		r := carded(t, read(t, `fit = "press"`, "fit = \"press\"\ninterference = 0.1\n"+text), nil)
		var found check.Finding
		for _, f := range r.Report.Findings {
			if f.Check == "seat-readings" {
				found = f
			}
		}
		return fitOf(t, r, "lamp-ring", "seat"), found
	}
	first, none := drawn("")
	if none.Check != "" {
		t.Errorf("a finding without readings: %+v", none)
	}
	for _, test := range []struct {
		text    string
		step    float64
		verdict check.Verdict
	}{
		{"measured = { seat = 39.84 }", 0.06, check.Pass},
		{"measured = [{ seat = 39.84 }, { seat = 39.92 }]", 0.04, check.Pass},
		{"measured = { seat = 39.40 }", 0.15, check.Caution},
	} {
		next, found := drawn(test.text)
		if step := next.Drawn - first.Drawn; math.Abs(step-test.step) > 1e-9 || found.Verdict != test.verdict || next.Wanted != first.Wanted {
			t.Errorf("%s: drawn %v larger, %+v", test.text, step, found)
		}
	}
	if _, err := Read("x.toml", []byte("format = \"pintle-joint/1\"\n"+"[bearing.a]\ndesignation = \"608\"\n[housing.a]\nbearing = \"a\"\nmeasured = { seet = 3 }\n")); err == nil || !strings.Contains(err.Error(), "measured.seet") {
		t.Errorf("a wrong key: %v", err)
	}
}

// A [coupon] table is built with the joint, from what the joint's other tables
// say, through the same report and files.
func TestCouponInAFile(t *testing.T) {
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := Read("x.toml", append(data, []byte("\n[coupon]\nonly = [\"rings\", \"pockets\"]\nrings = { from = 0, to = 0.2, step = 0.1 }\n")...))
	if err != nil {
		t.Fatal(err)
	}
	r := carded(t, file, nil)
	names := map[string]bool{}
	for _, f := range r.Files {
		names[f.Name] = true
	}
	for _, want := range []string{"lamp-wheel.stl", "coupon-rings.stl", "coupon-rings-drawing.svg", "coupon-pockets.stl", "coupon-sheet.svg", "coupon-readings.toml", "bed.3mf"} {
		if !names[want] {
			t.Errorf("%s is missing", want)
		}
	}
	if names["coupon-bar.stl"] {
		t.Error("a piece that was not asked for")
	}
	if f := fitOf(t, r, "coupon-rings", "bore of the ring marked +20"); f.Drawn != 40.2 {
		t.Errorf("the ring marked +20 is drawn %v round a bearing of 40", f.Drawn)
	}
	if _, err := Read("x.toml", []byte("format = \"pintle-joint/1\"\n"+"[coupon]\nbearing = \"none\"\nrings = { from = 0, to = 1 }\n")); err == nil ||
		!strings.Contains(err.Error(), "there is no [bearing.none]") || !strings.Contains(err.Error(), `the key "step" is missing`) {
		t.Errorf("got %v", err)
	}
	file.CouponAlone()
	if r := carded(t, file, nil); len(r.Report.Parts) != 3 || export.Verdict(r.Report.Findings) == check.Fail {
		t.Errorf("%d parts of the coupon alone", len(r.Report.Parts))
	}
}
