package linkage

import (
	"math"

	"pintle/check"
	"pintle/drive"
)

// A Spec is a four-bar with what drives it, what it moves and what it is made
// of. Only the four lengths and the horn's travel must be given; what is nil or
// zero leaves the checks that need it out.
type Spec struct {
	FourBar         // Rod is the true length, ball centre to ball centre
	Offset  float64 // mm, square to the plane of motion, between the rod's two ends

	// The horn's travel, in deg from the line O2-O4, FromDeg < ToDeg. Both 0 take
	// the servo's measured range about NeutralDeg.
	FromDeg, ToDeg float64
	NeutralDeg     float64 // the horn with the servo at angle 0 of its measured points
	Turning        bool    // the horn turns fully and without end, driven by a gear motor

	SwingDeg float64 // wanted of the lever; 0 takes all that the horn's travel gives

	Servo  *Servo
	Motor  *Motor // for a horn that is Turning
	Load   *Load
	Motion *drive.Motion // its swing is SwingDeg; SwingDeg 0 there is filled in

	HornPin, LeverPin *PinJoint // what joins the rod's ends
	Stock             *RodStock
	HornLift          float64 // mm, of the rod's plane above the top of the servo's body
	TipRadius         float64 // mm, from the joint's axis to the point where play matters
	PivotPlay         float64 // mm, free movement of the lever on its axis, end to end

	Efficiency float64 // share of the servo's work that reaches the lever; 0 is drive.DefaultEfficiency
	Stations   int     // positions at which the stroke is looked at; 0 is DefaultStations
	Limits     check.Limits

	trial bool // one of many in the search for a remedy: between stations it is interpolated
}

// A Servo is a measured servo and how its horn sits.
type Servo struct {
	drive.Servo
	Clockwise   bool    // the horn turns clockwise as the measured angle grows
	SplineTeeth int     // of the output shaft; 0 where not known
	Tried       bool    // the horn was put on and TriedDeg read
	TriedDeg    float64 // at which the horn then stood with the servo at angle 0, counted as NeutralDeg is
}

func (s *Servo) validate() error {
	if s == nil {
		return nil
	}
	if err := s.Servo.Validate(); err != nil {
		return err
	}
	if err := check.InRange("teeth of the servo's spline", float64(s.SplineTeeth), "", 0, 100,
		"count them on the shaft: 23, 24 and 25 are usual"); err != nil {
		return err
	}
	return check.InRange("angle at which the horn was tried", s.TriedDeg, "deg", -720, 720,
		"read it from the line through the two axes with the neutral pulse sent")
}

// A Load is what the lever turns. With PostureKnown, MiddleDeg is the elevation
// of its centre of gravity in the middle of the lever's swing.
type Load struct {
	drive.Load
	Sinks bool // the load sinks, not rises, as the lever's angle grows
}

// DefaultStations makes curves of the stroke smooth to the eye: 1 deg apart over
// the half turn of a wide servo.
const DefaultStations = 181

const mostStations = 100_000

// flat returns the four-bar as seen square to its plane: a rod that crosses from
// one plane to another looks shorter, sqrt(L² - offset²).
func (s Spec) flat() FourBar {
	f := s.FourBar
	f.Rod = math.Sqrt(max(f.Rod*f.Rod-s.Offset*s.Offset, 0))
	return f
}

// filled returns the spec with its defaults.
func (s Spec) filled() Spec {
	if s.Stations == 0 {
		s.Stations = DefaultStations
	}
	if s.Efficiency == 0 {
		s.Efficiency = drive.DefaultEfficiency
	}
	switch {
	case s.Turning:
		s.FromDeg, s.ToDeg = 0, 360
	case s.FromDeg == 0 && s.ToDeg == 0 && s.Servo != nil:
		lo, hi := s.Servo.Range()
		a, b := s.hornAt(lo), s.hornAt(hi)
		s.FromDeg, s.ToDeg = min(a, b), max(a, b)
	}
	return s
}

