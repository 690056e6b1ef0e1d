package bearing_test

import (
	"math"
	"testing"

	"pintle/bearing"
	"pintle/geom"
)

// A lip of 0.2 mm per side on 40 mm in PETG: it strains 1 %, its land is drawn at
// 39.6 + 0.18, and to pull the ring past it takes the friction-free force of a
// press fit of 0.4 mm on 0.6 mm of length, up the ring's corner of 1 mm: 0.2 mm
// in, its tangent rises 3 to 4 (1 - 0.2 = 0.8), so (3/4 + mu) / (1 - 3/4 mu) with
// mu 0.15. The mouth opens wider than the bearing.
func TestLip(t *testing.T) {
	spec := lampSpec(t)
	spec.Fit, spec.Lip, spec.Flange = bearing.Slip, &bearing.Lip{Height: 0.2}, nil
	h, err := bearing.NewHousing(spec)
	if err != nil {
		t.Fatal(err)
	}
	m := spec.Material
	snap, err := bearing.NewPressFit(bearing.PressFitSpec{
		Joint: 40, HubOutside: 40 + 2*h.Wall(), ShaftInner: spec.Bearing.RingInner(), Interference: 0.4,
		HubE: m.Modulus, HubNu: m.Poisson, ShaftE: 206000, ShaftNu: 0.3, Length: 0.6, Friction: 1,
	})
	if err != nil {
		t.Fatal(err)
	}
	if have, want := h.Values()["lip_force"].(float64), snap.AxialForce*(0.75+0.15)/(1-0.75*0.15); !near(have, want, 1e-9*want) {
		t.Errorf("lip force %v, want %v", have, want)
	}
	if f := finding(t, h.Findings(), "lip-strain"); !near(f.Value, 1, 1e-9) {
		t.Errorf("%+v", f)
	}
	const grid = 1e-3
	across := func(loop geom.Loop) float64 { return loop[0].Point().Add(loop[1].Point()).Len() } // twice the flat's distance
	land, mouth := 0.0, 0.0
	narrow := math.Inf(1)
	for _, l := range h.Parts()[0].Layers() {
		if float64(l.Z0)/geom.PerMM > h.SeatHeight()+h.SeatDepth() {
			narrow = min(narrow, across(l.Bottom.Loops()[1]))
			mouth = across(l.Top.Loops()[1])
			if !l.Loft && near(mouth, 39.78, grid) {
				land = float64(l.Z1-l.Z0) / geom.PerMM
			}
		}
	}
	if !near(narrow, 39.78, grid) || !near(land, 0.6, grid) || mouth < 40.3 {
		t.Errorf("the lip is drawn at %v, want 39.78; its land is %v high, the mouth %v", narrow, land, mouth)
	}
}
