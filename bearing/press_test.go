package bearing_test

import (
	"errors"
	"math"
	"testing"

	"pintle/bearing"
	"pintle/check"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// values are numbers of a reference by their keys, among other things.
type values map[string]any

func (v values) of(key string) float64 {
	x, ok := v[key].(float64)
	if !ok {
		panic("bearing_test: no number " + key)
	}
	return x
}

// Every worked press fit of testdata/ref/pressfit.json, by its id: what is printed
// and right must come out, what is misprinted must not.
func TestEveryWorkedPressFit(t *testing.T) {
	var ref struct {
		Worked []struct {
			ID                          string
			Inputs, Printed, Recomputed values
		}
	}
	reference(t, "pressfit.json", &ref)
	solve := func(id string, s bearing.PressFitSpec) bearing.PressFit {
		f, err := bearing.NewPressFit(s)
		if err != nil {
			t.Errorf("%s: %v", id, err)
		}
		return f
	}
	compared := map[string]func(id string, in, printed, right values){
		"PF1": func(id string, in, printed, right values) {
			f := solve(id, bearing.PressFitSpec{Joint: in.of("d"), HubOutside: in.of("Do"), Interference: in.of("delta"), HubE: in.of("Eo"), ShaftE: in.of("Ei"), HubNu: in.of("nu"), ShaftNu: in.of("nu"), Length: in.of("L"), Friction: 0.1})
			if !near(f.Pressure, printed.of("p"), 1) || !near(f.HubHoopBore, right.of("hub_hoop_bore"), 0.1) {
				t.Errorf("%s: %+v", id, f)
			}
			if f.ShaftHoopJoint != -f.Pressure || f.ShaftHoopBore != -f.Pressure || f.BoreLoss != 0 {
				t.Errorf("%s: a solid shaft is under p all round: %+v", id, f)
			}
		},
		"PF3": func(id string, in, printed, right values) { // rigid pin
			boss := bearing.PressFitSpec{Joint: in.of("d"), HubOutside: in.of("Do"), Interference: right.of("i_for_bore_hoop_60MPa"), HubE: in.of("E"), HubNu: in.of("nu"), ShaftE: 1e12, ShaftNu: 0.3, Length: 1, Friction: 0.1}
			if f := solve(id, boss); !near(f.HubHoopBore, in.of("sigma"), 0.02) {
				t.Errorf("%s: hoop %v at the right interference", id, f.HubHoopBore)
			}
			boss.Interference = printed.of("i_max_printed")
			if f := solve(id, boss); f.HubHoopBore < 1.5*in.of("sigma") {
				t.Errorf("%s: the printed interference would bear: hoop %v", id, f.HubHoopBore)
			}
		},
		"PF5": func(id string, in, printed, right values) {
			f := solve(id, bearing.PressFitSpec{Joint: 2 * in.of("rc_outer"), HubOutside: 2 * in.of("ro"), ShaftInner: 2 * in.of("ri"), Interference: 2 * (in.of("rc_inner") - in.of("rc_outer")), HubE: in.of("E"), ShaftE: in.of("E"), HubNu: in.of("nu"), ShaftNu: in.of("nu"), Length: 1, Friction: 0.1})
			if !near(f.Pressure, right.of("p_plane_stress"), 0.005) || near(f.Pressure, printed.of("p"), 1) {
				t.Errorf("%s: p = %v; 16.9 is plane strain", id, f.Pressure)
			}
			if k := printed.of("p") / f.Pressure; !near(f.ShaftHoopBore*k, right.of("in_hoop_bore_for_16_9"), 0.01) || !near(f.HubHoopBore*k, right.of("hub_hoop_bore_for_16_9"), 0.01) {
				t.Errorf("%s: hoop at the printed pressure: %v, %v", id, f.ShaftHoopBore*k, f.HubHoopBore*k)
			}
		},
		"PF6": func(id string, in, printed, right values) {
			f := solve(id, bearing.PressFitSpec{Joint: in.of("d"), HubOutside: in.of("Do"), Interference: right.of("diametral_interference"), HubE: in.of("Eh"), ShaftE: in.of("Es"), HubNu: in.of("nu"), ShaftNu: in.of("nu"), Length: in.of("L"), Friction: in.of("mu")})
			if want := right.of("T_Nmm") / 1000; !near(f.Torque, want, 0.001*want) || near(f.Torque*printed.of("diametral_interference")/right.of("diametral_interference"), want, 0.1*want) {
				t.Errorf("%s: %+v", id, f)
			}
		},
		"PF8": func(id string, in, printed, right values) { // any hub: u at the pressure of the text
			f := solve(id, bearing.PressFitSpec{Joint: 2 * in.of("R"), HubOutside: 1, ShaftInner: 2 * in.of("ri"), Interference: 2 * in.of("delta_radial"), HubE: 14e6, HubNu: 0.3, ShaftE: in.of("Ei"), ShaftNu: in.of("nui"), Length: 1, Friction: 0.1})
			u := f.ShaftCompressed / 2 * in.of("p") / f.Pressure
			if !near(u, right.of("u_inner_correct"), 1e-9) || near(u, printed.of("u_inner"), 1e-6) {
				t.Errorf("%s: inner displacement %v", id, u)
			}
			if given := 2 * in.of("delta_radial"); !near(f.ShaftCompressed+f.HubOpening, given, 1e-12) {
				t.Errorf("%s: the members give %v and %v for %v", id, f.ShaftCompressed, f.HubOpening, given)
			}
		},
	}
	for _, w := range ref.Worked {
		judge, ok := compared[w.ID]
		if !ok {
			t.Errorf("%s is not compared", w.ID)
			continue
		}
		judge(w.ID, w.Inputs, w.Printed, w.Recomputed)
	}
	if len(ref.Worked) != len(compared) {
		t.Errorf("%d examples, %d compared", len(ref.Worked), len(compared))
	}
}

// Eleven steel rings in four plastics, computed by an independent program
// (testdata/ref/pressfit.json, PV-*), to the five decimals it printed.
func TestPressFitVectors(t *testing.T) {
	var ref struct {
		Vectors []struct {
			ID         string
			Inputs     map[string]float64
			Recomputed map[string]float64
		}
	}
	reference(t, "pressfit.json", &ref)
	if len(ref.Vectors) != 11 {
		t.Fatalf("%d vectors", len(ref.Vectors))
	}
	for _, v := range ref.Vectors {
		in, want := v.Inputs, v.Recomputed
		f, err := bearing.NewPressFit(bearing.PressFitSpec{
			Joint: in["D"], HubOutside: in["D"] + 2*in["wall"], ShaftInner: in["ring_inner"], Interference: in["delta"],
			HubE: in["E"], HubNu: in["nu"], ShaftE: in["Ering"], ShaftNu: in["nuring"], Length: in["B"], Friction: in["mu"],
		})
		if err != nil {
			t.Errorf("%s: %v", v.ID, err)
			continue
		}
		for key, have := range map[string]float64{
			"p": f.Pressure, "hub_hoop_bore": f.HubHoopBore, "hub_hoop_od": f.HubHoopOutside, "hub_mises_bore": f.HubEquivalent,
			"in_hoop_joint": f.ShaftHoopJoint, "in_hoop_bore": f.ShaftHoopBore, "u_hub": f.HubOpening / 2, "u_in": f.ShaftCompressed / 2,
			"d_hub_od": f.HubGrowth, "d_in_bore": f.BoreLoss, "F_axial": f.AxialForce, "T_hold": 1000 * f.Torque,
		} {
			if !near(have, want[key], 0.51e-5) {
				t.Errorf("%s: %s = %.6f, want %.5f", v.ID, key, have, want[key])
			}
		}
		b := bearing.Bearing{Bore: in["d"], Outside: in["D"]}
		if !near(b.RingInner(), in["ring_inner"], 1e-9) {
			t.Errorf("%s: RingInner = %v, want %v", v.ID, b.RingInner(), in["ring_inner"])
		}
	}
}

func TestPressFitRefuses(t *testing.T) {
	good := bearing.PressFitSpec{Joint: 22, HubOutside: 28, ShaftInner: 18, Interference: 0.05, HubE: 2500, HubNu: 0.38, ShaftE: 206000, ShaftNu: 0.3, Length: 7, Friction: 0.2}
	if loose, err := bearing.NewPressFit(withInterference(good, -0.1)); err != nil || loose.Pressure != 0 || loose.AxialForce != 0 {
		t.Errorf("a loose ring: %+v, %v", loose, err)
	}
	for _, test := range []struct {
		name  string
		spoil func(*bearing.PressFitSpec)
	}{
		{"hub without a wall", func(s *bearing.PressFitSpec) { s.HubOutside = 22 }},
		{"ring without a wall", func(s *bearing.PressFitSpec) { s.ShaftInner = 22 }},
		{"no modulus", func(s *bearing.PressFitSpec) { s.HubE = 0 }},
		{"Poisson above a half", func(s *bearing.PressFitSpec) { s.HubNu = 0.6 }},
		{"not a number", func(s *bearing.PressFitSpec) { s.Interference = math.NaN() }},
		{"negative length", func(s *bearing.PressFitSpec) { s.Length = -1 }},
	} {
		spec := good
		test.spoil(&spec)
		var wrong *check.FieldError
		if f, err := bearing.NewPressFit(spec); !errors.As(err, &wrong) {
			t.Errorf("%s: %+v, %v", test.name, f, err)
		}
	}
}

func withInterference(s bearing.PressFitSpec, delta float64) bearing.PressFitSpec {
	s.Interference = delta
	return s
}
