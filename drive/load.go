package drive

import (
	"math"

	"pintle/check"
)

// Gravity is the standard acceleration of free fall in m/s² (CGPM 1901).
const Gravity = 9.80665

// An Axis says how the joint's axis stands.
type Axis string

// The three ways an axis can stand. Inverted is vertical with the load hanging
// below: the torque is that of Vertical, the bearing's load is reversed.
const (
	Vertical   Axis = "vertical"
	Horizontal Axis = "horizontal"
	Inverted   Axis = "inverted"
)

// A Load is what the joint turns.
type Load struct {
	Mass            float64 // kg
	Inertia         float64 // kg·m² about the joint's axis; 0 takes the mass as a point at Offset
	Offset          float64 // mm, centre of gravity from the axis
	Height          float64 // mm, centre of gravity above the bearing
	Axis            Axis
	ExtraTorque     float64 // N·m at the joint, always against the motion: a spring, a cable, wind
	BearingFriction float64 // N·m at the joint; see BearingTorque

	// CableTorque is what cables, a skin or a spring pull one way all along the
	// swing, in N·m at the joint: positive where it adds to the weight that must be
	// lifted, negative where it helps to lift. Where the posture is not known, or
	// the axis is not horizontal, it counts against the servo whatever its sign.
	CableTorque float64

	// PostureKnown says that MiddleDeg is given: the elevation of the centre of
	// gravity above the horizontal through the axis at the middle of the swing.
	// Otherwise a horizontal axis is taken to meet its worst posture.
	PostureKnown bool
	MiddleDeg    float64
}

// MomentOfInertia returns the inertia about the axis in kg·m²: as given, or that of
// the mass as a point at its offset.
func (l Load) MomentOfInertia() float64 {
	if l.Inertia == 0 {
		return Point(l.Mass, l.Offset)
	}
	return l.Inertia
}

// GravityAt returns the torque at the joint that holds the load at an angle
// from the middle of the swing, in N·m; positive where it must lift.
func (l Load) GravityAt(deg float64) float64 {
	switch {
	case l.Axis != Horizontal:
		return 0
	case !l.PostureKnown:
		return l.Mass * Gravity * l.Offset / 1000
	}
	return l.Mass * Gravity * l.Offset / 1000 * math.Cos((l.MiddleDeg+deg)*rad)
}

// standingAt returns the torque at the joint that holds it at an angle from the
// middle of the swing: weight and cable, with their signs where both are known.
func (l Load) standingAt(deg float64) float64 {
	if l.PostureKnown && l.Axis == Horizontal {
		return l.GravityAt(deg) + l.CableTorque
	}
	return l.GravityAt(deg) + math.Abs(l.CableTorque)
}

// Validate returns a *check.FieldError for a load that cannot be.
func (l Load) Validate() error {
	for _, q := range []struct {
		field  string
		value  float64
		unit   string
		lo, hi float64
		remedy string
	}{
		{"cable torque", l.CableTorque, "N·m", -1e4, 1e4, "positive where it adds to the weight, negative where it helps to lift"},
		{"mass", l.Mass, "kg", 0, 1e4, "weigh everything that turns with the joint"},
		{"moment of inertia", l.Inertia, "kg·m²", 0, 1e5, "mass times radius squared over 2 for a disc, in kg and m"},
		{"offset of the centre of gravity", l.Offset, "mm", 0, 1e4, "measure from the axis to the point where the load balances"},
		{"height of the centre of gravity", l.Height, "mm", -1e4, 1e4, "measure from the bearing to the point where the load balances"},
		{"extra torque", l.ExtraTorque, "N·m", 0, 1e4, "give the torque against the motion as a positive number"},
		{"bearing friction", l.BearingFriction, "N·m", 0, 1e3, "leave it out, or measure the pull at a known radius"},
		{"elevation at mid-swing", l.MiddleDeg, "deg", -360, 360, "0 with the arm level, 90 upright, -90 hanging"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	switch least := Point(l.Mass, l.Offset); {
	case l.Axis != Vertical && l.Axis != Horizontal && l.Axis != Inverted:
		return &check.FieldError{
			Field: "axis", Text: string(l.Axis),
			Reason: "must be vertical, horizontal or inverted", Remedy: "name how the joint's axis stands",
		}
	case l.Inertia > 0 && l.Inertia < least*(1-1e-9):
		return &check.FieldError{
			Field: "moment of inertia", Value: l.Inertia, Unit: "kg·m²",
			Reason: "is below mass times offset squared, " + check.Number(least) + ", the least a load can have",
			Remedy: "take it about the joint's axis: add mass times offset squared",
		}
	}
	return nil
}

// The inertias below are those of a homogeneous body, in kg·m², from a mass in
// kg and lengths in mm (derived; any table of moments of inertia has them).

// Point returns the inertia of a mass at a radius: m r².
func Point(mass, radius float64) float64 { return mass * sq(radius) }

// Disc returns the inertia of a disc or solid cylinder about its axis: m r²/2.
func Disc(mass, radius float64) float64 { return mass * sq(radius) / 2 }

// Tube returns the inertia of a thick tube about its axis: m (r1² + r2²)/2.
func Tube(mass, inner, outer float64) float64 { return mass * (sq(inner) + sq(outer)) / 2 }

// Rod returns the inertia of a slender rod about a square axis through its end:
// m L²/3.
func Rod(mass, length float64) float64 { return mass * sq(length) / 3 }

// Box returns the inertia of a box about the axis through its centre, square to
// the sides a and b: m (a² + b²)/12.
func Box(mass, a, b float64) float64 { return mass * (sq(a) + sq(b)) / 12 }

// Shifted returns the inertia about an axis that lies an offset in mm from the
// parallel axis through the centre of gravity, for which inertia was given:
// I + m e² (Steiner).
func Shifted(inertia, mass, offset float64) float64 { return inertia + mass*sq(offset) }

func sq(mm float64) float64 { return mm * mm * 1e-6 }

// Coefficients of friction of rolling bearings for BearingTorque (RoyMech,
// "Rolling Bearing Friction"; the same three in Lust CDA3000 engineering guide,
// table 7.18). Starting takes up to twice as much, and seals more.
const (
	MuDeepGroove    = 0.0015
	MuThrustBall    = 0.0013
	MuTaperedRoller = 0.0018
)

// MuPlain is the coefficient of friction of a shaft in a dry plastic bush: 0.1
// to 0.4 by plastic and surface (common practice, no source).
const MuPlain = 0.3

// BearingTorque returns the friction torque in N·m of a rolling bearing under a
// load in N with a bore in mm: 0.5 mu F d (RoyMech, "Rolling Bearing Friction").
func BearingTorque(mu, force, bore float64) float64 { return 0.5 * mu * force * bore / 1000 }
