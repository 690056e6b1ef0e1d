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

// Normal returns the unit normal of triangle i, rounded from the exact one. The
// conversions keep the compiler from fusing operations, so that every machine
// gives the same bits.
func (m *Mesh) Normal(i int) [3]float32 {
	t := m.Triangles[i]
	a, b, c := m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
	var u, v [3]int64
	for k := range 3 {
		u[k], v[k] = int64(b[k])-int64(a[k]), int64(c[k])-int64(a[k])
	}
	n := [3]float64{float64(u[1]*v[2] - u[2]*v[1]), float64(u[2]*v[0] - u[0]*v[2]), float64(u[0]*v[1] - u[1]*v[0])}
	l := math.Sqrt(float64(n[0]*n[0]) + float64(n[1]*n[1]) + float64(n[2]*n[2]))
	return [3]float32{float32(n[0] / l), float32(n[1] / l), float32(n[2] / l)}
}
