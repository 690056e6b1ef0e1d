package paper

import (
	"math"

	"pintle/drawing"
	"pintle/geom"
)

// A board is a piece of a sheet in the making, in mm on paper: what is drawn on
// it, and what text must keep clear of.
type board struct {
	strokes []drawing.Stroke
	texts   []drawing.Text
	boxes   []quad
	segs    []geom.Line
	check   geom.Line // the line to measure on the print, if it is on this board
}

// line draws a straight line that texts keep clear of.
func (b *board) line(kind drawing.LineKind, p, q geom.Point) {
	l := geom.Line{A: p, B: q}
	b.strokes = append(b.strokes, drawing.Stroke{Kind: kind, Curves: []geom.Curve{l}})
	b.segs = append(b.segs, l)
}

// draw adds a stroke of a view, moved to paper.
func (b *board) draw(s drawing.Stroke) {
	b.strokes = append(b.strokes, s)
	for _, c := range s.Curves {
		b.segs = append(b.segs, chords(c)...)
	}
}

// chords returns a curve as straight pieces of about a millimetre.
func chords(c geom.Curve) []geom.Line {
	line, ok := c.(geom.Line)
	if ok {
		return []geom.Line{line}
	}
	points := geom.NewContour([]geom.Curve{c}, 0.05).Points
	var pieces []geom.Line
	last := c.Start()
	for _, p := range points {
		pieces = append(pieces, geom.Line{A: last, B: p})
		last = p
	}
	return pieces
}

// write sets a text without asking.
func (b *board) write(t drawing.Text) {
	if t.Text == "" {
		return
	}
	b.texts = append(b.texts, t)
	b.boxes = append(b.boxes, boxOf(t))
}

// free says whether a box meets no text and no line.
func (b *board) free(q quad) bool {
	lo, hi := q.bounds()
	for _, o := range b.boxes {
		if meets(q[:], o[:]) {
			return false
		}
	}
	for _, s := range b.segs {
		if max(s.A.X, s.B.X) < lo.X || min(s.A.X, s.B.X) > hi.X || max(s.A.Y, s.B.Y) < lo.Y || min(s.A.Y, s.B.Y) > hi.Y {
			continue
		}
		if meets(q[:], []geom.Point{s.A, s.B}) {
			return false
		}
	}
	return true
}

// clear says whether a line meets no text.
func (b *board) clear(p, q geom.Point) bool {
	for _, o := range b.boxes {
		if meets(o[:], []geom.Point{p, q}) {
			return false
		}
	}
	return true
}

// put copies another board onto this one, moved.
func (b *board) put(o *board, by geom.Point) {
	move := geom.Motion{Shift: by}
	if o.check != (geom.Line{}) {
		b.check = geom.Line{A: o.check.A.Add(by), B: o.check.B.Add(by)}
	}
	for _, s := range o.strokes {
		b.strokes = append(b.strokes, moved(s, 1, move))
	}
	for _, t := range o.texts {
		t.At = t.At.Add(by)
		b.texts = append(b.texts, t)
	}
	for _, q := range o.boxes {
		for i := range q {
			q[i] = q[i].Add(by)
		}
		b.boxes = append(b.boxes, q)
	}
	for _, s := range o.segs {
		b.segs = append(b.segs, geom.Line{A: s.A.Add(by), B: s.B.Add(by)})
	}
}

// bounds returns the box around everything on the board.
func (b *board) bounds() (lo, hi geom.Point) {
	lo, hi = geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	take := func(p geom.Point) {
		lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	for _, s := range b.segs {
		take(s.A)
		take(s.B)
	}
	for _, q := range b.boxes {
		for _, p := range q {
			take(p)
		}
	}
	if lo.X > hi.X {
		return geom.Point{}, geom.Point{}
	}
	return lo, hi
}

// moved returns a stroke scaled about the origin and then moved.
func moved(s drawing.Stroke, scale float64, m geom.Motion) drawing.Stroke {
	curves := make([]geom.Curve, len(s.Curves))
	at := func(p geom.Point) geom.Point { return p.Scale(scale).Rotate(m.Turn).Add(m.Shift) }
	for i, c := range s.Curves {
		switch c := c.(type) {
		case geom.Arc:
			curves[i] = geom.Arc{Centre: at(c.Centre), Radius: c.Radius * scale, From: c.From + m.Turn, To: c.To + m.Turn}
		case geom.Cubic:
			for k := range c {
				c[k] = at(c[k])
			}
			curves[i] = c
		default:
			curves[i] = geom.Line{A: at(c.Start()), B: at(c.End())}
		}
	}
	s.Curves = curves
	return s
}
