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
	fans      sets // of corners, 3i+k for corner k of triangle i

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

// An edgeUse is the use of an edge by a triangle.
type edgeUse struct {
	a, b   int32 // the ends, a < b
	corner int32 // 3i+k, for the edge from corner k of triangle i
	along  bool  // from a to b
}

// examineEdges counts the uses of each edge, and joins triangles to shells and
// corners to fans.
func (s *surface) examineEdges(e *Examination) {
	shells := newSets(len(s.triangles))
	s.fans = newSets(3 * len(s.triangles))
	var open, crowded, sense tally
	var opened []int32
	uses := s.edgeUses()
	for from := 0; from < len(uses); {
		to, along := from, 0
		for ; to < len(uses) && uses[to].a == uses[from].a && uses[to].b == uses[from].b; to++ {
			if uses[to].along {
				along++
			}
			if to > from {
				s.joinFans(uses[to-1], uses[to])
			}
		}
		n := to - from
		where := s.between(uses[from].a, uses[from].b)
		switch {
		case n == 1:
			open.add(where)
		case n > 2:
			crowded.add(where)
		default:
			if along != 1 {
				sense.add(where)
			}
			shells.join(uses[from].corner/3, uses[from+1].corner/3)
		}
		if n != 2 || along != 1 {
			for _, u := range uses[from:to] {
				opened = append(opened, u.corner/3)
			}
		}
		from = to
	}
	s.shell, s.open = shells, map[int32]bool{}
	for i := range s.shell {
		s.shell[i] = shells.find(int32(i))
	}
	for _, i := range opened {
		s.open[s.shell[i]] = true
	}
	e.add(OpenEdge, open.count, open.where, "%s a triangle on one side only: the surface is open there", has(open.count, "edge"))
	e.add(CrowdedEdge, crowded.count, crowded.where, "%s used by more than two triangles: bodies meet in a line there, or a face stands double", are(crowded.count, "edge"))
	e.add(EdgeSense, sense.count, sense.where, "%s used twice in the same sense: inside and outside change places there", are(sense.count, "edge"))
}

func (s *surface) edgeUses() []edgeUse {
	uses := make([]edgeUse, 0, 3*len(s.triangles))
	for i, t := range s.triangles {
		for k, a := range t {
			b := t[(k+1)%3]
			uses = append(uses, edgeUse{min(a, b), max(a, b), int32(3*i + k), a < b})
		}
	}
	slices.SortFunc(uses, func(u, v edgeUse) int {
		return cmp.Or(cmp.Compare(u.a, v.a), cmp.Compare(u.b, v.b), cmp.Compare(u.corner, v.corner))
	})
	return uses
}

// joinFans joins the corners of two triangles at both ends of their edge.
func (s *surface) joinFans(u, v edgeUse) {
	atA := func(u edgeUse) (a, b int32) {
		next := u.corner/3*3 + (u.corner+1)%3
		if u.along {
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
