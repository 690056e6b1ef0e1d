package paper

import (
	"math"

	"pintle/drawing"
	"pintle/geom"
)

// A label is the figure of a dimension; one to be checked on the part stands in
// a frame with round ends (inspection dimension of ISO 129-1, from memory).
type label struct {
	text    string
	checked bool
}

// ends is the room in mm that a frame takes before and after its text.
const ends = 1.2

func (l label) width() float64 {
	w := Width(l.text, textHeight)
	if l.checked {
		w += 2 * ends
	}
	return w
}

// reach returns how far the label goes below its base line and above it, in mm.
func (l label) reach() (below, above float64) {
	if l.checked {
		return (tail + 0.2) * textHeight, (1 + accent + 0.2) * textHeight
	}
	return tail * textHeight, (1 + accent) * textHeight
}

// raised returns how far the base line stands over a line below the label.
func (l label) raised() float64 {
	below, _ := l.reach()
	return gapBelow + below
}

// lowered returns how far the base line stands under a line above the label.
func (l label) lowered() float64 {
	_, above := l.reach()
	return gapBelow + above
}

// A spot is where a label may stand: the middle of its base line.
type spot struct {
	middle geom.Point
	turn   float64
}

func (l label) at(s spot) drawing.Text {
	return drawing.Text{At: s.middle, Text: l.text, Height: textHeight, Anchor: drawing.Middle, Turn: s.turn}
}

// box returns the room that the label takes at a spot.
func (l label) box(s spot) quad {
	half := l.width() / 2
	below, hi := l.reach()
	lo := -below
	q := quad{{X: -half, Y: lo}, {X: half, Y: lo}, {X: half, Y: hi}, {X: -half, Y: hi}}
	for i := range q {
		q[i] = q[i].Rotate(s.turn).Add(s.middle)
	}
	return q
}

// write sets the label, with its frame, at a spot that was found free.
func (l label) write(b *board, s spot) {
	b.texts = append(b.texts, l.at(s))
	b.boxes = append(b.boxes, l.box(s))
	if !l.checked {
		return
	}
	below, above := l.reach()
	const inside = 0.1 // of the label's own box
	lo, hi := inside-below, above-inside
	r := (hi - lo) / 2
	half := l.width()/2 - r
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y}.Rotate(s.turn).Add(s.middle) }
	frame := drawing.Stroke{Kind: drawing.Edge, Closed: true, Curves: []geom.Curve{
		geom.Line{A: at(-half, lo), B: at(half, lo)},
		geom.Arc{Centre: at(half, (lo+hi)/2), Radius: r, From: s.turn - math.Pi/2, To: s.turn + math.Pi/2},
		geom.Line{A: at(half, hi), B: at(-half, hi)},
		geom.Arc{Centre: at(-half, (lo+hi)/2), Radius: r, From: s.turn + math.Pi/2, To: s.turn + 3*math.Pi/2},
	}}
	b.strokes = append(b.strokes, frame) // inside the label's own box
}

// Arrowheads: filled, 15 degrees to either side or less (ISO 129-1, from memory).
const (
	arrowLength = 2.5 // mm
	arrowHalf   = 0.42
)

// arrow draws a head whose tip is at p, pointing along the unit vector.
func (b *board) arrow(p, along geom.Point) {
	back := p.Sub(along.Scale(arrowLength))
	side := geom.Point{X: -along.Y, Y: along.X}.Scale(arrowHalf)
	q, r := back.Add(side), back.Sub(side)
	b.strokes = append(b.strokes, drawing.Stroke{Kind: drawing.Solid, Closed: true, Curves: []geom.Curve{
		geom.Line{A: p, B: q}, geom.Line{A: q, B: r}, geom.Line{A: r, B: p},
	}})
	b.segs = append(b.segs, geom.Line{A: q, B: r})
}
