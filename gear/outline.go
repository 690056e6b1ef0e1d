package gear

import (
	"math"

	"pintle/geom"
)

// curveError is how far the cubics of an outline may stray from the tooth, mm:
// a few grid steps, so that it vanishes beside the chord error.
const curveError = 0.0002

// outline returns the teeth as a closed contour: per tooth the tip arc, two
// flanks, two root fillets and the root arc. All teeth are copies of one half.
func (t tooth) outline(chord float64) geom.Contour {
	return geom.NewContour(t.curves(curveError), chord)
}

// curves returns the outline as curves that stray from the teeth by at most the
// error.
func (t tooth) curves(stray float64) []geom.Curve {
	half := t.half(stray)
	var curves []geom.Curve
	for i := range t.z {
		turn := 2 * math.Pi * float64(i) / float64(t.z)
		if t.inner {
			turn = -turn // a hole runs clockwise
		}
		curves = t.appendTooth(curves, half, turn)
	}
	return curves
}

// oneTooth returns the points of tooth 0 as they stand in the outline.
func (t tooth) oneTooth(chord float64) []geom.Point {
	return geom.NewContour(t.appendTooth(nil, t.half(curveError), 0), chord).Points
}

// half returns the upper half of a tooth, from root to tip.
func (t tooth) half(stray float64) []geom.Cubic {
	return append(fitCubics(t.fillet, 0, t.bottom, stray), fitCubics(t.flank, t.from, t.to, stray)...)
}

// appendTooth adds the curves of one tooth, turned, and the root arc after it.
func (t tooth) appendTooth(curves []geom.Curve, half []geom.Cubic, turn float64) []geom.Curve {
	if t.inner {
		return t.appendSpace(curves, half, turn)
	}
	tip, root, pitch := t.angleAt(t.ra), t.along/t.r, 2*math.Pi/float64(t.z)
	for _, c := range half {
		curves = append(curves, turned(mirrored(c), turn))
	}
	// Two arcs, so that a caliper over the tips meets vertices at full height.
	curves = append(curves, geom.Arc{Radius: t.ra, From: turn - tip, To: turn}, geom.Arc{Radius: t.ra, From: turn, To: turn + tip})
	for k := len(half) - 1; k >= 0; k-- {
		curves = append(curves, turned(reversed(half[k]), turn))
	}
	if (pitch-2*root)*t.rf > curveError {
		curves = append(curves, geom.Arc{Radius: t.rf, From: turn + root, To: turn + pitch - root})
	}
	return curves
}

// fitCubics covers a curve, given as place and derivative, by the fewest cubics
// of equal steps that keep within stray of it and share its tangents.
func fitCubics(at func(float64) (p, dp geom.Point), from, to, stray float64) []geom.Cubic {
	for n := 1; n <= 256; n++ {
		if cubics, ok := tryCubics(at, from, to, stray, n); ok {
			return cubics
		}
	}
	panic("gear: a tooth curve needs more than 256 cubics")
}

func tryCubics(at func(float64) (p, dp geom.Point), from, to, stray float64, n int) ([]geom.Cubic, bool) {
	step := (to - from) / float64(n)
	cubics := make([]geom.Cubic, n)
	p, dp := at(from)
	for i := range cubics {
		q, dq := at(from + step*float64(i+1))
		c := geom.Hermite(p, dp.Scale(step), q, dq.Scale(step))
		for _, s := range []float64{0.2, 0.35, 0.5, 0.65, 0.8} {
			want, along := at(from + step*(float64(i)+s))
			off := c.At(s).Sub(want)
			if math.Abs(off.X*along.Y-off.Y*along.X) > stray*along.Len() {
				return nil, false
			}
		}
		cubics[i], p, dp = c, q, dq
	}
	return cubics, true
}

func mirrored(c geom.Cubic) geom.Cubic {
	for i := range c {
		c[i].Y = -c[i].Y
	}
	return c
}

func reversed(c geom.Cubic) geom.Cubic { return geom.Cubic{c[3], c[2], c[1], c[0]} }

func turned(c geom.Cubic, a float64) geom.Cubic {
	sin, cos := math.Sincos(a)
	for i, p := range c {
		c[i] = geom.Point{X: p.X*cos - p.Y*sin, Y: p.X*sin + p.Y*cos}
	}
	return c
}

// relieved returns the outline moved inwards by about c along its normals, as
// the bed end of a chamfer. In polar coordinates each point goes in by c and
// towards the centre line of its tooth by the angle c/(r cos alpha); along the
// tip arc the turn fades to nothing at the centre line, along the root arc at
// the middle of the space, so that the two halves meet.
func (t tooth) relieved(outline geom.Contour, c float64) geom.Contour {
	if t.inner {
		return t.relievedInner(outline, c)
	}
	turn := c / (t.r * math.Cos(t.alpha))
	pitch := 2 * math.Pi / float64(t.z)
	tip, root := t.angleAt(t.ra), t.along/t.r
	return outline.Map(func(p geom.Point) geom.Point {
		r, a := p.Len(), p.Angle()
		if r < t.rf-curveError { // the round body of a sector
			return geom.Polar(r-c, a)
		}
		own := math.Remainder(a, pitch)
		half := math.Abs(own)
		share := 1.0
		switch {
		case r > t.ra-curveError:
			share = math.Min(half/tip, 1)
		case half > root:
			share = (pitch/2 - half) / math.Max(pitch/2-root, 1e-9)
		}
		return geom.Polar(r-c, a-math.Copysign(turn*share, own))
	})
}
