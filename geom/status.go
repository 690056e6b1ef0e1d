package geom

// A status holds the edges that the sweep line crosses, from the lowest up: a
// treap for the search, threaded by a list for the neighbours. Slot 0 is the
// empty tree and both ends of the list. Priorities come from a fixed seed, so
// that every run takes the same steps.
type status struct {
	slots []slot
	root  int32
	free  int32 // first of the slots given back, linked by next
	seed  uint32
}

// A slot is one place in the order. Along a run of edges that goes on to the
// right, the same slot passes from edge to edge.
type slot struct {
	l, r            Vertex // left and right end of the edge
	edge            int32  // -1 in slot 0
	prev, next      int32  // neighbours below and above
	left, right, up int32  // the treap
	priority        uint32
}

func newStatus() status {
	return status{slots: []slot{{edge: -1}}, seed: 2463534242}
}

// side returns on which side of a slot's edge v lies: positive above it. Every
// point is strictly above and below slot 0.
func (s *status) side(n int32, v Vertex) int64 { return orient(s.slots[n].l, s.slots[n].r, v) }

// search returns the slot directly below v, or 0, and a slot whose edge v lies
// on, or 0. The search passes both neighbours of v's place, so both are proved
// to lie strictly on their sides.
func (s *status) search(v Vertex) (below, on int32) {
	for n := s.root; n != 0; {
		switch o := s.side(n, v); {
		case o > 0:
			below, n = n, s.slots[n].right
		case o < 0:
			n = s.slots[n].left
		default:
			return below, n
		}
	}
	return below, 0
}

// insert puts an edge directly above the slot below, or lowest of all above 0.
func (s *status) insert(below, edge int32, l, r Vertex) int32 {
	n := s.free
	if n == 0 {
		n = int32(len(s.slots))
		s.slots = append(s.slots, slot{})
	} else {
		s.free = s.slots[n].next
	}
	above := s.slots[below].next
	s.slots[n] = slot{l: l, r: r, edge: edge, prev: below, next: above, priority: s.random()}
	s.slots[below].next, s.slots[above].prev = n, n
	switch {
	case below != 0 && s.slots[below].right == 0:
		s.slots[below].right, s.slots[n].up = n, below
	case above != 0:
		s.slots[above].left, s.slots[n].up = n, above
	default:
		s.root = n
	}
	for up := s.slots[n].up; up != 0 && s.slots[up].priority < s.slots[n].priority; up = s.slots[n].up {
		s.rotate(n)
	}
	return n
}

// remove gives a slot back.
func (s *status) remove(n int32) {
	for {
		left, right := s.slots[n].left, s.slots[n].right
		if left == 0 || right == 0 {
			break
		}
		if s.slots[left].priority > s.slots[right].priority {
			s.rotate(left)
		} else {
			s.rotate(right)
		}
	}
	gone := s.slots[n]
	s.replaceChild(gone.up, n, max(gone.left, gone.right))
	s.slots[gone.prev].next, s.slots[gone.next].prev = gone.next, gone.prev
	s.slots[n].next, s.free = s.free, n
}

// rotate lifts n above its parent and keeps the order.
func (s *status) rotate(n int32) {
	p := s.slots[n].up
	s.replaceChild(s.slots[p].up, p, n)
	var moved int32
	if s.slots[p].left == n {
		moved = s.slots[n].right
		s.slots[p].left, s.slots[n].right = moved, p
	} else {
		moved = s.slots[n].left
		s.slots[p].right, s.slots[n].left = moved, p
	}
	s.slots[p].up = n
	if moved != 0 {
		s.slots[moved].up = p
	}
}

func (s *status) replaceChild(up, old, child int32) {
	switch {
	case up == 0:
		s.root = child
	case s.slots[up].left == old:
		s.slots[up].left = child
	default:
		s.slots[up].right = child
	}
	if child != 0 {
		s.slots[child].up = up
	}
}

// random is Marsaglia's 32-bit xorshift ("Xorshift RNGs", J. Stat. Softw. 8(14), 2003).
func (s *status) random() uint32 {
	s.seed ^= s.seed << 13
	s.seed ^= s.seed >> 17
	s.seed ^= s.seed << 5
	return s.seed
}
