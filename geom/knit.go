package geom

import "slices"

// A course is one layer while it is cut: its loops on the grid, with partners
// at the top where it is a loft.
type course struct {
	z0, z1      int32
	bottom, top []Loop // top nil for a prism
	from        []Contour
	fromTop     []Contour
	changed     bool // corners were added
	cut         bool // the loops no longer are those of from

	index [2]*outlineIndex // of bottom and top, made when asked for
}

// An outlineIndex finds the corners and edges of one side of a course.
type outlineIndex struct {
	corners map[Vertex]bool
	tree    *edgeTree
}

const (
	lowerSide = 0
	upperSide = 1
)

// side returns the loops at the bottom or top, their partners if there are any,
// and their index.
func (c *course) side(k int) (loops, partners []Loop, index *outlineIndex) {
	loops, partners = c.bottom, c.top
	if k == upperSide && c.top != nil {
		loops, partners = c.top, c.bottom
	} else {
		k = lowerSide
	}
	if c.index[k] == nil {
		c.index[k] = &outlineIndex{map[Vertex]bool{}, newEdgeTree(loops)}
		for _, l := range loops {
			for _, v := range l {
				c.index[k].corners[v] = true
			}
		}
	}
	return loops, partners, c.index[k]
}

// knit adds corners where the outlines of neighbouring courses run along each
// other, until every corner of one that lies on an edge of the other is a
// corner of both. Snapping puts corners that were cut into an edge beside it by
// less than a step each, so what is within 1.5 steps counts as on it.
func knit(courses []course) {
	settled := make([]bool, len(courses)) // between a course and the one below
	for again := true; again; {
		again = false
		for i := 1; i < len(courses); i++ {
			if settled[i] {
				continue
			}
			lower, upper := &courses[i-1], &courses[i]
			above, _, _ := upper.side(lowerSide)
			below, _, _ := lower.side(upperSide)
			down := lower.addOn(above, upperSide)
			up := upper.addOn(below, lowerSide)
			settled[i] = !down && !up
			if down {
				settled[i-1] = false
			}
			if up && i+1 < len(courses) {
				settled[i+1] = false
			}
			again = again || down || up
		}
	}
}

// addOn adds the corners of others to the course's loops on one side.
func (c *course) addOn(others []Loop, side int) bool {
	loops, partners, index := c.side(side)
	cuts := map[[2]int][]Vertex{} // by loop and edge
	for _, l := range others {
		for _, v := range l {
			if index.corners[v] {
				continue
			}
			if loop, edge, ok := index.tree.edgeUnder(v); ok {
				cuts[[2]int{loop, edge}] = append(cuts[[2]int{loop, edge}], v)
			}
		}
	}
	if len(cuts) == 0 {
		return false
	}
	for i := range loops {
		for k := len(loops[i]) - 1; k >= 0; k-- {
			if corners := cuts[[2]int{i, k}]; corners != nil {
				insert(loops, partners, i, k, corners)
			}
		}
	}
	c.changed, c.index = true, [2]*outlineIndex{}
	return true
}

// insert puts corners into an edge of a loop, in order, and their partners moved
// from them as the edge's ends are.
func insert(loops, partners []Loop, i, k int, corners []Vertex) {
	a, b := loops[i][k], loops[i][(k+1)%len(loops[i])]
	d := b.Point().Sub(a.Point())
	share := func(v Vertex) float64 {
		p := v.Point().Sub(a.Point())
		return (p.X*d.X + p.Y*d.Y) / (d.X*d.X + d.Y*d.Y)
	}
	slices.SortFunc(corners, func(u, v Vertex) int {
		if share(u) < share(v) {
			return -1
		}
		return 1
	})
	corners = slices.Compact(corners)
	if partners != nil {
		pa, pb := partners[i][k].Point(), partners[i][(k+1)%len(partners[i])].Point()
		var added []Vertex
		for _, v := range corners {
			// The corner lies beside its edge by up to a step, and so does its partner:
			// where the wall is upright it stays upright.
			moved := pa.Sub(a.Point()).Scale(1 - share(v)).Add(pb.Sub(b.Point()).Scale(share(v)))
			added = append(added, Snap(v.Point().Add(moved)))
		}
		partners[i] = slices.Insert(slices.Clone(partners[i]), k+1, added...)
	}
	loops[i] = slices.Insert(slices.Clone(loops[i]), k+1, corners...)
}

// edgeUnder returns the loop and the edge that a point lies on, within 1.5 grid
// steps and strictly between the ends.
func (t *edgeTree) edgeUnder(v Vertex) (loop, edge int, ok bool) {
	const near = 1.5 / PerMM
	p := v.Point()
	best := near * near
	var visit func(n int32)
	visit = func(n int32) {
		b := &t.branches[n]
		if b.gap2(edgeBox{p, p}) > best {
			return
		}
		if b.left != 0 {
			visit(b.left)
			visit(b.right)
			return
		}
		for _, e := range t.edges[b.from:b.to] {
			f := foot(p, e.a, e.b)
			d := p.Sub(f)
			if f != e.a && f != e.b && d.X*d.X+d.Y*d.Y <= best {
				best, loop, edge, ok = d.X*d.X+d.Y*d.Y, int(e.loop), int(e.edge), true
			}
		}
	}
	visit(0)
	return loop, edge, ok
}
