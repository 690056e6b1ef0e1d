// Package coupon designs the pieces that show what one printer does: rings round
// the measured bearing, pegs for its bore, holes, a block for the first layers,
// pairs of gears, horn pockets, a comb of webs, a bar, and the form on which the
// readings are written down.
//
// Every piece is drawn at the size its mark says, without any allowance of the
// printer card: what it measures less what was drawn is the printer's error.
// Marks are raised figures; steps stand in hundredths of a millimetre. Lengths
// are mm; offsets and clearances are on the diameter.
//
// The package fits no card (package fit does) and reads no files.
package coupon

import (
	"fmt"
	"math"
	"slices"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
)

// Side is the side in mm of the square bed on which every plate fits.
const Side = 150.0

// gap is the room in mm between two pieces of a plate (common practice, no
// source).
const gap = 4.0

// Pieces are the names of what a coupon is made of, in the order of the form.
func Pieces() []string {
	return []string{"rings", "pegs", "holes", "first-layer", "teeth", "pockets", "webs", "bar", "kerf", "label"}
}

// Steps are values from From to To, Step apart, both ends included.
type Steps struct{ From, To, Step float64 }

// At returns the values in order, to the micrometre.
func (s Steps) At() []float64 {
	var at []float64
	for i := 0; i < 1000; i++ {
		v := s.From + float64(i)*s.Step
		if v > s.To+1e-9 {
			break
		}
		at = append(at, math.Round(v*1000)/1000+0)
	}
	return at
}

// Horn is the measured servo horn that the pockets are made for, in mm.
type Horn struct {
	Kind        string // "disc", else a horn with arms
	Diameter    float64
	Thickness   float64
	HubDiameter float64
	Arm         float64 // from the axis to the end of an arm
	WidthAtHub  float64
	WidthAtTip  float64
	Arms        int
}

// A Spec says what the coupon is for. Zero steps are the usual ones.
type Spec struct {
	Name    string          // the parts are Name-rings and so on
	Bearing bearing.Bearing // as measured; without an outside diameter there are no rings
	Wall    float64         // of the rings; 0 for that of a housing
	Bore    float64         // the pegs are for; 0 for the bearing's, and without both there are no pegs

	Sheet Sheet // that is cut by laser; without a thickness there are no kerf pieces

	Rings, Pegs, Backlash, Webs Steps
	Slots                       Steps     // of the kerf pieces, round the sheet's thickness
	Pockets                     []float64 // clearances of the horn pockets
	Holes                       []float64 // diameters, axis upright
	CrossHole                   float64   // diameter of the hole that lies; 0 for the middle of Holes

	Module        float64 // of the gears; 0 for no gears
	Teeth         [2]int  // 0 for the fewest that leave room for pin and mark
	PressureAngle float64 // rad; 0 for 20 degrees
	Horn          Horn    // without a kind there are no pockets

	Only     []string // names of Pieces; empty for all that can be made
	Material fit.Material
	Card     fit.Card // bead, layer, first-layer growth; its errors change nothing but the expected readings
	CardName string   // of the card that the readings will make
	Nozzle   float64  // mm; 0 where not known
}

// Usual steps (needs of builders as collected; common practice, no source).
var (
	usualRings    = Steps{-0.20, 0.40, 0.05}
	usualPegs     = Steps{-0.30, 0.10, 0.05}
	usualBacklash = Steps{0.05, 0.40, 0.05}
	usualWebs     = Steps{0.4, 2.0, 0.2}
	usualSlots    = Steps{-0.40, 0.10, 0.05}
)

const degree = math.Pi / 180

// mostHole is the largest hole of the strip, in mm.
const mostHole = 40.0

func (s Spec) withDefaults() Spec {
	for _, q := range []struct {
		to    *Steps
		usual Steps
	}{{&s.Rings, usualRings}, {&s.Pegs, usualPegs}, {&s.Backlash, usualBacklash}, {&s.Webs, usualWebs}, {&s.Slots, usualSlots}} {
		if *q.to == (Steps{}) {
			*q.to = q.usual
		}
	}
	if s.Pockets == nil {
		s.Pockets = []float64{0.05, 0.1, 0.2}
	}
	if s.Bore == 0 {
		s.Bore = s.Bearing.Bore
	}
	if s.Holes == nil {
		s.Holes = []float64{2, 3, 4}
		if s.Bore > 4 && s.Bore <= mostHole {
			s.Holes = append(s.Holes, s.Bore)
		}
	}
	slices.Sort(s.Holes)
	if s.CrossHole == 0 {
		s.CrossHole = s.Holes[len(s.Holes)/2]
	}
	if s.PressureAngle == 0 {
		s.PressureAngle = 20 * degree
	}
	if s.CardName == "" {
		s.CardName = "card"
	}
	return s
}

