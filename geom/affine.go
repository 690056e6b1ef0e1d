package geom

import "math"

// An Affine maps (x, y) to (a x + c y + e, b x + d y + f), in the order a to f
// of SVG 1.1, section 7.4.
type Affine [6]float64

// same is the map that moves nothing.
var same = Affine{1, 0, 0, 1, 0, 0}

// Map returns the image of p.
func (m Affine) Map(p Point) Point {
	return Point{m[0]*p.X + m[2]*p.Y + m[4], m[1]*p.X + m[3]*p.Y + m[5]}
}

// After returns the map that does n first and then m.
func (m Affine) After(n Affine) Affine {
	return Affine{
		m[0]*n[0] + m[2]*n[1], m[1]*n[0] + m[3]*n[1],
		m[0]*n[2] + m[2]*n[3], m[1]*n[2] + m[3]*n[3],
		m[0]*n[4] + m[2]*n[5] + m[4], m[1]*n[4] + m[3]*n[5] + m[5],
	}
}

// similar tells whether the map keeps circles round, and whether it mirrors.
func (m Affine) similar() (ok, mirrored bool) {
	size := 1e-12 * (math.Abs(m[0]) + math.Abs(m[1]) + math.Abs(m[2]) + math.Abs(m[3]))
	near := func(a, b float64) bool { return math.Abs(a-b) <= size }
	switch {
	case near(m[0], m[3]) && near(m[1], -m[2]):
		return true, false
	case near(m[0], -m[3]) && near(m[1], m[2]):
		return true, true
	}
	return false, false
}

// An ellipse is an arc of one: from the angle start over sweep, both measured
// on the circle that the ellipse was before it was stretched.
type ellipse struct {
	centre       Point
	rx, ry, turn float64
	start, sweep float64
}

// under returns the curves that a map makes of the arc: one Arc if it stays
// round, otherwise cubics over a sixteenth of a turn or less each, which stray
// by less than a ten-millionth of the larger radius (4/27 sin^6(a/4)/cos^2(a/4),
// elementary, with a = pi/8).
func (e ellipse) under(m Affine) []Curve {
	if ok, mirrored := m.similar(); ok && e.rx == e.ry {
		turn := math.Atan2(m[1], m[0])
		from, to := e.start+e.turn, e.start+e.turn+e.sweep
		if mirrored {
			from, to = -from, -to
		}
		return []Curve{Arc{m.Map(e.centre), e.rx * math.Hypot(m[0], m[1]), from + turn, to + turn}}
	}
	sin, cos := math.Sincos(e.turn)
	stretch := m.After(Affine{e.rx * cos, e.rx * sin, -e.ry * sin, e.ry * cos, e.centre.X, e.centre.Y})
	n := max(int(math.Ceil(math.Abs(e.sweep)/(math.Pi/8)-1e-9)), 1)
	step := e.sweep / float64(n)
	reach := 4.0 / 3 * math.Tan(step/4)
	var curves []Curve
	for i := range n {
		a, b := e.start+step*float64(i), e.start+step*float64(i+1)
		p, q := Polar(1, a), Polar(1, b)
		curves = append(curves, Cubic{
			stretch.Map(p), stretch.Map(Point{p.X - reach*p.Y, p.Y + reach*p.X}),
			stretch.Map(Point{q.X + reach*q.Y, q.Y - reach*q.X}), stretch.Map(q),
		})
	}
	return curves
}

// arcThrough returns the arc from p to q with the radii and flags of an SVG
// path; ok is false where a straight line stands for it (SVG 1.1, appendix
// F.6.5 and F.6.6).
func arcThrough(p, q Point, rx, ry, turn float64, large, clockwiseDown bool) (e ellipse, ok bool) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if p == q || rx == 0 || ry == 0 {
		return ellipse{}, false
	}
	half := p.Sub(q).Scale(0.5).Rotate(-turn)
	x, y := half.X/rx, half.Y/ry
	size := x*x + y*y
	if size > 1 { // radii too small are stretched until the ellipse just fits
		rx, ry = rx*math.Sqrt(size), ry*math.Sqrt(size)
		x, y = half.X/rx, half.Y/ry
		size = 1
	}
	factor := math.Sqrt(max(1-size, 0) / size)
	if large == clockwiseDown {
		factor = -factor
	}
	centre := Point{factor * y, -factor * x} // on the unit circle's plane
	e = ellipse{rx: rx, ry: ry, turn: turn}
	e.centre = Point{centre.X * rx, centre.Y * ry}.Rotate(turn).Add(p.Add(q).Scale(0.5))
	e.start = Point{x - centre.X, y - centre.Y}.Angle()
	e.sweep = Point{-x - centre.X, -y - centre.Y}.Angle() - e.start
	switch {
	case clockwiseDown && e.sweep < 0:
		e.sweep += 2 * math.Pi
	case !clockwiseDown && e.sweep > 0:
		e.sweep -= 2 * math.Pi
	}
	return e, true
}
