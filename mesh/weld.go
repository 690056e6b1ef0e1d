package mesh

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// A surface is a soup with equal corners welded to points.
type surface struct {
	exact
	triangles [][3]int32 // finite, with three different corners
	middle    [3]float64 // of the bounds
	shell     []int32    // by triangle: a triangle that stands for its shell
	open      map[int32]bool
	fans      sets    // of corners, 3i+k for corner k of triangle i
	opposite  []int32 // by edge 3i+k: the edge of the one other triangle that uses it the other way, or -1
	plane     []int32 // by triangle: the level plane it was proved in, or -1

	notFinite, equal           int
	whereNotFinite, whereEqual [3]float64
}

func weld(soup Soup) *surface {
	s := &surface{}
	index := make(map[[3]float32]int32, len(soup)/2+1)
	for _, t := range soup {
		if c, ok := finite(t); !ok {
			if s.notFinite++; s.notFinite == 1 {
				s.whereNotFinite = c
			}
			continue
		}
		var corners [3]int32
		for k, p := range t {
			for i := range p {
				p[i] += 0 // -0 becomes 0
			}
			id, ok := index[p]
			if !ok {
				id = int32(len(s.points))
				index[p] = id
				s.points = append(s.points, [3]float64{float64(p[0]), float64(p[1]), float64(p[2])})
			}
			corners[k] = id
		}
		if corners[0] == corners[1] || corners[1] == corners[2] || corners[2] == corners[0] {
			if s.equal++; s.equal == 1 {
				s.whereEqual = s.points[corners[0]]
			}
			continue
		}
		s.triangles = append(s.triangles, corners)
	}
	s.exact.lay()
	return s
}

// finite tells whether all coordinates are finite, and returns a corner with
// the coordinates that are not replaced by zero.
func finite(t [3][3]float32) (corner [3]float64, ok bool) {
	for _, p := range t {
		good := true
		for k, x := range p {
			corner[k] = float64(x)
			if math.IsNaN(corner[k]) || math.IsInf(corner[k], 0) {
				corner[k], good = 0, false
			}
		}
		if !good {
			return corner, false
		}
	}
	return corner, true
}

func (s *surface) corners(i int) (a, b, c [3]float64) {
	t := s.triangles[i]
	return s.points[t[0]], s.points[t[1]], s.points[t[2]]
}

// sixVolume returns six times the signed volume between a triangle and the middle.
func (s *surface) sixVolume(i int) float64 {
	a, b, c := s.corners(i)
	return dot(sub(a, s.middle), cross(sub(b, s.middle), sub(c, s.middle)))
}

func (s *surface) examineAreas(e *Examination) {
	flat, where := s.equal, s.whereEqual
	for _, t := range s.triangles {
		if s.flat(t) {
			if flat++; flat == 1 {
				where = s.points[t[0]]
			}
		}
	}
	e.add(Degenerate, flat, where, "%s no area", has(flat, "triangle"))
}

// An edgeUse is the use of an edge by a triangle, listed under the end with the
// smaller number.
type edgeUse struct {
	end    int32 // the other end
	corner int32 // 3i+k, for the edge from corner k of triangle i
}

// along tells whether the use runs from the smaller number to the larger.
func (s *surface) along(u edgeUse) bool { return s.triangles[u.corner/3][(u.corner+1)%3] == u.end }

// edgeUses groups the uses of all edges by the end with the smaller number, and
// sorts each group by the other end.
func (s *surface) edgeUses() (start []int32, uses []edgeUse) {
	start = make([]int32, len(s.points)+1)
	for _, t := range s.triangles {
		for k, a := range t {
			start[min(a, t[(k+1)%3])]++
		}
	}
	sum := int32(0)
	for v := range start { // start becomes the end of each group, and is walked back
		sum += start[v]
		start[v] = sum
	}
	uses = make([]edgeUse, sum)
	for i, t := range s.triangles {
		for k, a := range t {
			b := t[(k+1)%3]
			start[min(a, b)]--
			uses[start[min(a, b)]] = edgeUse{max(a, b), int32(3*i + k)}
		}
	}
	each(chunks, func(c int) {
		for v := len(s.points) * c / chunks; v < len(s.points)*(c+1)/chunks; v++ {
			slices.SortFunc(uses[start[v]:start[v+1]], func(u, v edgeUse) int {
				return cmp.Or(cmp.Compare(u.end, v.end), cmp.Compare(u.corner, v.corner))
			})
		}
	})
	return start, uses
}

