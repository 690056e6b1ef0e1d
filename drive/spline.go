package drive

import "math"

// SplineSeat returns how a horn sits on a servo's spline: by how many teeth to
// move it on so that it comes nearest to an angle that it misses by offDeg, and
// what is left, at most half a tooth, 180/teeth deg. Teeth is above 0.
func SplineSeat(teeth int, offDeg float64) (steps int, leftDeg float64) {
	pitch := 360 / float64(teeth)
	leftDeg = math.Remainder(offDeg, pitch)
	return int(math.Round((offDeg - leftDeg) / pitch)), leftDeg
}
