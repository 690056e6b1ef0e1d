package linkage

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// lampServo is the servo of the lighthouse figure, whose sizes are invented.
func lampServo() ServoBody {
	return ServoBody{Length: 40.4, Width: 20.1, Tabs: 54.6, Holes: [2]float64{49.4, 10.2}, Hole: 4.4, ShaftFromEnd: 10.1}
}

func nodBracket(t testing.TB) BracketSpec {
	return BracketSpec{
		Name: "nod-bracket", Body: lampServo(), Turn: math.Pi, Thickness: 5, Corner: screw(t, "M4"), Card: truePrinter(),
		Pivot: &Pivot{Distance: 90, Screw: screw(t, "M4"), Height: 12, Diameter: 12},
	}
}

func bracket(t testing.TB, s BracketSpec) *Bracket {
	t.Helper()
	b, err := NewBracket(s)
	if err != nil {
		t.Fatalf("%+v: %v", s, err)
	}
	return b
}

// The post stands at the frame's distance from the shaft and the window lies
// about the servo: read from the part's own outlines. With the far end away from
// the pivot the body reaches 40.4 - 10.1 = 30.3 mm behind the shaft.
func TestBracketPlaces(t *testing.T) {
	p := bracket(t, nodBracket(t)).Part()
	top := p.Slabs()[len(p.Slabs())-1].Bottom
	if c := top[0].Curves[0].(geom.Arc); c.Centre != (geom.Point{X: 90}) || top[0].Diameter() != 12 {
		t.Errorf("post %v at %v", top[0].Diameter(), c.Centre)
	}
	if d := top[1].Diameter(); math.Abs(d-screw(t, "M4").Pilot) > 1e-9 {
		t.Errorf("hole in the post %v", d)
	}
	left, right := 0.0, 0.0
	for _, v := range p.Slabs()[1].Bottom[1].Points {
		left, right = min(left, v.X), max(right, v.X)
	}
	if math.Abs(left+30.6) > 1e-3 || math.Abs(right-10.4) > 1e-3 {
		t.Errorf("window from %v to %v, want -30.6 to 10.4 with 0.3 mm of play", left, right)
	}
}

// The post adds its ring, the foot its wall and ribs less its holes: a rib is a
// wedge of 45 degrees, ribHeight high, cut off where it is leastRib deep.
func TestBracketVolume(t *testing.T) {
	s := nodBracket(t)
	flat := s
	flat.Pivot = &Pivot{Distance: 90, Screw: s.Pivot.Screw, Diameter: 12}
	r := s.Pivot.Screw.Pilot / 2
	want := 12 * math.Pi * (36 - r*r)
	got := volumeOf(t, bracket(t, s).Part()) - volumeOf(t, bracket(t, flat).Part())
	if math.Abs(got-want) > 0.005*want {
		t.Errorf("post %.1f mm³, want %.1f", got, want)
	}
	s.Foot = &Foot{Screw: screw(t, "M4"), Count: 2}
	b := bracket(t, s)
	low := b.Part().Slabs()
	h := ribHeight - leastRib
	wide, thick := b.hi.X-b.lo.X-2*inset, b.footThickness()-inset
	rib := ribThickness * (h*leastRib + h*h/2)
	hole := math.Pi / 4 * 4.5 * 4.5 * thick
	want = wide*thick*b.foot + 2*rib - 2*hole
	got = volumeOf(t, b.Part()) - flatVolume(low, s.Thickness) - 12*math.Pi*(36-r*r)
	if math.Abs(got-want) > 0.01*want { // the holes' roofs take a little more
		t.Errorf("foot %.1f mm³, want %.1f", got, want)
	}
}

// flatVolume sums area times height of the layers below a height.
func flatVolume(slabs []geom.Slab, top float64) float64 {
	v := 0.0
	for _, s := range slabs {
		if s.Z1 > top+1e-9 {
			break
		}
		lower, err := geom.RegionOf(s.Bottom)
		if err != nil {
			panic(err)
		}
		upper := lower
		if s.Top != nil {
			if upper, err = geom.RegionOf(s.Top); err != nil {
				panic(err)
			}
		}
		v += (lower.Area() + upper.Area()) / 2 * (s.Z1 - s.Z0)
	}
	return v
}

