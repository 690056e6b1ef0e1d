package drive

import (
	"math"

	"pintle/check"
)

// A Law is the shape of a motion from rest to rest.
type Law string

// The motion laws. Trapezoid spends a third of the time each on speeding up,
// even speed and slowing down.
const (
	Cosine     Law = "cosine"
	Trapezoid  Law = "trapezoid"
	Triangular Law = "triangular"
	Cycloidal  Law = "cycloidal"
	Poly345    Law = "3-4-5"
	Poly4567   Law = "4-5-6-7"
)

// Laws returns all motion laws.
func Laws() []Law { return []Law{Cosine, Trapezoid, Triangular, Cycloidal, Poly345, Poly4567} }

// A Motion is one swing of the joint from rest to rest.
type Motion struct {
	SwingDeg float64 // from end to end
	Time     float64 // s, for one swing
	Law      Law
	Hold     bool // the joint keeps its position under power between swings

	CyclesPerDay float64 // swings there and back; 0 where not known
	Strikes      bool    // the load hits something at the end of the swing
}

// At returns the law's place, speed and acceleration at a share u of the time,
// 0 to 1, for a swing of 1 in a time of 1 (derived).
func (l Law) At(u float64) (s, v, a float64) {
	switch l {
	case Trapezoid:
		return thirds(u)
	case Triangular:
		if u < 0.5 {
			return 2 * u * u, 4 * u, 4
		}
		return 1 - 2*(1-u)*(1-u), 4 * (1 - u), -4
	case Cycloidal:
		sin, cos := math.Sincos(2 * math.Pi * u)
		return u - sin/(2*math.Pi), 1 - cos, 2 * math.Pi * sin
	case Poly345:
		return u * u * u * (10 + u*(-15+6*u)), 30 * u * u * (1 - u) * (1 - u), 60 * u * (1 - u) * (1 - 2*u)
	case Poly4567:
		w := u * (1 - u)
		return u * u * u * u * (35 + u*(-84+u*(70-20*u))), 140 * w * w * w, 420 * w * w * (1 - 2*u)
	default: // Cosine
		sin, cos := math.Sincos(math.Pi * u)
		return (1 - cos) / 2, math.Pi / 2 * sin, math.Pi * math.Pi / 2 * cos
	}
}

func thirds(u float64) (s, v, a float64) {
	switch {
	case u < 1.0/3:
		return 2.25 * u * u, 4.5 * u, 4.5
	case u <= 2.0/3:
		return 0.25 + 1.5*(u-1.0/3), 1.5, 0
	}
	return 1 - 2.25*(1-u)*(1-u), 4.5 * (1 - u), -4.5
}

// Cv returns the peak speed of the law in swings per time.
func (l Law) Cv() float64 {
	switch l {
	case Trapezoid:
		return 1.5
	case Triangular, Cycloidal:
		return 2
	case Poly345:
		return 15.0 / 8
	case Poly4567:
		return 35.0 / 16
	default:
		return math.Pi / 2
	}
}

// Ca returns the peak acceleration of the law in swings per time squared.
func (l Law) Ca() float64 {
	switch l {
	case Trapezoid:
		return 4.5
	case Triangular:
		return 4
	case Cycloidal:
		return 2 * math.Pi
	case Poly345:
		return 10 / math.Sqrt(3)
	case Poly4567:
		return 84 / (5 * math.Sqrt(5)) // at u = (5 - sqrt 5)/10
	default:
		return math.Pi * math.Pi / 2
	}
}

func (m Motion) peakSpeedDeg() float64 { return m.Law.Cv() * m.SwingDeg / m.Time }

func (m Motion) peakAccelerationDeg() float64 {
	return m.Law.Ca() * m.SwingDeg / (m.Time * m.Time)
}

// Validate returns a *check.FieldError for a motion that cannot be.
func (m Motion) Validate() error {
	if err := check.InRange("swing", m.SwingDeg, "deg", 0.1, 36000,
		"give the joint's angle from end to end"); err != nil {
		return err
	}
	if err := check.InRange("time", m.Time, "s", 1e-3, 1e5,
		"give the seconds for one swing"); err != nil {
		return err
	}
	if err := check.InRange("cycles a day", m.CyclesPerDay, "", 0, 86400/(2*m.Time),
		"a day has 86400 s, and there and back takes twice the time of a swing"); err != nil {
		return err
	}
	for _, l := range Laws() {
		if m.Law == l {
			return nil
		}
	}
	return &check.FieldError{
		Field: "motion law", Text: string(m.Law),
		Reason: "must be cosine, trapezoid, triangular, cycloidal, 3-4-5 or 4-5-6-7",
		Remedy: "use cosine for a gentle start and stop",
	}
}
