package linkage

import "math"

// A Class says which bars of a four-bar can turn fully.
type Class string

// The classes of Grashof's criterion: the shortest and the longest bar together
// against the other two (textbook, from memory). Only CrankRocker and
// DoubleCrank have a horn that turns fully; a ChangePoint linkage can turn it,
// but passes places where it may go on either way.
const (
	CrankRocker  Class = "crank-rocker"                // the horn is the shortest bar
	DoubleCrank  Class = "double-crank"                // the frame is
	RockerCrank  Class = "rocker-crank"                // the lever is
	DoubleRocker Class = "double-rocker (Grashof)"     // the rod is
	TripleRocker Class = "triple-rocker (non-Grashof)" // no bar turns fully
	ChangePoint  Class = "change-point"
)

// Grashof returns shortest + longest - the other two in mm: negative where one
// bar can turn fully.
func (f FourBar) Grashof() float64 {
	least, most, sum := math.Inf(1), 0.0, 0.0
	for _, b := range f.lengths() {
		least, most, sum = min(least, b.value), max(most, b.value), sum+b.value
	}
	return 2*(least+most) - sum
}

// Class returns the class of the four-bar; a sum equal to 1e-9 of the frame
// counts as a change point.
func (f FourBar) Class() Class {
	g := f.Grashof()
	switch least := min(f.Horn, f.Rod, f.Lever, f.Frame); {
	case math.Abs(g) <= 1e-9*f.Frame:
		return ChangePoint
	case g > 0:
		return TripleRocker
	case least == f.Horn:
		return CrankRocker
	case least == f.Frame:
		return DoubleCrank
	case least == f.Lever:
		return RockerCrank
	default:
		return DoubleRocker
	}
}

// Turns says whether the horn turns fully without meeting a dead point.
func (f FourBar) Turns() bool {
	c := f.Class()
	return c == CrankRocker || c == DoubleCrank
}

// A DeadPoint is a limit position: an angle in rad, and the bars that then lie
// in one line, "stretched" end to end or "folded" one over the other.
type DeadPoint struct {
	Angle  float64 // 0 to pi; the mirrored position has the negative angle
	InLine string  // e.g. "pushrod and lever"
	Folded bool
}

// HornDeadPoints returns the angles of the horn at which it locks, because
// pushrod and lever lie in one line: cos t2 = (a² + d² - (b ± c)²)/(2 a d).
func (f FourBar) HornDeadPoints() []DeadPoint {
	return deadPoints(f.Horn, f.Frame, f.Rod, f.Lever, "pushrod and lever")
}

// LeverDeadPoints returns the angles of the lever at its own limits, where horn
// and pushrod lie in one line and no load on the lever can turn the horn:
// cos (pi - t4) = (c² + d² - (b ± a)²)/(2 c d).
func (f FourBar) LeverDeadPoints() []DeadPoint {
	found := deadPoints(f.Lever, f.Frame, f.Rod, f.Horn, "horn and pushrod")
	for i := range found {
		found[i].Angle = math.Pi - found[i].Angle
	}
	return found
}

// deadPoints closes the triangle of arm, frame and two bars in one line.
func deadPoints(arm, frame, rod, other float64, inLine string) []DeadPoint {
	var found []DeadPoint
	for _, folded := range []bool{false, true} {
		third := rod + other
		if folded {
			third = rod - other
		}
		cos := (arm*arm + frame*frame - third*third) / (2 * arm * frame)
		if math.Abs(cos) <= 1 {
			found = append(found, DeadPoint{math.Acos(cos), inLine, folded})
		}
	}
	return found
}

// How says how the two bars lie.
func (d DeadPoint) How() string {
	if d.Folded {
		return d.InLine + " folded in one line"
	}
	return d.InLine + " stretched in one line"
}

// TransmissionRange returns the least and the greatest transmission angle in rad
// of a horn that turns fully, at 0 and 180 deg of the horn; of another linkage
// the angles it would have there, as far as it closes.
func (f FourBar) TransmissionRange() (least, most float64) {
	at := func(reach float64) float64 {
		cos := (f.Rod*f.Rod + f.Lever*f.Lever - reach*reach) / (2 * f.Rod * f.Lever)
		return math.Acos(min(max(cos, -1), 1))
	}
	return at(f.Frame - f.Horn), at(f.Frame + f.Horn)
}
