// Package geom is the plane that everything in pintle is drawn in: curves,
// regions proved free of crossings, and parts made of layers.
//
// A design makes its outlines as curves. A contour is a closed run of curves
// together with the points sampled from them. Points snap to a grid of
// 2^-13 mm (0.122 µm); from there on all proofs are exact integer arithmetic,
// and because every grid coordinate up to 2048 mm is exact in float32, what was
// proved stays true in the exported file.
//
// Lengths are millimetres and angles radians; outer loops run anticlockwise,
// holes clockwise. The package knows no triangles, files or flags.
package geom

import "math"

// PerMM is the number of grid steps in one millimetre.
const PerMM = 8192

// Extent is the largest coordinate a part may have, in mm either way.
const Extent = 1000.0

// A Point is a place in the plane, in mm.
type Point struct{ X, Y float64 }

// Polar returns the point at radius r and angle a about the origin.
func Polar(r, a float64) Point {
	sin, cos := math.Sincos(a)
	return Point{r * cos, r * sin}
}

// Add returns p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Scale returns p times k.
func (p Point) Scale(k float64) Point { return Point{p.X * k, p.Y * k} }

// Len returns the distance of p from the origin, in mm.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

// Angle returns the direction of p from the origin, in radians from the x axis.
func (p Point) Angle() float64 { return math.Atan2(p.Y, p.X) }

// Rotate returns p turned by a radians about the origin.
func (p Point) Rotate(a float64) Point {
	sin, cos := math.Sincos(a)
	return Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
}

// A Vertex is a point on the grid, in grid steps.
type Vertex struct{ X, Y int32 }

// Snap returns the grid point nearest to p. p must lie within Extent.
func Snap(p Point) Vertex { return Vertex{SnapLength(p.X), SnapLength(p.Y)} }

// SnapLength returns the number of grid steps nearest to a length in mm.
func SnapLength(mm float64) int32 { return int32(math.Round(mm * PerMM)) }

// Point returns the place of v in mm, exactly.
func (v Vertex) Point() Point { return Point{float64(v.X) / PerMM, float64(v.Y) / PerMM} }

// A Loop is a closed run of grid points; the last joins the first.
type Loop []Vertex

// orient returns twice the signed area of the triangle a, b, c in squared grid
// steps: positive where c lies to the left of the way from a to b. Coordinates
// are below 2^29 in magnitude, so the result needs 62 bits and is exact.
func orient(a, b, c Vertex) int64 {
	return (int64(b.X)-int64(a.X))*(int64(c.Y)-int64(a.Y)) -
		(int64(b.Y)-int64(a.Y))*(int64(c.X)-int64(a.X))
}

// doubleArea returns twice the signed area of the loop in squared grid steps.
// Partial sums may wrap; the total is below 2^50 and therefore right.
func (l Loop) doubleArea() int64 {
	var sum int64
	for i, v := range l {
		w := l[(i+1)%len(l)]
		sum += int64(v.X)*int64(w.Y) - int64(w.X)*int64(v.Y)
	}
	return sum
}
