package geom

import "fmt"

// With returns the part with more contours drawn into its layers from z0 to z1,
// in mm: apart from what stands there, or above the part where it ends at z0.
// Prisms are cut where they must be; a sloping layer in between is refused, as
// is whatever does not prove.
func (p Part) With(z0, z1 float64, contours ...Contour) (Part, error) {
	var slabs []Slab
	for _, s := range p.slabs {
		lo, hi := max(z0, s.Z0), min(z1, s.Z1)
		switch {
		case lo >= hi:
			slabs = append(slabs, s)
			continue
		case s.Top != nil:
			return Part{}, fmt.Errorf("%s: nothing can be added from %.3f to %.3f mm, where its walls slope", p.name, lo, hi)
		}
		both := append(append([]Contour{}, s.Bottom...), contours...)
		for _, cut := range []Slab{
			{Z0: s.Z0, Z1: lo, Bottom: s.Bottom}, {Z0: lo, Z1: hi, Bottom: both}, {Z0: hi, Z1: s.Z1, Bottom: s.Bottom},
		} {
			if SnapLength(cut.Z1) > SnapLength(cut.Z0) {
				slabs = append(slabs, cut)
			}
		}
	}
	if top := p.slabs[len(p.slabs)-1].Z1; z1 > top {
		slabs = append(slabs, Slab{Z0: max(z0, top), Z1: z1, Bottom: contours})
	}
	return NewPart(p.name, slabs...)
}

// Sector returns the part of an annulus between two radii and two angles, from
// < to, in rad, as an outer contour.
func Sector(centre Point, inner, outer, from, to, chord float64) Contour {
	at := func(r, a float64) Point { return centre.Add(Polar(r, a)) }
	return NewContour([]Curve{
		Arc{centre, outer, from, to},
		Line{at(outer, to), at(inner, to)},
		Arc{centre, inner, to, from},
		Line{at(inner, from), at(outer, from)},
	}, chord)
}
