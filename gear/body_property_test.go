package gear

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
	"pintle/mesh"
)

// openArea returns the area of a bore in closed form: circle, circle less a
// segment, regular polygon with a relief at each corner, circle with a seat.
func openArea(x Shaft, room float64) float64 {
	size := x.Size + room
	r := size / 2
	segment := func(depth float64) float64 {
		theta := 2 * math.Acos((r-depth)/r)
		return (theta - math.Sin(theta)) * r * r / 2
	}
	polygon := func(n float64) float64 {
		corner := size / 2 / math.Cos(math.Pi/n)
		relief := math.Min(0.225, corner*math.Sin(math.Pi/n)/4) // half a bead
		return n*size*size/4*math.Tan(math.Pi/n) + n*(math.Pi/2+math.Pi/n)*relief*relief
	}
	switch x.Kind {
	case DBore:
		return math.Pi*r*r - segment(x.flatDepth(nil))
	case HexBore:
		return polygon(6)
	case SquareBore:
		return polygon(4)
	case Keyway:
		k, _ := fit.KeyFor(x.Size)
		half := (k.Width + 0.1) / 2
		leave := math.Asin(half / r)
		return math.Pi*r*r + 2*half*(r+k.Hub-r*math.Cos(leave)) - (2*leave-math.Sin(2*leave))*r*r/2
	}
	return math.Pi * r * r
}

// windowsArea returns the area of all windows between spokes: the annulus less
// spokes of the width w = 2a, whose area from radius p to q is F(q) - F(p) each
// with F(r) = r² asin(a/r) + a sqrt(r² - a²) (its derivative is 2 r asin(a/r)),
// less what a fillet leaves in a corner, (1 - pi/4) of its square (nearly, since
// the sides are not quite at a right angle).
func windowsArea(p light, fillet float64) (area, doubt float64) {
	a, n := p.Width/2, float64(p.Count)
	spoke := func(r float64) float64 { return r*r*math.Asin(a/r) + a*math.Sqrt(r*r-a*a) }
	corners := 4 * n * fillet * fillet * (1 - math.Pi/4)
	return math.Pi*(p.out*p.out-p.in*p.in) - n*(spoke(p.out)-spoke(p.in)) - corners, 0.6 * corners
}

// drawBody draws a body whose volume has a closed form, not always a legal one.
func drawBody(t *rapid.T) Body {
	some := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	b := Body{Shaft: &Shaft{
		Kind: rapid.SampledFrom([]string{RoundBore, DBore, HexBore, SquareBore, Keyway}).Draw(t, "bore"),
		Size: some("shaft", 3, 20), Fit: rapid.SampledFrom(append(ShaftFits(), "")).Draw(t, "fit"),
	}}
	if rapid.Bool().Draw(t, "hub") {
		b.Hub = &Hub{Diameter: some("hub diameter", 6, 40), Length: some("hub length", 0.5, 15)}
	}
	if rapid.Bool().Draw(t, "light") {
		b.Lighten = &Lighten{
			Kind: rapid.SampledFrom(Lightenings()).Draw(t, "kind"), Count: rapid.IntRange(0, 9).Draw(t, "count"),
			Rim: rapid.SampledFrom([]float64{0, 2, 4}).Draw(t, "rim"), Width: rapid.SampledFrom([]float64{0, 2, 5}).Draw(t, "width"),
			Web: rapid.SampledFrom([]float64{0, 1, 2.5}).Draw(t, "web"),
		}
	}
	b.TopChamfer = rapid.SampledFrom([]float64{0, 0.4}).Draw(t, "top")
	return b
}

