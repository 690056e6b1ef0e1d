package gear

import (
	"math"

	"pintle/geom"
)

// appendSpace adds the curves of the space before an internal gear's tooth,
// clockwise, and the tip arc of that tooth: from the tip of one flank out to the
// root and in along the other flank.
func (t tooth) appendSpace(curves []geom.Curve, half []geom.Cubic, turn float64) []geom.Curve {
	pitch := 2 * math.Pi / float64(t.z)
	middle := turn + pitch/2
	root, tip := t.along/t.rf, t.angleAt(t.ra)
	for k := len(half) - 1; k >= 0; k-- {
		curves = append(curves, turned(reversed(half[k]), middle))
	}
	if root*t.rf > curveError {
		curves = append(curves, geom.Arc{Radius: t.rf, From: middle + root, To: middle - root})
	}
	for _, c := range half {
		curves = append(curves, turned(mirrored(c), middle))
	}
	return append(curves, geom.Arc{Radius: t.ra, From: turn + tip, To: turn}, geom.Arc{Radius: t.ra, From: turn, To: turn - tip})
}

// relievedInner is relieved for an internal gear: each point goes out by c and
// towards the centre line of its tooth.
func (t tooth) relievedInner(outline geom.Contour, c float64) geom.Contour {
	turn := c / (t.r * math.Cos(t.alpha))
	pitch := 2 * math.Pi / float64(t.z)
	tip, root := t.angleAt(t.ra), pitch/2-t.along/t.rf
	return outline.Map(func(p geom.Point) geom.Point {
		r, a := p.Len(), p.Angle()
		own := math.Remainder(a, pitch)
		half := math.Abs(own)
		share := 1.0
		switch {
		case r < t.ra+curveError:
			share = math.Min(half/tip, 1)
		case half > root:
			share = (pitch/2 - half) / math.Max(pitch/2-root, 1e-9)
		}
		return geom.Polar(r+c, a-math.Copysign(turn*share, own))
	})
}
