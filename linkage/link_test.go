package linkage

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
	"pintle/mesh"
)

// truePrinter is a card of a printer without errors, so that drawn is wanted.
func truePrinter() fit.Card {
	return fit.Card{Name: "true", BeadWidth: 0.45, LayerThickness: 0.2, Bed: [2]float64{220, 220}, SlipClearance: 0.1}
}

func screw(t testing.TB, size string) fit.Screw {
	t.Helper()
	s, ok := fit.ScrewNamed(size)
	if !ok {
		t.Fatalf("no screw %s", size)
	}
	return s
}

func oneArm() LinkSpec {
	return LinkSpec{
		Name: "nod-lever", Thickness: 5, Mark: "nod-lever", Card: truePrinter(),
		Hub:  Hub{Diameter: 18, Hole: 6, What: "running hole"},
		Arms: []Arm{{Length: 30, Width: 7, Eye: Eye{Diameter: 9.3, Hole: 3.1, What: "M3"}}},
	}
}

func made(t testing.TB, s LinkSpec) *Link {
	t.Helper()
	l, err := NewLink(s)
	if err != nil {
		t.Fatalf("%+v: %v", s, err)
	}
	return l
}

// volumeOf meshes and proves a part.
func volumeOf(t testing.TB, p geom.Part) float64 {
	t.Helper()
	m, err := mesh.FromPart(p)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.Verify(); err != nil {
		t.Fatal(err)
	}
	return m.Volume()
}

// flatLink is area and perimeter of a link with one arm, by elementary geometry:
// twice what lies under its upper profile, cut at the places where circle,
// fillet and side touch.
func flatLink(hub, eye, half, length, fillet float64) (area, perimeter float64) {
	touch := func(r float64) (centre, turn float64) {
		centre = math.Sqrt((r+fillet)*(r+fillet) - (half+fillet)*(half+fillet))
		return centre, math.Atan2(half+fillet, centre)
	}
	h, g := touch(hub)
	e, b := touch(eye)
	round := func(r, centre, turn float64) float64 { // one half, from the far end to where the side begins
		segment := r * r / 2 * (math.Pi - turn)         // the sector of the circle
		triangle := centre * (half + fillet) / 2        // circle's centre, fillet's centre, axis
		cut := fillet * fillet / 2 * (math.Pi/2 - turn) // the fillet's sector in it
		return segment + triangle - cut
	}
	area = 2 * (round(hub, h, g) + round(eye, e, b) + half*(length-h-e))
	perimeter = 2 * (hub*(math.Pi-g) + eye*(math.Pi-b) + fillet*(math.Pi-g-b) + length - h - e)
	return area, perimeter
}

// The volume of a plain link is its area times its thickness, less holes and the
// bed-side chamfer c: a smooth outline moved in by s loses perimeter x s - pi s²
// (Steiner), a hole of radius r opened by s gains 2 pi r s + pi s², both summed
// over s from 0 to c.
func TestLinkVolume(t *testing.T) {
	const seed = 5
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 60 {
		s := oneArm()
		s.Mark = ""
		s.Hub.Diameter, s.Hub.Hole = 12+20*rnd.Float64(), 2+4*rnd.Float64()
		a := &s.Arms[0]
		a.Eye.Diameter, a.Eye.Hole = 8+4*rnd.Float64(), 2+2*rnd.Float64()
		a.Width = a.Eye.Diameter * (0.5 + 0.45*rnd.Float64())
		a.Length, a.Angle = s.Hub.Diameter/2+a.Eye.Diameter/2+8+60*rnd.Float64(), 2*math.Pi*rnd.Float64()
		s.Thickness = 3 + 5*rnd.Float64()
		area, perimeter := flatLink(s.Hub.Diameter/2, a.Eye.Diameter/2, a.Width/2, a.Length, armFillet)
		c := s.Card.BedChamfer()
		want := area*s.Thickness - perimeter*c*c/2 + math.Pi*c*c*c/3
		for _, d := range []float64{s.Hub.Hole, a.Eye.Hole} {
			want -= math.Pi*d*d/4*s.Thickness + math.Pi*(d/2*c*c+c*c*c/3)
		}
		// Chords stray by up to ChordPlain, on average by two thirds of that.
		tol := geom.ChordPlain * perimeter * s.Thickness
		if got := volumeOf(t, made(t, s).Part()); math.Abs(got-want) > tol {
			t.Fatalf("seed %d, case %d (%+v): volume %.3f, want %.3f within %.3f", seed, i, s, got, want, tol)
		}
	}
}

