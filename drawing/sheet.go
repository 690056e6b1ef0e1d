// Package drawing holds what a drawing shows, as data: views made of curves in
// the kinds of line that a technical drawing has, labels and notes.
//
// Lengths are millimetres at true size, y upwards. The package writes no files
// and knows no formats.
package drawing

import (
	"math"

	"pintle/geom"
)

// A LineKind is one of the line types of ISO 128-2.
type LineKind int

// The line types in use, with their numbers in ISO 128-2.
const (
	Outline LineKind = iota // visible outlines: continuous wide, 01.2
	Edge                    // slight edges and dimensions: continuous narrow, 01.1
	Hidden                  // hidden edges: dashed narrow, 02.1
	Centre                  // centre lines and pitch circles: long-dashed dotted narrow, 04.1
)

// A Sheet is one drawing of one part.
type Sheet struct {
	Title    string
	Subtitle string
	Views    []View
	Notes    []string
}

// A View shows a part from one side.
type View struct {
	Title   string
	Strokes []Stroke
	Labels  []Label
}

// A Stroke is a run of curves drawn as one line, each starting where the one
// before it ends.
type Stroke struct {
	Kind   LineKind
	Curves []geom.Curve
	Closed bool // the last curve ends where the first starts
}

// A Label is text that starts at a place in a view.
type Label struct {
	At     geom.Point
	Text   string
	Height float64 // mm, of a capital letter
}

// Bounds returns the smallest and largest x, y of the view's strokes in mm; both
// are zero for a view without strokes.
func (v View) Bounds() (lo, hi geom.Point) {
	lo, hi = geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, s := range v.Strokes {
		for _, c := range s.Curves {
			for _, p := range extremes(c) {
				lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
				hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
			}
		}
	}
	if lo.X > hi.X {
		return geom.Point{}, geom.Point{}
	}
	return lo, hi
}

// extremes returns points whose bounds hold the curve: exactly for lines and
// arcs, by its control points for a cubic.
func extremes(c geom.Curve) []geom.Point {
	switch c := c.(type) {
	case geom.Cubic:
		return c[:]
	case geom.Arc:
		points := []geom.Point{c.Start(), c.End()}
		from, to := min(c.From, c.To), max(c.From, c.To)
		for q := math.Ceil(from / (math.Pi / 2)); q*math.Pi/2 <= to; q++ {
			points = append(points, c.Centre.Add(geom.Polar(c.Radius, q*math.Pi/2)))
		}
		return points
	}
	return []geom.Point{c.Start(), c.End()}
}
