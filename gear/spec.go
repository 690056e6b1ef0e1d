package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// DefaultCentreTolerance is used where a spec leaves the tolerance of the
// centre distance at 0: what holes drilled from a printed template hold, in mm
// either way (common practice, no source).
const DefaultCentreTolerance = 0.1

// largestBacklash is the share of the tooth thickness pi m/2 that backlash may
// take: a pair with more rattles and its teeth are thin (common practice, no
// source).
const largestBacklash = 0.2

// leastTeeth is the fewest teeth of a gear, and the least difference of an
// internal pair: below, no involute of any use is left (design choice).
const leastTeeth = 6

// leastShift and mostShift are the profile shifts of a gear, in modules (design
// choice).
const leastShift, mostShift = -1, 2

// PairSpec is what a builder chooses for a pair, with everything that changes
// the teeth. Part names are Name-pinion and Name-wheel.
type PairSpec struct {
	Name          string
	Module        float64    // mm
	Teeth         [2]int     // pinion, wheel; a negative number makes the wheel an internal gear
	Shift         [2]float64 // profile shift x1, x2 in modules; used by ShiftGiven only
	ShiftRule     ShiftRule
	KeepShift     bool    // shifts of 0 are meant, and no centre distance changes them
	PressureAngle float64 // rad

	// CentreDistance is the working centre distance in mm; 0 lets it follow from
	// the shifts without backlash. Given, it fixes the shift sum, except where
	// shifts are given: these are then kept, and the teeth are thinned only by
	// what the distance does not already add to the backlash.
	CentreDistance  float64
	CentreTolerance float64 // mm either way; 0 means DefaultCentreTolerance
	Backlash        float64 // j_wt wanted at the working pitch circle, mm

	// TipAlteration is k in modules, for both tips, where KeepTips is set; else k
	// is what keeps the rack's clearance: y - (x1 + x2), at most 0.
	TipAlteration float64
	KeepTips      bool

	LostMotion LostMotion
	Climate    Climate
	Loading    Loading
	Measured   [2][]Readings // of earlier prints of each gear, the first print first

	FaceWidth  float64 // mm
	Rack       Rack    // zero: profile A, its fillet reduced where the pressure angle asks for it
	ChordError float64 // mm; 0 means geom.ChordFlank
	Card       fit.Card
	Limits     check.Limits
	Pinion     Body
	Wheel      Body

	cutter shaper // of an internal wheel, once the shifts are known
}

// body returns the body of gear i.
func (s PairSpec) body(i int) Body {
	if i == 0 {
		return s.Pinion
	}
	return s.Wheel
}

// partName returns the name of gear i's part.
func (s PairSpec) partName(i int) string {
	role := [2]string{"pinion", "wheel"}[i]
	if s.Name == "" {
		return role
	}
	return s.Name + "-" + role
}

// completed returns the spec with its defaults filled in.
func (s PairSpec) completed() PairSpec {
	if s.CentreTolerance == 0 {
		s.CentreTolerance = DefaultCentreTolerance
	}
	if s.ChordError == 0 {
		s.ChordError = geom.ChordFlank
	}
	if s.Rack == (Rack{}) {
		s.Rack = ProfileA().Fitted(s.PressureAngle)
	}
	return s
}

// mostBacklash returns the most backlash in mm that the module allows.
func (s PairSpec) mostBacklash() float64 {
	return math.Floor(largestBacklash*s.Module*math.Pi/2*1000) / 1000
}

// usualBacklash is the remedy for a backlash that the module does not allow.
func (s PairSpec) usualBacklash() string {
	const usual = 0.2 // mm (common practice, no source)
	if s.mostBacklash() >= usual {
		return "use 0.2 mm for a printed pair"
	}
	return "a printed pair needs about 0.2 mm: module >= " + check.Number(ceilTo(usual/(largestBacklash*math.Pi/2))) + " mm, or backlash <= " + check.Number(s.mostBacklash()) + " mm"
}

