package drawing

import (
	"math"
	"slices"

	"pintle/geom"
)

// A chamfer is lower than this; a higher slope is a shape of its own (design
// choice), in mm.
const highestChamfer = 1.5

// readHeights dimensions the height of each face over the bed, at its outermost
// edge in the section. The feet of chamfers are no faces.
func (r *reader) readHeights(section View) {
	edges := map[int]float64{} // in thousandths of a millimetre: the rightmost x
	for _, s := range section.Strokes {
		if s.Kind != Outline || len(s.Curves) != 1 {
			continue
		}
		line, ok := s.Curves[0].(geom.Line)
		if !ok || line.A.Y != line.B.Y {
			continue
		}
		z := int(math.Round(line.A.Y / alike))
		if x, ok := edges[z]; !ok || max(line.A.X, line.B.X) > x {
			edges[z] = max(line.A.X, line.B.X)
		}
	}
	slabs := r.part.Slabs()
	for i, s := range slabs {
		next := i + 1
		foot := s.Top != nil && s.Z1-s.Z0 < highestChamfer && next < len(slabs)
		lead := next < len(slabs) && slabs[next].Top != nil && slabs[next].Z1-slabs[next].Z0 < highestChamfer
		x, shown := edges[int(math.Round(s.Z1/alike))]
		if !shown {
			_, hi := section.Bounds()
			x = hi.X
		}
		if foot || lead || !shown && next < len(slabs) {
			continue
		}
		r.height(x, s.Z1)
	}
}

// height adds the height of a face over the bed, unless the design named it.
func (r *reader) height(x, z float64) {
	for _, d := range r.given {
		if d.Kind == Linear && d.Facing == Section && min(d.A.Y, d.B.Y) < alike && math.Abs(max(d.A.Y, d.B.Y)-z) < alike {
			return
		}
	}
	r.dims = append(r.dims, Heights(x, 0, z))
}

// readBevels dimensions chamfers of 45 degrees at the section's right edge.
func (r *reader) readBevels(section View) {
	var sizes []float64
	for _, s := range r.part.Slabs() {
		if s.Top == nil || s.Z1-s.Z0 >= highestChamfer {
			continue
		}
		a, b, ok := bevel(section, s.Z0, s.Z1)
		size := s.Z1 - s.Z0
		if !ok || slices.ContainsFunc(sizes, func(v float64) bool { return math.Abs(v-size) < alike }) {
			continue
		}
		sizes = append(sizes, size)
		r.dims = append(r.dims, Bevel(a, b))
	}
}

// bevel finds the leftmost sloping edge at 45 degrees between two heights.
func bevel(section View, z0, z1 float64) (a, b geom.Point, ok bool) {
	for _, s := range section.Strokes {
		line, straight := s.Curves[0].(geom.Line)
		if !straight || s.Kind != Outline || math.Abs(line.A.Y-z0) > alike || math.Abs(line.B.Y-z1) > alike {
			continue
		}
		dx, dz := math.Abs(line.B.X-line.A.X), z1-z0
		if math.Abs(dx-dz) < 0.1*dz && (!ok || line.A.X < a.X) {
			a, b, ok = line.A, line.B, true
		}
	}
	return a, b, ok
}
