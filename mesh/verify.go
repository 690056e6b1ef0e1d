package mesh

import (
	"cmp"
	"fmt"
	"slices"

	"pintle/geom"
)

// Verify proves that the mesh is the closed surface of its part: no triangle is
// degenerate; each directed edge occurs once and its opposite once; the
// triangles around each point form one fan; the volume is above zero and, for a
// mesh made by FromPart, exactly the closed form of the part.
//
// Around a point p each triangle (p, a, b) leads from a to b. If no a occurs
// twice and the steps from one triangle to the next come back to the first only
// after all, then the fan at p is whole, and every edge at p is used once in
// each sense.
func (m *Mesh) Verify() error {
	if len(m.Triangles) == 0 {
		return fmt.Errorf("mesh of %s: no triangles", m.Name)
	}
	if err := m.verifyTriangles(); err != nil {
		return err
	}
	start, corners := m.corners()
	found := make([]error, chunks)
	each(chunks, func(c int) {
		for v := len(m.Vertices) * c / chunks; v < len(m.Vertices)*(c+1)/chunks && found[c] == nil; v++ {
			found[c] = m.verifyFan(int32(v), corners[start[v]:start[v+1]])
		}
	})
	for _, err := range found {
		if err != nil {
			return err
		}
	}
	six := m.sixVolume()
	if six.sign() <= 0 {
		return fmt.Errorf("mesh of %s: the volume %g mm³ is not above zero", m.Name, m.Volume())
	}
	if m.expected != (int128{}) && six != m.expected {
		return fmt.Errorf("mesh of %s: the volume %.9g mm³ differs from the part's, %.9g mm³",
			m.Name, m.Volume(), m.expected.float()/(6*geom.PerMM*geom.PerMM*geom.PerMM))
	}
	return nil
}

func (m *Mesh) verifyTriangles() error {
	n := int32(len(m.Vertices))
	for i, t := range m.Triangles {
		if min(t[0], t[1], t[2]) < 0 || max(t[0], t[1], t[2]) >= n {
			return fmt.Errorf("mesh of %s: triangle %d names a vertex that is not there", m.Name, i)
		}
		if m.flat(t) {
			return fmt.Errorf("mesh of %s: a triangle without area at %s", m.Name, m.place(t[0]))
		}
	}
	return nil
}

// flat tells exactly whether a triangle has no area.
func (m *Mesh) flat(t [3]int32) bool {
	a, b, c := m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
	var u, v [3]int64
	for k := range 3 {
		u[k], v[k] = int64(b[k])-int64(a[k]), int64(c[k])-int64(a[k])
	}
	return u[1]*v[2] == u[2]*v[1] && u[2]*v[0] == u[0]*v[2] && u[0]*v[1] == u[1]*v[0]
}

// A corner of a triangle at a point: the point after it and the one before.
type corner struct{ next, last int32 }

// corners groups the corners of all triangles by vertex: those of vertex v
// stand from start[v] to start[v+1].
func (m *Mesh) corners() (start []int32, corners []corner) {
	start = make([]int32, len(m.Vertices)+1)
	for _, t := range m.Triangles {
		for _, v := range t {
			start[v]++
		}
	}
	sum := int32(0)
	for v := range start { // start becomes the end of each group, and is walked back
		sum += start[v]
		start[v] = sum
	}
	corners = make([]corner, sum)
	for _, t := range m.Triangles {
		for k, v := range t {
			start[v]--
			corners[start[v]] = corner{t[(k+1)%3], t[(k+2)%3]}
		}
	}
	return start, corners
}

func (m *Mesh) verifyFan(v int32, fan []corner) error {
	slices.SortFunc(fan, func(a, b corner) int { return cmp.Compare(a.next, b.next) })
	for i := 1; i < len(fan); i++ {
		if fan[i].next == fan[i-1].next {
			return fmt.Errorf("mesh of %s: two triangles use the edge from %s to %s in one sense",
				m.Name, m.place(v), m.place(fan[i].next))
		}
	}
	if len(fan) == 0 {
		return fmt.Errorf("mesh of %s: no triangle uses the point %s", m.Name, m.place(v))
	}
	at := 0
	for steps := 1; ; steps++ {
		next, ok := slices.BinarySearchFunc(fan, fan[at].last, func(c corner, v int32) int { return cmp.Compare(c.next, v) })
		switch {
		case !ok:
			return fmt.Errorf("mesh of %s: the edge from %s to %s has a triangle on one side only",
				m.Name, m.place(fan[at].last), m.place(v))
		case next == 0 && steps == len(fan):
			return nil
		case next == 0 || steps == len(fan):
			return fmt.Errorf("mesh of %s: the surface only touches itself at %s", m.Name, m.place(v))
		}
		at = next
	}
}

// place names a vertex by its coordinates in mm.
func (m *Mesh) place(v int32) string {
	p := m.Vertices[v]
	return fmt.Sprintf("(%.4f, %.4f, %.4f)", float64(p[0])/geom.PerMM, float64(p[1])/geom.PerMM, float64(p[2])/geom.PerMM)
}
