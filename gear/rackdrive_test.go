package gear

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
	"pintle/mesh"
)

func rackSpec(z int) RackSpec {
	m3, _ := fit.ScrewNamed("M3")
	spec := bareSpec(z, z)
	spec.Pinion.Bore, spec.Loading = 6, Loading{}
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
	near(t, "contact ratio", d.ContactRatio(), want, 1e-4)                                             // profile A's rounded fillet radius ends the flank a little early
	near(t, "measured contact ratio", d.Values()["epsilon_measured"].(float64), want, 2.0/motionSteps) // either end may be off by a position
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
		if f.Part == "lamp-wheel" {
			t.Errorf("%s speaks of a wheel", f.Check)
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
	near(t, "area", polygonArea(geom.NewContour(b.outline(n, height, 0), 0.0005).Points), want, 0.02)
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
		{"screws of the rack", func(s *RackSpec) { s.Screws = 50 }},
		{"screws of the rack", func(s *RackSpec) { s.Screws = -1 }},
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

// A rack's tooth is the limit of ever more teeth: published exam tables print Y =
// 0.484 for it (testdata/ref/gear.json, "lewis_y" times pi), and the geometry of
// such a table's gears agrees within 6 %.
func TestRackFormFactor(t *testing.T) {
	spec := bareSpec(20, 20)
	b := newBar(spec.completed(), 0, 0)
	near(t, "Y", b.lewis(), math.Pi*loadReference(t).LewisY["rack"], 0.06*0.484)
	large := newTooth(20000, 1.5, 20*degree, 0, ProfileA(), 0, 0)
	near(t, "Y of 20000 teeth", large.lewis(), b.lewis(), 2e-3)
}

// A pin rolled down into the space of the exported outline by halving rests where
// the formula says, to the chord of the fillets.
func TestOverPinOfRack(t *testing.T) {
	d, err := NewRackDrive(rackSpec(20))
	if err != nil {
		t.Fatal(err)
	}
	pin, over := d.bar.pin()
	outline := geom.NewContour(d.bar.outline(4, 4.5, 0), 0.0005).Points
	lo, hi := d.bar.root, d.bar.tip+pin
	for range 50 {
		mid := (lo + hi) / 2
		if distanceTo(outline, geom.Point{X: 2 * d.bar.pitch, Y: mid}) < pin/2 {
			lo = mid
		} else {
			hi = mid
		}
	}
	near(t, "over the pin", over, hi+pin/2, 1e-3)
	near(t, "from the back", d.Values()["M_rack"].(float64), over+d.spec.Height+1.25*1.5, 1e-9)
	if pin != 3 {
		t.Errorf("a pin of %g mm: of the dowels near to (p - s)/cos alpha = 2.62 the one of 2.5 mm stands 0.03 mm over the tips", pin)
	}
}

// The cut path keeps half a kerf from the nominal rack all round, outside of it
// and inside of its holes; past corners it stands off further.
func TestCutOutlineOfRack(t *testing.T) {
	spec := rackSpec(20)
	spec.Pair.Card.Outside, spec.Pair.Card.Bore = fit.Error{}, fit.Error{}
	d, err := NewRackDrive(spec)
	if err != nil {
		t.Fatal(err)
	}
	contours, err := d.CutOutline(0.2)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := geom.NewPart("cut", geom.Slab{Z0: 0, Z1: 1, Bottom: contours}); err != nil {
		t.Error(err)
	}
	nominal := geom.NewContour(d.bar.outline(d.teeth, d.spec.Height, 0), 0.0005).Points
	corners := 0
	for _, q := range contours[0].Points {
		off := distanceTo(nominal, q) - 0.1
		if off < -0.006 {
			t.Fatalf("(%g, %g) lies %g mm off", q.X, q.Y, off+0.1)
		}
		if off > 0.006 {
			corners++
		}
	}
	if most := 2*d.teeth + 4; corners > most || corners < most-2 {
		t.Errorf("%d corners, want two to a tooth and four of the body", corners)
	}
	near(t, "screw hole", contours[1].Diameter(), d.spec.Screw.Clearance-0.2, 1e-9)
	if _, err := d.CutOutline(3); err == nil {
		t.Error("a kerf wider than the root is taken")
	}
}

// The backlash that the finding asks for keeps the floor; the shift that the
// undercut asks for frees the pinion from it.
func TestRackRemediesCure(t *testing.T) {
	of := func(spec RackSpec, name string) check.Finding {
		d, err := NewRackDrive(spec)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range d.Findings() {
			if f.Check == name {
				return f
			}
		}
		t.Fatalf("no finding %s", name)
		return check.Finding{}
	}
	spec := rackSpec(20)
	spec.Pair.Backlash = 0.05
	f := of(spec, "backlash")
	if f.Verdict != check.Fail || f.Limit != "> 0" || f.Remedy != "backlash >= 0.16 mm" {
		t.Errorf("%s %s, %q", f.Verdict, f.Limit, f.Remedy)
	}
	spec.Pair.Backlash = 0.16
	if f = of(spec, "backlash"); f.Verdict != check.Pass {
		t.Errorf("with the backlash asked for: %s %g", f.Verdict, f.Value)
	}
	spec = rackSpec(12)
	if f = of(spec, "undercut"); f.Verdict != check.Fail || f.Remedy != "x1 >= 0.299" {
		t.Errorf("12 teeth: %s, %q", f.Verdict, f.Remedy)
	}
	spec.Pair.Shift[0] = 0.299
	if f = of(spec, "undercut"); f.Verdict != check.Pass {
		t.Errorf("with the shift asked for: %s %g", f.Verdict, f.Value)
	}
}

// A tip too thin for two beads names the shift or the teeth that make it thick
// enough: 24 teeth with a shift of 0.5 take a smaller one, 12 need more teeth, and fewer
// more where the shift is chosen anew for them.
func TestRackTipRemedyCures(t *testing.T) {
	for _, q := range []struct {
		z    int
		x    float64
		rule ShiftRule
		form string
	}{{24, 0.5, ShiftGiven, "x1 <= %g"}, {12, 0.3, ShiftGiven, "z1 >= %g"}, {12, 0, ShiftChoose, "z1 >= %g"}} {
		spec := rackSpec(q.z)
		spec.Pair.Shift[0], spec.Pair.ShiftRule = q.x, q.rule
		tip := func() check.Finding {
			d, err := NewRackDrive(spec)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range d.Findings() {
				if f.Check == "tip-thickness" && f.Part == "lamp-pinion" {
					return f
				}
			}
			t.Fatal("no finding")
			return check.Finding{}
		}
		f := tip()
		var value float64
		if _, err := fmt.Sscanf(f.Remedy, q.form, &value); err != nil || f.Verdict != check.Caution {
			t.Fatalf("z %d: %s, %q", q.z, f.Verdict, f.Remedy)
		}
		if q.rule == ShiftChoose && value > 20 {
			t.Errorf("%s, though 18 teeth need no shift", f.Remedy)
		}
		if strings.HasPrefix(q.form, "x1") {
			spec.Pair.Shift[0] = value
		} else {
			spec.Pair.Teeth[0] = int(value)
		}
		if f = tip(); f.Verdict != check.Pass {
			t.Errorf("z %d, then: %s at %g", q.z, f.Verdict, f.Value)
		}
	}
}

// Servo and plastic of a rack drive: at 0.5 N·m a pinion of 30 mm pushes with 33.3
// N, which a tooth of 1.5 x 10 mm bears with F/(b m Y).
func TestRackStrength(t *testing.T) {
	spec := rackSpec(20)
	petg, _ := fit.MaterialNamed("PETG")
	spec.Pair.Loading = Loading{Stall: 0.5, Speed: 5, Swing: 60.0 / 15, Held: 0.1, Material: [2]fit.Material{petg, petg}}
	d, err := NewRackDrive(spec)
	if err != nil {
		t.Fatal(err)
	}
	v := d.Values()
	near(t, "force at stall", v["F_t_stall"].(float64), 500.0/15, 1e-9)
	near(t, "speed of the rack", v["pitch_line_speed_mm_per_s"].(float64), 75, 1e-9)
	near(t, "turn", v["turn_for_travel_deg"].(float64), 4/degree, 1e-9)
	for part, form := range map[string]float64{"lamp-pinion": v["Y1"].(float64), "lamp-rack": v["Y_rack"].(float64)} {
		found := false
		for _, f := range d.Findings() {
			if f.Check == "tooth-stall" && f.Part == part {
				found = true
				near(t, part, f.Value, 500.0/15/(10*1.5*form), 1e-9)
			}
		}
		if !found {
			t.Errorf("nothing on the strength of %s", part)
		}
	}
	spec.Pair.Pinion.Sector = 9 // 60 mm are 12.7 teeth
	if d, err = NewRackDrive(spec); err != nil {
		t.Fatal(err)
	}
	for _, f := range d.Findings() {
		if f.Check == "sector" && (f.Verdict != check.Fail || f.Remedy != "teeth of the sector >= 16") {
			t.Errorf("sector: %s, %q", f.Verdict, f.Remedy)
		}
	}
}
