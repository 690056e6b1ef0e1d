package gear

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/mesh"
)

func rackSpec(z int) RackSpec {
	m3, _ := fit.ScrewNamed("M3")
	spec := bareSpec(z, z)
	spec.Pinion.Bore = 6
	return RackSpec{Pair: spec, Travel: 60, Screw: m3, Screws: 3}
}

// Path of contact of a standard pinion on a rack in closed form: sqrt(ra^2 -
// rb^2) - r sin(alpha) + m/sin(alpha). The backlash by motion is what was asked
// for, less what the chords of the pinion's fillet take, which the rack's tips
// just reach; both parts mesh.
func TestRackDrive(t *testing.T) {
	d, err := NewRackDrive(rackSpec(20))
	if err != nil {
		t.Fatal(err)
	}
	r, rb, ra := 15.0, 15*math.Cos(20*degree), 16.5
	want := (math.Sqrt(ra*ra-rb*rb) - r*math.Sin(20*degree) + 1.5/math.Sin(20*degree)) / (math.Pi * 1.5 * math.Cos(20*degree))
	near(t, "contact ratio", d.ContactRatio(), want, 1e-4) // profile A's rounded fillet radius ends the flank a little early
	near(t, "axis", d.AxisDistance(), 15, 1e-12)
	if jbn := 0.2 * math.Cos(20*degree); d.motion.min < jbn-0.001 || d.motion.max > jbn+4*d.spec.Pair.ChordError {
		t.Errorf("backlash by motion %g to %g mm, computed %g", d.motion.min, d.motion.max, jbn)
	}
	for _, part := range d.Parts() {
		m, err := mesh.FromPart(part)
		if err == nil {
			err = m.Verify()
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, f := range d.Findings() {
		if f.Verdict == check.Fail || f.Verdict == check.Caution {
			t.Errorf("%s %s: %g %s", f.Part, f.Check, f.Value, f.Limit)
		}
	}
	lo, hi := d.Parts()[1].Bounds()
	if length := hi.X - lo.X; length < 60+2*math.Pi*1.5 || length > 60+4*math.Pi*1.5 {
		t.Errorf("a rack of %g mm for 60 mm of travel", length)
	}
}

// The area of the rack's outline is the body, the teeth as trapezia and the
// fillets: per corner rho^2 (tan(b/2) - b/2) with b = 90 deg - alpha, the angle
// through which it turns (elementary). Chords of concave arcs are circumscribed.
func TestRackArea(t *testing.T) {
	spec := bareSpec(20, 20)
	b := newBar(spec.completed(), 0.1, 0)
	const n, height = 7, 4.5
	depth := b.tip - b.root
	trapezium := depth * (b.thick - (b.tip+b.root)*math.Tan(b.alpha))
	turn := math.Pi/2 - b.alpha
	corner := b.rho * b.rho * (math.Tan(turn/2) - turn/2)
	want := n * (b.pitch*height + trapezium + 2*corner)
	near(t, "area", polygonArea(b.outline(n, height, 0.0005).Points), want, 0.02)
}

// Bevan, Theory of Machines, ex. 4 p. 334 (seen): the least pinion that a rack
// of full depth does not interfere with has 18 teeth at 20 deg.
func TestRackInterference(t *testing.T) {
	for z, clear := range map[int]bool{17: false, 18: true} {
		d, err := NewRackDrive(rackSpec(z))
		if err != nil {
			t.Fatal(err)
		}
		if start, _ := d.path(); start >= 0 != clear {
			t.Errorf("z = %d: the rack's tip enters at %g mm", z, start)
		}
	}
	spec := rackSpec(12)
	spec.Pair.ShiftRule = ShiftChoose
	d, err := NewRackDrive(spec)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "axis of a shifted pinion", d.AxisDistance(), 9+1.5*0.299, 2e-3)
	near(t, "least backlash by motion", d.motion.min, 0.2*math.Cos(20*degree), 0.02)
}

func TestRackDriveRefuses(t *testing.T) {
	for _, test := range []struct {
		field  string
		change func(*RackSpec)
	}{
		{"travel", func(s *RackSpec) { s.Travel = 0 }},
		{"travel", func(s *RackSpec) { s.Travel = math.NaN() }},
		{"height of the rack", func(s *RackSpec) { s.Height = 0.2 }},
		{"height of the rack", func(s *RackSpec) { s.Height = 3.5 }},
		{"number of teeth of the pinion", func(s *RackSpec) { s.Pair.Teeth[0] = 3 }},
		{"module", func(s *RackSpec) { s.Pair.Module = 0 }},
	} {
		spec := rackSpec(20)
		test.change(&spec)
		_, err := NewRackDrive(spec)
		var field *check.FieldError
		if !errors.As(err, &field) || !strings.HasPrefix(field.Field, test.field) || field.Remedy == "" {
			t.Errorf("%s: got %v", test.field, err)
		}
	}
}
