package quantity_test

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pintle/quantity"
)

// exact multiplies decimal texts without rounding, then rounds once.
func exact(t *testing.T, factors ...string) float64 {
	t.Helper()
	product := big.NewRat(1, 1)
	for _, factor := range factors {
		r, ok := new(big.Rat).SetString(factor)
		if !ok {
			t.Fatalf("%q is not a rational number", factor)
		}
		product.Mul(product, r)
	}
	value, _ := product.Float64()
	return value
}

// The definitions: 1 in = 25.4 mm and 1 lb = 0.45359237 kg (international yard
// and pound agreement, 1959), g = 9.80665 m/s² (3rd CGPM, 1901), 1 oz = lb/16,
// 1 min = 60 s. Products are exact rationals; one rounding of the factor and one
// of the product are allowed.
func TestParseFollowsTheDefinitions(t *testing.T) {
	const pound, gravity = "0.45359237", "9.80665"
	for _, test := range []struct {
		kind    quantity.Kind
		text    string
		factors []string
	}{
		{quantity.Length, "12", []string{"12"}},
		{quantity.Length, "12mm", []string{"12"}},
		{quantity.Length, " 12 mm ", []string{"12"}},
		{quantity.Length, "+.5in", []string{"0.5", "25.4"}},
		{quantity.Length, `0.625"`, []string{"0.625", "25.4"}},
		{quantity.Length, "1cm", []string{"10"}},
		{quantity.Length, "1.2m", []string{"1200"}},
		{quantity.Length, "5µm", []string{"0.005"}},
		{quantity.Length, "-1.5e1mm", []string{"-15"}},
		{quantity.Torque, "2", []string{"2"}},
		{quantity.Torque, "2N.m", []string{"2"}},
		{quantity.Torque, "2 N·m", []string{"2"}},
		{quantity.Torque, "2Nm", []string{"2"}},
		{quantity.Torque, "35Ncm", []string{"0.35"}},
		{quantity.Torque, "350mN.m", []string{"0.35"}},
		{quantity.Torque, "20kgf.cm", []string{"20", gravity, "0.01"}},
		{quantity.Torque, "20 kg.cm", []string{"20", gravity, "0.01"}},
		{quantity.Torque, "20kg-cm", []string{"20", gravity, "0.01"}},
		{quantity.Torque, "90oz.in", []string{"90/16", pound, gravity, "0.0254"}},
		{quantity.Torque, "90 oz-in", []string{"90/16", pound, gravity, "0.0254"}},
		{quantity.Torque, "3lbf.in", []string{"3", pound, gravity, "0.0254"}},
		{quantity.Angle, "20", []string{"20"}},
		{quantity.Angle, "20deg", []string{"20"}},
		{quantity.Angle, "20°", []string{"20"}},
		{quantity.Mass, "1.9", []string{"1.9"}},
		{quantity.Mass, "180g", []string{"0.18"}},
		{quantity.Mass, "2lb", []string{"2", pound}},
		{quantity.Mass, "8oz", []string{"0.5", pound}},
		{quantity.Time, "800ms", []string{"0.8"}},
		{quantity.Time, "0.5min", []string{"30"}},
		{quantity.Speed, "0.17 s/60deg", []string{"6000/17"}},
		{quantity.Speed, "0.17sec/60°", []string{"6000/17"}},
		{quantity.Speed, "400 deg/s", []string{"400"}},
		{quantity.Speed, "10rpm", []string{"60"}},
		{quantity.Force, "5kgf", []string{"5", gravity}},
		{quantity.Force, "5lbf", []string{"5", pound, gravity}},
		{quantity.Temperature, "40", []string{"40"}},
		{quantity.Temperature, "40 °C", []string{"40"}},
		{quantity.Number, "-0.5", []string{"-0.5"}},
	} {
		t.Run(test.kind.Name()+" "+test.text, func(t *testing.T) {
			const tol = 3e-16 // two roundings to half a unit in the last place, 1.1e-16 each
			want := exact(t, test.factors...)
			got, err := test.kind.Parse(test.text)
			if err != nil {
				t.Fatal(err, err.(*quantity.Error).Remedy)
			}
			if math.Abs(got-want) > tol*math.Abs(want) {
				t.Errorf("got %.17g, want %.17g", got, want)
			}
		})
	}
}

// Closed forms: pi rad = 180 deg; 273.15 K is 0 °C and 212 °F is 100 °C by the
// definitions of the scales.
func TestParseScales(t *testing.T) {
	for _, test := range []struct {
		kind quantity.Kind
		text string
		want float64
	}{
		{quantity.Angle, "3.141592653589793rad", 180},
		{quantity.Speed, "3.141592653589793rad/s", 180},
		{quantity.Temperature, "273.15K", 0},
		{quantity.Temperature, "212F", 100},
	} {
		got, err := test.kind.Parse(test.text)
		if err != nil || math.Abs(got-test.want) > 1e-13 {
			t.Errorf("%s: got %.17g, %v, want %g", test.text, got, err, test.want)
		}
	}
}

