package grille

import (
	"math"

	"pintle/geom"
)

// The kinds of outline.
const (
	Disc      = "disc"
	Rectangle = "rectangle"
)

// An Outline is the edge of the grille, centred on the origin.
type Outline struct {
	Kind         string  // Disc or Rectangle
	Diameter     float64 // mm, of a disc
	Length       float64 // mm, of a rectangle along x
	Width        float64 // mm, of a rectangle along y
	CornerRadius float64 // mm, of a rectangle; 0 for sharp corners
}

// An edge is a rectangle with round corners; a disc is one with corners of its
// own radius.
type edge struct{ x, y, radius float64 } // half sizes and corner radius, mm

func (o Outline) edge() edge {
	if o.Kind == Disc {
		return edge{o.Diameter / 2, o.Diameter / 2, o.Diameter / 2}
	}
	return edge{o.Length / 2, o.Width / 2, o.CornerRadius}
}

// depth returns how far p lies inside the edge, in mm, below 0 outside: the
// signed distance from a rectangle grown by the corner radius.
func (e edge) depth(p geom.Point) float64 {
	x, y := math.Abs(p.X)-(e.x-e.radius), math.Abs(p.Y)-(e.y-e.radius)
	return e.radius - math.Hypot(max(x, 0), max(y, 0)) - min(max(x, y), 0)
}

// area returns the area within a rim of the margin, in mm².
func (e edge) area(margin float64) float64 {
	r := max(e.radius-margin, 0)
	return 4*(e.x-margin)*(e.y-margin) - (4-math.Pi)*r*r
}

// corner returns the place in the corner of the first quadrant that lies inset
// from both sides, or from the rounding where that is larger.
func (e edge) corner(inset float64) geom.Point {
	in := inset
	if e.radius > inset {
		in = e.radius - (e.radius-inset)/math.Sqrt2
	}
	return geom.Point{X: e.x - in, Y: e.y - in}
}

// inward returns y > 0 of the place at x that lies inset from the upper side or
// its round corners.
func (e edge) inward(x, inset float64) float64 {
	beyond := max(math.Abs(x)-(e.x-e.radius), 0)
	r := max(e.radius-inset, 0)
	return e.y - inset - r + math.Sqrt(max(r*r-beyond*beyond, 0))
}

// turned returns the edge with its sides exchanged.
func (e edge) turned() edge { return edge{e.y, e.x, e.radius} }

// sharp is the corner radius in mm below which a corner is drawn sharp: its arc
// would be lost between the points of the grid.
const sharp = 0.01

func (o Outline) contour(chord float64) geom.Contour {
	if o.Kind == Disc {
		return geom.Peg(geom.Point{}, o.Diameter, chord)
	}
	radius := o.CornerRadius
	if radius < sharp {
		radius = 0
	}
	return geom.Rectangle(geom.Point{}, o.Length, o.Width, radius, 0, chord)
}

// drawnIn returns the contour shrunk so that each side stands in by c: it pairs
// with the contour vertex by vertex. Round corners stand in by up to 1.42 c.
func (e edge) drawnIn(contour geom.Contour, c float64) geom.Contour {
	return contour.Map(func(p geom.Point) geom.Point {
		return geom.Point{X: p.X * (e.x - c) / e.x, Y: p.Y * (e.y - c) / e.y}
	})
}
