package geom

import "fmt"

// What a RegionError can complain about.
const (
	NoOutline    = "no outline"    // no loop at all
	ShortLoop    = "short loop"    // a loop of fewer than three points
	BeyondGrid   = "beyond grid"   // a point too far from the origin
	Spike        = "spike"         // an outline that runs back along itself
	Coincidence  = "coincidence"   // two points in one place
	Touch        = "touch"         // a point on an edge that does not end there
	Crossing     = "crossing"      // two edges that cross
	Overlap      = "overlap"       // two edges that run along each other
	WrongWinding = "wrong winding" // material on the wrong side
	LineContact  = "line contact"  // bodies above and below that meet in a line only
)

// A RegionError says which two edges keep loops from bounding a region, where,
// and why.
type RegionError struct {
	Kind    string   // one of the constants above
	A, B    [2]Point // the edges, mm, from start to end; zero where there is none
	At      Point    // the place, mm
	Winding int      // for WrongWinding: how often the place is covered
}

// Error gives one sentence: what is wrong, the place and the edges.
func (e *RegionError) Error() string {
	text := e.what() + fmt.Sprintf(" at (%.4f, %.4f) mm", e.At.X, e.At.Y)
	if e.A != [2]Point{} {
		text += ": the edge " + edgeText(e.A)
	}
	if e.B != [2]Point{} {
		text += " and the edge " + edgeText(e.B)
	}
	return text
}

func (e *RegionError) what() string {
	switch e.Kind {
	case NoOutline:
		return "a region needs an outline; none is given"
	case ShortLoop:
		return "an outline of fewer than three points encloses nothing"
	case BeyondGrid:
		return fmt.Sprintf("the outline reaches beyond %g mm from the origin", Extent)
	case Spike:
		return "the outline runs back along itself"
	case Coincidence:
		return "two corners fall on one point"
	case Touch:
		return "a corner touches an edge"
	case Crossing:
		return "two edges cross"
	case Overlap:
		return "two edges run along each other"
	case LineContact:
		return "the body above meets the one below in a line only"
	}
	if e.Winding < 0 {
		return "an outline runs clockwise, or a hole lies outside every outline,"
	}
	return "an outline lies inside another, or a hole runs anticlockwise,"
}

func edgeText(e [2]Point) string {
	return fmt.Sprintf("from (%.4f, %.4f) to (%.4f, %.4f)", e[0].X, e[0].Y, e[1].X, e[1].Y)
}

func shortLoop(l Loop) error {
	err := &RegionError{Kind: ShortLoop}
	if len(l) > 0 {
		err.At = l[0].Point()
	}
	return err
}

// refuse names two edges of the sweep.
func (s *sweep) refuse(kind string, a, b int32, at Point) *RegionError {
	edge := func(e int32) [2]Point { return [2]Point{s.verts[e].Point(), s.verts[s.succ[e]].Point()} }
	return &RegionError{Kind: kind, A: edge(a), B: edge(b), At: at}
}

// meet says how and where two edges meet that are known to do so.
func (s *sweep) meet(e, f int32) error {
	a, b := s.verts[e], s.verts[s.succ[e]]
	c, d := s.verts[f], s.verts[s.succ[f]]
	toA, toB := orient(c, d, a), orient(c, d, b)
	toC, toD := orient(a, b, c), orient(a, b, d)
	switch {
	case toC == 0 && toD == 0: // on one line: they share what follows the later start
		at, l := first(a, b), first(c, d)
		if before(at, l) {
			at = l
		}
		return s.refuse(Overlap, e, f, at.Point())
	case toC == 0:
		return s.refuse(Touch, e, f, c.Point())
	case toD == 0:
		return s.refuse(Touch, e, f, d.Point())
	case toA == 0:
		return s.refuse(Touch, e, f, a.Point())
	case toB == 0:
		return s.refuse(Touch, e, f, b.Point())
	}
	t := float64(toA) / float64(toA-toB)
	p, q := a.Point(), b.Point()
	return s.refuse(Crossing, e, f, p.Add(q.Sub(p).Scale(t)))
}

func first(a, b Vertex) Vertex {
	if before(b, a) {
		return b
	}
	return a
}