// A legal body always gives a closed mesh, and between its chamfers the volume
// of the closed forms; an illegal one says what, why and what to do.
func TestRandomBodies(t *testing.T) {
	made := map[string]int{}
	specs := rapid.Custom(func(t *rapid.T) PairSpec {
		spec := blank(drawBody(t))
		spec.Teeth[1] = rapid.IntRange(20, 90).Draw(t, "z")
		spec.FaceWidth = rapid.Float64Range(3, 12).Draw(t, "face")
		return spec
	})
	for seed := range 400 {
		spec := specs.Example(seed)
		pair, err := solve(spec)
		if err != nil {
			t.Fatal(err)
		}
		g, err := newGear(pair, 1)
		var field *check.FieldError
		if errors.As(err, &field) {
			if field.Field == "" || field.Reason == "" || field.Remedy == "" || field.Reason == "cannot be made of layers" {
				t.Fatalf("seed %d: %+v", seed, field)
			}
			made["refused"]++
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		b := spec.Wheel
		m, err := mesh.FromPart(g.Part())
		if err == nil {
			err = m.Verify()
		}
		if err != nil {
			t.Fatal(err)
		}
		room, _ := b.Shaft.clearance(spec.Card)
		low, high := spec.Card.BedChamfer(), spec.FaceWidth-b.TopChamfer
		want := (g.Outline().Area() - openArea(*b.Shaft, room)) * (high - low)
		// Chords stray up to 2.5 µm along the bore, 5 along the hub, 20 along windows.
		// Heights are snapped to the grid.
		doubt := 0.0025*4*(b.Shaft.Size+1)*g.Height() + 2*g.Outline().Area()/geom.PerMM
		if b.Hub != nil {
			end := g.Height() - g.body.lead
			want += (math.Pi*b.Hub.Diameter*b.Hub.Diameter/4 - openArea(*b.Shaft, room)) * (end - spec.FaceWidth)
			doubt += 0.005 * math.Pi * b.Hub.Diameter * (end - spec.FaceWidth)
		}
		if b.Lighten != nil {
			taken, off := takenBy(t, g.body, *b.Lighten, low, high)
			want, doubt = want-taken, doubt+off
			made[b.Lighten.Kind]++
		}
		got := slabVolume(g.Part(), low, high)
		if b.Hub != nil {
			got += slabVolume(g.Part(), spec.FaceWidth, g.Height()-g.body.lead)
		}
		if math.Abs(got-want) > doubt {
			t.Errorf("seed %d: volume %.3f, want %.3f within %.3f: %+v %+v", seed, got, want, doubt, b.Shaft, b.Lighten)
		}
		made[b.Shaft.Kind]++
	}
	for _, kind := range []string{RoundBore, DBore, HexBore, SquareBore, Keyway, Spokes, Holes, Web, "refused"} {
		if made[kind] == 0 {
			t.Errorf("no %s among %v", kind, made)
		}
	}
}

// takenBy returns what a lightening takes between two heights, in mm³.
func takenBy(t *testing.T, s structure, l Lighten, low, high float64) (volume, doubt float64) {
	fresh := s
	fresh.margins = nil
	p, err := fresh.layLighten(l)
	if err != nil {
		t.Fatal(err)
	}
	top := high
	if p.Web > 0 {
		top = p.Web
		foot := s.webFoot
		ring := math.Pi * (p.out*p.out - p.in*p.in)
		volume = ring * (high - p.Web - foot)
		// The sloping feet leave a ring that grows evenly from narrow to wide: two
		// frusta (elementary).
		frustum := func(a, b float64) float64 { return math.Pi * foot / 3 * (a*a + a*b + b*b) }
		volume += frustum(p.out-foot, p.out) - frustum(p.in+foot, p.in)
		doubt = 0.02 * 2 * math.Pi * (p.in + p.out) * (high - p.Web)
		p.in, p.out = p.in+foot+0.225, p.out-foot-0.225
	}
	switch p.Kind {
	case Spokes:
		p.Width = s.values["spoke_width"]
		area, off := windowsArea(p, s.values["spoke_fillet"])
		volume, doubt = volume+area*(top-low), doubt+(off+0.02*(2*math.Pi*(p.in+p.out)+2*float64(p.Count)*(p.out-p.in)))*(top-low)
	case Holes:
		d, n := s.values["light_hole"], s.values["light_holes"]
		area := n * math.Pi * d * d / 4
		volume, doubt = volume+area*(top-low), doubt+0.02*n*math.Pi*d*(top-low)
	}
	return volume, doubt
}

// drawScrewed draws a body with screws, holes and letters of usual sizes.
func drawScrewed(t *rapid.T) Body {
	one := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	screw := rapid.SampledFrom(fit.Screws()[:5]).Draw(t, "screw")
	b := Body{
		Shaft:      &Shaft{Kind: one("bore", RoundBore, DBore, HexBore), Size: rapid.Float64Range(4, 12).Draw(t, "shaft")},
		TopChamfer: rapid.SampledFrom([]float64{0, 0.4}).Draw(t, "top"),
	}
	switch one("holder", "set", "clamp", "hub", "none") {
	case "set":
		b.SetScrew = &SetScrew{Screw: screw, Holds: one("holds", fit.Nut, fit.Insert, fit.SelfCutting), Count: 1}
	case "clamp":
		b.Shaft.Kind, b.Clamp = RoundBore, &Clamp{Screw: screw}
	case "hub":
		b.Hub = &Hub{Length: 4}
	}
	if rapid.Bool().Draw(t, "bolts") {
		b.Bolts = &BoltCircle{Diameter: rapid.Float64Range(20, 60).Draw(t, "circle"), Screw: screw, Count: rapid.IntRange(2, 6).Draw(t, "count"), Kind: one("kind", fit.ScrewHoles()...)}
	}
	if rapid.Bool().Draw(t, "light") {
		b.Lighten = &Lighten{Kind: one("way", Lightenings()...), Web: rapid.SampledFrom([]float64{0, 2.5}).Draw(t, "web")}
	}
	if rapid.Bool().Draw(t, "mark") {
		b.Mark = &Mark{Text: "wheel z36", Under: "this side down", Raised: rapid.Bool().Draw(t, "raised"), Sector: true, Teeth: 8}
	}
	return b
}

// Whatever meets in a body, screws, recesses, slots, windows and letters, it is a
// closed mesh, or refused by the rule that was broken: never because the layers
// happened not to prove.
func TestRandomScrewedBodies(t *testing.T) {
	made, refused := 0, 0
	specs := rapid.Custom(func(t *rapid.T) PairSpec {
		spec := blank(drawScrewed(t))
		spec.Module, spec.Teeth[1] = 1.25, rapid.IntRange(30, 70).Draw(t, "z")
		return spec
	})
	seeds := []int{269, 536} // a corner put into an upright wall beside a sloping one made it fold
	for seed := range 60 {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		spec := specs.Example(seed)
		pair, err := solve(spec)
		if err != nil {
			t.Fatal(err)
		}
		g, err := newGear(pair, 1)
		var field *check.FieldError
		if errors.As(err, &field) {
			refused++
			if field.Field == "" || field.Remedy == "" || strings.HasPrefix(field.Reason, "cannot be made") {
				t.Fatalf("seed %d: %+v", seed, field)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		made++
		m, err := mesh.FromPart(g.Part())
		if err == nil {
			err = m.Verify()
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
	}
	if made < 20 || refused < 5 {
		t.Errorf("%d made, %d refused", made, refused)
	}
}
