package geom

import "math"

// An Overhang is a level face of a part that looks down with nothing under it.
type Overhang struct {
	Height float64 // mm above the bed
	Area   float64 // mm²
	Span   float64 // mm, about how far it reaches across: exact for discs, squares and even rings
}

// Overhangs returns the level faces that hang over air, from the bed up. Sloping
// faces are not among them.
func (p Part) Overhangs() []Overhang {
	var all []Overhang
	for i, l := range p.layers[:len(p.layers)-1] {
		_, hanging, err := Difference(l.Top, p.layers[i+1].Bottom)
		if err != nil {
			panic("geom: the layers of a proved part: " + err.Error())
		}
		for _, face := range hanging.bodies() {
			all = append(all, hanging.overhang(face, float64(l.Z1)/PerMM))
		}
	}
	return all
}

// overhang measures one face: an outer loop and its holes. With holes the span is
// twice the area over the circumference, the width of a ring; without it is at
// most four times that, the diameter of a disc, and at most the shorter side of
// the box around it.
func (r Region) overhang(face []int, height float64) Overhang {
	o := Overhang{Height: height}
	around := 0.0
	lo, hi := Point{X: math.Inf(1), Y: math.Inf(1)}, Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, k := range face {
		l := r.loops[k]
		o.Area += float64(l.doubleArea()) / (2 * PerMM * PerMM)
		for i, v := range l {
			a, b := v.Point(), l[(i+1)%len(l)].Point()
			around += b.Sub(a).Len()
			lo, hi = Point{X: min(lo.X, a.X), Y: min(lo.Y, a.Y)}, Point{X: max(hi.X, a.X), Y: max(hi.Y, a.Y)}
		}
	}
	o.Span = 2 * o.Area / around
	if len(face) == 1 {
		o.Span = min(2*o.Span, hi.X-lo.X, hi.Y-lo.Y)
	}
	return o
}