// A boss adds its disc, less the step by which it stands back, with the bore
// through it; bolt holes take theirs.
func TestLinkBossAndBolts(t *testing.T) {
	plain := oneArm()
	plain.Mark = ""
	tall := plain
	tall.Hub.Boss = 4
	step := tall.Hub.Diameter/2 - bossStep
	want := 4 * math.Pi * (step*step - 9)
	if got := volumeOf(t, made(t, tall).Part()) - volumeOf(t, made(t, plain).Part()); math.Abs(got-want) > 0.005*want {
		t.Errorf("the boss is %.2f mm³, want %.2f", got, want)
	}
	bolted := plain
	bolted.Hub.Bolts = &BoltCircle{Diameter: 12, Screw: screw(t, "M2"), Count: 4}
	r := screw(t, "M2").Pilot / 2
	c := plain.Card.BedChamfer()
	each := math.Pi*r*r*plain.Thickness + math.Pi*(r*c*c+c*c*c/3)
	if got := volumeOf(t, made(t, plain).Part()) - volumeOf(t, made(t, bolted).Part()); math.Abs(got-4*each) > 0.02*each*4 {
		t.Errorf("four bolt holes take %.2f mm³, want %.2f", got, 4*each)
	}
}

// Whatever the legal link, its mesh is closed; whatever is illegal is refused as
// a quantity with a remedy, never as a shape that fails to prove.
func TestAnyLink(t *testing.T) {
	const seed = 11
	rnd := rand.New(rand.NewPCG(seed, seed))
	count := 0
	for i := range 250 {
		s := oneArm()
		s.Card.Bore, s.Card.Outside = fit.FirstGuessBore, fit.FirstGuessOutside
		s.Thickness = 2 + 7*rnd.Float64()
		s.Hub = Hub{Diameter: 6 + 24*rnd.Float64(), Hole: 8 * rnd.Float64(), Boss: 6 * float64(rnd.IntN(2))}
		s.Arms = nil
		for range 1 + rnd.IntN(4) {
			s.Arms = append(s.Arms, Arm{
				Length: 6 + 70*rnd.Float64(), Angle: 2 * math.Pi * rnd.Float64(), Width: 3 + 3*rnd.Float64(),
				Eye: Eye{Diameter: 6 + 6*rnd.Float64(), Hole: 1 + 3*rnd.Float64(), Boss: 2 * float64(rnd.IntN(2))},
			})
		}
		if rnd.IntN(3) == 0 {
			s.Hub.Bolts = &BoltCircle{Diameter: s.Hub.Diameter * rnd.Float64(), Screw: screw(t, "M2"), Count: 1 + rnd.IntN(6)}
		} else if rnd.IntN(3) == 0 {
			s.Hub.Clamp = &Clamp{Screw: screw(t, "M3")}
		}
		l, err := NewLink(s)
		var field *check.FieldError
		switch {
		case err == nil:
			count++
			volumeOf(t, l.Part())
			for _, f := range l.Findings() {
				if f.Verdict != check.Pass && f.Remedy == "" {
					t.Errorf("seed %d, case %d: %s without a remedy", seed, i, f.Check)
				}
			}
		case !errors.As(err, &field):
			t.Fatalf("seed %d, case %d (%+v): %v", seed, i, s, err)
		case field.Remedy == "":
			t.Errorf("seed %d, case %d: %v without a remedy", seed, i, err)
		}
	}
	if count < 50 {
		t.Errorf("only %d of 250 links were made", count)
	}
}

