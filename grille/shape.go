package grille

import (
	"math"

	"pintle/geom"
)

// A shape is one hole about the origin: a convex core grown by a radius. A
// round hole is a grown point, a slot a grown segment, the others polygons with
// radius 0. Every core is symmetrical about both axes, so the gap between two
// equal holes follows from one of them: it is the distance of the offset from
// the core at twice its size (the Minkowski difference), less both radii.
type shape struct {
	core   []geom.Point // clockwise
	radius float64      // mm
	area   float64      // mm²
}

// shapeOf returns the hole of a pattern with a width and, for a slot, a length
// over both round ends, in mm. Widths of polygons are across the flats.
func shapeOf(pattern string, width, length float64) shape {
	half := width / 2
	switch pattern {
	case Slot:
		reach := (length - width) / 2
		return shape{
			core:   []geom.Point{{X: -reach}, {X: reach}},
			radius: half,
			area:   math.Pi*half*half + width*(length-width),
		}
	case Square:
		return shape{core: polygon(4, half*math.Sqrt2, math.Pi/4), area: width * width}
	case SquareDiagonal:
		return shape{core: polygon(4, half*math.Sqrt2, 0), area: width * width}
	case Hexagon: // flats face the six neighbours
		return shape{core: polygon(6, width/math.Sqrt(3), math.Pi/6), area: width * width * math.Sqrt(3) / 2}
	}
	return shape{core: []geom.Point{{}}, radius: half, area: math.Pi * half * half}
}

// polygon returns the corners of a regular polygon, clockwise from the angle.
func polygon(sides int, circumradius, from float64) []geom.Point {
	corners := make([]geom.Point, sides)
	for i := range corners {
		corners[i] = geom.Polar(circumradius, from-2*math.Pi*float64(i)/float64(sides))
	}
	return corners
}

// gap returns the bar between two equal holes whose centres are v apart, in mm;
// 0 or less where they meet.
func (s shape) gap(v geom.Point) float64 {
	return s.distance(v.Scale(0.5))*2 - 2*s.radius
}

// gapToCircle returns the bar between a hole and a circle whose centre lies at
// v from the hole's, in mm.
func (s shape) gapToCircle(v geom.Point, diameter float64) float64 {
	return s.distance(v) - s.radius - diameter/2
}

// distance returns how far p lies from the core, 0 inside it, in mm.
func (s shape) distance(p geom.Point) float64 {
	if len(s.core) == 1 {
		return p.Sub(s.core[0]).Len()
	}
	least, inside := math.Inf(1), len(s.core) > 2
	for i, a := range s.core {
		along := s.core[(i+1)%len(s.core)].Sub(a)
		to := p.Sub(a)
		if along.X*to.Y-along.Y*to.X > 0 { // left of a clockwise side
			inside = false
		}
		share := (to.X*along.X + to.Y*along.Y) / (along.X*along.X + along.Y*along.Y)
		least = min(least, to.Sub(along.Scale(min(max(share, 0), 1))).Len())
	}
	if inside {
		return 0
	}
	return least
}

// contour returns the hole centred on c. Round holes are circumscribed; the
// flats of a polygon and the sides of a slot lie where the hole is measured.
func (s shape) contour(c geom.Point, chord float64) geom.Contour {
	switch {
	case len(s.core) == 1:
		return geom.Bore(c, 2*s.radius, chord)
	case len(s.core) == 2:
		left, right := s.core[0].Add(c), s.core[1].Add(c)
		up := geom.Point{Y: s.radius}
		return geom.NewContour([]geom.Curve{
			geom.Line{A: left.Add(up), B: right.Add(up)},
			geom.Arc{Centre: right, Radius: s.radius, From: math.Pi / 2, To: -math.Pi / 2},
			geom.Line{A: right.Sub(up), B: left.Sub(up)},
			geom.Arc{Centre: left, Radius: s.radius, From: -math.Pi / 2, To: -3 * math.Pi / 2},
		}, chord)
	}
	sides := make([]geom.Curve, len(s.core))
	for i, a := range s.core {
		sides[i] = geom.Line{A: a.Add(c), B: s.core[(i+1)%len(s.core)].Add(c)}
	}
	return geom.NewContour(sides, chord)
}
