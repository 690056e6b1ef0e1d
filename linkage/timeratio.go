package linkage

import "math"

// TimeRatio returns how much longer the lever takes for its slower swing than for
// its faster one while the horn turns evenly: the two arcs of the horn between the
// positions at which horn and pushrod lie in one line. It is false for a horn that
// does not turn fully or turns the lever along with it.
func (f FourBar) TimeRatio() (float64, bool) {
	if f.Class() != CrankRocker {
		return 0, false
	}
	var horn [2]float64
	for i, d := range f.LeverDeadPoints() { // stretched, then folded
		side := 1.0
		if f.Crossed {
			side = -1
		}
		horn[i] = math.Atan2(side*f.Lever*math.Sin(d.Angle), f.Frame+f.Lever*math.Cos(d.Angle))
		if d.Folded {
			horn[i] += math.Pi
		}
	}
	arc := math.Mod(horn[1]-horn[0]+4*math.Pi, 2*math.Pi)
	back := 2*math.Pi - arc
	return max(arc, back) / min(arc, back), true
}
