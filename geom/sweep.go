package geom

import (
	"cmp"
	"slices"
)

// gridExtent bounds the magnitude of grid coordinates of regions. A sweep can do
// with coordinates up to wideExtent: sort keys take 60 bits and orient is exact.
const (
	gridExtent = 1 << 23
	wideExtent = 1 << 29
)

// A sweep passes a line over the edges of a set of loops, from left to right
// and upwards at equal x, so that vertical edges are no special case. Edge i
// runs from vertex i to vertex succ[i].
//
// The proof: the status lists the crossed edges from the lowest up, and each
// time two become neighbours, the vertex that makes them so is seen to lie
// strictly between them. If edges meet at all, look at the leftmost place where
// they do: there two neighbours meet. From then on nothing can come between
// them, because no vertex lies above the upper and below the lower; and the
// first of the two to end does so on the wrong side of the other. So every
// meeting is found, and what is found does meet.
type sweep struct {
	verts      []Vertex
	succ, pred []int32
	order      []int32      // vertices in the order of the sweep
	below      []int32      // by vertex: the edge directly below, or -1
	above      []int8       // by edge: winding number just above it
	slot       []int32      // by edge: its slot while it is crossed
	lo, hi     int8         // the winding numbers allowed
	extent     int32        // all coordinates lie strictly within
	wound      *RegionError // the first place with another one
	status     status
}

// newSweep proves that the loops meet neither themselves nor each other and
// that all winding numbers lie between lo and hi. The error is a *RegionError.
func newSweep(loops []Loop, lo, hi int8) (*sweep, error) {
	s := &sweep{lo: lo, hi: hi, extent: gridExtent, status: newStatus()}
	return s, s.prove(loops)
}

func (s *sweep) prove(loops []Loop) error {
	if err := s.lay(loops); err != nil {
		return err
	}
	if err := s.sort(); err != nil {
		return err
	}
	s.start()
	for _, v := range s.order {
		if err := s.pass(v); err != nil {
			return err
		}
	}
	if s.wound != nil {
		return s.wound
	}
	s.slot, s.status = nil, status{}
	return nil
}

// start makes room for what the sweep finds.
func (s *sweep) start() {
	n := len(s.verts)
	s.below, s.above, s.slot = make([]int32, n), make([]int8, n), make([]int32, n)
}

// lay joins the loops in one run of vertices and looks at each corner.
func (s *sweep) lay(loops []Loop) error {
	for _, l := range loops {
		if len(l) < 3 {
			return shortLoop(l)
		}
		for _, v := range l {
			if min(v.X, v.Y) <= -s.extent || max(v.X, v.Y) >= s.extent {
				return &RegionError{Kind: BeyondGrid, At: v.Point()}
			}
		}
	}
	s.verts = slices.Concat(loops...)
	s.succ, s.pred = links(loops, len(s.verts))
	for v := range s.verts {
		a, b, c := s.verts[s.pred[v]], s.verts[v], s.verts[s.succ[v]]
		if orient(a, b, c) == 0 && (a == b || b == c || before(a, b) != before(b, c)) {
			return &RegionError{
				Kind: Spike, At: b.Point(),
				A: [2]Point{a.Point(), b.Point()}, B: [2]Point{b.Point(), c.Point()},
			}
		}
	}
	return nil
}

// links returns the neighbours of each vertex along its loop.
func links(loops []Loop, n int) (succ, pred []int32) {
	succ, pred = make([]int32, n), make([]int32, n)
	first := 0
	for _, l := range loops {
		last := first + len(l) - 1
		for v := first; v <= last; v++ {
			succ[v], pred[v] = int32(v+1), int32(v-1)
		}
		succ[last], pred[first] = int32(first), int32(last)
		first = last + 1
	}
	return succ, pred
}

// before tells whether the sweep reaches a before b.
func before(a, b Vertex) bool { return a.X < b.X || (a.X == b.X && a.Y < b.Y) }

// sort finds the order of the sweep and refuses vertices that coincide.
func (s *sweep) sort() error {
	type place struct {
		key    uint64
		vertex int32
	}
	places := make([]place, len(s.verts))
	for i, v := range s.verts {
		places[i] = place{uint64(v.X+wideExtent)<<30 | uint64(v.Y+wideExtent), int32(i)}
	}
	slices.SortFunc(places, func(a, b place) int {
		if c := cmp.Compare(a.key, b.key); c != 0 {
			return c
		}
		return cmp.Compare(a.vertex, b.vertex)
	})
	s.order = make([]int32, len(places))
	for i, p := range places {
		s.order[i] = p.vertex
		if i > 0 && p.key == places[i-1].key {
			return s.refuse(Coincidence, places[i-1].vertex, p.vertex, s.verts[p.vertex].Point())
		}
	}
	return nil
}

