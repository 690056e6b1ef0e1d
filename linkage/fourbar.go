package linkage

import (
	"math"

	"pintle/check"
	"pintle/geom"
)

// A FourBar is the lengths of a horn, a pushrod and a lever, pin to pin, and of
// the frame between the two fixed axes, in mm.
type FourBar struct {
	Horn    float64 // a, servo axis to the rod's pin
	Rod     float64 // b, pin to pin, as seen square to the plane of motion
	Lever   float64 // c, the joint's axis to the rod's pin
	Frame   float64 // d, servo axis to joint axis
	Crossed bool    // the lever's pin on the right of the line from the horn's pin to the joint's axis
}

// A Pose is one position of a four-bar with the horn turning at unit speed.
type Pose struct {
	Horn, Rod, Lever float64    // rad, from the line O2-O4; -pi to pi
	HornPin          geom.Point // A
	LeverPin         geom.Point // B
	Transmission     float64    // mu, rad, 0 to pi, between rod and lever
	HornAngle        float64    // nu, rad, 0 to pi, between horn and rod
	RodRate          float64    // d rod / d horn
	Ratio            float64    // d lever / d horn: the velocity ratio
	RodAcceleration  float64    // d² rod / d horn², 1/rad
	Acceleration     float64    // d² lever / d horn², 1/rad
}

// atDeadPoint is the sine of the transmission angle at and below which a
// position counts as a dead point: there the lever's speed has no value.
const atDeadPoint = 1e-9

// At returns the position with the horn at an angle in rad, exactly by the two
// circles about the rod's ends; false where they do not meet or the rod lies in
// line with the lever.
func (f FourBar) At(horn float64) (Pose, bool) {
	p := Pose{Horn: math.Remainder(horn, 2*math.Pi), HornPin: geom.Polar(f.Horn, horn)}
	reach := geom.Point{X: f.Frame}.Sub(p.HornPin)
	s := reach.Len()
	along := (s*s + f.Rod*f.Rod - f.Lever*f.Lever) / (2 * s)
	square := f.Rod*f.Rod - along*along
	if !(s > 0) || !(square > 0) {
		return Pose{}, false
	}
	u := reach.Scale(1 / s)
	side := math.Sqrt(square)
	if f.Crossed {
		side = -side
	}
	p.LeverPin = p.HornPin.Add(u.Scale(along)).Add(geom.Point{X: -u.Y, Y: u.X}.Scale(side))
	rod, lever := p.LeverPin.Sub(p.HornPin), p.LeverPin.Sub(geom.Point{X: f.Frame})
	p.Rod, p.Lever = rod.Angle(), lever.Angle()
	p.Transmission = between(rod, lever)
	p.HornAngle = between(p.HornPin.Scale(-1), rod)
	if math.Sin(p.Transmission) <= atDeadPoint {
		return Pose{}, false
	}
	return f.rates(p), true
}

// rates fills in the first and second derivatives from the closed loop
// a e^(i t2) + b e^(i t3) = d + c e^(i t4), differentiated by t2 once and twice.
func (f FourBar) rates(p Pose) Pose {
	t2, t3, t4 := p.Horn, p.Rod, p.Lever
	turn := math.Sin(t3 - t4)
	p.RodRate = f.Horn * math.Sin(t4-t2) / (f.Rod * turn)
	p.Ratio = f.Horn * math.Sin(t3-t2) / (f.Lever * turn)
	toward := func(axis float64) float64 { // the known accelerations along an axis
		return f.Horn*math.Cos(t2-axis) + f.Rod*p.RodRate*p.RodRate*math.Cos(t3-axis) -
			f.Lever*p.Ratio*p.Ratio*math.Cos(t4-axis)
	}
	p.RodAcceleration = -toward(t4) / (f.Rod * turn)
	p.Acceleration = -toward(t3) / (f.Lever * turn)
	return p
}

// between returns the angle between two directions, 0 to pi.
func between(a, b geom.Point) float64 {
	return math.Abs(math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y))
}

// Validate returns a *check.FieldError for lengths that no four-bar can have,
// and for four bars that close in no position at all.
func (f FourBar) Validate() error {
	for _, q := range f.lengths() {
		if err := check.InRange(q.name, q.value, "mm", shortest, longest,
			"measure from the centre of one pin to the centre of the other"); err != nil {
			return err
		}
	}
	if long, rest := f.longest(); long.value >= rest {
		return &check.FieldError{
			Field: long.name, Value: long.value, Unit: "mm",
			Reason: "is not shorter than the other three bars together, " + check.Number(rest) + " mm: the four cannot be joined",
			Remedy: "make it shorter than " + check.Number(rest) + " mm, or the others longer",
		}
	}
	return nil
}

// Pins nearer than shortest cannot be made, and figures end well below longest
// (common practice, no source).
const shortest, longest = 0.1, 2000

type bar struct {
	name  string
	value float64
}

func (f FourBar) lengths() []bar {
	return []bar{{"horn", f.Horn}, {"rod length", f.Rod}, {"lever", f.Lever}, {"distance between the axes", f.Frame}}
}

// longest returns the longest bar and the sum of the other three.
func (f FourBar) longest() (long bar, rest float64) {
	sum := 0.0
	for _, b := range f.lengths() {
		sum += b.value
		if b.value > long.value {
			long = b
		}
	}
	return long, sum - long.value
}
