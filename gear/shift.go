package gear

import (
	"math"

	"pintle/check"
)

// A ShiftRule says where the profile shifts come from.
type ShiftRule int

// The shift rules.
const (
	// ShiftGiven takes the shifts as they are. With both 0, a centre distance given
	// and KeepShift not set, the sum follows from the distance; a positive sum is
	// shared inversely and a negative one in proportion to the teeth, so that the
	// smaller gear gets the thicker teeth.
	ShiftGiven ShiftRule = iota
	// ShiftChoose takes for each gear the smallest shift free of undercut, 0 where
	// none is needed. With a centre distance given the sum follows from it, and the
	// share moves only as far as undercut asks.
	ShiftChoose
	// ShiftBalanced shares the sum so that the specific sliding is the same at both
	// ends of the path of contact, as far as undercut allows. Without a centre
	// distance the sum is the smallest, from 0 up, that keeps both gears free of it.
	ShiftBalanced
)

// LeastShift returns the smallest profile shift in modules, rounded up to
// 0.001, at which a gear of z teeth is not undercut: hFfP* - z sin^2(alpha)/2.
func LeastShift(z int, alpha float64, rack Rack) float64 {
	sin := math.Sin(alpha)
	exact := rack.formDedendum(alpha) - float64(z)*sin*sin/2
	return math.Ceil(exact*1000-1e-9) / 1000
}

// shifts returns x1 and x2.
func (s PairSpec) shifts() ([2]float64, error) {
	if s.internal() {
		return s.internalShifts()
	}
	least := [2]float64{LeastShift(s.Teeth[0], s.PressureAngle, s.Rack), LeastShift(s.Teeth[1], s.PressureAngle, s.Rack)}
	var sum float64
	switch s.ShiftRule {
	case ShiftGiven:
		if s.CentreDistance == 0 || s.keepsShift() {
			return s.Shift, nil
		}
	case ShiftChoose:
		if s.CentreDistance == 0 {
			return [2]float64{math.Max(least[0], 0), math.Max(least[1], 0)}, nil
		}
	case ShiftBalanced:
		sum = math.Max(least[0]+least[1], 0)
	default:
		return [2]float64{}, &check.FieldError{Field: "shift rule", Value: float64(s.ShiftRule), Reason: "is not known", Remedy: "give the shifts, or have them chosen or balanced"}
	}
	if s.CentreDistance > 0 {
		alphaW, err := s.workingAngle(s.CentreDistance)
		if err != nil {
			return [2]float64{}, err
		}
		sum = s.shiftSum(alphaW)
	}
	x1 := s.share(sum)
	switch s.ShiftRule {
	case ShiftChoose:
		x1 = math.Max(math.Min(x1, sum-least[1]), least[0])
	case ShiftBalanced:
		if least[0] <= sum-least[1] {
			x1 = s.balance(sum, least[0], sum-least[1])
		}
	}
	x := [2]float64{x1, sum - x1}
	for i, field := range [2]string{"profile shift of the pinion", "profile shift of the wheel"} {
		if err := check.InRange(field, x[i], "modules", leastShift, mostShift, "choose a centre distance nearer to "+check.Number(s.referenceDistance())+" mm, or other teeth"); err != nil {
			return x, err
		}
	}
	return x, nil
}

// internalShifts returns x1 and x2 of an internal pair. The smallest x1 free of
// undercut is chosen, as little of it as the sum asks; balanced is refused.
func (s PairSpec) internalShifts() ([2]float64, error) {
	if s.ShiftRule == ShiftBalanced {
		return [2]float64{}, &check.FieldError{Field: "shift rule", Text: "balanced", Reason: "is for external pairs only", Remedy: "give the shifts, or choose for the least one free of undercut"}
	}
	if s.ShiftRule == ShiftGiven && (s.CentreDistance == 0 || s.keepsShift()) {
		return s.Shift, nil
	}
	x1, sum := 0.0, 0.0
	if s.ShiftRule != ShiftGiven {
		x1 = math.Max(LeastShift(s.Teeth[0], s.PressureAngle, s.Rack), 0)
	}
	if s.CentreDistance > 0 {
		alphaW, err := s.workingAngle(s.CentreDistance)
		if err != nil {
			return [2]float64{}, err
		}
		sum = s.shiftSum(alphaW)
	}
	x2 := sum - x1
	return [2]float64{x1, x2}, check.InRange("profile shift of the wheel", x2, "modules", -2, 1, "choose a centre distance nearer to "+check.Number(s.referenceDistance())+" mm, or other teeth")
}

// keepsShift says whether shifts were given that no centre distance changes.
func (s PairSpec) keepsShift() bool {
	return s.ShiftRule == ShiftGiven && (s.KeepShift || s.Shift != [2]float64{})
}