// pass moves the line over v.
func (s *sweep) pass(v int32) error {
	in, out := s.pred[v], v
	arrives, leaves := before(s.verts[in], s.verts[v]), before(s.verts[v], s.verts[s.succ[v]])
	switch {
	case arrives && leaves:
		return s.goOn(v, in, out)
	case !arrives && !leaves:
		return s.goOn(v, out, in)
	case leaves:
		return s.open(v, in, out)
	default:
		return s.close(v, in, out)
	}
}

// ends returns the left and right end of an edge.
func (s *sweep) ends(edge int32) (l, r Vertex) {
	l, r = s.verts[edge], s.verts[s.succ[edge]]
	if before(r, l) {
		return r, l
	}
	return l, r
}

// goOn hands the slot of the edge that ends at v to the one that starts there.
func (s *sweep) goOn(v, old, next int32) error {
	n := s.slot[old]
	if err := s.between(v, n, n); err != nil {
		return err
	}
	place := &s.status.slots[n]
	place.edge = next
	place.l, place.r = s.ends(next)
	s.slot[next], s.above[next] = n, s.above[old]
	return nil
}

// open starts two edges at v.
func (s *sweep) open(v, in, out int32) error {
	at := s.verts[v]
	below, on := s.status.search(at)
	if on != 0 {
		return s.meet(s.status.slots[on].edge, out)
	}
	s.below[v] = s.status.slots[below].edge
	outside := int8(0)
	if below != 0 {
		outside = s.above[s.below[v]]
	}
	lower, upper, inside := out, in, outside+1 // out runs right, its left side is above
	if orient(s.verts[in], at, s.verts[s.succ[v]]) < 0 {
		lower, upper, inside = in, out, outside-1
	}
	if inside < s.lo || inside > s.hi {
		s.wind(v, lower, inside)
	}
	s.above[lower], s.above[upper] = inside, outside
	for _, e := range [2]int32{lower, upper} {
		l, r := s.ends(e)
		below = s.status.insert(below, e, l, r)
		s.slot[e] = below
	}
	return nil
}

// wind keeps the first wrong winding number. The sweep goes on, because edges
// that cross are the better explanation; later numbers no longer matter.
func (s *sweep) wind(v, edge int32, winding int8) {
	if s.wound != nil {
		return
	}
	s.wound = s.refuse(WrongWinding, edge, max(s.below[v], 0), s.verts[v].Point())
	s.wound.Winding = int(winding)
	if s.below[v] < 0 {
		s.wound.B = [2]Point{}
	}
}

// close ends two edges at v.
func (s *sweep) close(v, in, out int32) error {
	lower, upper := s.slot[in], s.slot[out]
	if s.status.slots[upper].next == lower {
		lower, upper = upper, lower
	}
	if s.status.slots[lower].next != upper {
		return s.split(v, lower, upper)
	}
	if err := s.between(v, lower, upper); err != nil {
		return err
	}
	s.status.remove(lower)
	s.status.remove(upper)
	return nil
}

// between proves that v lies strictly above what is below the lower slot and
// strictly below what is above the upper one, and notes the edge below.
func (s *sweep) between(v, lower, upper int32) error {
	at := s.verts[v]
	if b := s.status.slots[lower].prev; b != 0 && s.status.side(b, at) <= 0 {
		return s.meet(s.status.slots[b].edge, s.status.slots[lower].edge)
	}
	if a := s.status.slots[upper].next; a != 0 && s.status.side(a, at) >= 0 {
		return s.meet(s.status.slots[upper].edge, s.status.slots[a].edge)
	}
	s.below[v] = s.status.slots[s.status.slots[lower].prev].edge
	return nil
}

// split finds two neighbours that meet between the edges that end at v, which
// the status does not show as neighbours. Going up from one of them, v first
// lies on the edge passed and at the other again, so that somewhere it is not
// below the next edge.
func (s *sweep) split(v, one, other int32) error {
	at := s.verts[v]
	for _, from := range [2]int32{one, other} {
		for n := from; ; {
			up := s.status.slots[n].next
			if up == 0 {
				break
			}
			if s.status.side(up, at) >= 0 {
				return s.meet(s.status.slots[n].edge, s.status.slots[up].edge)
			}
			n = up
		}
	}
	panic("geom: edges that end together are apart in the sweep and nothing is between them")
}
