package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// The two fits of a printed seat.
const (
	Press = "press" // the ring grips
	Slip  = "slip"  // put in by hand, held by a cap or the load
)

// DefaultInterference is the share of the outside diameter that a press fit
// gets (0.2 to 0.4 %: common practice, no source).
const DefaultInterference = 0.0025

// A HousingSpec describes one printed ring around one bearing.
type HousingSpec struct {
	Name              string // of the joint's table; the part is Name-ring
	Bearing           Bearing
	Fit               string  // Press or Slip
	Interference      float64 // mm on the diameter; 0 for the default of a press fit
	Wall              float64 // mm outside the seat; 0 for max(4 beads, 0.12 D, 3 mm) in whole beads
	ShoulderThickness float64 // mm from the underside to the ring's back face; 0 for 3
	ShoulderHole      float64 // mm; 0 for a hole within the bearing's limits
	Flange            *Flange // nil for a plain ring
	Material          fit.Material
	Card              fit.Card
	ChordError        float64 // mm on the radius of the seat; 0 for geom.ChordFit
	HottestC          float64 // °C; 0 where nobody said
	Load              Load    // zero where nobody said
	Limits            check.Limits
}

// A Flange is a disc on the bed side with clearance holes for cap screws.
type Flange struct {
	Screw     fit.Screw
	Count     int     // 2 to 24; the first hole at 45 degrees from the x axis
	Thickness float64 // mm; 0 for 5, or less on a ring too low for that
}

func (s HousingSpec) withDefaults() HousingSpec {
	b := s.Bearing
	if s.Fit == Press && s.Interference == 0 {
		s.Interference = DefaultInterference * b.Outside
	}
	if s.Wall == 0 {
		s.Wall = s.wholeBeads(s.wallWanted())
	}
	if s.ShoulderThickness == 0 {
		s.ShoulderThickness = 3
	}
	if s.ShoulderHole == 0 {
		s.ShoulderHole = b.chosenHole()
	}
	if s.ChordError == 0 {
		s.ChordError = geom.ChordFit
	}
	if s.Flange != nil {
		f := *s.Flange
		if f.Thickness == 0 {
			f.Thickness = math.Min(5, s.ShoulderThickness+b.SeatWidth()/2)
		}
		s.Flange = &f
	}
	return s
}

// wallWanted returns max(4 beads, 0.12 D, 3 mm) (common practice, no source).
func (s HousingSpec) wallWanted() float64 {
	return max(4*s.Card.BeadWidth, 0.12*s.Bearing.Outside, 3)
}

func (s HousingSpec) wholeBeads(wall float64) float64 {
	return math.Ceil(wall/s.Card.BeadWidth-1e-9) * s.Card.BeadWidth
}

func (s HousingSpec) validate() error {
	b := s.Bearing
	if err := b.Validate(); err != nil {
		return err
	}
	if err := s.Card.Validate(); err != nil {
		return err
	}
	if err := s.Load.Validate(); err != nil {
		return err
	}
	switch {
	case s.Name == "":
		return &check.FieldError{Field: "housing name", Text: "", Reason: "must not be empty", Remedy: "name the ring, e.g. lamp"}
	case s.Fit != Press && s.Fit != Slip:
		return &check.FieldError{Field: "fit", Text: s.Fit, Reason: "is not known", Remedy: "use press or slip"}
	case s.Fit == Slip && s.Interference != 0:
		return &check.FieldError{
			Field: "interference", Value: s.Interference, Unit: "mm", Reason: "does not go with a slip fit",
			Remedy: "leave it out, or ask for a press fit",
		}
	}
	if err := s.Material.Validate(); err != nil {
		return err
	}
	lo, hi := 0.0, b.Outside
	for _, q := range []struct {
		field  string
		value  float64
		lo, hi float64
		unit   string
		remedy string
	}{
		{"interference", s.Interference, lo, 0.05 * hi, "mm", fmt.Sprintf("0.2 to 0.4 %% of the outside diameter: %s to %s mm", check.Number(0.002*hi), check.Number(0.004*hi))},
		{"wall", s.Wall, lo, 200, "mm", "3 mm or 0.12 of the bearing's outside diameter"},
		{"shoulder thickness", s.ShoulderThickness, lo, 200, "mm", "2 to 4 mm is usual"},
		{"shoulder hole", s.ShoulderHole, lo, hi, "mm", "leave it out to have it chosen"},
		{"chord error", s.ChordError, lo, 0.05, "mm", "0.0025 mm on fits"},
		{"hottest temperature", s.HottestC, -60, 300, "°C", "the hottest air at the figure in degrees Celsius"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	return s.Flange.validate()
}

func (f *Flange) validate() error {
	if f == nil {
		return nil
	}
	if err := check.InRange("number of flange screws", float64(f.Count), "", 2, 24, "three or four screws are usual"); err != nil {
		return err
	}
	if !(f.Screw.Diameter > 0 && f.Screw.Clearance >= f.Screw.Diameter && f.Screw.HeadDiameter > 0) {
		return &check.FieldError{Field: "screw size", Text: f.Screw.Size, Reason: "is not a known screw", Remedy: "use M2 to M8, e.g. M3"}
	}
	return check.InRange("flange thickness", f.Thickness, "mm", 0, 200, "3 to 6 mm is usual")
}
