package mesh

import "fmt"

// pairLimit bounds the pairs of triangles with overlapping boxes that one task
// examines: some seconds' work.
const pairLimit = 10_000_000

// A pairing is what came of looking at pairs.
type pairing struct {
	same, crossing tally
	done           int
	cut            bool // the limit was reached
}

func (p *pairing) join(q *pairing) {
	p.same.join(q.same)
	p.crossing.join(q.crossing)
	p.done += q.done
	p.cut = p.cut || q.cut
}

// look examines one pair of triangles and tells whether to go on.
func (s *surface) look(p *pairing, i, j int32) bool {
	a, b := s.triangles[i], s.triangles[j]
	boxA, boxB := s.box(a), s.box(b)
	switch shared := share(&a, &b); {
	case shared == 3:
		p.same.add(boxA.middle())
	case s.meet(a, b, shared):
		p.crossing.add(overlap(boxA, boxB).middle())
	}
	p.done++
	p.cut = p.done >= pairLimit
	return !p.cut
}

// examineCrossings finds triangles that cross, touch or cover each other other
// than at shared corners and edges, and tells whether there are none. Level
// planes of so many triangles at least are proved each as a whole, and what reaches them is compared with
// them; the triangles left are compared in pairs.
func (s *surface) examineCrossings(e *Examination, leastPlane int) bool {
	planes := s.findPlanes(leastPlane)
	var rest []int32
	for i, t := range s.triangles {
		if s.plane[i] < 0 && !s.flat(t) {
			rest = append(rest, int32(i))
		}
	}
	found := s.lookAtRest(rest)
	reached := s.lookAtPlanes(planes)
	found.join(&reached)
	if found.cut {
		e.Unexamined = fmt.Sprintf("whether triangles cross was examined for %d million pairs of them only", found.done/1_000_000)
	}
	e.add(SameTriangle, found.same.count, found.same.where, "faces lie on each other, in pairs of triangles with the same three corners: %d", found.same.count)
	e.add(Intersection, found.crossing.count, found.crossing.where, "surfaces cut, touch or cover each other, in pairs of triangles: %d", found.crossing.count)
	return found.same.count+found.crossing.count == 0
}

func (s *surface) lookAtRest(rest []int32) (sum pairing) {
	if len(rest) == 0 {
		return sum
	}
	tree := newTree(s.boxes(rest))
	tasks := tree.tasks(chunks)
	found := make([]pairing, len(tasks))
	each(len(tasks), func(k int) {
		tree.pairs(tasks[k], func(i, j int32) bool { return s.look(&found[k], rest[i], rest[j]) })
	})
	for k := range found {
		sum.join(&found[k])
	}
	return sum
}

func (s *surface) lookAtPlanes(planes []plane) (sum pairing) {
	contacts := s.contacts(planes)
	for _, c := range contacts {
		planes[c.plane].search(s)
	}
	found := make([]pairing, chunks)
	each(chunks, func(k int) {
		for _, c := range contacts[len(contacts)*k/chunks : len(contacts)*(k+1)/chunks] {
			if t := s.triangles[c.triangle]; s.flat(t) {
				continue
			}
			p := &planes[c.plane]
			if !p.tree.touching(0, s.box(s.triangles[c.triangle]), func(j int32) bool {
				return s.look(&found[k], c.triangle, p.triangles[j])
			}) {
				return
			}
		}
	})
	for k := range found {
		sum.join(&found[k])
	}
	return sum
}

func (s *surface) boxes(triangles []int32) []box {
	boxes := make([]box, len(triangles))
	for n, i := range triangles {
		boxes[n] = s.box(s.triangles[i])
	}
	return boxes
}
