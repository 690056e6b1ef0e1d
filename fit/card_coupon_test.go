package fit_test

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// What nobody can have read is refused with the feature and the reading; a print
// that is merely poor is not.
func TestCheckReadings(t *testing.T) {
	good := func() []fit.Feature {
		return []fit.Feature{{21.8, []float64{21.61, 21.62}}, {22, []float64{21.8, 21.83}}, {22.2, []float64{22.01, 22}}, {3, []float64{2.7, 2.75}}}
	}
	for _, test := range []struct {
		name     string
		spoil    func([]fit.Feature)
		at       [2]int
		says     string
		accepted bool
	}{
		{"as printed", func([]fit.Feature) {}, [2]int{}, "", true},
		{"a poor print", func(f []fit.Feature) { f[1].Read = []float64{21.55, 21.6} }, [2]int{}, "", true},
		{"two mm off its neighbours", func(f []fit.Feature) { f[2].Read[0] = 20.01 }, [2]int{2, 0}, "-2.19 mm off the drawn 22.2 mm", false},
		{"the neighbours' half a mm", func(f []fit.Feature) { f[2].Read = []float64{22.75, 22.75} }, [2]int{2, 0}, "the others are -0.185 mm off", false},
		{"inches", func(f []fit.Feature) { f[1].Read[1] = 0.859 }, [2]int{1, 1}, "it was read in inches", false},
		{"a slip of the second reading", func(f []fit.Feature) { f[0].Read[1] = 21.95 }, [2]int{0, 1}, "0.34 mm from the first reading", false},
		{"negative", func(f []fit.Feature) { f[3].Read[0] = -2.7 }, [2]int{3, 0}, "above 0", false},
		{"not a number", func(f []fit.Feature) { f[3].Read[0] = math.NaN() }, [2]int{3, 0}, "above 0", false},
	} {
		t.Run(test.name, func(t *testing.T) {
			f := good()
			test.spoil(f)
			i, j, err := fit.Check("bore", f)
			if test.accepted != (err == nil) || err != nil && (!strings.Contains(err.Error(), test.says) || [2]int{i, j} != test.at) {
				t.Errorf("at %d, %d: %v", i, j, err)
			}
		})
	}
}

func conditions() fit.Card {
	return fit.Card{Name: "x", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220}, Bore: fit.FirstGuessBore, Outside: fit.FirstGuessOutside, FirstLayerGrowth: 0.2}
}

// exact returns readings of a printer whose bores come out 0.2 mm small and whose
// outsides come out 0.06 mm large, whatever the diameter.
func exact() fit.Readings {
	r := fit.Readings{Card: conditions(), Bed: []float64{30.46}, Above: []float64{30.06}}
	for _, d := range []float64{3, 8, 21.9, 22, 22.1} {
		r.Bores = append(r.Bores, fit.Feature{Drawn: d, Read: []float64{d - 0.2}})
		r.Outsides = append(r.Outsides, fit.Feature{Drawn: d, Read: []float64{d + 0.06}})
	}
	return r
}

// Worked by hand: with bores 0.2 mm small the ring drawn 0.3 larger than a 22 mm
// bearing has 0.1 clearance, the one drawn 0.1 larger 0.1 interference; growth is
// half of 0.4; outsides 0.06 large thicken the teeth of both gears by 0.06 square
// to the flank, 0.12 / cos 20° = 0.1277 along the circle.
func TestCalibrate(t *testing.T) {
	r := exact()
	r.Bearing, r.ByHand, r.Press, r.Cracks = 22, fit.Tried{At: 0.3, Found: true}, fit.Tried{At: 0.1, Found: true}, fit.Tried{At: -0.1, Found: true}
	r.Free, r.PitchDiameters, r.PressureAngle = fit.Tried{At: 0.25, Found: true}, [2]float64{30, 30}, 20*math.Pi/180
	r.LeastWeb = 0.8
	c, err := fit.Calibrate(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []struct {
		what      string
		got, want float64
	}{
		{"bore error", c.Card.Bore.Offset, -0.2},
		{"outside error", c.Card.Outside.Offset, 0.06},
		{"growth", c.Card.FirstLayerGrowth, 0.2},
		{"slip", c.Card.SlipClearance, 0.1},
		{"interference", c.Card.Interference, 0.1},
		{"at", c.Card.InterferenceAt, 22},
		{"backlash", c.Card.Backlash, 0.25 - 0.1277},
		{"web", c.Card.LeastWeb, 0.8},
	} {
		if math.Abs(q.got-q.want) > 1e-4 {
			t.Errorf("%s %v, want %v", q.what, q.got, q.want)
		}
	}
	if len(c.Missing) != 0 {
		t.Errorf("missing: %q", c.Missing)
	}
	// The same hoop strain on 44 mm is twice the interference.
	if held, ok := c.Card.Holds(44); !ok || math.Abs(held-0.2) > 1e-4 {
		t.Errorf("on 44 mm %v holds, %v", held, ok)
	}
	if c.Card.Slip() != c.Card.SlipClearance || (fit.Card{}).Slip() != fit.SlipClearance {
		t.Error("the slip clearance is not the card's, or not the usual one without a card")
	}
}

// What was not read or tried stays a first guess and is said to be missing.
func TestCalibrateSaysWhatIsMissing(t *testing.T) {
	c, err := fit.Calibrate(fit.Readings{Card: conditions()})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(c.Card, conditions()) || len(c.Supported) != 0 || len(c.Missing) != 7 {
		t.Errorf("%+v\nsupported %q\nmissing %q", c.Card, c.Supported, c.Missing)
	}
}

// Marks that contradict each other or that are no steps are refused.
func TestMarksContradict(t *testing.T) {
	at := func(v float64) fit.Tried { return fit.Tried{At: v, Found: true} }
	for _, test := range []struct {
		field string
		spoil func(*fit.Readings)
	}{
		{"press", func(r *fit.Readings) { r.Press, r.ByHand = at(0.2), at(0.1) }},
		{"cracks", func(r *fit.Readings) { r.Cracks, r.Press = at(0.2), at(0.1) }},
		{"free", func(r *fit.Readings) { r.Free, r.Rattles = at(0.3), at(0.2) }},
		{"by hand", func(r *fit.Readings) { r.ByHand = at(10) }},
	} {
		r := exact()
		test.spoil(&r)
		_, err := fit.Calibrate(r)
		var wrong *check.FieldError
		if !errors.As(err, &wrong) || wrong.Field != test.field {
			t.Errorf("%s: %v", test.field, err)
		}
	}
}
