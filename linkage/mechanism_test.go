package linkage_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/geom"
	"pintle/linkage"
)

// fourBarMechanism is a four-bar as pins and bars, standing at an angle of the
// horn.
func fourBarMechanism(t *testing.T, f linkage.FourBar, hornDeg float64) *linkage.Mechanism {
	t.Helper()
	p, ok := f.At(hornDeg * deg)
	if !ok {
		t.Fatalf("%v does not close at %v", f, hornDeg)
	}
	return mechanism(t, linkage.MechanismSpec{
		Points: []linkage.Pin{
			{Name: "O2", Fixed: true},
			{Name: "A", At: p.HornPin},
			{Name: "B", At: p.LeverPin.Add(geom.Point{X: 0.02 * f.Rod})}, // a sketch
			{Name: "O4", At: geom.Point{X: f.Frame}, Fixed: true},
		},
		Bars: []linkage.BarSpec{
			{From: "O2", To: "A", Length: f.Horn},
			{From: "A", To: "B", Length: f.Rod},
			{From: "O4", To: "B", Length: f.Lever},
		},
		Drive: linkage.DriveSpec{Centre: "O2", Pin: "A", Start: hornDeg},
	})
}

func mechanism(t *testing.T, spec linkage.MechanismSpec) *linkage.Mechanism {
	t.Helper()
	m, err := linkage.NewMechanism(spec)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// A full turn of 20/60/50/70 agrees with the closed form within 1e-9 mm, and
// with its rates; it comes back to where it started.
func TestSolverMeetsClosedForm(t *testing.T) {
	f := linkage.FourBar{Horn: 20, Rod: 60, Lever: 50, Frame: 70}
	postures, limit, err := fourBarMechanism(t, f, 0).Follow(360, 361)
	if err != nil || limit != nil || len(postures) != 361 {
		t.Fatalf("%d postures, %v, %v", len(postures), limit, err)
	}
	for _, p := range postures {
		want, _ := f.At(p.Drive * deg)
		if off := p.Points[2].Sub(want.LeverPin).Len(); off > 1e-9 {
			t.Fatalf("at %v deg the lever's pin is off by %v mm", p.Drive, off)
		}
		lever := geom.Polar(1, want.Lever)
		speed := lever.X*p.Velocity[2].Y - lever.Y*p.Velocity[2].X
		bend := lever.X*p.Acceleration[2].Y - lever.Y*p.Acceleration[2].X
		if math.Abs(speed/50-want.Ratio) > 1e-11 || math.Abs(bend/50-want.Acceleration) > 1e-10 {
			t.Fatalf("at %v deg: speed %v, acceleration %v; want %v, %v", p.Drive, speed/50, bend/50, want.Ratio, want.Acceleration)
		}
	}
}

// Limit positions of the four-bars of fourbar.json that lock, to 1e-3 deg and far
// better, and 45/40/50/90 by hand: cos = 1/4.
func TestLimitPositions(t *testing.T) {
	locked := 0
	for _, set := range fourBarSets(t) {
		f := set.fourBar()
		for _, d := range f.HornDeadPoints() {
			want := d.Angle / deg
			start := want - 20
			if d.Folded {
				start = want + 20
			}
			if f.Turns() || f.Class() == linkage.ChangePoint {
				continue
			}
			locked++
			end := start + 90*math.Copysign(1, want-start)
			postures, limit, err := fourBarMechanism(t, f, start).Follow(end, 91)
			if err != nil || limit == nil {
				t.Errorf("%v does not lock at %v: %d postures, %v", f, want, len(postures), err)
				continue
			}
			if math.Abs(limit.Drive-want) > 1e-6 || limit.InLine != "A-B and O4-B in one line" {
				t.Errorf("%v locks at %.9f, want %.9f (%s)", f, limit.Drive, want, limit.InLine)
			}
		}
	}
	if locked != 5 {
		t.Errorf("compared %d limit positions", locked)
	}
}

// A change-point linkage is refused at the change point: it may go on either way.
func TestChangePointRefused(t *testing.T) {
	_, err := linkage.NewMechanism(linkage.MechanismSpec{
		Points: []linkage.Pin{
			{Name: "O2", Fixed: true},
			{Name: "A", At: geom.Point{X: 30}},
			{Name: "B", At: geom.Point{X: 100}},
			{Name: "O4", At: geom.Point{X: 70}, Fixed: true},
		},
		Bars:  []linkage.BarSpec{{From: "O2", To: "A"}, {From: "A", To: "B"}, {From: "O4", To: "B"}},
		Drive: linkage.DriveSpec{Centre: "O2", Pin: "A"},
	})
	var field *check.FieldError
	if !errors.As(err, &field) {
		t.Errorf("got %v", err)
	}
}

type andrewsFile struct {
	Start map[string][2]float64 `json:"points_initial"`
	Turn  []struct {
		Beta    float64
		E, G, H [2]float64
		Quality float64
	} `json:"full_turn"`
}

// andrews is the seven-body mechanism in mm, sketched from its start or from the
// rough start of a few mm beside it.
func andrews(file andrewsFile, rough float64) linkage.MechanismSpec {
	at := func(name string) geom.Point {
		p := file.Start[name]
		return geom.Point{X: 1000*p[0] + rough, Y: 1000*p[1] - rough/2}
	}
	return linkage.MechanismSpec{
		Points: []linkage.Pin{
			{Name: "O", Fixed: true},
			{Name: "A", At: geom.Point{X: -69.34, Y: -2.27}, Fixed: true},
			{Name: "B", At: geom.Point{X: -36.35, Y: 32.73}, Fixed: true},
			{Name: "F", At: at("F")},
			{Name: "E", At: at("E")},
			{Name: "G", At: at("G")},
			{Name: "H", At: at("H")},
		},
		Bars: []linkage.BarSpec{
			{From: "O", To: "F", Length: 7},
			{From: "F", To: "E", Length: 28},
			{From: "B", To: "E", Length: 35},
			{From: "A", To: "G", Length: 40},
			{From: "G", To: "E", Length: 20},
			{From: "A", To: "H", Length: 40},
			{From: "H", To: "E", Length: 20},
		},
		Drive: linkage.DriveSpec{Centre: "O", Pin: "F", Start: -0.0617138900142764496 / deg},
	}
}

// The seven-body squeezing mechanism: the start from a rough sketch, a full turn
// with its 13 stations and singularity measures, and back within 1e-11 of its
// size (published angles; see the file).
func TestAndrews(t *testing.T) {
	var file andrewsFile
	reference(t, "linkage-andrews.json", &file)
	if len(file.Turn) != 13 {
		t.Fatalf("found %d stations", len(file.Turn))
	}
	m := mechanism(t, andrews(file, 1))
	if count, rank := m.Mobility(); count != 1 || rank != 1 {
		t.Errorf("mobility %d by count, %d by rank; want 1", count, rank)
	}
	start := -0.0617138900142764496 / deg
	postures, limit, err := m.Follow(start+360, 13)
	if err != nil || limit != nil || len(postures) != 13 {
		t.Fatalf("%d postures, %v, %v", len(postures), limit, err)
	}
	for i, want := range file.Turn {
		p := postures[i]
		if math.Abs(p.Drive*deg-want.Beta) > 1e-12 {
			t.Fatalf("station %d stands at %v, want %v", i, p.Drive*deg, want.Beta)
		}
		for k, w := range map[int][2]float64{4: want.E, 5: want.G, 6: want.H} {
			if off := p.Points[k].Sub(geom.Point{X: 1000 * w[0], Y: 1000 * w[1]}).Len(); off > 1e-8 {
				t.Errorf("station %d: %s is off by %v mm", i, m.Names()[k], off)
			}
		}
		if math.Abs(p.Singularity-want.Quality) > 1e-6 {
			t.Errorf("station %d: singularity %v, want %v", i, p.Singularity, want.Quality)
		}
	}
	for k := range postures[0].Points {
		if off := postures[12].Points[k].Sub(postures[0].Points[k]).Len(); off > 1e-9 {
			t.Errorf("%s comes back %v mm away", m.Names()[k], off)
		}
	}
}

// The published angles of the consistent start (Hairer & Wanner II; IVP test
// set), to 1e-12, from the solved pins: E = B + ss (sin gamma, -cos gamma) and so
// on round the loops.
func TestAndrewsAngles(t *testing.T) {
	var file andrewsFile
	reference(t, "linkage-andrews.json", &file)
	postures, _, err := mechanism(t, andrews(file, 2)).Follow(0, 2)
	if err != nil {
		t.Fatal(err)
	}
	x := postures[0].Points
	a, b, e, g, h := x[1], x[2], x[4], x[5], x[6]
	direction := func(p, q geom.Point) float64 { return q.Sub(p).Angle() }
	// (sin v, -cos v) points at v - 90 deg.
	for name, angles := range map[string][2]float64{
		"gamma":         {direction(b, e) + math.Pi/2, 0.455279819163070380},
		"phi+delta":     {direction(g, e) + math.Pi/2, 0.222668390165885885 + 0.487364979543842550},
		"delta":         {direction(a, g), 0.487364979543842550},
		"Omega+epsilon": {direction(h, e), -0.222668390165885885 + 1.23054744454982119},
		"epsilon":       {direction(a, h) + math.Pi/2, 1.23054744454982119},
	} {
		if off := math.Abs(math.Remainder(angles[0]-angles[1], math.Pi)); off > 1e-12 {
			t.Errorf("%s = %.15f, want %.15f (off %g)", name, angles[0], angles[1], off)
		}
	}
}

// Degrees of freedom by count and by rank; the count is textbook arithmetic.
func TestMobility(t *testing.T) {
	pin := func(name string, x, y float64) linkage.Pin {
		return linkage.Pin{Name: name, At: geom.Point{X: x, Y: y}}
	}
	ground := func(name string, x, y float64) linkage.Pin {
		p := pin(name, x, y)
		p.Fixed = true
		return p
	}
	bars := func(pairs ...string) (list []linkage.BarSpec) {
		for _, p := range pairs {
			list = append(list, linkage.BarSpec{From: p[:1], To: p[1:]})
		}
		return list
	}
	crank := linkage.DriveSpec{Centre: "O", Pin: "A", Start: 90}
	// Three equal cranks on one coupler: 5 links, 6 pins, 0 by count; it moves.
	double := mechanism(t, linkage.MechanismSpec{
		Points: []linkage.Pin{ground("O", 0, 0), ground("P", 10, 0), ground("Q", 20, 0), pin("A", 0, 8), pin("B", 10, 8), pin("C", 20, 8)},
		Bars:   bars("OA", "PB", "QC"), Plates: []linkage.PlateSpec{{Points: []string{"A", "B", "C"}}},
		Drive: crank,
	})
	if count, rank := double.Mobility(); count != 0 || rank != 1 {
		t.Errorf("double parallelogram: %d by count, %d by rank; want 0, 1", count, rank)
	}
	if postures, limit, err := double.Follow(150, 31); err != nil || limit != nil || len(postures) != 31 {
		t.Errorf("double parallelogram stops: %d postures, %v, %v", len(postures), limit, err)
	}
	for name, test := range map[string]struct {
		spec linkage.MechanismSpec
		want string
	}{
		"triangle": {linkage.MechanismSpec{
			Points: []linkage.Pin{ground("O", 0, 0), ground("P", 10, 0), pin("A", 0, 8)}, Bars: bars("OA", "PA"), Drive: crank,
		}, "degrees of freedom 0"},
		"five-bar": {linkage.MechanismSpec{
			Points: []linkage.Pin{ground("O", 0, 0), ground("P", 20, 0), pin("A", 0, 8), pin("B", 10, 16), pin("C", 20, 8)},
			Bars:   bars("OA", "AB", "BC", "PC"), Drive: crank,
		}, "degrees of freedom 2: must be 1 for one drive (by count 2)"},
	} {
		_, err := linkage.NewMechanism(test.spec)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", name, err, test.want)
		}
	}
}

