package geom

// Centroid returns the centre of the area, in mm; the origin for no region.
func (r Region) Centroid() Point {
	if len(r.verts) == 0 {
		return Point{}
	}
	base := r.verts[0] // near the region, so that little is lost by rounding
	var x, y, area float64
	for _, l := range r.loops {
		for i, v := range l {
			w := l[(i+1)%len(l)]
			double := float64(orient(base, v, w))
			x += double * float64(v.X-base.X+w.X-base.X)
			y += double * float64(v.Y-base.Y+w.Y-base.Y)
			area += double
		}
	}
	return base.Point().Add(Point{x, y}.Scale(1 / (3 * area * PerMM)))
}

// SecondMoments are second moments of an area in mm⁴ about axes that run
// through one point: Ix is the integral of y², Iy of x², Ixy of x y.
type SecondMoments struct{ Ix, Iy, Ixy float64 }

// Polar returns the polar second moment Ix + Iy, in mm⁴.
func (m SecondMoments) Polar() float64 { return m.Ix + m.Iy }

// SecondMoments returns the second moments of the area about axes through a
// point, in mm⁴: about the centroid by Green's theorem, edge by edge (the
// formulas of any handbook of plane sections), and from there by the parallel
// axis theorem, so that a far point costs no accuracy.
func (r Region) SecondMoments(about Point) SecondMoments {
	c := r.Centroid()
	var m SecondMoments
	for _, l := range r.loops {
		for i, v := range l {
			p, q := v.Point().Sub(c), l[(i+1)%len(l)].Point().Sub(c)
			double := p.X*q.Y - p.Y*q.X
			m.Ix += double * (p.Y*p.Y + p.Y*q.Y + q.Y*q.Y)
			m.Iy += double * (p.X*p.X + p.X*q.X + q.X*q.X)
			m.Ixy += double * (p.X*q.Y + 2*p.X*p.Y + 2*q.X*q.Y + q.X*p.Y)
		}
	}
	area, d := r.Area(), c.Sub(about)
	return SecondMoments{
		Ix:  m.Ix/12 + area*d.Y*d.Y,
		Iy:  m.Iy/12 + area*d.X*d.X,
		Ixy: m.Ixy/24 + area*d.X*d.Y,
	}
}