// A remedy followed makes the wall pass.
func TestLinkWallRemedy(t *testing.T) {
	s := oneArm()
	s.Arms[0].Eye.Diameter, s.Arms[0].Width = 5.6, 5.6
	f := made(t, s).Findings()[0]
	if f.Verdict != check.Caution || f.Detail != "arm eye" || f.Remedy != "arm eye diameter >= 6.7 mm" {
		t.Fatalf("%+v", f)
	}
	s.Arms[0].Eye.Diameter = 6.7
	if f := made(t, s).Findings()[0]; f.Verdict != check.Pass {
		t.Errorf("followed: %+v", f)
	}
}

// What cannot be made is refused by the quantity to blame.
func TestLinkRefusals(t *testing.T) {
	eye := Eye{Diameter: 9, Hole: 3}
	for _, test := range []struct {
		name  string
		spoil func(*LinkSpec)
		field string
	}{
		{"no arm", func(s *LinkSpec) { s.Arms = nil }, "number of arms of nod-lever"},
		{"no length", func(s *LinkSpec) { s.Arms[0].Length = 0 }, "arm length of nod-lever"},
		{"NaN", func(s *LinkSpec) { s.Arms[0].Length = math.NaN() }, "arm length of nod-lever"},
		{"thin", func(s *LinkSpec) { s.Thickness = 0.5 }, "thickness of nod-lever"},
		{"eye in the bore", func(s *LinkSpec) { s.Arms[0].Length = 4 }, "wall of nod-lever"},
		{"arms meet", func(s *LinkSpec) {
			s.Arms = []Arm{{Length: 30, Width: 7, Eye: eye}, {Length: 30, Width: 7, Angle: 0.2, Eye: eye}}
		}, "angle between arms of nod-lever"},
		{"eye under the boss", func(s *LinkSpec) { s.Hub.Boss, s.Arms[0].Length = 3, 12 }, "arm length of nod-lever"},
		{"clamp too thin", func(s *LinkSpec) { s.Hub.Clamp = &Clamp{Screw: screw(t, "M3")} }, "thickness of nod-lever"},
		{"clamp without a shaft", func(s *LinkSpec) { s.Hub.Clamp, s.Hub.Hole = &Clamp{Screw: screw(t, "M3")}, 0 }, "hub bore of nod-lever"},
		{"arm over the clamp", func(s *LinkSpec) {
			s.Thickness, s.Hub.Clamp = 8, &Clamp{Screw: screw(t, "M3")}
			s.Arms = append(s.Arms, Arm{Length: 30, Width: 7, Angle: 3, Eye: eye})
		}, "clamp screw of nod-lever"},
	} {
		s := oneArm()
		test.spoil(&s)
		_, err := NewLink(s)
		var field *check.FieldError
		if !errors.As(err, &field) || field.Field != test.field {
			t.Errorf("%s: %v, want %s", test.name, err, test.field)
		}
	}
}

// The clamp's thickness remedy, followed, makes a part.
func TestClampRemedy(t *testing.T) {
	s := oneArm()
	s.Hub.Clamp = &Clamp{Screw: screw(t, "M3")}
	_, err := NewLink(s)
	var field *check.FieldError
	if !errors.As(err, &field) || !strings.HasPrefix(field.Remedy, "thickness >= 5.31 mm") {
		t.Fatalf("%v: %+v", err, field)
	}
	s.Thickness = 5.31
	volumeOf(t, made(t, s).Part())
}

// The mark is read on the part: the longest arm bears it, with the distance of
// its eyes, and a short arm bears none.
func TestLinkMark(t *testing.T) {
	s := oneArm()
	s.Arms[0].Length, s.Arms[0].Width, s.Arms[0].Eye.Diameter = 110.55, 9, 9.5
	if l := made(t, s); l.Mark() != "nod-lever 110.55" {
		t.Errorf("mark %q", l.Mark())
	}
	s.Arms[0].Length = 60
	if l := made(t, s); l.Mark() != "60.00" {
		t.Errorf("mark %q", l.Mark())
	}
	s.Arms[0].Length = 25
	if l := made(t, s); l.Mark() != "" {
		t.Errorf("mark %q", l.Mark())
	}
}