// A drive that points a slotted arm at a block on the line y = 10: x = 10 cot t, its
// speed -10/sin² t and its acceleration 20 cos t/sin³ t (closed form).
func TestSlottedDrive(t *testing.T) {
	m := mechanism(t, linkage.MechanismSpec{
		Points:  []linkage.Pin{fixed("O", 0, 0), pinAt("A", 10, 10), pinAt("B", 15, 10)},
		Bars:    []linkage.BarSpec{{From: "A", To: "B"}},
		Sliders: []linkage.SliderSpec{{Point: "A", Through: geom.Point{Y: 10}}, {Point: "B", Through: geom.Point{Y: 10}}},
		Drive:   linkage.DriveSpec{Centre: "O", Pin: "A", Start: 45},
	})
	postures, limit, err := m.Follow(120, 16)
	if err != nil || limit != nil {
		t.Fatal(limit, err)
	}
	for _, p := range postures {
		sin, cos := math.Sincos(p.Drive * deg)
		for name, off := range map[string]float64{
			"x": p.Points[1].X - 10*cos/sin, "speed": p.Velocity[1].X + 10/(sin*sin), "acceleration": p.Acceleration[1].X - 20*cos/(sin*sin*sin),
		} {
			if math.Abs(off) > 1e-9 {
				t.Errorf("at %v deg the %s is off by %v", p.Drive, name, off)
			}
		}
	}
}
