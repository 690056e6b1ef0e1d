package geom

import (
	"fmt"
	"math"
)

// Arrange makes contours of closed runs of curves whose sense nobody has taken
// care of: what lies inside an odd number of them is material (the even-odd
// rule), so each is turned to run as an outer outline or a hole. They must not
// meet. The error is a *RegionError, or says which run has no end.
func Arrange(runs [][]Curve, chord float64) ([]Contour, error) {
	if !(chord >= 1.0/PerMM && chord <= Extent) {
		return nil, fmt.Errorf("the chord error %g mm is finer than the grid of 1/%d mm, or no length", chord, PerMM)
	}
	if len(runs) == 0 {
		return nil, &RegionError{Kind: NoOutline}
	}
	contours, loops := make([]Contour, len(runs)), make([]Loop, len(runs))
	for i, run := range runs {
		for _, c := range run {
			if err := bounded(c); err != nil {
				return nil, err
			}
		}
		contours[i] = NewContour(run, chord)
		if err := inExtent(contours[i]); err != nil {
			return nil, err
		}
		loops[i] = contours[i].loop()
	}
	s, err := newSweep(loops, -100, 100)
	if err != nil {
		return nil, err
	}
	first := 0
	for i, l := range loops {
		if s.insideOthers(first, len(l)) == (l.doubleArea() > 0) {
			contours[i] = NewContour(reversed(runs[i]), chord)
		}
		first += len(l)
	}
	_, err = RegionOf(contours)
	return contours, err
}

// insideOthers tells whether a loop, given by its first vertex and their number,
// lies inside an odd number of others. Each outline passed changes the winding
// number by one, either way.
func (s *sweep) insideOthers(first, n int) bool {
	left := first
	for v := first; v < first+n; v++ {
		if before(s.verts[v], s.verts[left]) {
			left = v
		}
	}
	below := s.below[left]
	return below >= 0 && s.above[below]%2 != 0
}

// reversed returns a run of curves the other way round.
func reversed(run []Curve) []Curve {
	back := make([]Curve, len(run))
	for i, c := range run {
		switch c := c.(type) {
		case Line:
			back[len(run)-1-i] = Line{c.B, c.A}
		case Arc:
			c.From, c.To = c.To, c.From
			back[len(run)-1-i] = c
		case Cubic:
			back[len(run)-1-i] = Cubic{c[3], c[2], c[1], c[0]}
		default:
			panic(fmt.Sprintf("geom: no way to reverse a %T", c))
		}
	}
	return back
}

// bounded refuses curves that reach far outside, or nowhere, before they are
// sampled: their points would be too many.
func bounded(c Curve) error {
	points := []Point{c.Start(), c.End()}
	switch c := c.(type) {
	case Cubic:
		points = c[:]
	case Arc:
		if c.Radius > 1e6*Extent { // where the angle of a chord drowns in rounding
			return fmt.Errorf("an arc of radius %g mm is none: draw a line", c.Radius)
		}
		for i := range 9 {
			points = append(points, c.at(c.From+(c.To-c.From)*float64(i)/8))
		}
	}
	for _, p := range points {
		if !(math.Abs(p.X) <= 10*Extent && math.Abs(p.Y) <= 10*Extent) {
			return fmt.Errorf("the outline reaches (%g, %g): beyond %g mm from the origin", p.X, p.Y, Extent)
		}
	}
	return nil
}
