package gear

import (
	"testing"

	"pintle/fit"
)

func screw(t testing.TB, size string) fit.Screw {
	t.Helper()
	s, ok := fit.ScrewNamed(size)
	if !ok {
		t.Fatal(size)
	}
	return s
}

// bodies are the kinds of body, one each.
func bodies(t testing.TB) map[string]Body {
	m3, m4, m25 := screw(t, "M3"), screw(t, "M4"), screw(t, "M2.5")
	rod := func(kind string, size float64) *Shaft { return &Shaft{Kind: kind, Size: size} }
	return map[string]Body{
		"hub":          {Shaft: rod(RoundBore, 8), Hub: &Hub{Diameter: 20, Length: 6}},
		"set-nut":      {Shaft: rod(DBore, 6), SetScrew: &SetScrew{Screw: m3}},
		"set-nuts":     {Shaft: rod(RoundBore, 8), SetScrew: &SetScrew{Screw: m3, Count: 2}},
		"set-insert":   {Shaft: rod(DBore, 8), SetScrew: &SetScrew{Screw: m4, Holds: fit.Insert}},
		"set-plain":    {Shaft: rod(RoundBore, 5), SetScrew: &SetScrew{Screw: m3, Holds: fit.SelfCutting, Count: 2}},
		"clamp":        {Shaft: rod(RoundBore, 6), Clamp: &Clamp{Screw: m3}},
		"clamp-large":  {Shaft: rod(RoundBore, 12), Clamp: &Clamp{Screw: m4}},
		"spokes":       {Shaft: rod(Keyway, 10), Lighten: &Lighten{Kind: Spokes}},
		"spokes-web":   {Shaft: rod(HexBore, 6), Lighten: &Lighten{Kind: Spokes, Count: 6, Web: 3}},
		"holes":        {Shaft: rod(SquareBore, 6), Lighten: &Lighten{Kind: Holes, Count: 6}},
		"holes-web":    {Shaft: rod(RoundBore, 6), Hub: &Hub{Length: 5}, Lighten: &Lighten{Kind: Holes, Web: 2.4}, TopChamfer: 0.4},
		"web":          {Shaft: rod(DBore, 6), SetScrew: &SetScrew{Screw: m3}, Lighten: &Lighten{Kind: Web}, TopChamfer: 0.3},
		"counterbore":  {Shaft: rod(RoundBore, 8), Bolts: &BoltCircle{Diameter: 32, Screw: m3, Count: 4, Kind: fit.Counterbore}, TopChamfer: 0.4},
		"countersink":  {Shaft: rod(RoundBore, 8), Bolts: &BoltCircle{Diameter: 32, Screw: m25, Count: 3, Kind: fit.Countersink}, TopChamfer: 0.4},
		"nut":          {Shaft: rod(RoundBore, 8), Bolts: &BoltCircle{Diameter: 32, Screw: m3, Count: 4, Kind: fit.Nut}},
		"insert":       {Shaft: rod(RoundBore, 8), Bolts: &BoltCircle{Diameter: 32, Screw: m3, Count: 4, Kind: fit.Insert}},
		"clearance":    {Shaft: rod(RoundBore, 8), Bolts: &BoltCircle{Diameter: 32, Screw: m4, Count: 4, Kind: fit.Clearance}},
		"bolts-spokes": {Shaft: rod(RoundBore, 8), Bolts: &BoltCircle{Diameter: 20, Screw: m25, Count: 3, Kind: fit.Clearance}, Lighten: &Lighten{Kind: Spokes}},
		"marked":       {Shaft: rod(RoundBore, 8), Mark: &Mark{Text: "carousel m1 z60", Under: "THIS SIDE DOWN"}, TopChamfer: 0.4},
		"raised":       {Shaft: rod(RoundBore, 8), Hub: &Hub{Length: 4}, Mark: &Mark{Text: "wheel m1 z60", Raised: true, Sector: true, Teeth: 20}},
	}
}

// Every kind of body is a closed mesh of one body, judged twice, and what its
// checks say of it is no failure.
func TestBodiesAreClosed(t *testing.T) {
	full := mustPair(t, blank(Body{})).Wheel().Chamfer()
	for name, b := range bodies(t) {
		t.Run(name, func(t *testing.T) {
			p := mustPair(t, blank(b))
			if got := p.Wheel().Chamfer(); got != full {
				t.Errorf("the teeth got a chamfer of %g mm, a solid wheel %g", got, full)
			}
			soundMesh(t, p.Wheel().Part())
			for _, f := range p.Findings() {
				if f.Part == "wheel" && f.Verdict == "fail" {
					t.Errorf("%+v", f)
				}
			}
		})
	}
}
