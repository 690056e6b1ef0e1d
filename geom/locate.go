package geom

import (
	"cmp"
	"slices"
)

// ContainsAll tells for each point whether it lies in the region or on its
// outline. It passes once over points and outline together: for n of either
// the work grows as n log n, where Contains takes n for each point.
func (r Region) ContainsAll(points []Vertex) []bool {
	inside := make([]bool, len(points))
	queue := make([]int32, len(points))
	for i := range queue {
		queue[i] = int32(i)
	}
	slices.SortFunc(queue, func(i, j int32) int {
		p, q := points[i], points[j]
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	s := sweep{verts: r.verts, order: r.order, hi: 1, status: newStatus()}
	s.succ, s.pred = links(r.loops, len(r.verts))
	s.start()
	for _, v := range r.order {
		for len(queue) > 0 && !before(r.verts[v], points[queue[0]]) {
			p := points[queue[0]]
			inside[queue[0]] = p == r.verts[v] || s.covers(p)
			queue = queue[1:]
		}
		if err := s.pass(v); err != nil {
			panic("geom: a proved region fails its proof: " + err.Error())
		}
	}
	return inside
}

// covers tells whether a point that the line is about to reach lies on an edge,
// or on the inner side of the edge below it.
func (s *sweep) covers(p Vertex) bool {
	below, on := s.status.search(p)
	return on != 0 || below != 0 && s.above[s.status.slots[below].edge] > 0
}
