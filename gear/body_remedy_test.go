package gear

import (
	"fmt"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// Every remedy for a body that is a number is followed here, and the check then
// passes. The lamp's servo stalls at 1.96 N·m.
func TestBodyRemedies(t *testing.T) {
	petg, _ := fit.MaterialNamed("PETG")
	m2, m3 := screw(t, "M2"), screw(t, "M3")
	loaded := func(b Body, stall float64) PairSpec {
		s := blank(b)
		s.Loading = Loading{Stall: stall, Material: [2]fit.Material{petg, petg}}
		return s
	}
	for _, q := range []struct {
		name, rule, remedy string // remedy: as it begins
		verdict            check.Verdict
		spec               PairSpec
		change             func(b *Body, v float64)
	}{
		{
			"thin spokes", "spoke", "spoke width >= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: HexBore, Size: 6}, Lighten: &Lighten{Kind: Spokes, Width: 1}}),
			func(b *Body, v float64) { b.Lighten.Width = v },
		},
		{
			"holes too near each other", "spoke", "lightening hole <= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: HexBore, Size: 6}, Lighten: &Lighten{Kind: Holes, Count: 12, Width: 7}}),
			func(b *Body, v float64) { b.Lighten.Width = v },
		},
		{
			"thin rim", "rim", "lightening rim >= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: HexBore, Size: 6}, Lighten: &Lighten{Kind: Spokes, Rim: 1}}),
			func(b *Body, v float64) { b.Lighten.Rim = v },
		},
		{
			"thin hub inside the lightening", "hub-wall", "lightening hub >= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: RoundBore, Size: 6}, Lighten: &Lighten{Kind: Spokes, Hub: 9}}),
			func(b *Body, v float64) { b.Lighten.Hub = v },
		},
		{
			"thin web", "web-thickness", "web >= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: HexBore, Size: 6}, Lighten: &Lighten{Kind: Web, Web: 0.9}}),
			func(b *Body, v float64) { b.Lighten.Web = v },
		},
		{
			"thin hub", "hub-wall", "hub diameter >= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, Hub: &Hub{Diameter: 11, Length: 5}}),
			func(b *Body, v float64) { b.Hub.Diameter = v },
		},
		{
			"D-bore too short", "shaft-torque", "hub length >= ", check.Fail,
			loaded(Body{Shaft: &Shaft{Kind: DBore, Size: 8}, Hub: &Hub{Diameter: 18, Length: 4}}, 0.3),
			func(b *Body, v float64) { b.Hub.Length = v },
		},
		{
			"key too short", "shaft-torque", "hub length >= ", check.Fail,
			loaded(Body{Shaft: &Shaft{Kind: Keyway, Size: 8}, Hub: &Hub{Diameter: 18, Length: 1}}, 0.3),
			func(b *Body, v float64) { b.Hub.Length = v },
		},
		{
			"bolts at the teeth", "rim", "bolt circle <= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, Bolts: &BoltCircle{Diameter: 48, Screw: m3, Count: 4, Kind: fit.Counterbore}}),
			func(b *Body, v float64) { b.Bolts.Diameter = v },
		},
		{
			"bolts at the bore", "hole-web", "bolt circle >= ", check.Caution,
			blank(Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, Bolts: &BoltCircle{Diameter: 14, Screw: m2, Count: 3, Kind: fit.Nut}}),
			func(b *Body, v float64) { b.Bolts.Diameter = v },
		},
	} {
		t.Run(q.name, func(t *testing.T) {
			f := finding(t, mustPair(t, q.spec), "lamp-wheel", q.rule)
			if f.Verdict != q.verdict || !strings.HasPrefix(f.Remedy, q.remedy) {
				t.Fatalf("%s %g %s: %q, want %s %q", f.Verdict, f.Value, f.Limit, f.Remedy, q.verdict, q.remedy)
			}
			var v float64
			if _, err := fmt.Sscanf(f.Remedy[len(q.remedy):], "%g", &v); err != nil {
				t.Fatal(err)
			}
			q.change(&q.spec.Wheel, v)
			if f := finding(t, mustPair(t, q.spec), "lamp-wheel", q.rule); f.Verdict != check.Pass {
				t.Errorf("with %g: %s at %g %s, %s", v, f.Verdict, f.Value, f.Limit, f.Detail)
			}
		})
	}
}

