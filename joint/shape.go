package joint

import (
	"math"

	"pintle/geom"
)

// A shape is an annulus, or a box where length is set.
type shape struct {
	centre        geom.Point
	inner, outer  float64 // mm, radii of an annulus; inner 0 for a disc
	length, width float64 // mm, of a box
	angle         float64 // rad, of the box's length
}

func annulus(centre geom.Point, inner, outer float64) shape {
	return shape{centre: centre, inner: inner, outer: outer}
}

func box(centre geom.Point, length, width, angle float64) shape {
	return shape{centre: centre, length: length, width: width, angle: angle}
}

// plan returns the distance between two shapes seen from above, in mm: negative
// by how deep they overlap. At least one of the two must be an annulus; two
// boxes are never checked (servos and plates stand still and touch by design).
func plan(a, b shape) float64 {
	if a.length > 0 {
		a, b = b, a
	}
	if b.length == 0 {
		return annuli(a, b)
	}
	local := b.centre.Sub(a.centre).Rotate(-b.angle)
	x, y := math.Abs(local.X), math.Abs(local.Y)
	dx, dy := x-b.length/2, y-b.width/2
	nearest := math.Hypot(max(dx, 0), max(dy, 0))
	if nearest == 0 {
		nearest = max(dx, dy) // inside the box: minus the depth
	}
	farthest := math.Hypot(x+b.length/2, y+b.width/2)
	return max(nearest-a.outer, a.inner-farthest)
}

// annuli returns the distance between two annuli in plan: side by side, or one
// inside the hole of the other.
func annuli(a, b shape) float64 {
	d := b.centre.Sub(a.centre).Len()
	return max(d-a.outer-b.outer, a.inner-d-b.outer, b.inner-d-a.outer)
}
