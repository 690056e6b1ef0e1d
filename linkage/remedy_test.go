package linkage_test

import (
	"errors"
	"regexp"
	"strconv"
	"testing"

	"pintle/check"
	"pintle/drive"
	"pintle/linkage"
)

// A cure of a remedy: quantity, sign, number.
var cureText = regexp.MustCompile(`([a-z ]+?) (>=|<=|=) ([0-9.]+)`)

// follow changes a spec as a cure says; false for a quantity it does not know.
func follow(spec linkage.Spec, quantity string, v float64) (linkage.Spec, bool) {
	motion := func() *drive.Motion { m := *spec.Motion; return &m }
	own := func() *linkage.Servo { s := *spec.Servo; return &s }
	pins := func(change func(*linkage.PinJoint)) {
		for _, p := range []**linkage.PinJoint{&spec.HornPin, &spec.LeverPin} {
			if *p != nil {
				q := **p
				change(&q)
				*p = &q
			}
		}
	}
	switch quantity {
	case "rod":
		spec.Rod = v
	case "horn":
		spec.Horn = v
	case "lever":
		spec.Lever = v
	case "offset":
		spec.Offset = v
	case "swing":
		spec.SwingDeg = v
	case "time":
		spec.Motion = motion()
		spec.Motion.Time = v
	case "stall torque":
		spec.Servo = own()
		spec.Servo.StallTorque = v
	case "servo speed":
		spec.Servo = own()
		spec.Servo.SpeedDegPerS = v
	case "rod or core diameter":
		spec.Stock = &linkage.RodStock{Diameter: v}
	case "eye thickness":
		pins(func(p *linkage.PinJoint) { p.Thickness = v })
	case "eye width":
		pins(func(p *linkage.PinJoint) { p.Width = v })
	case "end distance":
		pins(func(p *linkage.PinJoint) { p.EndDistance = v })
	default:
		return spec, false
	}
	return spec, true
}

// Poor linkages, one for each check that has a number to give. Each cure that a
// remedy names, followed, lets its check pass.
func TestRemediesCure(t *testing.T) {
	for check_, make := range map[string]func(*linkage.Spec){
		"transmission-angle": func(s *linkage.Spec) { s.Rod = 103 },
		"dead-point-margin":  func(s *linkage.Spec) { s.Horn, s.Rod, s.FromDeg, s.ToDeg = 30, 84, 45, 135 },
		"swing-covered":      func(s *linkage.Spec) { s.SwingDeg = 62 },
		"horn-angle":         func(s *linkage.Spec) { s.FromDeg, s.ToDeg = 35, 135 },
		"servo-torque":       func(s *linkage.Spec) { s.Load = heavier(s, 0.6) },
		"servo-held-torque":  func(s *linkage.Spec) { s.Load = heavier(s, 0.4) },
		"servo-travel":       func(s *linkage.Spec) { s.SwingDeg = 54 },
		"servo-speed":        func(s *linkage.Spec) { s.Motion = &drive.Motion{Time: 0.25, Law: drive.Cosine, Hold: true} },
		"ball-joint":         func(s *linkage.Spec) { s.Offset, s.LeverPin.BallLimit, s.HornPin.BallLimit = 25, 18, 18 },
		"pin-bearing-stress": func(s *linkage.Spec) { s.HornPin.Thickness, s.LeverPin.Thickness = 1.5, 1.5 },
		"eye-wall":           func(s *linkage.Spec) { s.HornPin.Width, s.LeverPin.Width = 5, 5 },
		"eye-end":            func(s *linkage.Spec) { s.HornPin.EndDistance, s.LeverPin.EndDistance = 2.5, 2.5 },
		"eye-net-section":    func(s *linkage.Spec) { s.HornPin.Strength, s.LeverPin.Strength = 5, 5 },
		"eye-tear-out":       func(s *linkage.Spec) { s.HornPin.Strength, s.LeverPin.Strength = 5, 5 },
		"rod-buckling":       func(s *linkage.Spec) { s.Stock = &linkage.RodStock{Diameter: 1.5} },
	} {
		t.Run(check_, func(t *testing.T) {
			spec := pinned()
			spec.HornPin, spec.LeverPin = copied(spec.HornPin), copied(spec.LeverPin)
			make(&spec)
			f := finding(t, stroke(t, spec), check_)
			if f.Verdict == check.Pass {
				t.Fatalf("%v passes", f.Value)
			}
			cures := cureText.FindAllStringSubmatch(f.Remedy, -1)
			followed := 0
			again := spec
			for _, cure := range cures {
				quantity := cure[1]
				for _, lead := range []string{" mm, or ", " or ", "or ", " mm with ", "with "} {
					if i := len(lead); len(quantity) > i && quantity[:i] == lead {
						quantity = quantity[i:]
					}
				}
				v, err := strconv.ParseFloat(cure[3], 64)
				if err != nil {
					t.Fatal(err)
				}
				if cure[2] != "=" || quantity != "rod" { // a rod with "=" goes with the cure before
					again = spec
				}
				var ok bool
				if again, ok = follow(again, trimmed(quantity), v); !ok {
					t.Fatalf("the remedy %q names %q", f.Remedy, quantity)
				}
				if cure[2] == "=" && trimmed(quantity) != "rod" {
					continue // its rod comes next
				}
				followed++
				if g := finding(t, stroke(t, again), check_); g.Verdict != check.Pass {
					t.Errorf("%q followed: %v is %s", cure[0], g.Value, g.Verdict)
				}
			}
			if followed == 0 {
				t.Errorf("no number in %q", f.Remedy)
			}
		})
	}
}

