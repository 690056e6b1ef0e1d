package paper

import (
	"cmp"
	"math"
	"slices"

	"pintle/drawing"
	"pintle/geom"
)

// Distances of dimension lines, in mm on paper (ISO 129-1 leaves them to the
// draughtsman; from memory).
const (
	firstLevel = 9.0 // from the outline to the first dimension line
	nextLevel  = 7.0 // between dimension lines
	gapBelow   = 0.8 // from a dimension line to the text's base line
	offOutline = 1.0 // from the outline to an extension line
	beyondLine = 2.0 // of an extension line past the dimension line: 8 line widths
	outside    = 4.5 // length of a dimension line outside short extension lines
)

// A stack is the dimensions on one side of a view, nearest the shortest. Its
// frame has u along the dimension lines and v away from the view.
type stack struct {
	u, v   geom.Point // unit vectors
	edge   float64    // v of the view's outline
	lo, hi float64    // u of everything that reaches out on this side
	turn   float64    // of the texts
	far    []float64  // u directions, -1 or 1, in which texts may stand far out
	levels int        // as many are tried before a dimension is listed instead
}

// An item is one dimension in a stack's frame: from a to b along u, with the v of
// its two places.
type item struct {
	label               // with the note
	figure, under label // without it; the note, which stands below the line where the two together are too long
	a, b          float64
	va, vb        float64
}

// A place is where the text of a dimension may stand.
type place struct {
	u     float64 // of its middle
	split bool    // figure above the line, note below
}

func (s stack) point(u, v float64) geom.Point { return s.u.Scale(u).Add(s.v.Scale(v)) }

// item turns a dimension, already on paper, into the stack's frame.
func (s stack) item(d drawing.Dimension, p, q geom.Point) item {
	a, b := dot(p, s.u), dot(q, s.u)
	va, vb := dot(p, s.v), dot(q, s.v)
	if a > b {
		a, b, va, vb = b, a, vb, va
	}
	whole, under := label{d.Text(), d.Checked}, label{text: d.Note}
	d.Note = ""
	return item{whole, label{d.Text(), d.Checked}, under, a, b, va, vb}
}

func dot(a, b geom.Point) float64 { return a.X*b.X + a.Y*b.Y }

// rounds is how often a stack is tried, each time with those first for which
// there was no room before.
const rounds = 4

// set places the items, short ones next to the view, and returns those for which
// there was no room.
func (s stack) set(b *board, items []item) (left []item) {
	slices.SortStableFunc(items, func(p, q item) int { return cmp.Compare(p.b-p.a, q.b-q.a) })
	for _, it := range items {
		s.lo, s.hi = min(s.lo, it.a), max(s.hi, it.b)
	}
	before := *b // boards only grow: this is what stood on it
	order := items
	for range rounds {
		*b = before
		left = nil
		var placed []item
		for _, it := range order {
			if s.place(b, it) {
				placed = append(placed, it)
			} else {
				left = append(left, it)
			}
		}
		if len(left) == 0 {
			break
		}
		order = append(slices.Clone(left), placed...)
	}
	return left
}

// place tries one level after the other.
func (s stack) place(b *board, it item) bool {
	for level := range s.levels {
		v := s.edge + firstLevel + nextLevel*float64(level)
		for _, at := range s.candidates(it) {
			if s.try(b, it, at, v) {
				return true
			}
		}
	}
	return false
}

// candidates returns where the text may stand: between the extension lines; one
// with a note that is too long for that just beyond them, the note below the
// line; or beyond all of the stack.
func (s stack) candidates(it item) []place {
	var at []place
	if it.b-it.a > it.width()+1 {
		at = append(at, place{u: (it.a + it.b) / 2})
	}
	split := it.under.text != ""
	half := it.width() / 2
	if split {
		half = it.splitWidth() / 2
		for _, side := range s.far {
			if side < 0 {
				at = append(at, place{it.a - outside - half, split})
			} else {
				at = append(at, place{it.b + outside + half, split})
			}
		}
	}
	for _, side := range s.far {
		if side < 0 {
			at = append(at, place{s.lo - outside - 1 - half, split})
		} else {
			at = append(at, place{s.hi + outside + 1 + half, split})
		}
	}
	return at
}

func (it item) splitWidth() float64 { return max(it.figure.width(), it.under.width()) }

// try draws the dimension if text and lines are clear.
func (s stack) try(b *board, it item, at place, v float64) bool {
	from, to := it.a, it.b
	short := it.b-it.a < 2*arrowLength+1
	if short {
		from, to = from-outside, to+outside
	}
	text, half := it.label, it.width()/2
	if at.split {
		text, half = it.figure, it.splitWidth()/2
	}
	from, to = min(from, at.u-half), max(to, at.u+half)
	p, q := s.point(from, v), s.point(to, v)
	ext := [2][2]geom.Point{s.extension(it.a, it.va, v), s.extension(it.b, it.vb, v)}
	sp, below := s.spot(at.u, v, text.raised()), s.spot(at.u, v, -it.under.lowered())
	if !b.clear(p, q) || !b.clear(ext[0][0], ext[0][1]) || !b.clear(ext[1][0], ext[1][1]) || !b.free(text.box(sp)) ||
		at.split && !b.free(it.under.box(below)) || s.onLine(b, p, q) {
		return false
	}
	b.line(drawing.Edge, p, q)
	b.line(drawing.Edge, ext[0][0], ext[0][1])
	b.line(drawing.Edge, ext[1][0], ext[1][1])
	out := 1.0
	if short {
		out = -1
	}
	b.arrow(s.point(it.a, v), s.u.Scale(-out))
	b.arrow(s.point(it.b, v), s.u.Scale(out))
	text.write(b, sp)
	if at.split {
		it.under.write(b, below)
	}
	return true
}

// spot returns where a text stands whose base line is raised over a dimension
// line.
func (s stack) spot(u, v, raised float64) spot {
	return spot{middle: s.point(u, v).Add(geom.Point{Y: raised}.Rotate(s.turn)), turn: s.turn}
}

func (s stack) extension(u, from, v float64) [2]geom.Point {
	return [2]geom.Point{s.point(u, from+offOutline), s.point(u, v+beyondLine)}
}

// onLine says whether a dimension line would run along another, too near.
func (s stack) onLine(b *board, p, q geom.Point) bool {
	const apart = 4.0
	pu, qu, v := dot(p, s.u), dot(q, s.u), dot(p, s.v)
	for _, l := range b.segs {
		if math.Abs(dot(l.A, s.v)-dot(l.B, s.v)) > 0.01 || math.Abs(dot(l.A, s.v)-v) > apart {
			continue
		}
		if max(dot(l.A, s.u), dot(l.B, s.u)) > min(pu, qu)-1 && min(dot(l.A, s.u), dot(l.B, s.u)) < max(pu, qu)+1 {
			return true
		}
	}
	return false
}
