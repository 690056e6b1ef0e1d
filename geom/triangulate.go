package geom

import (
	"cmp"
	"slices"
)

// Triangles cuts the region into triangles over its own vertices: V + 2H - 2C
// of them for V vertices, H holes and C outer loops, each anticlockwise and of
// an area above zero. The indices count the vertices of all loops in order.
//
// The region is first cut into faces that every vertical line crosses once at
// most, then each face into triangles; see de Berg, Cheong, van Kreveld and
// Overmars, "Computational Geometry", 3rd ed., sections 3.2 and 3.3 (from
// memory). The edge below each vertex is known from the proof of the region.
func (r Region) Triangles() [][3]int32 {
	if len(r.verts) == 0 {
		return nil
	}
	holes := r.Holes()
	t := triangulation{Region: r, triangles: make([][3]int32, 0, len(r.verts)+2*holes-2*(len(r.loops)-holes))}
	t.succ, t.pred = links(r.loops, len(r.verts))
	t.cut()
	t.sortDiagonals()
	t.walk()
	return t.triangles
}

type triangulation struct {
	Region
	succ, pred []int32
	diagonals  []diagonal // each twice, once from either end
	twin       []int32    // by sorted diagonal: the same from its other end
	last       []int32    // by vertex: its last diagonal, or -1
	used       []bool     // by half edge: edges, then diagonals
	stack      []int32
	triangles  [][3]int32
}

// A diagonal runs from one vertex to another. Diagonals 2k and 2k+1 are twins.
type diagonal struct{ from, to, id int32 }

// cut finds the diagonals. The helper of an edge with the region above it is
// the last vertex seen between it and the next edge up; one where two pieces
// merge waits, as its complement, for a diagonal to the right.
func (t *triangulation) cut() {
	helper := make([]int32, len(t.verts))
	join := func(edge, v int32) {
		if h := helper[edge]; h < 0 {
			t.draw(v, ^h)
		}
	}
	for _, v := range t.order {
		in, out := t.pred[v], v
		a, b, c := t.verts[in], t.verts[v], t.verts[t.succ[v]]
		arrives, leaves := before(a, b), before(b, c)
		switch {
		case arrives && leaves: // the region lies above
			join(in, v)
			helper[out] = v
		case !arrives && !leaves: // the region lies below
			join(t.below[v], v)
			helper[t.below[v]] = v
		case leaves: // a piece starts, or splits in two
			helper[out] = v
			if orient(a, b, c) < 0 {
				h := helper[t.below[v]]
				t.draw(v, max(h, ^h))
				helper[t.below[v]] = v
			}
		default: // a piece ends, or two merge
			join(in, v)
			if orient(a, b, c) < 0 {
				join(t.below[v], v)
				helper[t.below[v]] = ^v
			}
		}
	}
}

func (t *triangulation) draw(a, b int32) {
	n := int32(len(t.diagonals))
	t.diagonals = append(t.diagonals, diagonal{a, b, n}, diagonal{b, a, n + 1})
}

// sortDiagonals groups the diagonals by vertex, anticlockwise from the edge
// that leaves it.
func (t *triangulation) sortDiagonals() {
	slices.SortFunc(t.diagonals, func(d, e diagonal) int {
		if c := cmp.Compare(d.from, e.from); c != 0 {
			return c
		}
		return t.turn(d.from, d.to, e.to)
	})
	place := make([]int32, len(t.diagonals))
	t.last = make([]int32, len(t.verts))
	for v := range t.last {
		t.last[v] = -1
	}
	for i, d := range t.diagonals {
		place[d.id] = int32(i)
		t.last[d.from] = int32(i)
	}
	t.twin = make([]int32, len(t.diagonals))
	for i, d := range t.diagonals {
		t.twin[i] = place[d.id^1]
	}
}

// turn compares the directions from v to a and b by their angle from the edge
// that leaves v, exactly.
func (t *triangulation) turn(v, a, b int32) int {
	at, base := t.verts[v], t.verts[t.succ[v]]
	p, q := t.verts[a], t.verts[b]
	// No diagonal runs along the edge, so on its line means half a turn from it.
	beyondP, beyondQ := orient(at, base, p) < 0, orient(at, base, q) < 0
	switch {
	case beyondP && !beyondQ:
		return 1
	case !beyondP && beyondQ:
		return -1
	}
	return cmp.Compare(0, orient(at, p, q))
}

// walk goes once round each face, its inside on the left.
func (t *triangulation) walk() {
	n := int32(len(t.verts))
	t.used = make([]bool, int(n)+len(t.diagonals))
	var face []int32
	for start := range t.used {
		if t.used[start] {
			continue
		}
		face = face[:0]
		for h := int32(start); !t.used[h]; {
			t.used[h] = true
			if h < n {
				face = append(face, h)
				h = t.turnLeft(t.succ[h], t.last[t.succ[h]])
				continue
			}
			d := t.diagonals[h-n]
			face = append(face, d.from)
			h = t.turnLeft(d.to, t.twin[h-n]-1)
		}
		t.fill(face)
	}
}

// turnLeft returns the half edge that leaves v: diagonal d if it is one of v's,
// otherwise the edge.
func (t *triangulation) turnLeft(v, d int32) int32 {
	if d >= 0 && t.diagonals[d].from == v {
		return int32(len(t.verts)) + d
	}
	return v
}

// fill cuts a face into triangles. Its vertices run anticlockwise, so that its
// lower side runs to the right. The stack holds a run of one side that bends
// inwards or is straight; so no triangle to a vertex of the other side is flat.
func (t *triangulation) fill(face []int32) {
	n := len(face)
	if n == 3 {
		t.triangles = append(t.triangles, [3]int32{face[0], face[1], face[2]})
		return
	}
	start := 0
	for i, v := range face {
		if before(t.verts[v], t.verts[face[start]]) {
			start = i
		}
	}
	t.stack = append(t.stack[:0], face[start])
	low, high := (start+1)%n, (start+n-1)%n
	wasLower := before(t.verts[face[low]], t.verts[face[high]])
	for low != high {
		lower := before(t.verts[face[low]], t.verts[face[high]])
		v := face[high]
		if lower {
			v, low = face[low], (low+1)%n
		} else {
			high = (high + n - 1) % n
		}
		if lower == wasLower {
			t.sameSide(v, lower)
		} else {
			t.otherSide(v, lower)
		}
		wasLower = lower
	}
	t.otherSide(face[low], !wasLower)
}

// sameSide cuts off the corners at the top of the stack that bend outwards.
func (t *triangulation) sameSide(v int32, lower bool) {
	for n := len(t.stack); n > 1; n-- {
		a, b := t.stack[n-2], t.stack[n-1]
		if !lower {
			a, b = b, a
		}
		if !t.add(a, b, v) {
			break
		}
		t.stack = t.stack[:n-1]
	}
	t.stack = append(t.stack, v)
}

// otherSide joins v to all of the stack.
func (t *triangulation) otherSide(v int32, lower bool) {
	top := t.stack[len(t.stack)-1]
	for i := 1; i < len(t.stack); i++ {
		a, b := t.stack[i-1], t.stack[i]
		if lower {
			a, b = b, a
		}
		if !t.add(a, b, v) {
			panic("geom: a flat triangle in a face between two sides")
		}
	}
	t.stack = append(t.stack[:0], top, v)
}

// add keeps a triangle if it is anticlockwise.
func (t *triangulation) add(a, b, c int32) bool {
	if orient(t.verts[a], t.verts[b], t.verts[c]) <= 0 {
		return false
	}
	t.triangles = append(t.triangles, [3]int32{a, b, c})
	return true
}