// wants says whether a piece is to be made.
func (s Spec) wants(piece string) bool { return len(s.Only) == 0 || slices.Contains(s.Only, piece) }

func (s Spec) validate() error {
	if err := s.Card.Validate(); err != nil {
		return err
	}
	for _, name := range s.Only {
		if !slices.Contains(Pieces(), name) {
			return &check.FieldError{Field: "only", Text: name, Reason: "is no piece of a coupon", Remedy: fmt.Sprintf("choose among %v", Pieces())}
		}
	}
	if s.Bearing.Outside > 0 {
		if err := check.InRange("bearing outside diameter", s.Bearing.Outside, "mm", 4, 110, "larger rings do not fit the plates of a coupon: print the real ring once, and leave the bearing out for the other pieces"); err != nil {
			return err
		}
	}
	for _, q := range []struct {
		what   string
		s      Steps
		lo, hi float64
	}{
		{"rings", s.Rings, -1, 1}, {"pegs", s.Pegs, -1, 1}, {"backlash steps", s.Backlash, 0.01, 2}, {"webs", s.Webs, 0.1, 5}, {"slots", s.Slots, -0.8, 1},
	} {
		if err := q.s.validate(q.what, q.lo, q.hi); err != nil {
			return err
		}
	}
	for _, q := range []struct {
		what   string
		values []float64
		lo, hi float64
	}{
		{"pockets", s.Pockets, 0, 1},
		{"holes", s.Holes, 1, mostHole},
		{"cross hole", []float64{s.CrossHole}, 1, 12},
		{"nozzle", []float64{s.Nozzle}, 0, 2},
		{"wall", []float64{s.Wall}, 0, 20},
		{"module", []float64{s.Module}, 0, 5},
		{"bore", []float64{s.Bore}, 0, 60},
		{"sheet thickness", []float64{s.Sheet.Thickness}, 0, 12},
	} {
		for _, v := range q.values {
			if err := check.InRange(q.what, v, "mm", q.lo, q.hi, "leave it out for the usual one"); err != nil {
				return err
			}
		}
	}
	if t := s.Sheet.Thickness; t > 0 && t+s.Slots.From < 0.3 {
		return &check.FieldError{Field: "sheet thickness", Value: t, Unit: "mm", Reason: "leaves no slot at the tightest step", Remedy: "measure the sheet in mm, or give slots from a smaller step"}
	}
	return s.Horn.validate()
}

func (s Steps) validate(what string, lo, hi float64) error {
	for _, v := range []float64{s.From, s.To} {
		if err := check.InRange(what, v, "mm", lo, hi, "leave it out for the usual steps"); err != nil {
			return err
		}
	}
	if err := check.InRange(what, s.Step, "mm", 0.01, 1, "use steps of 0.05 mm"); err != nil {
		return err
	}
	if n := len(s.At()); n < 2 || n > 40 {
		return &check.FieldError{Field: what, Value: float64(n), Reason: "must be 2 to 40 steps", Remedy: "give from, to and step, from the smaller to the larger"}
	}
	return nil
}

func (h Horn) validate() error {
	if h.Kind == "" {
		return nil
	}
	sizes := []struct {
		what   string
		v      float64
		lo, hi float64
	}{{"horn thickness", h.Thickness, 0.5, 20}, {"horn hub diameter", h.HubDiameter, 1, 40}}
	if h.Kind == "disc" {
		sizes = append(sizes, struct {
			what   string
			v      float64
			lo, hi float64
		}{"horn diameter", h.Diameter, h.HubDiameter + 1, 120})
	} else {
		sizes = append(sizes, []struct {
			what   string
			v      float64
			lo, hi float64
		}{{"horn arm", h.Arm, h.HubDiameter/2 + 1, 60}, {"horn arm width at the hub", h.WidthAtHub, 1, h.HubDiameter + 10}, {"horn arm width at the tip", h.WidthAtTip, 0.8, h.WidthAtHub}}...)
	}
	for _, q := range sizes {
		if err := check.InRange(q.what, q.v, "mm", q.lo, q.hi, "measure the servo's horn"); err != nil {
			return err
		}
	}
	return nil
}
