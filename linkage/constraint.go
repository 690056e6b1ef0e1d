package linkage

import (
	"math"

	"pintle/geom"
)

// A constraint is one equation between points that must be 0, in mm: its
// gradient has about unit length, so that residuals of all kinds compare.
type constraint struct {
	kind    kind
	p, q, r int        // points
	length  float64    // mm: of a bar, or by which an equation is scaled
	at      geom.Point // a place on a slide
	along   geom.Point // unit direction of a slide, or shares of a plate's third point
	link    string     // the link whose equation it is
}

type kind int

const (
	distance kind = iota // |PQ| = length
	slide                // P lies on the line through at, along
	slot                 // R lies on the line through P and Q
	plateX               // R = P + along.X (Q-P) + along.Y leftOf(Q-P), in x
	plateY               // the same in y
	crank                // PQ points at the drive's angle
	feed                 // P lies the drive's distance along the slide from at
)

func leftOf(p geom.Point) geom.Point { return geom.Point{X: -p.Y, Y: p.X} }

func cross(a, b geom.Point) float64 { return a.X*b.Y - a.Y*b.X }

func inner(a, b geom.Point) float64 { return a.X*b.X + a.Y*b.Y }

// residual returns the equation's value; drive is an angle in rad or a feed in
// mm.
func (c constraint) residual(x []geom.Point, drive float64) float64 {
	switch c.kind {
	case distance:
		d := x[c.p].Sub(x[c.q])
		return (inner(d, d) - c.length*c.length) / (2 * c.length)
	case slide:
		return cross(c.along, x[c.p].Sub(c.at))
	case slot:
		return cross(x[c.q].Sub(x[c.p]), x[c.r].Sub(x[c.p])) / c.length
	case plateX, plateY:
		side := x[c.q].Sub(x[c.p])
		off := x[c.r].Sub(x[c.p]).Sub(side.Scale(c.along.X)).Sub(leftOf(side).Scale(c.along.Y))
		if c.kind == plateX {
			return off.X
		}
		return off.Y
	case crank:
		return cross(geom.Polar(1, drive), x[c.q].Sub(x[c.p]))
	default: // feed
		return inner(c.along, x[c.p].Sub(c.at)) - drive
	}
}

// gradient calls add with the derivative by each of the points.
func (c constraint) gradient(x []geom.Point, drive float64, add func(point int, by geom.Point)) {
	switch c.kind {
	case distance:
		d := x[c.p].Sub(x[c.q]).Scale(1 / c.length)
		add(c.p, d)
		add(c.q, d.Scale(-1))
	case slide:
		add(c.p, leftOf(c.along))
	case slot:
		k := 1 / c.length
		add(c.r, leftOf(x[c.q].Sub(x[c.p])).Scale(k))
		add(c.q, leftOf(x[c.r].Sub(x[c.p])).Scale(-k))
		add(c.p, leftOf(x[c.r].Sub(x[c.q])).Scale(k))
	case plateX:
		add(c.r, geom.Point{X: 1})
		add(c.q, geom.Point{X: -c.along.X, Y: c.along.Y})
		add(c.p, geom.Point{X: c.along.X - 1, Y: -c.along.Y})
	case plateY:
		add(c.r, geom.Point{Y: 1})
		add(c.q, geom.Point{X: -c.along.Y, Y: -c.along.X})
		add(c.p, geom.Point{X: c.along.Y, Y: c.along.X - 1})
	case crank:
		n := leftOf(geom.Polar(1, drive))
		add(c.q, n)
		add(c.p, n.Scale(-1))
	default:
		add(c.p, c.along)
	}
}

// byDrive returns the derivative by the drive.
func (c constraint) byDrive(x []geom.Point, drive float64) float64 {
	switch c.kind {
	case crank:
		return -inner(geom.Polar(1, drive), x[c.q].Sub(x[c.p]))
	case feed:
		return -1
	}
	return 0
}

// bend returns the second derivative along the motion without the part of the
// points' accelerations: what moving at speeds v with a drive of unit speed adds.
func (c constraint) bend(v []geom.Point, x []geom.Point, drive float64) float64 {
	switch c.kind {
	case distance:
		d := v[c.p].Sub(v[c.q])
		return inner(d, d) / c.length
	case slot:
		return 2 * cross(v[c.q].Sub(v[c.p]), v[c.r].Sub(v[c.p])) / c.length
	case crank:
		u, bar, speed := geom.Polar(1, drive), x[c.q].Sub(x[c.p]), v[c.q].Sub(v[c.p])
		return -cross(u, bar) - 2*inner(u, speed)
	}
	return 0
}

// lengthOr returns the length given, or where there is none the sketched one.
func lengthOr(given float64, p, q geom.Point) float64 {
	if given > 0 {
		return given
	}
	return math.Hypot(p.X-q.X, p.Y-q.Y)
}