var leads = regexp.MustCompile(`^(?:(?:mm|deg|N·m|s|deg/s|of|with this offset|with|or|,)\s+)+`)

func trimmed(quantity string) string {
	for {
		next := leads.ReplaceAllString(regexp.MustCompile(`^[ ,]+`).ReplaceAllString(quantity, ""), "")
		if next == quantity {
			return quantity
		}
		quantity = next
	}
}

func heavier(s *linkage.Spec, mass float64) *linkage.Load {
	l := *s.Load
	l.Mass = mass
	return &l
}

func copied(p *linkage.PinJoint) *linkage.PinJoint {
	q := *p
	return &q
}

// The refusal of a rod that cannot be assembled names a range; both its ends can
// be assembled and keep the promised transmission angle.
func TestRefusalNamesRods(t *testing.T) {
	span := regexp.MustCompile(`rod from ([0-9.]+) to ([0-9.]+) mm`)
	short := heron()
	short.Rod = 60
	offset := heron()
	offset.Rod, offset.Offset = 62, 12
	crank := ferrywoman()
	crank.Rod = 60
	for name, spec := range map[string]linkage.Spec{"heron": short, "offset": offset, "ferry-woman": crank} {
		_, err := linkage.New(spec)
		var field *check.FieldError
		if !errors.As(err, &field) {
			t.Fatalf("%s: %v", name, err)
		}
		ends := span.FindStringSubmatch(field.Remedy)
		if ends == nil {
			t.Fatalf("%s: %q names no rods", name, field.Remedy)
		}
		for _, end := range ends[1:] {
			spec.Rod, _ = strconv.ParseFloat(end, 64)
			if f := finding(t, stroke(t, spec), "transmission-angle"); f.Verdict != check.Pass {
				t.Errorf("%s: a rod of %s mm has %v deg", name, end, f.Value)
			}
		}
	}
}

// Too wide a travel: the shorter one that the remedy names passes.
func TestTravelRemedyCures(t *testing.T) {
	span := regexp.MustCompile(`travel of the horn from (-?[0-9]+) to (-?[0-9]+) deg`)
	for name, travel := range map[string][2]float64{"horn-angle": {20, 175}, "one-way-motion": {5, 160}} {
		spec := linkage.Spec{FourBar: heron().FourBar, FromDeg: travel[0], ToDeg: travel[1]}
		f := finding(t, stroke(t, spec), name)
		ends := span.FindStringSubmatch(f.Remedy)
		if f.Verdict == check.Pass || ends == nil {
			t.Fatalf("%+v", f)
		}
		spec.FromDeg, _ = strconv.ParseFloat(ends[1], 64)
		spec.ToDeg, _ = strconv.ParseFloat(ends[2], 64)
		if g := finding(t, stroke(t, spec), name); g.Verdict != check.Pass {
			t.Errorf("%s: %q followed: %+v", name, f.Remedy, g)
		}
	}
}
