package grille

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
)

func TestUnusableInput(t *testing.T) {
	screw, _ := fit.ScrewNamed("M3")
	for _, test := range []struct {
		name   string
		change func(*Spec)
		field  string
	}{
		{"no card", func(s *Spec) { s.Card = fit.Card{} }, "bead width"},
		{"no outline", func(s *Spec) { s.Outline = Outline{} }, "outline"},
		{"no diameter", func(s *Spec) { s.Outline = Outline{Kind: Disc} }, "outline diameter"},
		{"diameter is not a number", func(s *Spec) { s.Outline.Diameter = math.NaN() }, "outline diameter"},
		{"no width", func(s *Spec) { s.Outline = Outline{Kind: Rectangle, Length: 50} }, "outline width"},
		{"corners meet", func(s *Spec) { s.Outline = Outline{Kind: Rectangle, Length: 50, Width: 40, CornerRadius: 20.1} }, "corner radius"},
		{"pattern", func(s *Spec) { s.Pattern = "stars" }, "pattern"},
		{"hole 0", func(s *Spec) { s.Hole = 0 }, "hole"},
		{"hole endless", func(s *Spec) { s.Hole = math.Inf(1) }, "hole"},
		{"hole vanishes", func(s *Spec) { s.Hole, s.Card.Bore.Offset = 0.5, 0.5 }, "hole"},
		{"hole larger than the disc", func(s *Spec) { s.Hole, s.Pitch = 90, 100 }, "hole"},
		{"pitch is the hole", func(s *Spec) { s.Pitch = 3 }, "pitch"},
		{"drawn holes meet", func(s *Spec) { s.Pitch, s.Card.Bore.Offset = 3.4, -0.4 }, "pitch"},
		{"too many holes", func(s *Spec) { s.Outline.Diameter, s.Hole, s.Pitch = 1900, 1, 2 }, "pitch"},
		{"slot length without slots", func(s *Spec) { s.SlotLength = 9 }, "slot length"},
		{"slot without length", func(s *Spec) { s.Pattern = Slot }, "slot length"},
		{"slots end to end meet", func(s *Spec) { s.Pattern, s.SlotLength, s.PitchAlong = Slot, 10, 10 }, "pitch along"},
		{"staggered slots meet", func(s *Spec) { s.Pattern, s.SlotLength, s.PitchAlong = Slot, 10, 12 }, "pitch"},
		{"thickness 0", func(s *Spec) { s.Thickness = 0 }, "thickness"},
		{"negative margin", func(s *Spec) { s.Margin = -1 }, "margin"},
		{"margin below a bead", func(s *Spec) { s.Margin = 0.3 }, "margin"},
		{"margin leaves no room", func(s *Spec) { s.Margin = 34 }, "hole"},
		{"negative hazard depth", func(s *Spec) { s.HazardDepth = -1 }, "hazard depth"},
		{"target in per cent", func(s *Spec) { s.OpenTarget = 50 }, "open area wanted"},
		{"no screw", func(s *Spec) { s.Screws = &Screws{Count: 6} }, "screw clearance hole"},
		{"one screw", func(s *Spec) { s.Screws = &Screws{Screw: screw, Count: 1} }, "number of screws"},
		{"screws beyond the edge", func(s *Spec) { s.Screws = &Screws{Screw: screw, Count: 6, Circle: 68} }, "screw circle"},
		{"screws in the centre", func(s *Spec) { s.Screws = &Screws{Screw: screw, Count: 6, Circle: 5} }, "screw circle"},
		{"too many screws", func(s *Spec) { s.Screws = &Screws{Screw: screw, Count: 60} }, "number of screws"},
		{"odd screws on a rectangle", func(s *Spec) {
			s.Outline = Outline{Kind: Rectangle, Length: 60, Width: 40}
			s.Screws = &Screws{Screw: screw, Count: 5}
		}, "number of screws"},
		{"crowded screws on a rectangle", func(s *Spec) {
			s.Outline = Outline{Kind: Rectangle, Length: 60, Width: 40}
			s.Screws = &Screws{Screw: screw, Count: 60}
		}, "number of screws"},
		{"inset beyond the edge", func(s *Spec) {
			s.Outline = Outline{Kind: Rectangle, Length: 60, Width: 40}
			s.Screws = &Screws{Screw: screw, Count: 4, Inset: 1}
		}, "screw inset"},
		{"chord error", func(s *Spec) { s.ChordError = 1 }, "chord error"},
	} {
		t.Run(test.name, func(t *testing.T) {
			spec := Spec{
				Outline: Outline{Kind: Disc, Diameter: 70}, Pattern: RoundStaggered, Hole: 3, Pitch: 4, Thickness: 2.4, Card: card(),
			}
			test.change(&spec)
			_, err := New(spec)
			var field *check.FieldError
			if !errors.As(err, &field) || field.Field != test.field {
				t.Fatalf("got %v, want an error about the %s", err, test.field)
			}
			if field.Reason == "" || field.Remedy == "" {
				t.Errorf("%+v needs a reason and a remedy", field)
			}
		})
	}
}