// A published pair of numbers for one force: 9665 lbf stand beside 43.0 kN in
// the worked example 11-2 of the bearing reference (rating of a ball bearing).
func TestPoundForceAgainstWorkedExample(t *testing.T) {
	got, err := quantity.Force.Parse("9665 lbf")
	if err != nil || math.Abs(got-43.0e3) > 0.05e3 {
		t.Errorf("got %g N, %v, want 43.0 kN to the printed digit", got, err)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, test := range []struct {
		why            string
		kind           quantity.Kind
		text           string
		reason, remedy string
	}{
		{"decimal comma", quantity.Length, "12,5", "has a comma", "use a point: 12.5"},
		{"decimal comma with unit", quantity.Torque, "0,5 N.m", "has a comma", "use a point: 0.5 N.m"},
		{"empty", quantity.Length, "", "is empty", "mm, cm, m, µm, in"},
		{"blank", quantity.Length, "  ", "is empty", "write a number"},
		{"unknown unit", quantity.Length, "3furlong", `"furlong" is not known`, "mm, cm, m, µm, in"},
		{"unit of another kind", quantity.Mass, "3mm", `"mm" is not known`, "kg, g, lb"},
		{"unit on a bare number", quantity.Number, "3mm", `"mm" is not known`, "the number alone"},
		{"wrong capitals", quantity.Length, "3MM", `"MM" is not known`, `write "mm"`},
		{"not a number", quantity.Length, "NaN", "is not a number", ""},
		{"infinity", quantity.Length, "Inf", "is not a number", ""},
		{"signed infinity", quantity.Length, "-inf", "is not a number", ""},
		{"too large", quantity.Length, "1e999", "is too large", ""},
		{"too large after conversion", quantity.Length, "1e308m", "is not a finite length", ""},
		{"hexadecimal", quantity.Length, "0x10", "is not a number", ""},
		{"binary", quantity.Length, "0b1", "is not a number", ""},
		{"underscore", quantity.Length, "1_000", "is not a number", ""},
		{"unit alone", quantity.Length, "mm", "is not a number", ""},
		{"sign alone", quantity.Length, "-", "is not a number", ""},
		{"point alone", quantity.Length, ".", "is not a number", ""},
		{"two numbers", quantity.Length, "1 2", `"2" is not known`, ""},
		{"two points", quantity.Length, "1.2.3", `".3" is not known`, ""},
		{"fraction", quantity.Length, "1/4in", `"/4in" is not known`, ""},
		{"no time", quantity.Speed, "0 s/60deg", "is not a finite speed", ""},
		{"no angle", quantity.Speed, "0.17 s/0deg", "is not known", "s/60deg"},
	} {
		t.Run(test.why, func(t *testing.T) {
			got, err := test.kind.Parse(test.text)
			var e *quantity.Error
			if !errors.As(err, &e) {
				t.Fatalf("got %g, %v, want a *quantity.Error", got, err)
			}
			if e.Read != test.text || !strings.Contains(e.Reason, test.reason) {
				t.Errorf("read %q, reason %q, want %q with %q", e.Read, e.Reason, test.text, test.reason)
			}
			if e.Remedy == "" || !strings.Contains(e.Remedy, test.remedy) {
				t.Errorf("remedy %q, want %q", e.Remedy, test.remedy)
			}
		})
	}
}

func TestList(t *testing.T) {
	teeth, err := quantity.List("28, 36", quantity.Count)
	if err != nil || len(teeth) != 2 || teeth[0] != 28 || teeth[1] != 36 {
		t.Errorf("got %v, %v", teeth, err)
	}
	if teeth, err := quantity.List("28,x", quantity.Count); err == nil {
		t.Errorf("got %v for a letter", teeth)
	}
	if teeth, err := quantity.List("28.5,36", quantity.Count); err == nil {
		t.Errorf("got %v for half a tooth", teeth)
	}
	bores, err := quantity.List("0.5in,12", quantity.Length.Parse)
	if err != nil || len(bores) != 2 || bores[0] != 12.7 || bores[1] != 12 {
		t.Errorf("got %v, %v", bores, err)
	}
}

// Every unit that a kind lists in its messages must be one that it reads.
func TestListedUnitsAreRead(t *testing.T) {
	tried := 0
	for kind := quantity.Length; kind <= quantity.Temperature; kind++ {
		for _, unit := range strings.FieldsFunc(kind.Units(), func(r rune) bool { return strings.ContainsRune(" ,()", r) }) {
			if unit == "also" {
				continue
			}
			tried++
			if _, err := kind.Parse("1 " + unit); err != nil {
				t.Errorf("%s: %v", kind.Name(), err)
			}
		}
	}
	if tried < 30 {
		t.Errorf("only %d units tried", tried)
	}
}

// Whatever is read: no panic, no value that is not finite, and an error names
// what was read and what to write.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"12", "0.5in", "20kgf.cm", "0.17 s/60deg", "1e999", "12,5", "", "-", "µ", "1e", "1e-", "0x1p4", "٣", "s/60deg", "1 s/1e-320deg",
	} {
		for kind := quantity.Number; kind <= quantity.Temperature; kind++ {
			f.Add(int(kind), text)
		}
	}
	f.Fuzz(func(t *testing.T, kind int, text string) {
		k := quantity.Kind(((kind % 11) + 11) % 11)
		value, err := k.Parse(text)
		if math.IsNaN(value) || math.IsInf(value, 0) {
			t.Errorf("%s %q: %g", k.Name(), text, value)
		}
		var e *quantity.Error
		if err != nil && (!errors.As(err, &e) || e.Read != text || e.Reason == "" || e.Remedy == "") {
			t.Errorf("%s %q: incomplete error %#v", k.Name(), text, err)
		}
		if strings.ContainsAny(text, ",_") && err == nil {
			t.Errorf("%s %q: read as %g", k.Name(), text, value)
		}
	})
}
