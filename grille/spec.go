package grille

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// MaxHoles is the largest number of holes in one grille: its STL file has about
// 1 GB.
const MaxHoles = 200_000

// DefaultOpenTarget is the open area wanted where the user names none: about
// 50 % for a grille before a loudspeaker (av-info.eu, perforation for
// loudspeaker grille; signalessence.com, loudspeaker grills).
const DefaultOpenTarget = 0.5

// A Spec describes one grille. Sizes of holes are those the print should
// measure: New draws them larger or smaller by the printer card.
type Spec struct {
	Name        string // of the part, before "-grille"; may be empty
	Outline     Outline
	Pattern     string  // one of Patterns
	Hole        float64 // mm: diameter, side, width across flats, or width of a slot
	SlotLength  float64 // mm over both round ends; slots only
	Pitch       float64 // mm, centre to centre; of slots: side by side
	PitchAlong  float64 // mm, of slots end to end, one more in the middle of each four; 0: bars as wide as at the sides
	Thickness   float64 // mm
	Margin      float64 // mm of solid rim; 0: 3 mm or 4 beads, the larger
	Screws      *Screws // nil for none
	HazardDepth float64 // mm from the face to what must not be touched; 0: nothing to check
	OpenTarget  float64 // wanted open share, 0 to 1; 0: DefaultOpenTarget
	Card        fit.Card
	ChordError  float64 // mm on the radius; 0: geom.ChordPlain
	Limits      check.Limits
}

// filled returns the spec with its defaults in place of zeros.
func (s Spec) filled() Spec {
	if s.Margin == 0 {
		s.Margin = max(3, 4*s.Card.BeadWidth)
	}
	if s.Pattern == Slot && s.PitchAlong == 0 {
		s.PitchAlong = s.barsAlike(s.Pitch)
	}
	if s.OpenTarget == 0 {
		s.OpenTarget = DefaultOpenTarget
	}
	if s.ChordError == 0 {
		s.ChordError = geom.ChordPlain
	}
	return s
}

// barsAlike returns the pitch along slots whose rows are as far apart as the
// slots within a row.
func (s Spec) barsAlike(pitch float64) float64 { return 2 * (s.SlotLength + pitch - s.Hole) }

// partName returns the name of the part.
func (s Spec) partName() string { return strings.TrimPrefix(s.Name+"-grille", "-") }

// validate returns a *check.FieldError for the first input that cannot be used.
// The spec must be filled.
func (s Spec) validate() error {
	if err := s.Card.Validate(); err != nil {
		return err
	}
	if err := s.Outline.validate(); err != nil {
		return err
	}
	if !slices.Contains(Patterns(), s.Pattern) {
		return &check.FieldError{
			Field: "pattern", Text: orNone(s.Pattern), Reason: "is not a known pattern",
			Remedy: "use one of " + strings.Join(Patterns(), ", "),
		}
	}
	for _, q := range []quantity{
		{"chord error", s.ChordError, 0.0005, 0.05, "leave it out for 0.02 mm"},
		{"hole", s.Hole, 0.3, 200, "measure across the hole, in mm"},
		{"pitch", s.Pitch, 0.3, 1000, "give the distance from centre to centre, in mm"},
		{"thickness", s.Thickness, 0.2, 100, "give the thickness of the plate, often 2 to 3 mm"},
		{"margin", s.Margin, s.leastMargin(), 500, "leave it out for 3 mm or 4 beads, the larger"},
		{"hazard depth", s.HazardDepth, 0, 10000, "measure from the face to what must not be touched, or leave it out"},
	} {
		if err := q.check(); err != nil {
			return err
		}
	}
	if err := check.InRange("open area wanted", s.OpenTarget, "", 0.01, 0.99, "give a share, as 0.5 for 50 %"); err != nil {
		return err
	}
	if err := s.validateSlot(); err != nil {
		return err
	}
	return s.validateHoles()
}

// A quantity is a length in mm with its range.
type quantity struct {
	field         string
	value, lo, hi float64
	remedy        string
}

func (q quantity) check() error {
	return check.InRange(q.field, q.value, "mm", q.lo, q.hi, q.remedy)
}

func orNone(word string) string {
	if word == "" {
		return "none"
	}
	return word
}

func (o Outline) validate() error {
	const remedy = "give the size of the whole grille, in mm"
	var sizes []quantity
	switch o.Kind {
	case Disc:
		sizes = []quantity{{"outline diameter", o.Diameter, 5, 1990, remedy}}
	case Rectangle:
		sizes = []quantity{
			{"outline length", o.Length, 5, 1990, remedy},
			{"outline width", o.Width, 5, 1990, remedy},
			{"corner radius", o.CornerRadius, 0, min(o.Length, o.Width) / 2, "use half of the shorter side at most, 0 for sharp corners"},
		}
	default:
		return &check.FieldError{
			Field: "outline", Text: orNone(o.Kind), Reason: "is not a known outline",
			Remedy: "use " + Disc + " or " + Rectangle,
		}
	}
	for _, q := range sizes {
		if err := q.check(); err != nil {
			return err
		}
	}
	return nil
}