// Any bracket is a closed part or a quantity with a remedy.
func TestAnyBracket(t *testing.T) {
	const seed = 3
	rnd := rand.New(rand.NewPCG(seed, seed))
	count := 0
	for i := range 120 {
		s := nodBracket(t)
		s.Turn, s.Thickness = 2*math.Pi*rnd.Float64(), 2+6*rnd.Float64()
		s.Body.Length = 15 + 30*rnd.Float64()
		s.Body.Width, s.Body.Tabs = s.Body.Length*(0.3+0.3*rnd.Float64()), s.Body.Length+8+8*rnd.Float64()
		s.Body.Holes = [2]float64{s.Body.Length + 3 + 5*rnd.Float64(), s.Body.Width * rnd.Float64() * 0.8 * float64(rnd.IntN(2))}
		s.Body.Hole, s.Body.ShaftFromEnd = 2+3*rnd.Float64(), s.Body.Length*rnd.Float64()
		s.Pivot.Distance, s.Pivot.Height = 10+90*rnd.Float64(), 20*rnd.Float64()*float64(rnd.IntN(2))
		if rnd.IntN(2) == 0 {
			s.Foot = &Foot{Screw: screw(t, "M4"), Count: 1 + rnd.IntN(3)}
		}
		b, err := NewBracket(s)
		var field *check.FieldError
		switch {
		case err == nil:
			count++
			volumeOf(t, b.Part())
		case !errors.As(err, &field) || field.Remedy == "":
			t.Fatalf("seed %d, case %d (%+v): %v", seed, i, s, err)
		}
	}
	if count < 40 {
		t.Errorf("only %d of 120 brackets were made", count)
	}
}

func TestBracketRefusals(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*BracketSpec)
		field string
	}{
		{"pivot in the window", func(s *BracketSpec) { s.Turn = 0; s.Pivot.Distance = 25 }, "frame of nod-bracket"},
		{"tab holes in the window", func(s *BracketSpec) { s.Body.Holes[0] = 41 }, "tab hole spacing of nod-bracket"},
		{"no screw", func(s *BracketSpec) { s.Body.Hole = 1 }, "tab hole diameter of nod-bracket"},
		{"thin post", func(s *BracketSpec) { s.Pivot.Diameter = 4 }, "post diameter of nod-bracket"},
		{"low foot", func(s *BracketSpec) { s.Foot = &Foot{Height: 10, Screw: s.Corner, Count: 2} }, "foot height of nod-bracket"},
		{"crowded foot", func(s *BracketSpec) { s.Foot = &Foot{Screw: s.Corner, Count: 20} }, "foot screws of nod-bracket"},
		{"not measured", func(s *BracketSpec) { s.Body.Length = 0 }, "body length of nod-bracket"},
	} {
		s := nodBracket(t)
		test.spoil(&s)
		_, err := NewBracket(s)
		var field *check.FieldError
		if !errors.As(err, &field) || field.Field != test.field {
			t.Errorf("%s: %v, want %s", test.name, err, test.field)
		}
	}
}

// The way out of the servo's window that the refusal names is a way out.
func TestBracketRemedy(t *testing.T) {
	s := nodBracket(t)
	s.Turn, s.Pivot.Distance = 0, 35
	_, err := NewBracket(s)
	var field *check.FieldError
	if !errors.As(err, &field) || field.Remedy != "frame >= 44.9 mm, or turn the servo (servo_turn)" {
		t.Fatalf("%v: %+v", err, field)
	}
	s.Pivot.Distance = 44.9
	if f := bracket(t, s).Findings()[0]; f.Verdict != check.Pass {
		t.Errorf("followed: %+v", f)
	}
}

// The tab holes' diameter stands on the drawing, though the pivot's hole is as
// large: both are pilot holes of M4, by hand.
func TestBracketDimensionsEveryHole(t *testing.T) {
	b := bracket(t, nodBracket(t))
	counts := map[int]bool{}
	for _, d := range b.Details("").Dimensions {
		if d.Kind == drawing.Diameter && math.Abs(d.Size()-b.TabScrew().Pilot) < 1e-9 {
			counts[max(d.Count, 1)] = true
		}
	}
	if !counts[4] {
		t.Errorf("the four tab holes have no diameter: %v", counts)
	}
}
