package geom

// A Mass says how a body resists being moved and turned.
type Mass struct {
	Mass    float64       // kg
	Centre  [3]float64    // of gravity, mm
	Inertia [3][3]float64 // kg·mm², about axes through the centre parallel to x, y, z; products of inertia are negative integrals
}

// Mass returns mass, centre of gravity and inertia of the part for a density in
// g/cm³, solid throughout. The integrals are closed forms of the proved layers.
func (p Part) Mass(density float64) Mass {
	kg := density * 1e-6 // per mm³
	base := p.layers[0].Bottom.verts[0].Point()
	var m moments
	for _, l := range p.layers {
		m.addLayer(l, base)
	}
	var out Mass
	out.Mass = kg * m.volume
	var c [3]float64
	trace := 0.0
	for k := range 3 {
		c[k] = m.first[k] / m.volume
		trace += m.second[k][k] - m.volume*c[k]*c[k]
	}
	out.Centre = [3]float64{base.X + c[0], base.Y + c[1], c[2]}
	for i := range 3 {
		for j := range i + 1 {
			out.Inertia[i][j] = -kg * (m.second[i][j] - m.volume*c[i]*c[j])
			out.Inertia[j][i] = out.Inertia[i][j]
		}
		out.Inertia[i][i] += kg * trace
	}
	return out
}

// moments are the integrals of 1, x_i and x_i x_j over a body.
type moments struct {
	volume float64
	first  [3]float64
	second [3][3]float64
}

// addLayer cuts a layer into pyramids over its faces, with their tip at the
// base on the layer's bottom: one over the top region, and tetrahedra over the
// walls (b0 b1 t1) and (b0 t1 t0). Those over the bottom are flat.
func (m *moments) addLayer(l Layer, base Point) {
	var layer moments
	height := float64(l.Z1-l.Z0) / PerMM
	layer.addPyramid(l.Top, base, height)
	for i, b := range l.Bottom.loops {
		t := l.Top.loops[i]
		for k := range b {
			n := (k + 1) % len(b)
			b0, b1, t0, t1 := b[k].Point().Sub(base), b[n].Point().Sub(base), t[k].Point().Sub(base), t[n].Point().Sub(base)
			layer.addTetrahedron([3][3]float64{{b0.X, b0.Y, 0}, {b1.X, b1.Y, 0}, {t1.X, t1.Y, height}})
			layer.addTetrahedron([3][3]float64{{b0.X, b0.Y, 0}, {t1.X, t1.Y, height}, {t0.X, t0.Y, height}})
		}
	}
	m.addRaised(layer, float64(l.Z0)/PerMM)
}

// addPyramid adds the pyramid over a region at a height. Its section at the
// share s of the height is the region scaled by s.
func (m *moments) addPyramid(r Region, tip Point, height float64) {
	area, c := r.Area(), r.Centroid().Sub(tip)
	about := r.SecondMoments(tip)
	m.volume += area * height / 3
	m.first[0] += area * c.X * height / 4
	m.first[1] += area * c.Y * height / 4
	m.first[2] += area * height * height / 4
	m.second[0][0] += about.Iy * height / 5
	m.second[1][1] += about.Ix * height / 5
	m.second[2][2] += area * height * height * height / 5
	m.addProduct(0, 1, about.Ixy*height/5)
	m.addProduct(0, 2, area*c.X*height*height/5)
	m.addProduct(1, 2, area*c.Y*height*height/5)
}

func (m *moments) addProduct(i, j int, v float64) {
	m.second[i][j] += v
	m.second[j][i] += v
}

// addTetrahedron adds the tetrahedron from the tip to three corners. The mean
// of x_i x_j over it is (sum of p_i p_j + (sum of p_i) (sum of p_j)) / 20, over
// its four corners (elementary).
func (m *moments) addTetrahedron(p [3][3]float64) {
	volume := (p[0][0]*(p[1][1]*p[2][2]-p[1][2]*p[2][1]) +
		p[0][1]*(p[1][2]*p[2][0]-p[1][0]*p[2][2]) +
		p[0][2]*(p[1][0]*p[2][1]-p[1][1]*p[2][0])) / 6
	m.volume += volume
	var sum [3]float64
	for k := range 3 {
		sum[k] = p[0][k] + p[1][k] + p[2][k]
		m.first[k] += volume * sum[k] / 4
	}
	for i := range 3 {
		for j := range 3 {
			products := p[0][i]*p[0][j] + p[1][i]*p[1][j] + p[2][i]*p[2][j]
			m.second[i][j] += volume * (products + sum[i]*sum[j]) / 20
		}
	}
}

// addRaised adds a body raised by z.
func (m *moments) addRaised(b moments, z float64) {
	m.volume += b.volume
	lift := [3]float64{0, 0, z}
	for i := range 3 {
		m.first[i] += b.first[i] + b.volume*lift[i]
		for j := range 3 {
			m.second[i][j] += b.second[i][j] + b.first[i]*lift[j] + b.first[j]*lift[i] + b.volume*lift[i]*lift[j]
		}
	}
}
