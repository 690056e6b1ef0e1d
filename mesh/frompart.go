package mesh

import (
	"fmt"

	"pintle/geom"
)

// FromPart makes the mesh of a part: walls from the loops of each layer, the
// bottom facing the bed, the top facing up, and between two layers whatever only
// one of them covers. The error says where layers meet in a line or a point, or
// cross without sharing vertices.
func FromPart(p geom.Part) (*Mesh, error) {
	layers := p.Layers()
	first, last := layers[0], layers[len(layers)-1]
	bottom := first.Bottom.Triangles()
	top := bottom
	if len(layers) > 1 || last.Loft {
		top = last.Top.Triangles()
	}
	m := &Mesh{Name: p.Name(), expected: int128Of(p.SixVolume())}
	m.reserve(layers, len(bottom)+len(top))

	feet := m.addLevel(first.Bottom, first.Z0)
	m.addFaces(bottom, feet, true)
	for i, l := range layers {
		heads := m.addLevel(l.Top, l.Z1)
		m.addWalls(l, feet, heads)
		if i == len(layers)-1 {
			m.addFaces(top, heads, false)
			break
		}
		var err error
		if feet, err = m.addStep(l.Top, layers[i+1].Bottom, heads, l.Z1); err != nil {
			return nil, fmt.Errorf("%s, between layers %d and %d at %.3f mm: %w",
				p.Name(), i+1, i+2, float64(l.Z1)/geom.PerMM, err)
		}
	}
	return m, nil
}

// reserve makes room, so that a large part is not copied as it grows.
func (m *Mesh) reserve(layers []geom.Layer, faces int) {
	vertices, triangles := len(layers[0].Bottom.Vertices()), faces
	for _, l := range layers {
		vertices += len(l.Top.Vertices())
		triangles += 2 * len(l.Top.Vertices())
	}
	m.Vertices = make([][3]int32, 0, vertices)
	m.Triangles = make([][3]int32, 0, triangles)
}

// addLevel adds the vertices of a region at a height and returns their indices.
func (m *Mesh) addLevel(r geom.Region, z int32) []int32 {
	index := make([]int32, len(r.Vertices()))
	for i, v := range r.Vertices() {
		index[i] = m.addVertex(v, z)
	}
	return index
}

func (m *Mesh) addVertex(v geom.Vertex, z int32) int32 {
	m.Vertices = append(m.Vertices, [3]int32{v.X, v.Y, z})
	return int32(len(m.Vertices) - 1)
}

// addFaces adds triangles of a region, facing up or down.
func (m *Mesh) addFaces(triangles [][3]int32, index []int32, down bool) {
	for _, t := range triangles {
		a, b, c := index[t[0]], index[t[1]], index[t[2]]
		if down {
			b, c = c, b
		}
		m.Triangles = append(m.Triangles, [3]int32{a, b, c})
	}
}

// addWalls adds two triangles for each edge of a layer, cut from its start
// below to its end above.
func (m *Mesh) addWalls(l geom.Layer, feet, heads []int32) {
	first := 0
	for _, loop := range l.Bottom.Loops() {
		n := len(loop)
		for k := range n {
			i, j := first+k, first+(k+1)%n
			m.Triangles = append(m.Triangles,
				[3]int32{feet[i], feet[j], heads[j]}, [3]int32{feet[i], heads[j], heads[i]})
		}
		first += n
	}
}

// addStep adds the ceilings and floors between two layers and returns the
// indices of the upper region's vertices; heads are those of the lower one's.
func (m *Mesh) addStep(below, above geom.Region, heads []int32, z int32) ([]int32, error) {
	ceilings, floors, err := geom.Difference(below, above)
	if err != nil {
		return nil, err
	}
	feet := geom.Match(below, above)
	for j, i := range feet {
		if i >= 0 {
			feet[j] = heads[i]
		} else {
			feet[j] = m.addVertex(above.Vertices()[j], z)
		}
	}
	for k, r := range []geom.Region{ceilings, floors} {
		inBelow, inAbove := geom.Match(below, r), geom.Match(above, r)
		for v, i := range inBelow {
			if i >= 0 {
				inBelow[v] = heads[i]
			} else {
				inBelow[v] = feet[inAbove[v]]
			}
		}
		m.addFaces(r.Triangles(), inBelow, k == 1)
	}
	return feet, nil
}
