package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// A solution is a pair's nominal teeth at their working centre distance.
type solution struct {
	spec    PairSpec // completed
	x       [2]float64
	k       float64 // tip alteration in modules
	thin    float64 // of each tooth on its reference circle, mm
	contact contact
}

// solve works out shifts, centre distance and thinning. The error is a
// *check.FieldError.
func solve(spec PairSpec) (solution, error) {
	spec = spec.completed()
	if err := spec.validate(); err != nil {
		return solution{}, err
	}
	x, err := spec.shifts()
	if err != nil {
		return solution{}, err
	}
	spec.cutter = shaper{spec.Teeth[0], x[0]}
	a := spec.CentreDistance
	if a == 0 {
		a = spec.distanceFor(x[0] + x[1])
	}
	alphaW, err := spec.workingAngle(a)
	switch {
	case err != nil && spec.CentreDistance == 0:
		return solution{}, spec.refuseShifts(x, a)
	case err != nil:
		return solution{}, err
	}
	s := solution{spec: spec, x: x, k: spec.tipAlteration(x[0]+x[1], a)}
	added := newContact(s.tooth(0, 0, 0), s.tooth(1, 0, 0), a).backlash()
	if math.Abs(added) < 1e-9 {
		added = 0 // rounding, where the distance follows from the shifts
	}
	s.thin = math.Max(spec.Backlash-added, 0) * math.Cos(alphaW) / (2 * math.Cos(spec.PressureAngle))
	s.contact = newContact(s.tooth(0, s.thin, 0), s.tooth(1, s.thin, 0), a)
	for i, t := range s.contact.t {
		if err := s.possible(i, t); err != nil {
			return solution{}, err
		}
	}
	return s, nil
}

// tooth returns the tooth of gear i with its shift and tip alteration, thinned
// and inset in mm.
func (s solution) tooth(i int, thin, inset float64) tooth {
	return s.spec.tooth(i, s.x[i], thin, inset).altered(s.k)
}

// tipAlteration returns k: what was given, or what keeps the rack's clearance
// between tips and roots where a shift sum brings the gears nearer than it moves
// their roots apart.
func (s PairSpec) tipAlteration(sum, a float64) float64 {
	if s.KeepTips {
		return s.TipAlteration
	}
	y := (a - s.referenceDistance()) / s.Module
	if s.internal() {
		y = -y
	}
	k := y - sum
	if k > -1e-9 {
		return 0
	}
	return k
}

// possible refuses a tooth that no rack leaves standing.
func (s solution) possible(i int, t tooth) error {
	which := [2]string{"pinion", "wheel"}[i]
	shift := func(reason, remedy string) error {
		return &check.FieldError{
			Field: "profile shift of the " + which, Value: s.x[i], Unit: "modules",
			Reason: reason, Remedy: remedy,
		}
	}
	switch least := LeastShift(s.spec.Teeth[i], s.spec.PressureAngle, s.spec.Rack); {
	case t.ra > geom.Extent:
		return &check.FieldError{
			Field: "tip diameter of the " + which, Value: 2 * t.ra, Unit: "mm",
			Reason: fmt.Sprintf("is above %v mm", 2*geom.Extent), Remedy: "use a smaller module or fewer teeth",
		}
	case t.inner:
		return s.possibleInner(t)
	case t.rf < t.m/2:
		return shift("leaves no root circle", "use more teeth or a larger shift")
	case t.psi <= 0 || t.ra <= t.rb || t.thickness(t.ra) < 0.02*t.m:
		return shift("together with this backlash brings the flanks to a point before the tip", "use a smaller shift, less backlash or more teeth")
	case t.form() >= t.ra || t.neck() < 0.1*t.m:
		return shift("lets the rack cut the tooth away", fmt.Sprintf("use a shift of %s or more", check.Number(least)))
	}
	return nil
}

// possibleInner refuses an internal tooth that has no involute.
func (s solution) possibleInner(t tooth) error {
	wheel := func(reason, remedy string) error {
		return &check.FieldError{Field: "profile shift of the wheel", Value: s.x[1], Unit: "modules", Reason: reason, Remedy: remedy}
	}
	switch {
	case t.rf+4*t.m > geom.Extent:
		return &check.FieldError{
			Field: "number of teeth of the wheel", Value: float64(s.spec.Teeth[1]),
			Reason: fmt.Sprintf("makes an internal gear above %v mm", 2*geom.Extent), Remedy: "use a smaller module or fewer teeth",
		}
	case t.ra <= t.rb:
		return wheel("brings the tips inside the base circle", "use more teeth, a smaller shift or a shorter rack addendum")
	case t.psi <= 0 || t.thickness(t.ra) < 0.02*t.m:
		return wheel("together with this backlash brings the flanks to a point before the tip", "use a larger shift, less backlash or more teeth")
	case t.from <= t.to:
		return wheel("leaves no flank between tip and fillet", "use a smaller rack fillet")
	}
	return nil
}

// minBacklashFloor is the least normal backlash of ISO/TR 10064-2 at centre
// distance a and module m in mm: (2/3)(0.06 + 0.0005 a + 0.03 m), from memory.
func minBacklashFloor(a, m float64) float64 { return 2.0 / 3 * (0.06 + 0.0005*a + 0.03*m) }
