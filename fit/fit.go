// Package fit knows the printer and its materials: how far a printed bore or
// peg comes out from what was drawn, what each plastic bears, and therefore
// what must be drawn so that the print measures what a fit wants.
//
// Lengths are millimetres; diametral values say so. The package knows no parts.
package fit

import "pintle/check"

// An Error is how much larger a printed diameter measures than it was drawn:
// Offset + PerMM times the diameter, in mm on the diameter. Sigma is its
// standard uncertainty in mm.
type Error struct {
	Offset float64 `json:"offset"`
	PerMM  float64 `json:"per_mm"`
	Sigma  float64 `json:"sigma"`
}

// At returns the error of a feature drawn at diameter d.
func (e Error) At(d float64) float64 { return e.Offset + e.PerMM*d }

// Draw returns the diameter to draw so that the print comes out at wanted.
func (e Error) Draw(wanted float64) float64 { return (wanted - e.Offset) / (1 + e.PerMM) }

// FirstGuess is used where nobody has measured the printer: bores come out
// 0.2 mm small, outsides true, uncertain by 0.1 mm (middle of the range in
// "hole offset, first guess", common practice, no source).
var (
	FirstGuessBore    = Error{Offset: -0.2, Sigma: 0.1}
	FirstGuessOutside = Error{Offset: 0, Sigma: 0.1}
)

// TypedSigma is the uncertainty in mm of an error typed into a joint file
// without one (two caliper readings; common practice, no source).
const TypedSigma = 0.05

// A Card is what is known of one printer with one material and nozzle.
type Card struct {
	Name             string  // of the card file, or "none"
	BeadWidth        float64 // mm
	LayerThickness   float64 // mm
	Bore, Outside    Error   // on the diameter
	FirstLayerGrowth float64 // mm per side: how far the first layers spread
	Bed              [2]float64

	Material    string  // it was measured with; "" where nobody said
	Nozzle      float64 // mm; 0 where nobody said
	Orientation string  // one of Orientations; "" where nobody said

	// What was tried on a coupon; 0 where it was not.
	SlipClearance  float64 // mm on the diameter with which a part went in by hand
	Interference   float64 // mm on the diameter that was pressed in and held
	InterferenceAt float64 // mm, the diameter it held on
	Backlash       float64 // mm at the working pitch circle with which a pair ran free
	LeastWeb       float64 // mm, the thinnest web that printed whole

	Readings []Reading // of features of earlier prints, which correct the next
}

// Clearances between parts that must slide or turn, in mm on the diameter
// (common practice, no source: slip seats +0.05 to +0.15).
const (
	SlipClearance    = 0.1 // put together by hand, stays put
	RecessClearance  = 0.2 // a printed part into a printed recess
	JournalClearance = 0.1 // a printed journal into a ring's bore: twice the usual uncertainty
)

// A Fit records what one feature should measure, what is drawn for it and what
// the print is expected to measure, in mm.
type Fit struct {
	Part     string  `json:"part"`
	Feature  string  `json:"feature"`
	Wanted   float64 `json:"wanted"`
	Drawn    float64 `json:"drawn"`
	Expected float64 `json:"expected"`
	Sigma    float64 `json:"sigma"`
	Card     string  `json:"card"`

	Correction float64 `json:"correction,omitzero"` // mm that it is drawn larger for what earlier prints measured
}

// Hole returns the fit of a bore wanted at the diameter.
func (c Card) Hole(part, feature string, wanted float64) Fit {
	return c.fit(c.Bore, part, feature, wanted)
}

// Peg returns the fit of an outside wanted at the diameter.
func (c Card) Peg(part, feature string, wanted float64) Fit {
	return c.fit(c.Outside, part, feature, wanted)
}

func (c Card) fit(e Error, part, feature string, wanted float64) Fit {
	drawn := e.Draw(wanted)
	f := Fit{Part: part, Feature: feature, Wanted: wanted, Drawn: drawn, Expected: drawn + e.At(drawn), Sigma: e.Sigma, Card: c.Name}
	f.Correction = c.correction(part, feature, wanted)
	f.Drawn += f.Correction
	return f
}

// Measured says whether the card came from a printed and measured coupon.
func (c Card) Measured() bool { return c.Name != "none" }

// BedChamfer returns the chamfer in mm that relieves the first layers: as large
// as their growth, at least 0.4 mm (0.4 x 0.4: common practice, no source).
func (c Card) BedChamfer() float64 { return max(0.4, c.FirstLayerGrowth) }

// Validate returns an error for a card no printer can have.
func (c Card) Validate() error {
	for _, q := range []struct {
		field  string
		value  float64
		lo, hi float64
		remedy string
	}{
		{"bead width", c.BeadWidth, 0.1, 2, "measure one printed bead, or use 1.1 times the nozzle"},
		{"layer thickness", c.LayerThickness, 0.02, 1, "use what the print was made with, often 0.2 mm"},
		{"bore error", c.Bore.Offset, -1, 1, "printed diameter minus drawn diameter, in mm, often -0.1 to -0.3"},
		{"outside error", c.Outside.Offset, -1, 1, "printed diameter minus drawn diameter, in mm, often within 0.2"},
		{"bore error per mm", c.Bore.PerMM, -0.02, 0.02, "a slope of 0.001 is 0.1 mm on 100 mm"},
		{"outside error per mm", c.Outside.PerMM, -0.02, 0.02, "a slope of 0.001 is 0.1 mm on 100 mm"},
		{"uncertainty of the bore error", c.Bore.Sigma, 0, 1, "leave sigma out, or give the scatter of your readings in mm"},
		{"uncertainty of the outside error", c.Outside.Sigma, 0, 1, "leave sigma out, or give the scatter of your readings in mm"},
		{"first-layer growth", c.FirstLayerGrowth, 0, 1, "measure how far the first layer stands out, per side"},
		{"nozzle", c.Nozzle, 0, 2, "the diameter stamped on the nozzle, often 0.4 mm"},
		{"slip clearance", c.SlipClearance, 0, 1, "what went in by hand, often 0.05 to 0.2 mm on the diameter"},
		{"interference", c.Interference, 0, 1, "what was pressed in and held, often 0.05 to 0.15 mm on the diameter"},
		{"diameter of the interference", c.InterferenceAt, 0, 1000, "the outside diameter of the bearing that was tried"},
		{"backlash", c.Backlash, 0, 2, "what ran free, often 0.1 to 0.3 mm"},
		{"least web", c.LeastWeb, 0, 10, "the thinnest web that printed whole, often two beads"},
		{"bed length", c.Bed[0], 20, 2000, "the printable length in mm"},
		{"bed width", c.Bed[1], 20, 2000, "the printable width in mm"},
	} {
		if err := check.InRange(q.field, q.value, "mm", q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	return nil
}