// sense is the horn's turn per measured turn of the servo: 1 or -1.
func (s Spec) sense() float64 {
	if s.Servo != nil && s.Servo.Clockwise {
		return -1
	}
	return 1
}

// hornAt returns the horn's angle at a measured angle of the servo, in deg.
func (s Spec) hornAt(servoDeg float64) float64 { return s.NeutralDeg + s.sense()*servoDeg }

// servoAt returns the measured angle of the servo at an angle of the horn.
func (s Spec) servoAt(hornDeg float64) float64 { return s.sense() * (hornDeg - s.NeutralDeg) }

func (s Spec) validate() error {
	for _, q := range []struct {
		field  string
		value  float64
		unit   string
		lo, hi float64
		remedy string
	}{
		{"offset of the rod", s.Offset, "mm", -longest, longest, "give the distance between the planes of the rod's two ends"},
		{"neutral angle of the horn", s.NeutralDeg, "deg", -360, 360, "90 with the horn square to the line through the two axes"},
		{"wanted swing", s.SwingDeg, "deg", 0, 360, "give the joint's angle from end to end"},
		{"height of the rod above the horn", s.HornLift, "mm", 0, 200, "measure from the top of the servo's body to the middle of the rod"},
		{"radius of the tip", s.TipRadius, "mm", 0, 5000, "measure from the joint's axis to the farthest point"},
		{"play of the lever's pivot", s.PivotPlay, "mm", 0, 50, "push the lever's hub to and fro with the rod taken off"},
		{"efficiency", s.Efficiency, "", 0.05, 1, "give the share that reaches the lever, 0.9 for one pushrod"},
		{"number of stations", float64(s.Stations), "", 3, mostStations, "181 is smooth"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	if err := s.FourBar.Validate(); err != nil {
		return err
	}
	if math.Abs(s.Offset) > 0.9*s.Rod {
		return &check.FieldError{
			Field: "offset of the rod", Value: s.Offset, Unit: "mm",
			Reason: "is nearly the rod's whole length, " + check.Number(s.Rod) + " mm",
			Remedy: "bring the two ends of the rod nearer to one plane",
		}
	}
	if err := s.validateParts(); err != nil {
		return err
	}
	return s.validateTravel()
}

// validateParts looks at what the spec holds of other packages.
func (s Spec) validateParts() error {
	if err := s.Servo.validate(); err != nil {
		return err
	}
	if s.Load != nil {
		if err := s.Load.Validate(); err != nil {
			return err
		}
	}
	if err := s.Motor.validate(); err != nil {
		return err
	}
	if err := s.HornPin.validate("horn"); err != nil {
		return err
	}
	if err := s.LeverPin.validate("lever"); err != nil {
		return err
	}
	return s.Stock.validate()
}

func (s Spec) validateTravel() error {
	if s.Turning && s.Servo != nil {
		return &check.FieldError{
			Field: "servo", Text: "positional",
			Reason: "turns " + check.Number(s.Servo.Travel()) + " deg from end to end, and a full turn of the horn is wanted",
			Remedy: "drive the crank with a continuous gear motor, or want a swing instead of full turns",
		}
	}
	for _, q := range []struct {
		field string
		value float64
	}{{"horn angle at the start", s.FromDeg}, {"horn angle at the end", s.ToDeg}} {
		if err := check.InRange(q.field, q.value, "deg", -720, 720,
			"count it from the line through the two axes; 90 is square to it"); err != nil {
			return err
		}
	}
	if travel := s.ToDeg - s.FromDeg; !(travel > 0.01) || travel > 360 {
		return &check.FieldError{
			Field: "horn travel", Value: travel, Unit: "deg",
			Reason: "must be above 0.01 and at most 360 deg",
			Remedy: "give the smaller angle of the horn first, such as 45 to 135",
		}
	}
	return nil
}