// An edgeReport is what examineEdges finds.
type edgeReport struct {
	open, crowded, sense tally
	opened               []int32 // triangles where the surface is not closed
}

// examineEdges counts the uses of each edge, and joins triangles to shells and
// corners to fans.
func (s *surface) examineEdges(e *Examination) {
	shells := newSets(len(s.triangles))
	s.fans = newSets(3 * len(s.triangles))
	s.opposite = make([]int32, 3*len(s.triangles))
	for i := range s.opposite {
		s.opposite[i] = -1
	}
	var r edgeReport
	start, uses := s.edgeUses()
	for v := range s.points {
		for group := uses[start[v]:start[v+1]]; len(group) > 0; {
			n := 1
			for n < len(group) && group[n].end == group[0].end {
				n++
			}
			s.examineEdge(&r, int32(v), group[:n], shells)
			group = group[n:]
		}
	}
	s.shell, s.open = shells, map[int32]bool{}
	for i := range s.shell {
		s.shell[i] = shells.find(int32(i))
	}
	for _, i := range r.opened {
		s.open[s.shell[i]] = true
	}
	e.add(OpenEdge, r.open.count, r.open.where, "%s a triangle on one side only: the surface is open there", has(r.open.count, "edge"))
	e.add(CrowdedEdge, r.crowded.count, r.crowded.where, "%s used by more than two triangles: bodies meet in a line there, or a face stands double", are(r.crowded.count, "edge"))
	e.add(EdgeSense, r.sense.count, r.sense.where, "%s used twice in the same sense: inside and outside change places there", are(r.sense.count, "edge"))
}

// examineEdge looks at all uses of one edge.
func (s *surface) examineEdge(r *edgeReport, a int32, uses []edgeUse, shells sets) {
	for k := 1; k < len(uses); k++ {
		s.joinFans(uses[k-1], uses[k])
	}
	closed := false
	where := s.between(a, uses[0].end)
	switch {
	case len(uses) == 1:
		r.open.add(where)
	case len(uses) > 2:
		r.crowded.add(where)
	default:
		u, v := uses[0].corner, uses[1].corner
		shells.join(u/3, v/3)
		if closed = s.along(uses[0]) != s.along(uses[1]); closed {
			s.opposite[u], s.opposite[v] = v, u
		} else {
			r.sense.add(where)
		}
	}
	if !closed {
		for _, u := range uses {
			r.opened = append(r.opened, u.corner/3)
		}
	}
}

// joinFans joins the corners of two triangles at both ends of their edge.
func (s *surface) joinFans(u, v edgeUse) {
	atA := func(u edgeUse) (a, b int32) {
		next := u.corner/3*3 + (u.corner+1)%3
		if s.along(u) {
			return u.corner, next
		}
		return next, u.corner
	}
	ua, ub := atA(u)
	va, vb := atA(v)
	s.fans.join(ua, va)
	s.fans.join(ub, vb)
}

// examineFans finds points where fans of triangles touch.
func (s *surface) examineFans(e *Examination) {
	fans := make([]int32, len(s.points))
	for c := range s.fans {
		if s.fans[c] == int32(c) {
			fans[s.triangles[c/3][c%3]]++
		}
	}
	var touching tally
	for v, n := range fans {
		if n > 1 {
			touching.add(s.points[v])
		}
	}
	e.add(PointContact, touching.count, touching.where, "at %s bodies only touch", points(touching.count))
}

func points(n int) string {
	if n == 1 {
		return "1 point"
	}
	return strconv.Itoa(n) + " points"
}

func (s *surface) between(a, b int32) [3]float64 {
	p, q := s.points[a], s.points[b]
	return [3]float64{p[0]/2 + q[0]/2, p[1]/2 + q[1]/2, p[2]/2 + q[2]/2}
}

// join adds another tally, whose places come later.
func (t *tally) join(u tally) {
	if t.count == 0 {
		t.where = u.where
	}
	t.count += u.count
}

// A tally counts places and keeps the first.
type tally struct {
	count int
	where [3]float64
}

func (t *tally) add(where [3]float64) {
	if t.count++; t.count == 1 {
		t.where = where
	}
}

// sets are disjoint sets of whole numbers, each known by one of its members.
type sets []int32

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = int32(i)
	}
	return s
}

func (s sets) find(i int32) int32 {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

// join keeps the smaller of the two members that stand for the sets.
func (s sets) join(a, b int32) {
	a, b = s.find(a), s.find(b)
	s[max(a, b)] = min(a, b)
}
