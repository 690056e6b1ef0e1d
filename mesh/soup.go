package mesh

import (
	"math"

	"pintle/geom"
)

// A Soup is a list of triangles as a file gives them: three corners of three
// coordinates each, in the file's unit.
type Soup [][3][3]float32

// Soup returns the triangles of the mesh in mm. All coordinates are exact.
func (m *Mesh) Soup() Soup {
	soup := make(Soup, len(m.Triangles))
	for i := range soup {
		soup[i] = m.Corners(i)
	}
	return soup
}

// Corners returns the corners of triangle i in mm. A grid coordinate has 24
// bits, so float32 holds it exactly.
func (m *Mesh) Corners(i int) [3][3]float32 {
	var c [3][3]float32
	for j, v := range m.Triangles[i] {
		for k, x := range m.Vertices[v] {
			c[j][k] = float32(x) / geom.PerMM
		}
	}
	return c
}

// Normal returns the unit normal of triangle i, rounded from the exact one:
// steps and products of steps fit a float64. The conversions of the squares keep
// the compiler from fusing operations, so that every machine gives the same bits.
func (m *Mesh) Normal(i int) [3]float32 {
	t := &m.Triangles[i]
	a, b, c := &m.Vertices[t[0]], &m.Vertices[t[1]], &m.Vertices[t[2]]
	ux, uy, uz := float64(b[0]-a[0]), float64(b[1]-a[1]), float64(b[2]-a[2])
	vx, vy, vz := float64(c[0]-a[0]), float64(c[1]-a[1]), float64(c[2]-a[2])
	x, y, z := uy*vz-uz*vy, uz*vx-ux*vz, ux*vy-uy*vx
	l := math.Sqrt(float64(x*x) + float64(y*y) + float64(z*z))
	return [3]float32{float32(x/l) + 0, float32(y/l) + 0, float32(z/l) + 0} // + 0 turns -0 into 0
}
