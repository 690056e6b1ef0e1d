package paper

import (
	"cmp"
	"math"
	"slices"

	"pintle/drawing"
	"pintle/geom"
)

// A callout is text at the end of a leader line: the diameter of a hole, a
// radius, a chamfer.
type callout struct {
	label
	note   string     // a second line below the shelf
	to     geom.Point // on paper: where the leader points
	radius float64    // of the circle about to that the arrow ends on; 0 for the place itself
}

// Distances of callouts, in mm on paper (design choice).
const (
	shelfGap  = 12.0 // from the view to the start of a text
	shelfStep = 1.5  // between the heights that are tried
	shelfPart = 20.0 // between two shelves at least
)

func (c callout) width() float64 {
	return max(c.label.width(), Width(c.note, textHeight))
}

// A column is where callouts stand beside a view.
type column struct {
	x      float64 // where shelves start
	side   float64 // 1 to the right, -1 to the left
	lo, hi float64 // heights between which shelves may stand
}

// set places the callouts from the top down, each at the free height nearest to
// what it points at, and returns those for which there was no room.
func (c column) set(b *board, callouts []callout) (left []callout) {
	slices.SortStableFunc(callouts, func(p, q callout) int { return cmp.Compare(q.to.Y, p.to.Y) })
	for _, it := range callouts {
		if !c.place(b, it) {
			left = append(left, it)
		}
	}
	return left
}

func (c column) place(b *board, it callout) bool {
	var heights []float64
	for y := c.lo; y <= c.hi; y += shelfStep {
		heights = append(heights, y)
	}
	slices.SortStableFunc(heights, func(p, q float64) int {
		return int(math.Copysign(1, math.Abs(p-it.to.Y-3)-math.Abs(q-it.to.Y-3)))
	})
	for _, y := range heights {
		if c.try(b, it, y) {
			return true
		}
	}
	return false
}

// try draws the callout with its shelf at height y if text and leader are clear.
func (c column) try(b *board, it callout, y float64) bool {
	knee := geom.Point{X: c.x - 2*c.side, Y: y}
	end := geom.Point{X: c.x + c.side*it.width(), Y: y}
	toward := it.to.Sub(knee)
	if toward.Len() < it.radius+3 {
		return false
	}
	along := toward.Scale(1 / toward.Len())
	tip := it.to.Sub(along.Scale(it.radius))
	middle := c.x + c.side*it.label.width()/2
	sp := spot{middle: geom.Point{X: middle, Y: y + it.raised()}}
	under := drawing.Text{At: geom.Point{X: c.x + c.side*Width(it.note, textHeight)/2, Y: y - gapBelow - 1.05*textHeight}, Text: it.note, Height: textHeight, Anchor: drawing.Middle}
	if !b.clear(knee, end) || !b.clear(tip, knee) || !b.free(it.box(sp)) || it.note != "" && !b.free(boxOf(under)) || c.crosses(b, tip, knee, y) {
		return false
	}
	b.line(drawing.Edge, tip, knee)
	b.line(drawing.Edge, knee, end)
	b.arrow(tip, along)
	it.write(b, sp)
	b.write(under)
	return true
}

// crosses says whether a leader or its shelf comes too near to another shelf, or
// the leader crosses another leader.
func (c column) crosses(b *board, tip, knee geom.Point, y float64) bool {
	for _, s := range b.segs {
		out := (s.A.X-knee.X)*c.side > -1e-9 && (s.B.X-knee.X)*c.side > -1e-9
		if out && s.A.Y == s.B.Y && math.Abs(s.A.Y-y) < shelfPart/2 {
			return true
		}
		reaches := (s.B.X-knee.X)*c.side > -1e-9 && (s.A.X-knee.X)*c.side < 0 // another leader, drawn from its tip
		if reaches && cross(tip, knee, s.A, s.B) {
			return true
		}
	}
	return false
}

// cross says whether two pieces of line cross.
func cross(a, b, c, d geom.Point) bool {
	turn := func(p, q, r geom.Point) float64 {
		return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X)
	}
	return turn(a, b, c)*turn(a, b, d) < 0 && turn(c, d, a)*turn(c, d, b) < 0
}