// The pitch that a refusal names is usable.
func TestRefusedPitchNamesOneThatWorks(t *testing.T) {
	for _, spec := range []Spec{
		{Pattern: RoundStaggered, Hole: 3, Pitch: 2},
		{Pattern: SquareDiagonal, Hole: 3, Pitch: 3},
		{Pattern: Slot, Hole: 3, SlotLength: 10, Pitch: 3, PitchAlong: 12},
		{Pattern: Slot, Hole: 3, SlotLength: 10, Pitch: 3},
	} {
		spec.Outline, spec.Thickness, spec.Card = Outline{Kind: Disc, Diameter: 70}, 2, card()
		spec.Card.Bore = fit.Error{Offset: -0.2, PerMM: 0.001}
		_, err := New(spec)
		if err == nil {
			t.Errorf("%+v was not refused", spec)
			continue
		}
		var field *check.FieldError
		if !errors.As(err, &field) || field.Field != "pitch" {
			t.Errorf("%v", err)
			continue
		}
		spec.Pitch = numberIn(t, field.Remedy)
		if _, err := New(spec); err != nil {
			t.Errorf("%q followed: %v", field.Remedy, err)
		}
	}
}

// Whatever the numbers, New returns a part or a *check.FieldError.
func FuzzNew(f *testing.F) {
	f.Add(uint8(0), uint8(0), 70.0, 60.0, 0.0, 3.0, 8.0, 4.0, 0.0, 2.4, 0.0, uint8(6), 0.0, -0.2, 0.4)
	f.Add(uint8(4), uint8(1), 90.0, 60.0, 4.0, 3.0, 12.0, 5.0, 30.0, 2.4, 1.0, uint8(8), 5.0, -0.1, 0.45)
	f.Add(uint8(5), uint8(1), 33.0, 21.0, 10.5, 2.0, 0.0, 2.5, 0.0, 0.3, 0.5, uint8(0), 0.0, 0.3, 0.1)
	f.Fuzz(func(t *testing.T, pattern, outline uint8, length, width, radius, hole, slot, pitch, along, thickness, margin float64, screws uint8, place, bore, bead float64) {
		spec := Spec{
			Pattern: Patterns()[int(pattern)%len(Patterns())], Hole: hole, Pitch: pitch, Thickness: thickness, Margin: margin,
			Outline: Outline{Kind: Disc, Diameter: length}, HazardDepth: math.Abs(along), Card: card(),
		}
		spec.Card.Bore.Offset, spec.Card.BeadWidth = bore, bead
		if spec.Pattern == Slot {
			spec.SlotLength, spec.PitchAlong = slot, along
		}
		if outline%2 == 1 {
			spec.Outline = Outline{Kind: Rectangle, Length: length, Width: width, CornerRadius: radius}
		}
		if screws%16 > 0 {
			all := fit.Screws()
			spec.Screws = &Screws{Screw: all[int(screws/16)%len(all)], Count: int(screws % 16), Circle: place, Inset: place}
		}
		if spec.Outline.edge().area(0)/(pitch*pitch) > 3000 {
			t.Skip("many holes take long")
		}
		g, err := New(spec)
		if err != nil {
			var field *check.FieldError
			if !errors.As(err, &field) {
				t.Fatalf("%+v: %v", spec, err)
			}
			return
		}
		for _, f := range g.Findings() {
			if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
				t.Errorf("%+v: %s is %v", spec, f.Check, f.Value)
			}
		}
		// One hole that just fits inside the rim leaves it all open; over the whole
		// face there is always a rim.
		if open := g.OpenAreaInside(); !(open > 0 && open <= 1+1e-12) {
			t.Errorf("%+v: %v open inside the rim", spec, open)
		}
		if open := g.OpenAreaOfFace(); !(open > 0 && open < 1) {
			t.Errorf("%+v: %v open of the face", spec, open)
		}
	})
}

func numberIn(t *testing.T, text string) float64 {
	t.Helper()
	var v float64
	if _, err := fmt.Sscanf(text, "use at least %f mm", &v); err != nil {
		t.Fatalf("no number in %q", text)
	}
	return v
}