// internal says whether the wheel is an internal gear.
func (s PairSpec) internal() bool { return s.Teeth[1] < 0 }

// teethSum returns z1 + z2: negative for an internal pair.
func (s PairSpec) teethSum() float64 { return float64(s.Teeth[0] + s.Teeth[1]) }

// referenceDistance returns a_d = m |z1 + z2|/2.
func (s PairSpec) referenceDistance() float64 { return s.Module * math.Abs(s.teethSum()) / 2 }

// share returns x1 of a shift sum without regard to undercut.
func (s PairSpec) share(sum float64) float64 {
	part := float64(s.Teeth[1]) / s.teethSum()
	if sum < 0 {
		part = 1 - part
	}
	return sum * part
}

// balance returns x1 from lo to hi at which the specific sliding is equal at
// both ends of the path: a larger x1 eases the pinion and strains the wheel.
func (s PairSpec) balance(sum, lo, hi float64) float64 {
	lo, hi = math.Max(lo, -1), math.Min(hi, 2)
	a := s.distanceFor(sum)
	k := s.tipAlteration(sum, a)
	for range 60 {
		mid := (lo + hi) / 2
		c := newContact(s.tooth(0, mid, 0, 0).altered(k), s.tooth(1, sum-mid, 0, 0).altered(k), a)
		if c.sliding(0) < c.sliding(1) && c.t[0].thickness(c.t[0].ra) > 0.2*s.Module {
			lo = mid
		} else {
			hi = mid
		}
	}
	return math.Round(lo*1e4) / 1e4
}

// distanceFor returns the centre distance without backlash for a shift sum,
// from inv alpha_w = inv alpha + 2 tan(alpha) sum/(z1 + z2). A sum too negative
// gives the distance at which the base circles touch.
func (s PairSpec) distanceFor(sum float64) float64 {
	inv := Involute(s.PressureAngle) + 2*math.Tan(s.PressureAngle)*sum/s.teethSum()
	return s.referenceDistance() * math.Cos(s.PressureAngle) / math.Cos(InverseInvolute(inv))
}

// shiftSum returns x1 + x2 of a pair without backlash at a working pressure
// angle.
func (s PairSpec) shiftSum(alphaW float64) float64 {
	return (Involute(alphaW) - Involute(s.PressureAngle)) * s.teethSum() / (2 * math.Tan(s.PressureAngle))
}

// refuseShifts says which sums of shifts a pair can have, where the given ones
// bring its axes to a distance at which none works.
func (s PairSpec) refuseShifts(x [2]float64, a float64) error {
	one, other := s.shiftSum(leastWorking), s.shiftSum(mostWorking)
	lo := math.Max(math.Ceil(math.Min(one, other)*100)/100, 2*leastShift)
	hi := math.Min(math.Floor(math.Max(one, other)*100)/100, 2*mostShift)
	return &check.FieldError{
		Field: "profile shift of the pinion", Value: x[0], Unit: "modules",
		Reason: "gives with the wheel's " + check.Number(x[1]) + " a centre distance of " + check.Number(math.Round(a*100)/100) + " mm, where no teeth work",
		Remedy: "x1 + x2 from " + check.Number(lo) + " to " + check.Number(hi) + " for these teeth",
	}
}

// The working pressure angles outside which no printed pair works, rad (common
// practice, no source).
const leastWorking, mostWorking = 5 * math.Pi / 180, 45 * math.Pi / 180

// workingAngle returns alpha_w at a centre distance. It refuses angles outside
// 5 to 45 degrees, where no printed pair works.
func (s PairSpec) workingAngle(a float64) (float64, error) {
	base := s.referenceDistance() * math.Cos(s.PressureAngle)
	lo, hi := ceilTo(base/math.Cos(leastWorking)), math.Floor(base/math.Cos(mostWorking)*100)/100
	if err := check.InRange("centre distance", a, "mm", lo, hi, "use about "+check.Number(s.referenceDistance())+" mm for this module and these teeth"); err != nil {
		return 0, err
	}
	return math.Acos(base / a), nil
}

// shaper returns the cutter of an internal wheel: the mate's own number of teeth
// and shift, so that wherever the mate's tip goes the cutter's taller one went
// before (design choice).
func (s PairSpec) shaper() shaper {
	if s.cutter.z == 0 {
		return shaper{s.Teeth[0], s.Shift[0]}
	}
	return s.cutter
}

// tooth returns the tooth of gear i with its shift in modules.
func (s PairSpec) tooth(i int, x, thin, inset float64) tooth {
	if z := s.Teeth[i]; z < 0 {
		return newInner(-z, s.Module, s.PressureAngle, x, s.Rack, s.shaper(), thin, inset)
	}
	return newTooth(s.Teeth[i], s.Module, s.PressureAngle, x, s.Rack, thin, inset)
}