// A clamp or set screw that does not hold names the screw that does, and with it
// the check passes; where none does, a bore that holds by its shape.
func TestHoldingRemedies(t *testing.T) {
	petg, _ := fit.MaterialNamed("PETG")
	for _, q := range []struct {
		name  string
		stall float64
		body  func(s fit.Screw) Body
		want  string
	}{
		{"clamp", 0.08, func(s fit.Screw) Body { return Body{Shaft: &Shaft{Kind: RoundBore, Size: 6}, Clamp: &Clamp{Screw: s}} }, "use M"},
		{"set screw", 0.06, func(s fit.Screw) Body {
			return Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, SetScrew: &SetScrew{Screw: s}}
		}, "use M"},
		{"set screw, far too much", 5, func(s fit.Screw) Body {
			return Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, SetScrew: &SetScrew{Screw: s}}
		}, "use a D-bore"},
	} {
		spec := blank(q.body(screw(t, "M2")))
		spec.Loading = Loading{Stall: q.stall, Material: [2]fit.Material{petg, petg}}
		f := finding(t, mustPair(t, spec), "lamp-wheel", "shaft-torque")
		if f.Verdict != check.Fail || !strings.HasPrefix(f.Remedy, q.want) {
			t.Errorf("%s: %s %g %s: %q", q.name, f.Verdict, f.Value, f.Limit, f.Remedy)
			continue
		}
		if size, ok := strings.CutPrefix(f.Remedy, "use M"); ok {
			spec.Wheel = q.body(screw(t, "M"+size))
			if f := finding(t, mustPair(t, spec), "lamp-wheel", "shaft-torque"); f.Verdict != check.Pass {
				t.Errorf("%s with M%s: %s %g %s", q.name, size, f.Verdict, f.Value, f.Limit)
			}
		}
	}
}

// The holding torques by hand for a plastic of 44 MPa, 22 MPa of pressure: a
// square of 6 mm over 8 mm of length, 4 x 22 x 8 x 36 / 12; a hexagon, whose
// flats are 6/sqrt(3) wide, 6 of them; a set screw M3 with a nut of 5.5 mm over
// a hole of 3.4 mm, mu 0.2, half of it left, on 8 mm.
func TestHoldingTorque(t *testing.T) {
	m3 := screw(t, "M3")
	nut := 22 * (5.5*5.5*0.8660254 - 3.4*3.4*0.7853982)
	for _, q := range []struct {
		name string
		body Body
		want float64
	}{
		{"square", Body{Shaft: &Shaft{Kind: SquareBore, Size: 6}}, 4 * 22 * 8 * 36 / 12.0 / 1000},
		{"hexagon", Body{Shaft: &Shaft{Kind: HexBore, Size: 6}}, 6 * 22 * 8 * 12 / 12.0 / 1000},
		{"set screw", Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, SetScrew: &SetScrew{Screw: m3}}, 0.2 * 0.5 * nut * 8 / 1000},
		{"two", Body{Shaft: &Shaft{Kind: RoundBore, Size: 8}, SetScrew: &SetScrew{Screw: m3, Count: 2}}, 0.2 * nut * 8 / 1000},
	} {
		got, _ := mustPair(t, blank(q.body)).Wheel().body.holds(22)
		near(t, q.name, got, q.want, 1e-6)
	}
	// The clamp: moments about the hub's wall opposite the slit, r + wall/2 from the
	// shaft's axis, give the shaft's force; both halves rub at half the diameter.
	g := mustPair(t, blank(Body{Shaft: &Shaft{Kind: RoundBore, Size: 6}, Clamp: &Clamp{Screw: m3}})).Wheel()
	at, hub := g.body.values["clamp_screw_from_axis"], g.body.values["hub_diameter"]
	hinge := 3 + (hub/2-3)/2
	got, _ := g.body.holds(22)
	near(t, "clamp", got, 0.5*0.2*nut*(at+hinge)/hinge*6/1000, 1e-6)
}
