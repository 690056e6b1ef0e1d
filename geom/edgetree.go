package geom

import (
	"cmp"
	"slices"
)

// An edgeBox is a box round edges, in mm.
type edgeBox struct{ lo, hi Point }

func (b edgeBox) join(c edgeBox) edgeBox {
	return edgeBox{
		Point{min(b.lo.X, c.lo.X), min(b.lo.Y, c.lo.Y)},
		Point{max(b.hi.X, c.hi.X), max(b.hi.Y, c.hi.Y)},
	}
}

// gap2 returns the squared distance of two boxes.
func (b edgeBox) gap2(c edgeBox) float64 {
	x := max(b.lo.X-c.hi.X, c.lo.X-b.hi.X, 0)
	y := max(b.lo.Y-c.hi.Y, c.lo.Y-b.hi.Y, 0)
	return x*x + y*y
}

func (b edgeBox) size() float64 { return b.hi.X - b.lo.X + b.hi.Y - b.lo.Y }

// An edgeTree holds the edges of loops in a tree of boxes. Loops that are
// neighbours in the plane are neighbours in the list, and edges of a loop keep
// their order; the list is halved again and again.
type edgeTree struct {
	edges    []loopEdge
	branches []edgeBranch
}

// A loopEdge is an edge, with its loop and its number in that.
type loopEdge struct {
	a, b       Point
	loop, edge int32
}

type edgeBranch struct {
	edgeBox
	from, to    int32 // in edges
	left, right int32 // branches, or 0 for a leaf
	loop        int32 // the loop of all edges, or -1
}

const edgeLeaf = 4

func newEdgeTree(loops []Loop) *edgeTree {
	t := &edgeTree{}
	for _, i := range alongCurve(loops) {
		l := loops[i]
		for k := range l {
			t.edges = append(t.edges, loopEdge{l[k].Point(), l[(k+1)%len(l)].Point(), int32(i), int32(k)})
		}
	}
	if len(t.edges) > 0 {
		t.grow(0, int32(len(t.edges)))
	}
	return t
}

// alongCurve sorts loops by their middles along a curve that keeps neighbours
// together (Morton order of 16 bits each).
func alongCurve(loops []Loop) []int {
	keys, order := make([]uint64, len(loops)), make([]int, len(loops))
	for i, l := range loops {
		lo, hi := l[0], l[0]
		for _, v := range l {
			lo, hi = Vertex{min(lo.X, v.X), min(lo.Y, v.Y)}, Vertex{max(hi.X, v.X), max(hi.Y, v.Y)}
		}
		x, y := (lo.X/2+hi.X/2+gridExtent)>>8, (lo.Y/2+hi.Y/2+gridExtent)>>8
		for bit := range 16 {
			keys[i] |= uint64(x)>>bit&1<<(2*bit) | uint64(y)>>bit&1<<(2*bit+1)
		}
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(keys[i], keys[j]), cmp.Compare(i, j))
	})
	return order
}

func (t *edgeTree) grow(from, to int32) int32 {
	n := int32(len(t.branches))
	first := t.edges[from]
	t.branches = append(t.branches, edgeBranch{from: from, to: to, loop: first.loop, edgeBox: edgeBox{first.a, first.a}})
	if to-from <= edgeLeaf {
		b := &t.branches[n]
		for _, e := range t.edges[from:to] {
			b.edgeBox = b.join(edgeBox{e.a, e.a}).join(edgeBox{e.b, e.b})
			if e.loop != b.loop {
				b.loop = -1
			}
		}
		return n
	}
	middle := from + (to-from)/2
	left, right := t.grow(from, middle), t.grow(middle, to)
	b, l, r := &t.branches[n], &t.branches[left], &t.branches[right]
	b.left, b.right, b.edgeBox = left, right, l.join(r.edgeBox)
	if l.loop != r.loop {
		b.loop = -1
	} else {
		b.loop = l.loop
	}
	return n
}

// meets tells whether a box comes upon that of the whole tree.
func (t *edgeTree) meets(b edgeBox) bool { return t.branches[0].gap2(b) == 0 }

// winding counts how often the outlines go round p, by the edges to its right.
func (t *edgeTree) winding(n int32, p Point) int {
	b := &t.branches[n]
	if p.Y < b.lo.Y || p.Y > b.hi.Y || p.X > b.hi.X {
		return 0
	}
	if b.left != 0 {
		return t.winding(b.left, p) + t.winding(b.right, p)
	}
	winding := 0
	for _, e := range t.edges[b.from:b.to] {
		up := e.b.Y > p.Y
		if up == (e.a.Y > p.Y) {
			continue
		}
		side := (e.b.X-e.a.X)*(p.Y-e.a.Y) - (e.b.Y-e.a.Y)*(p.X-e.a.X)
		switch {
		case up && side > 0:
			winding++
		case !up && side < 0:
			winding--
		}
	}
	return winding
}