func (s Spec) validateSlot() error {
	if s.Pattern != Slot {
		for _, q := range []quantity{{"slot length", s.SlotLength, 0, 0, ""}, {"pitch along", s.PitchAlong, 0, 0, ""}} {
			if q.value != 0 {
				return &check.FieldError{
					Field: q.field, Value: q.value, Unit: "mm",
					Reason: "only the pattern slot has one", Remedy: "leave it out, or use the pattern slot",
				}
			}
		}
		return nil
	}
	if err := check.InRange("slot length", s.SlotLength, "mm", 1.05*s.Hole, 500, "give the length over both round ends, longer than the slot is wide"); err != nil {
		return err
	}
	return check.InRange("pitch along", s.PitchAlong, "mm", 0.3, 2000, "give the distance between slots that stand end to end, or leave it out")
}

// validateHoles refuses holes that the printer card cannot draw, that run into
// each other or that are too many.
func (s Spec) validateHoles() error {
	width, length := s.drawn()
	if width < 0.2 {
		return &check.FieldError{
			Field: "hole", Value: s.Hole, Unit: "mm",
			Reason: fmt.Sprintf("would be drawn %s mm by the printer card's bore error", check.Number(width)),
			Remedy: "use a hole of at least " + check.Number(roundUp(s.Hole+0.2-width)) + " mm",
		}
	}
	// Neither as drawn nor as wanted may holes run into each other.
	width, length = max(width, s.Hole), max(length, s.SlotLength)
	bar := s.leastDrawnBar()
	if s.Pattern == Slot && s.PitchAlong < length+bar {
		return &check.FieldError{
			Field: "pitch along", Value: s.PitchAlong, Unit: "mm",
			Reason: fmt.Sprintf("must be greater than the slot length %s mm and as drawn, %s mm", check.Number(s.SlotLength), check.Number(s.Card.Bore.Draw(s.SlotLength))),
			Remedy: "use at least " + check.Number(roundUp(length+bar)) + " mm, or leave it out",
		}
	}
	lattice := latticeOf(s.Pattern, s.Pitch, s.PitchAlong)
	if lattice.bar(shapeOf(s.Pattern, width, length)) < bar {
		least := roundUp(s.pitchFor(width, length, bar))
		return &check.FieldError{
			Field: "pitch", Value: s.Pitch, Unit: "mm",
			Reason: fmt.Sprintf("must be greater than the hole %s mm, drawn %s mm, by a bar: at least %s mm", check.Number(s.Hole), check.Number(s.Card.Bore.Draw(s.Hole)), check.Number(least)),
			Remedy: "use at least " + check.Number(least) + " mm",
		}
	}
	if n := s.Outline.edge().area(0) / lattice.share(); n > MaxHoles {
		return &check.FieldError{
			Field: "pitch", Value: s.Pitch, Unit: "mm",
			Reason: fmt.Sprintf("would make about %.0f holes, at most %d can be made", n, MaxHoles),
			Remedy: "use at least " + check.Number(roundUp(s.Pitch*n/MaxHoles)) + " mm, or split the grille",
		}
	}
	return nil
}

// drawn returns the width and length of a hole as drawn by the printer card.
func (s Spec) drawn() (width, length float64) {
	return s.Card.Bore.Draw(s.Hole), s.Card.Bore.Draw(s.SlotLength)
}

// growth returns how far a drawn hole reaches beyond the wanted one, at most:
// half the difference of the widths, at a corner 1.42 times that.
func (s Spec) growth() float64 {
	width, length := s.drawn()
	return 0.71 * max(width-s.Hole, length-s.SlotLength, 0)
}

// leastDrawnBar returns the thinnest bar in mm between two holes that is still
// a body: the facets of both holes and 0.05 mm.
func (s Spec) leastDrawnBar() float64 { return 0.05 + 2*s.ChordError }

// leastMargin returns the smallest margin in mm that leaves one bead of rim as
// drawn.
func (s Spec) leastMargin() float64 {
	return max(s.Card.BeadWidth, 4*s.ChordError) + s.growth()
}

// pitchFor returns the smallest pitch in mm that leaves the bar between holes
// of the width and length; the pitch along slots stays where it was given.
func (s Spec) pitchFor(width, length, bar float64) float64 {
	if s.Pattern != Slot || s.PitchAlong == s.barsAlike(s.Pitch) {
		return width + bar
	}
	ends := max(s.PitchAlong/2-(length-width), 0)
	across := math.Sqrt(max((width+bar)*(width+bar)-ends*ends, 0))
	return max(width+bar, 2*across)
}

// roundUp and roundDown give hundredths of a millimetre for a remedy.
func roundUp(v float64) float64   { return math.Ceil(v*100-1e-6) / 100 }
func roundDown(v float64) float64 { return math.Floor(v*100+1e-6) / 100 }
