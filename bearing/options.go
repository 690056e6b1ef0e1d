package bearing

import (
	"fmt"

	"pintle/check"
	"pintle/fit"
)

// validateOptions refuses options by themselves, and pairs of them that do not
// go together.
func (s HousingSpec) validateOptions() error {
	for _, err := range []error{s.validateShoulder(), s.Flange.validate(), s.Foot.validate(), s.Cap.validate(s.Bearing), s.Lip.validate(s.Bearing), s.Clamp.validate(s), s.Rod.validate(s.Bearing), s.validateBoreDepth()} {
		if err != nil {
			return err
		}
	}
	clash := func(field, other string) error {
		return &check.FieldError{Field: field, Text: "asked for", Reason: "does not go with " + other, Remedy: "choose one of the two"}
	}
	switch {
	case s.Lip != nil && s.Cap != nil:
		return clash("lip", "a cap")
	case s.Flange != nil && s.Foot != nil:
		return clash("foot", "a flange")
	case s.BoreDepth > 0 && s.Lip != nil:
		return clash("bore depth", "a lip: the lip stands at the ring's face")
	case s.BoreDepth > 0 && s.Cap != nil:
		return clash("bore depth", "a cap: the cap stands on the ring's face")
	}
	return nil
}

func (s HousingSpec) validateShoulder() error {
	if k := s.KnockOut; k != nil && (k.Count != 0 || k.Width != 0) {
		if err := check.InRange("number of knock-out slots", float64(k.Count), "", 2, 6, "three are usual; 0 for none"); err != nil {
			return err
		}
		if k.Width != 0 {
			if err := check.InRange("knock-out width", k.Width, "mm", 1.5, 12, "3 to 4 mm, the width of the rod that pushes"); err != nil {
				return err
			}
		}
	}
	if s.InspectionSlots != 0 {
		if err := check.InRange("number of inspection slots", float64(s.InspectionSlots), "", 2, 6, "two or three are usual"); err != nil {
			return err
		}
	}
	if r := s.Relief; r != nil {
		if err := check.InRange("corner relief width", r.Width, "mm", 0, 2, "0.4 mm is usual; 0 for none"); err != nil {
			return err
		}
		return check.InRange("corner relief depth", r.Depth, "mm", 0, s.Bearing.SeatWidth()/3, "two or three layers, a third of the ring's width at most")
	}
	return nil
}

func (s HousingSpec) validateBoreDepth() error {
	if s.BoreDepth == 0 {
		return nil
	}
	least := s.Bearing.SeatWidth()
	if err := check.InRange("bore depth", s.BoreDepth, "mm", 0, 300, "leave it out for a tube as long as the ring"); err != nil {
		return err
	}
	if s.BoreDepth < least {
		return &check.FieldError{
			Field: "bore depth", Value: s.BoreDepth, Unit: "mm", Reason: fmt.Sprintf("is less than the ring's width of %s mm", check.Number(least)),
			Remedy: fmt.Sprintf("use %s mm or more, or leave it out", ceil(least, 0.01)),
		}
	}
	return nil
}

// validateScrews refuses screws that are not known or not two to twenty-four.
func validateScrews(of string, s fit.Screw, count int) error {
	if err := check.InRange("number of "+of+" screws", float64(count), "", 2, 24, "three or four screws are usual"); err != nil {
		return err
	}
	if !(s.Diameter > 0 && s.Clearance >= s.Diameter && s.HeadDiameter > 0 && s.Pilot > 0) {
		return &check.FieldError{Field: "screw size", Text: s.Size, Reason: "is not a known screw", Remedy: "use M2 to M8, e.g. M3"}
	}
	return nil
}
