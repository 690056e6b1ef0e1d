// Package mesh turns parts into closed triangle meshes, proves them, and
// examines triangles that came from elsewhere.
//
// A Mesh lives on the grid of package geom: whole steps of 1/8192 mm, each point
// held once. FromPart makes one and Verify proves it closed: every edge has one
// triangle on either side, one fan of triangles stands around each point, and
// the volume is the closed form of the part, to the last grid step.
//
// A Soup is a list of triangles as a file gives them, in float32. Inspect joins
// points that are equal to the last bit, with no tolerance, and says what keeps
// the soup from being the surface of solid bodies.
//
// Triangles run anticlockwise seen from outside. The package reads and writes
// no files.
package mesh

import (
	"math"

	"pintle/geom"
)

// A Mesh is the surface of one part on the grid.
type Mesh struct {
	Name      string
	Vertices  [][3]int32 // grid steps, each place once
	Triangles [][3]int32 // indices into Vertices

	expected int128 // six times the volume of the part, cubic grid steps
}

// Volume returns the volume in mm³.
func (m *Mesh) Volume() float64 {
	return m.sixVolume().float() / (6 * geom.PerMM * geom.PerMM * geom.PerMM)
}

// sixVolume adds up the triple products of the triangles' corners.
func (m *Mesh) sixVolume() int128 {
	var sum int128
	for _, t := range m.Triangles {
		a, b, c := m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
		sum.addProduct(int64(a[2]), cross2(b, c))
		sum.addProduct(int64(b[2]), cross2(c, a))
		sum.addProduct(int64(c[2]), cross2(a, b))
	}
	return sum
}

// cross2 returns the cross product of two vectors seen from above.
func cross2(a, b [3]int32) int64 {
	return int64(a[0])*int64(b[1]) - int64(a[1])*int64(b[0])
}

// Bounds returns the smallest and largest coordinates in mm.
func (m *Mesh) Bounds() (lo, hi [3]float64) {
	for k := range 3 {
		lo[k], hi[k] = math.Inf(1), math.Inf(-1)
		for _, v := range m.Vertices {
			x := float64(v[k]) / geom.PerMM
			lo[k], hi[k] = min(lo[k], x), max(hi[k], x)
		}
	}
	return lo, hi
}

// Centroid returns the centre of the volume in mm: the mean of the centres of
// the tetrahedra over all triangles, weighted by their volumes.
func (m *Mesh) Centroid() [3]float64 {
	var sum [3]float64
	var volume float64
	base := m.Vertices[0]
	for _, t := range m.Triangles {
		var p [3][3]float64
		for i, v := range t {
			for k := range 3 {
				p[i][k] = float64(m.Vertices[v][k] - base[k])
			}
		}
		six := dot(p[0], cross(p[1], p[2]))
		volume += six
		for k := range 3 {
			sum[k] += six * (p[0][k] + p[1][k] + p[2][k])
		}
	}
	for k := range 3 {
		sum[k] = (float64(base[k]) + sum[k]/(4*volume)) / geom.PerMM
	}
	return sum
}
