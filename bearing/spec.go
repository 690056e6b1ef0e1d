package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// The fits of a printed seat. Any other word is the tolerance class of a bore,
// such as N7: a seat to be reamed or turned, drawn at its nominal size.
const (
	Press     = "press"      // the ring grips
	Slip      = "slip"       // put in by hand, held by a cap, a lip or the load
	CrushRibs = "crush-ribs" // thin ribs grip and are squeezed flat
)

// DefaultInterference is the share of the outside diameter that a press fit
// gets (0.2 to 0.4 %: common practice, no source).
const DefaultInterference = 0.0025

// A HousingSpec describes one printed ring around one bearing. What is nil or
// zero is chosen or left out.
type HousingSpec struct {
	Name              string // of the joint's table; the part is Name-ring
	Part              string // that a seat stands in instead; "" for Name-ring
	Bearing           Bearing
	Fit               string  // Press, Slip, CrushRibs or a tolerance class such as "N7"
	Interference      float64 // mm on the diameter; 0 for the default of the fit
	Ribs              *Ribs   // of CrushRibs; nil for the usual ones
	Wall              float64 // mm outside the seat; 0 for max(4 beads, 0.12 D, 3 mm) in whole beads, or what a cap's screws need
	ShoulderThickness float64 // mm from the underside to the ring's back face; 0 for 3
	ShoulderHole      float64 // mm; 0 for a hole within the bearing's limits
	BoreDepth         float64 // mm from the mouth to the shoulder, where the tube is longer than the bearing; 0 for the ring's own width
	KnockOut          *KnockOut
	InspectionSlots   int     // slots that show whether the ring rests on the shoulder; 0 for none, else 2 to 6
	Relief            *Relief // nil for one where the bearing's chamfer is too small for a printed corner
	Lip               *Lip
	Cap               *Cap
	PressingDisc      bool      // makes Name-pressing-disc too
	MeasuredSeat      []float64 // mm, what the seats of earlier prints measured, the first print first
	Flange            *Flange
	Foot              *Foot  // instead of a flange
	Clamp             *Clamp // instead of either
	Rod               *RodSpec
	Material          fit.Material
	Card              fit.Card
	ChordError        float64 // mm on the radius of the seat; 0 for geom.ChordFit
	HottestC          float64 // °C; 0 where nobody said
	Cooling           float64 // K that the coldest air lies below 20 °C; 0 where nobody said
	Load              Load    // zero where nobody said
	Limits            check.Limits
}

func (s HousingSpec) withDefaults() HousingSpec {
	b := s.Bearing
	if s.Interference == 0 {
		switch s.Fit {
		case Press:
			s.Interference = DefaultInterference * b.Outside
		case CrushRibs:
			s.Interference = math.Min(ribInterference, 0.04*b.Outside)
		}
	}
	if s.Fit == CrushRibs {
		s.Ribs = s.ribsWithDefaults()
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
	thickness := math.Min(5, s.ShoulderThickness+b.SeatWidth()/2)
	if s.Flange != nil {
		s.Flange = &Flange{s.Flange.Screw, s.Flange.Count, orElse(s.Flange.Thickness, thickness)}
	}
	if s.Foot != nil {
		s.Foot = &Foot{s.Foot.Screw, s.Foot.Count, orElse(s.Foot.Thickness, thickness)}
	}
	if s.Clamp != nil {
		s.Clamp = s.clampWithDefaults()
	}
	if s.Cap != nil {
		s.Cap = &Cap{s.Cap.Screw, s.Cap.Count, orElse(s.Cap.Thickness, max(3, s.Cap.Screw.Diameter))}
	}
	return s
}

// orElse returns a value, or another where it is 0.
func orElse(value, otherwise float64) float64 {
	if value == 0 {
		return otherwise
	}
	return value
}

// wallWanted returns max(4 beads, 0.12 D, 3 mm) (common practice, no source), and
// with a cap the boss that its screws need.
func (s HousingSpec) wallWanted() float64 {
	wall := max(4*s.Card.BeadWidth, 0.12*s.Bearing.Outside, 3)
	if s.Cap != nil {
		wall = max(wall, 2*bossEdge*s.Cap.Screw.Diameter)
	}
	return wall
}

func (s HousingSpec) wholeBeads(wall float64) float64 {
	return math.Ceil(wall/s.Card.BeadWidth-1e-9) * s.Card.BeadWidth
}

// grips says whether the fit is made by the printer with an interference.
func (s HousingSpec) grips() bool { return s.Fit == Press || s.Fit == CrushRibs }

// machined says whether the fit is a tolerance class.
func (s HousingSpec) machined() bool { return !s.grips() && s.Fit != Slip }

func (s HousingSpec) validate() error {
	for _, err := range []error{s.Bearing.Validate(), s.Card.Validate(), s.Load.Validate(), s.validateFit(), s.Material.Validate()} {
		if err != nil {
			return err
		}
	}
	lo, hi := 0.0, s.Bearing.Outside
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
		{"coldest temperature", 20 - s.Cooling, -60, 20, "°C", "the coldest air at the figure in degrees Celsius, 20 or less"},
		{"hottest temperature", s.HottestC, -60, 300, "°C", "the hottest air at the figure in degrees Celsius"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	for _, read := range s.MeasuredSeat {
		if err := check.InRange("measured seat", read, "mm", hi-1, hi+1, "type in what the caliper shows across the seat"); err != nil {
			return err
		}
	}
	return s.validateOptions()
}

func (s HousingSpec) validateFit() error {
	if s.Name == "" {
		return &check.FieldError{Field: "housing name", Text: "", Reason: "must not be empty", Remedy: "name the ring, e.g. lamp"}
	}
	if s.machined() {
		_, bore, err := ToleranceClass(s.Fit, s.Bearing.Outside)
		switch {
		case classPattern.FindString(s.Fit) == "":
			return &check.FieldError{Field: "fit", Text: s.Fit, Reason: "is not known", Remedy: "use press, slip or crush-ribs, or the class of a machined bore such as N7"}
		case err != nil:
			return err
		case !bore:
			return unknownClass(s.Fit, "is the class of a shaft, not of a bore")
		}
		if _, err := FitInHousing(s.Fit, s.Bearing.Outside); err != nil {
			return err
		}
	}
	if !s.grips() && s.Interference != 0 {
		return &check.FieldError{
			Field: "interference", Value: s.Interference, Unit: "mm", Reason: fmt.Sprintf("does not go with the fit %q", s.Fit),
			Remedy: "leave it out, or ask for a press fit",
		}
	}
	if s.Ribs != nil && s.Fit != CrushRibs {
		return &check.FieldError{Field: "number of ribs", Value: float64(s.Ribs.Count), Reason: fmt.Sprintf("goes with the fit crush-ribs, not %q", s.Fit), Remedy: "leave the ribs out, or use crush-ribs"}
	}
	return nil
}
