package gear

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// The seat of a measured disc: a pocket as deep as the disc and wider by the
// slip clearance, the hub's hole through the floor, four holes that pass M2.
// The sizes are those of the horn itself.
func TestHornSeatIn(t *testing.T) {
	card := fit.Card{Name: "true", BeadWidth: 0.45, LayerThickness: 0.2, SlipClearance: 0.1}
	disc := HornPocket{Kind: "disc", Diameter: 20.3, Thickness: 2.6, HubDiameter: 9.2, Holes: 4, HoleCircle: 14, Hole: 2.1}
	s, err := HornSeatIn("nod-horn", disc, 6, 26, card, nil)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(s.Floor-3.4) > 1e-9 || math.Abs(s.Reach-20.4) > 1e-9 || s.Screws != 4 || s.Screw.Size != "M2" {
		t.Errorf("floor %v, reach %v, %d screws %s", s.Floor, s.Reach, s.Screws, s.Screw.Size)
	}
	want := []struct{ z0, z1, diameter float64 }{{3.4, 6, 20.4}, {0, 3.4, 9.2 + HubRoom}, {0, 3.4, 2.4}, {0, 3.4, 2.4}, {0, 3.4, 2.4}, {0, 3.4, 2.4}}
	if len(s.Openings) != len(want) {
		t.Fatalf("%d openings, want %d", len(s.Openings), len(want))
	}
	for i, o := range s.Openings {
		w := want[i]
		if math.Abs(o.Z0-w.z0)+math.Abs(o.Z1-w.z1)+math.Abs(o.Contour.Diameter()-w.diameter) > 1e-9 {
			t.Errorf("opening %d: %v to %v, %v wide; want %+v", i, o.Z0, o.Z1, o.Contour.Diameter(), w)
		}
	}
	// Screws at 7 mm from the axis, hub hole of 9.7: 7 - 1.2 - 4.85 = 0.95 is left.
	if len(s.Findings) != 1 || math.Abs(s.Findings[0].Value-0.95) > 1e-9 || s.Findings[0].Verdict != check.Pass {
		t.Errorf("findings %+v", s.Findings)
	}
	arm := HornPocket{Kind: "arm", Thickness: 2, HubDiameter: 7, Arm: 18, WidthAtHub: 6, WidthAtTip: 4, HolesAt: []float64{14, 16}, Hole: 1.6}
	if s, err = HornSeatIn("nod-horn", arm, 6, 46, card, nil); err != nil || math.Abs(s.Reach-36.1) > 1e-9 || s.Screws != 1 {
		t.Errorf("arm: reach %v, %d screws, %v", s.Reach, s.Screws, err)
	}
}

// A horn that finds no room says what would give it some, in words of a part
// that has no teeth; followed, the seat is made.
func TestHornSeatRemedy(t *testing.T) {
	card := fit.Card{Name: "true", BeadWidth: 0.45, LayerThickness: 0.2, SlipClearance: 0.1}
	disc := HornPocket{Kind: "disc", Diameter: 20.3, Thickness: 2.6, HubDiameter: 9.2}
	_, err := HornSeatIn("nod-horn", disc, 6, 20, card, nil)
	var field *check.FieldError
	if !errors.As(err, &field) || field.Remedy != "hub diameter >= 22.2 mm" {
		t.Fatalf("%v: %+v", err, field)
	}
	if _, err := HornSeatIn("nod-horn", disc, 6, 22.2, card, nil); err != nil {
		t.Errorf("followed: %v", err)
	}
	if _, err := HornSeatIn("nod-horn", disc, 3, 26, card, nil); !errors.As(err, &field) || field.Field != "horn thickness of nod-horn" {
		t.Errorf("no floor: %v", err)
	}
}
