package drive

import (
	"math"
	"slices"

	"pintle/check"
)

const rad = math.Pi / 180 // one degree

// A Servo is a positional servo as its leaflet and a protractor describe it.
type Servo struct {
	StallTorque  float64 // N·m, at the stated voltage
	SpeedDegPerS float64 // no load, at the stated voltage; see SpeedFrom60
	Points       []PulsePoint

	StatedVoltage float64 // V at which torque and speed hold; 0 for the supply's
	SupplyVoltage float64 // V it runs on; 0 for the stated one
	DeadBand      float64 // µs that the pulse must change before the shaft follows; 0 where not known
	PlayDeg       float64 // free play of the shaft under a light push to and fro; 0 where not known
}

// VoltageShare returns the supply's voltage as a share of the stated one, 1
// where either is not known.
func (s Servo) VoltageShare() float64 {
	if s.StatedVoltage == 0 || s.SupplyVoltage == 0 {
		return 1
	}
	return s.SupplyVoltage / s.StatedVoltage
}

// running returns the servo at its supply: stall torque and no-load speed of a
// direct-current motor go with its voltage (derived; friction, which weighs more
// at low voltage, is left out).
func (s Servo) running() Servo {
	share := s.VoltageShare()
	s.StallTorque *= share
	s.SpeedDegPerS *= share
	s.StatedVoltage = s.SupplyVoltage
	return s
}

// WithTravel returns the servo with its measured angles spread over another
// travel in deg.
func (s Servo) WithTravel(travel float64) Servo {
	k := travel / s.Travel()
	s.Points = slices.Clone(s.Points)
	for i := range s.Points {
		s.Points[i].AngleDeg *= k
	}
	return s
}

// DeadBandDeg returns the dead band as an angle of the servo, over the mean
// slope of the measured points.
func (s Servo) DeadBandDeg() float64 {
	return s.DeadBand * s.Travel() / (s.Points[len(s.Points)-1].PulseMicroseconds - s.Points[0].PulseMicroseconds)
}

// A PulsePoint is one measured position: the pulse sent and the angle read.
type PulsePoint struct {
	PulseMicroseconds float64
	AngleDeg          float64
}

// SpeedFrom60 returns the speed in deg/s of a servo whose leaflet gives the
// seconds for 60 degrees: 60/t60, or (pi/3)/t60 in rad/s.
func SpeedFrom60(seconds float64) float64 { return 60 / seconds }

// Range returns the least and the greatest of the measured angles, in deg.
func (s Servo) Range() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range s.Points {
		lo, hi = min(lo, p.AngleDeg), max(hi, p.AngleDeg)
	}
	return lo, hi
}

// Travel returns the width of the range of the measured angles, in deg.
func (s Servo) Travel() float64 {
	lo, hi := s.Range()
	return hi - lo
}

// Pulse returns the pulse in µs that brings the servo to the angle, on straight
// lines between the measured points, and false for an angle outside them.
func (s Servo) Pulse(angleDeg float64) (float64, bool) {
	for i := 1; i < len(s.Points); i++ {
		a, b := s.Points[i-1], s.Points[i]
		share := (angleDeg - a.AngleDeg) / (b.AngleDeg - a.AngleDeg)
		if share >= 0 && share <= 1 {
			return a.PulseMicroseconds + share*(b.PulseMicroseconds-a.PulseMicroseconds), true
		}
	}
	return 0, false
}

// speedAt returns the speed the servo keeps up at a torque, in deg/s, on the
// motor's straight line; at least a hundredth of the no-load speed, so that a
// stalled servo gives a large share and not an infinite one.
func (s Servo) speedAt(torque float64) float64 {
	return s.SpeedDegPerS * max(1-torque/s.StallTorque, 0.01)
}

// Validate returns a *check.FieldError for a servo that cannot be.
func (s Servo) Validate() error {
	if err := check.InRange("stall torque", s.StallTorque, "N·m", 1e-3, 1000,
		"1 kgf·cm is 0.0980665 N·m; take the figure for the voltage it runs on"); err != nil {
		return err
	}
	if err := check.InRange("servo speed", s.SpeedDegPerS, "deg/s", 1, 1e5,
		"divide 60 by the seconds that the leaflet gives for 60 degrees"); err != nil {
		return err
	}
	for _, q := range []struct {
		field, unit string
		value, hi   float64
		remedy      string
	}{
		{"stated voltage", "V", s.StatedVoltage, 60, "give the voltage that the leaflet names beside the torque"},
		{"supply voltage", "V", s.SupplyVoltage, 60, "give the voltage that the servo runs on"},
		{"dead band", "µs", s.DeadBand, 200, "leaflets name 1 to 10 µs"},
		{"servo play", "deg", s.PlayDeg, 45, "hold a long horn, turn it gently to and fro and read the angle"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, 0, q.hi, q.remedy); err != nil {
			return err
		}
	}
	return s.validatePoints()
}

func (s Servo) validatePoints() error {
	const remedy = "send three pulses in rising order and read the angle at each"
	if len(s.Points) < 2 {
		return &check.FieldError{
			Field: "measured servo positions", Value: float64(len(s.Points)),
			Reason: "must be at least 2", Remedy: remedy,
		}
	}
	for i, p := range s.Points {
		if err := check.InRange("pulse", p.PulseMicroseconds, "µs", 100, 5000, remedy); err != nil {
			return err
		}
		if err := check.InRange("servo angle", p.AngleDeg, "deg", -3600, 3600, remedy); err != nil {
			return err
		}
		if i == 0 {
			continue
		}
		before := s.Points[i-1]
		if p.PulseMicroseconds <= before.PulseMicroseconds {
			return &check.FieldError{
				Field: "pulse", Value: p.PulseMicroseconds, Unit: "µs",
				Reason: "must be longer than the one before it", Remedy: remedy,
			}
		}
		rises, first := p.AngleDeg-before.AngleDeg, s.Points[1].AngleDeg-s.Points[0].AngleDeg
		if rises*first <= 0 {
			return &check.FieldError{
				Field: "servo angle", Value: p.AngleDeg, Unit: "deg",
				Reason: "must go on in the same direction from point to point", Remedy: remedy,
			}
		}
	}
	return nil
}
