package drawing

import (
	"math"
	"slices"

	"pintle/geom"
)

// A Place says where a part stands in a joint: half a turn about x where it is
// flipped, then a turn about z in rad, then the move.
type Place struct {
	X, Y, Z, Turn float64
	Flip          bool
}

// A Body is one thing of an assembly, cut along the joint's x axis and seen
// from its right, in the joint's frame: x to the right, z up.
type Body struct {
	cut, beyond []Stroke
	covers      [][]geom.Point // convex pieces that hide what lies beyond
	Hatched     []Hatched
}

// CutBody returns a part where it is placed. Neighbours are told apart by the
// turn of their hatching in rad and its pitch in mm; 0 for the usual pitch.
func CutBody(part geom.Part, toothed *Toothed, place Place, turn, pitch float64) Body {
	sin, cos := math.Sincos(place.Turn)
	side := 1.0
	if place.Flip {
		side = -1
	}
	c := cutter{along: geom.Point{X: cos, Y: -sin * side}, across: geom.Point{X: sin, Y: cos * side}, depth: -place.Y, toothed: toothed}
	layers := c.layers(part)
	at := func(p geom.Point) geom.Point { return geom.Point{X: p.X + place.X, Y: place.Z + side*p.Y} }
	b := Body{
		cut:    mapped(append(outlines(layers), c.rootLines(layers)...), at),
		beyond: mapped(beyondCut(layers), at), Hatched: hatched(layers, turn),
	}
	for i, h := range b.Hatched {
		b.Hatched[i].Pitch = pitch
		for _, piece := range h.Pieces {
			for k := range piece {
				piece[k] = at(piece[k])
			}
		}
	}
	for _, l := range layers {
		for _, s := range l.bottom.spans {
			b.covers = append(b.covers, box(at(geom.Point{X: s.from, Y: l.z0}), at(geom.Point{X: s.to, Y: l.z1})))
		}
	}
	return b
}

// Bought returns something that is not made here, drawn by its outlines: each a
// closed convex run of corners. Cut ones are hatched, at the turn in rad.
func Bought(cut, whole [][]geom.Point, turn float64) Body {
	b := Body{covers: append(slices.Clone(cut), whole...)}
	for _, run := range b.covers {
		s := Stroke{Kind: Outline, Closed: true}
		for i, p := range run {
			s.Curves = append(s.Curves, geom.Line{A: p, B: run[(i+1)%len(run)]})
		}
		b.cut = append(b.cut, s)
	}
	if len(cut) > 0 {
		b.Hatched = []Hatched{{Pieces: cut, Turn: turn, Pitch: 1.4}}
	}
	return b
}

// With returns the body with more strokes on its cut.
func (b Body) With(strokes ...Stroke) Body {
	b.cut = append(b.cut, strokes...)
	return b
}

// Middle returns a place on the body to point at: in the middle of its largest
// piece.
func (b Body) Middle() geom.Point {
	var at geom.Point
	largest := 0.0
	for _, piece := range b.covers {
		lo, hi := piece[0], piece[0]
		for _, p := range piece {
			lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
			hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
		if size := (hi.X - lo.X) * (hi.Y - lo.Y); size > largest {
			largest, at = size, lo.Add(hi).Scale(0.5)
		}
	}
	return at
}

// AssemblyOf returns the section of all bodies: what lies beyond the cut of one
// is not seen through another. Bodies meet and do not cross; where teeth mesh,
// neither hides the other (ISO 2203).
func AssemblyOf(bodies []Body) View {
	v := View{Facing: Section}
	for i, b := range bodies {
		v.Strokes = append(v.Strokes, b.cut...)
		v.Hatched = append(v.Hatched, b.Hatched...)
		for _, s := range b.beyond {
			line, ok := s.Curves[0].(geom.Line)
			if !ok {
				continue
			}
			for _, piece := range unhidden(line, bodies, i) {
				v.Strokes = append(v.Strokes, Stroke{Kind: s.Kind, Curves: []geom.Curve{piece}})
			}
		}
	}
	return v
}

// unhidden returns what of a line is not behind the covers of other bodies.
func unhidden(line geom.Line, bodies []Body, own int) []geom.Line {
	span := line.B.Sub(line.A)
	length := span.Len()
	along := span.Scale(1 / length)
	across := geom.Point{X: -along.Y, Y: along.X}
	start := dot(line.A, along)
	var hidden [][2]float64
	for i, b := range bodies {
		if i == own {
			continue
		}
		for _, piece := range b.covers {
			if from, to, ok := clip(piece, along, across, dot(line.A, across)); ok {
				hidden = append(hidden, [2]float64{from - start, to - start})
			}
		}
	}
	if len(hidden) == 0 {
		return []geom.Line{line}
	}
	var seen []geom.Line
	at := 0.0
	for _, h := range append(joined(hidden), [2]float64{length, length}) {
		if from, to := max(at, 0), min(h[0], length); to-from > 0.05 {
			seen = append(seen, geom.Line{A: line.A.Add(along.Scale(from)), B: line.A.Add(along.Scale(to))})
		}
		at = max(at, h[1])
	}
	return seen
}

func mapped(strokes []Stroke, at func(geom.Point) geom.Point) []Stroke {
	moved := make([]Stroke, len(strokes))
	for i, s := range strokes {
		moved[i] = Stroke{Kind: s.Kind, Closed: s.Closed}
		for _, c := range s.Curves {
			moved[i].Curves = append(moved[i].Curves, geom.Line{A: at(c.Start()), B: at(c.End())})
		}
	}
	return moved
}

// box returns the rectangle between two corners, anticlockwise.
func box(p, q geom.Point) []geom.Point {
	lo := geom.Point{X: min(p.X, q.X), Y: min(p.Y, q.Y)}
	hi := geom.Point{X: max(p.X, q.X), Y: max(p.Y, q.Y)}
	return []geom.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
}