// validate refuses numbers no pair can have, whatever the others are.
func (s PairSpec) validate() error {
	if err := s.validateTeeth(); err != nil {
		return err
	}
	const degree = math.Pi / 180
	for _, q := range []struct {
		field, unit   string
		value, lo, hi float64
		remedy        string
	}{
		{"module", "mm", s.Module, 0.2, 50, "divide the reference diameter you want by the number of teeth; 1 to 2 mm prints well"},
		{"pressure angle", "deg", s.PressureAngle / degree, 14, 30, "use 20 deg"},
		{"profile shift of the pinion", "modules", s.Shift[0], leastShift, mostShift, "leave it 0, or let it be chosen"},
		{"profile shift of the wheel", "modules", s.Shift[1], leastShift, mostShift, "leave it 0, or let it be chosen"},
		{"centre distance", "mm", s.CentreDistance, 0, 2 * geom.Extent, "leave it out: it follows from teeth and module"},
		{"centre distance tolerance", "mm", s.CentreTolerance, 0, 5, "give how far the distance may be off either way, often 0.1 mm"},
		{"tip alteration", "modules", s.TipAlteration, -0.5, 0.2, "leave it out: it is then what keeps the clearance"},
		{"backlash", "mm", s.Backlash, 0, s.mostBacklash(), s.usualBacklash()},
		{"face width", "mm", s.FaceWidth, 1, 500, "use 6 to 12 modules"},
		{"chord error", "mm", s.ChordError, 0.0005, 0.1, "use 0.005 mm"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	for _, q := range []struct {
		field, unit string
		value, hi   float64
	}{
		{"lost motion radius", "mm", s.LostMotion.Radius, 1e5},
		{"lost motion limit", "rad", s.LostMotion.Limit, 1},
	} {
		if err := check.InRange(q.field, q.value, q.unit, 0, q.hi, "leave it out, or give what the figure allows"); err != nil {
			return err
		}
	}
	if err := s.Climate.validate(); err != nil {
		return err
	}
	if err := s.Loading.validate(); err != nil {
		return err
	}
	for i, readings := range s.Measured {
		for _, r := range readings {
			for what, value := range map[string]float64{"measured span": r.Span, "measured dimension over pins": r.Pins, "measured tip diameter": r.Tip} {
				if err := check.InRange(what+" of the "+[2]string{"pinion", "wheel"}[i], value, "mm", 0, 2*geom.Extent, "type in what the caliper shows"); err != nil {
					return err
				}
			}
		}
	}
	if err := s.Rack.validate(s.PressureAngle); err != nil {
		return err
	}
	for i := range s.Teeth {
		if err := s.validateSector(i); err != nil {
			return err
		}
	}
	if least := 2 * s.Card.BedChamfer(); s.FaceWidth < least {
		return &check.FieldError{
			Field: "face width", Value: s.FaceWidth, Unit: "mm",
			Reason: "leaves no tooth above the bed-side chamfer",
			Remedy: fmt.Sprintf("use at least %s mm", check.Number(least)),
		}
	}
	return s.Card.Validate()
}

// validateTeeth refuses numbers of teeth that no pair has.
func (s PairSpec) validateTeeth() error {
	const common = "printed gears have 8 to 120 teeth"
	pinion, wheel := "number of teeth of the pinion", "number of teeth of the wheel"
	if s.Teeth[0] < 0 {
		return &check.FieldError{
			Field: pinion, Value: float64(s.Teeth[0]),
			Reason: "is negative: only the wheel can be an internal gear", Remedy: "give the internal gear last",
		}
	}
	if err := check.InRange(pinion, float64(s.Teeth[0]), "", leastTeeth, 2000, common); err != nil {
		return err
	}
	if s.internal() {
		return check.InRange(wheel, float64(s.Teeth[1]), "", -2000, float64(-s.Teeth[0]-leastTeeth), "an internal gear needs 9 teeth more than its pinion, so that their tips pass each other")
	}
	return check.InRange(wheel, float64(s.Teeth[1]), "", leastTeeth, 2000, common)
}
