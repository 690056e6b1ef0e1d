package geom

import "math"

// A Curve is a piece of an outline: a Line, an Arc or a Cubic.
type Curve interface {
	Start() Point
	End() Point
	// appendTo adds the points after the start up to and including the end, so
	// that no chord strays from the curve by more than the chord error.
	appendTo(points []Point, chord float64) []Point
}

// A Line is a straight piece from A to B.
type Line struct{ A, B Point }

// Start returns A.
func (l Line) Start() Point { return l.A }

// End returns B.
func (l Line) End() Point { return l.B }

func (l Line) appendTo(points []Point, _ float64) []Point { return append(points, l.B) }

// An Arc is part of a circle, from angle From to angle To in radians:
// anticlockwise where To > From, clockwise where To < From.
type Arc struct {
	Centre   Point
	Radius   float64 // mm
	From, To float64 // rad
}

func (a Arc) at(angle float64) Point { return a.Centre.Add(Polar(a.Radius, angle)) }

// Start returns the point at From.
func (a Arc) Start() Point { return a.at(a.From) }

// End returns the point at To.
func (a Arc) End() Point { return a.at(a.To) }

// appendTo inscribes chords in an anticlockwise arc and circumscribes a
// clockwise one: in an outline with its material on the left both keep the
// drawn part inside a peg's circle and outside a hole's.
func (a Arc) appendTo(points []Point, chord float64) []Point {
	sweep := a.To - a.From
	if sweep >= 0 {
		n := int(math.Ceil(sweep/chordAngle(a.Radius, chord) - 1e-9))
		n = max(n, 1)
		for i := 1; i < n; i++ {
			points = append(points, a.at(a.From+sweep*float64(i)/float64(n)))
		}
		return append(points, a.End())
	}
	step := 2 * math.Acos(a.Radius/(a.Radius+chord)) // circumscribed: the corner strays, not the chord
	n := max(int(math.Ceil(-sweep/step-1e-9)), 1)
	half := sweep / float64(2*n)
	outside := Arc{a.Centre, a.Radius / math.Cos(half), a.From, a.To}
	for i := range n {
		points = append(points, outside.at(a.From+half*float64(2*i+1)))
	}
	return append(points, a.End())
}

// A Cubic is a Bézier curve of degree three with its four control points.
type Cubic [4]Point

// Start returns the first control point.
func (c Cubic) Start() Point { return c[0] }

// End returns the last control point.
func (c Cubic) End() Point { return c[3] }

// At returns the point at parameter t from 0 to 1.
func (c Cubic) At(t float64) Point {
	s := 1 - t
	a, b, d, e := s*s*s, 3*s*s*t, 3*s*t*t, t*t*t
	return Point{
		a*c[0].X + b*c[1].X + d*c[2].X + e*c[3].X,
		a*c[0].Y + b*c[1].Y + d*c[2].Y + e*c[3].Y,
	}
}

// appendTo uses steps equal in t. The largest second difference of the control
// points bounds the chord error by 6 max|d2| / (8 n^2) (the second derivative
// of a cubic is 6 times a mean of its two second differences, and a chord over
// a step h strays by at most h^2 max|B”| / 8).
func (c Cubic) appendTo(points []Point, chord float64) []Point {
	d0 := c[0].Sub(c[1].Scale(2)).Add(c[2]).Len()
	d1 := c[1].Sub(c[2].Scale(2)).Add(c[3]).Len()
	n := max(int(math.Ceil(math.Sqrt(6*max(d0, d1)/(8*chord))-1e-9)), 1)
	for i := 1; i < n; i++ {
		points = append(points, c.At(float64(i)/float64(n)))
	}
	return append(points, c[3])
}

// Hermite returns the cubic from a to b that leaves a with derivative da and
// reaches b with derivative db, each per unit of its parameter.
func Hermite(a, da, b, db Point) Cubic {
	return Cubic{a, a.Add(da.Scale(1.0 / 3)), b.Sub(db.Scale(1.0 / 3)), b}
}

// chordAngle returns the angle between neighbouring points on a circle for
// which chord and circle differ by the chord error on the radius.
func chordAngle(radius, chord float64) float64 {
	if chord >= radius {
		return math.Pi / 2
	}
	return 2 * math.Acos(1-chord/radius)
}

// CircleSides returns the number of sides for a circle of the radius so that
// neither the inscribed nor the circumscribed polygon strays by more than the
// chord error: a multiple of four, at least sixteen.
func CircleSides(radius, chord float64) int {
	if chord >= radius {
		return 16
	}
	n := math.Pi / math.Acos(radius/(radius+chord))
	return max(4*int(math.Ceil(n/4-1e-9)), 16)
}
