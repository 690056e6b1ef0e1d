package drawing

import (
	"math"

	"pintle/geom"
)

// A cover is a region of material that can lie above an edge.
type cover []coverLoop

type coverLoop struct {
	loop   geom.Loop
	lo, hi geom.Vertex
}

// coversAbove returns the regions of the layers above layer k.
func coversAbove(layers []geom.Layer, k int) []cover {
	var covers []cover
	for _, l := range layers[k+1:] {
		covers = append(covers, coverOf(l.Bottom))
		if l.Loft {
			covers = append(covers, coverOf(l.Top))
		}
	}
	return covers
}

func coverOf(r geom.Region) cover {
	var c cover
	for _, loop := range r.Loops() {
		b := coverLoop{loop, loop[0], loop[0]}
		for _, v := range loop {
			b.lo = geom.Vertex{X: min(b.lo.X, v.X), Y: min(b.lo.Y, v.Y)}
			b.hi = geom.Vertex{X: max(b.hi.X, v.X), Y: max(b.hi.Y, v.Y)}
		}
		c = append(c, b)
	}
	return c
}

// covered says whether material lies above both sides of the curve at a share t
// of its parameter. An edge of the material above itself is not covered. The
// sides are looked at 0.05 mm away: more than outlines stray from their curves.
func covered(c geom.Curve, t float64, above []cover) bool {
	const aside = 0.05
	p, n := at(c, t), normal(c, t).Scale(aside)
	left, right := false, false
	for _, a := range above {
		left = left || a.holds(p.Add(n))
		right = right || a.holds(p.Sub(n))
	}
	return left && right
}

// holds counts the edges to the right of p: an odd number puts p inside.
func (c cover) holds(p geom.Point) bool {
	x, y := p.X*geom.PerMM, p.Y*geom.PerMM
	inside := false
	for _, b := range c {
		if x > float64(b.hi.X) || y > float64(b.hi.Y) || y < float64(b.lo.Y) {
			continue
		}
		last := b.loop[len(b.loop)-1]
		for _, v := range b.loop {
			if (float64(v.Y) > y) != (float64(last.Y) > y) {
				share := (y - float64(v.Y)) / float64(last.Y-v.Y)
				if x < float64(v.X)+share*float64(last.X-v.X) {
					inside = !inside
				}
			}
			last = v
		}
	}
	return inside && !math.IsNaN(x)
}
