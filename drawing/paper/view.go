package paper

import (
	"math"
	"slices"

	"pintle/drawing"
	"pintle/geom"
)

// hatchPitch is the distance of hatching lines in mm, less in thin sections
// (ISO 128-50 asks for one that suits the size; design choice).
const (
	hatchPitch     = 2.5
	thinHatchPitch = 1.4
	thinSection    = 8.0
)

// A viewSetter lays out one view at a scale about its origin.
type viewSetter struct {
	board
	view    drawing.View
	scale   float64
	levels  int
	lo, hi  geom.Point      // of the outlines, on paper
	listed  []string        // dimensions without room
	letters [][3]geom.Point // of the cut: the tail of the arrow, the direction of sight, outwards
}

// setView draws a view with everything that belongs to it, its dimension lines
// in as many levels at most. Dimensions that find no room come back in words.
func setView(v drawing.View, scale float64, levels int) (*board, []string) {
	s := &viewSetter{view: v, scale: scale, levels: levels}
	s.outline()
	s.hatch()
	s.cutMarks()
	s.dimension()
	s.lettersOfCut()
	s.balloons()
	s.title()
	return &s.board, s.listed
}

func (s *viewSetter) outline() {
	var solid drawing.View
	for _, stroke := range s.view.Strokes {
		m := moved(stroke, s.scale, geom.Motion{})
		s.draw(m)
		if stroke.Kind != drawing.Centre {
			solid.Strokes = append(solid.Strokes, m)
		}
	}
	s.lo, s.hi = solid.Bounds()
}

func (s *viewSetter) hatch() {
	for _, h := range s.view.Hatched {
		pitch := h.Pitch
		if pitch == 0 {
			pitch = hatchPitch
			if s.hi.Y-s.lo.Y < thinSection {
				pitch = thinHatchPitch
			}
		}
		for _, l := range h.Lines(pitch / s.scale) {
			s.line(drawing.Edge, l.A.Scale(s.scale), l.B.Scale(s.scale))
		}
	}
}

// Marks of the cutting plane, in mm on paper.
const (
	cutGap, cutEnd, cutArrow = 2.0, 8.0, 8.0
)

// cutMarks draws the ends of the cutting plane wide, with arrows in the
// direction of sight and the letter A (ISO 128-40, from memory).
func (s *viewSetter) cutMarks() {
	if s.view.Cut == nil {
		return
	}
	from, to := s.view.Cut.From.Scale(s.scale), s.view.Cut.To.Scale(s.scale)
	u := to.Sub(from)
	u = u.Scale(1 / u.Len())
	sight := geom.Point{X: -u.Y, Y: u.X}
	for _, end := range []struct{ at, out geom.Point }{{from, u.Scale(-1)}, {to, u}} {
		a, b := end.at.Add(end.out.Scale(cutGap)), end.at.Add(end.out.Scale(cutEnd))
		s.line(drawing.Cutting, a, b)
		foot := b.Sub(end.out.Scale(0.5))
		tail := foot.Sub(sight.Scale(cutArrow))
		s.line(drawing.Edge, tail, foot)
		s.arrow(foot.Sub(sight.Scale(0.25)), sight)
		s.letters = append(s.letters, [3]geom.Point{tail, sight, end.out})
	}
}

// lettersOfCut writes the letters of the cutting plane where the dimensions have
// left room: at the arrow's tail, beside it, or beyond.
func (s *viewSetter) lettersOfCut() {
	for _, l := range s.letters {
		tail, sight, out := l[0], l[1], l[2]
		var first drawing.Text
		for i, middle := range []geom.Point{
			tail.Sub(sight.Scale(1 + letterHeight/2)), tail.Add(out.Scale(3)).Add(sight.Scale(2)), tail.Sub(out.Scale(3)).Add(sight.Scale(2)),
			tail.Add(out.Scale(3)).Add(sight.Scale(5)), tail.Sub(sight.Scale(5)), tail.Sub(sight.Scale(8)), tail.Sub(sight.Scale(11)),
		} {
			text := drawing.Text{At: middle.Sub(geom.Point{Y: letterHeight / 2}), Text: "A", Height: letterHeight, Anchor: drawing.Middle}
			if i == 0 {
				first = text
			}
			if s.free(boxOf(text)) {
				first = text
				break
			}
		}
		s.write(first)
	}
}

// dimension sorts the dimensions to the sides of the view and sets them.
func (s *viewSetter) dimension() {
	x, y := geom.Point{X: 1}, geom.Point{Y: 1}
	above := stack{u: x, v: y, edge: s.hi.Y, lo: s.lo.X, hi: s.hi.X, far: []float64{-1, 1}, levels: s.levels}
	below := stack{u: x, v: y.Scale(-1), edge: -s.lo.Y, lo: s.lo.X, hi: s.hi.X, far: []float64{-1, 1}, levels: s.levels}
	left := stack{u: y, v: x.Scale(-1), edge: -s.lo.X + cutEnd - 1, lo: s.lo.Y, hi: s.hi.Y, far: []float64{-1, 1}, turn: math.Pi / 2, levels: s.levels}
	right := left
	right.v, right.edge = x, s.hi.X
	var aboves, belows, lefts, rights []item
	var callouts []callout
	middle := (s.lo.Y + s.hi.Y) / 2
	for _, d := range s.view.Dimensions {
		a, b := d.A.Scale(s.scale), d.B.Scale(s.scale)
		l := label{d.Text(), d.Checked}
		level := math.Abs(a.Y-b.Y) < 1e-6
		upright := math.Abs(a.X-b.X) < 1e-6
		linear := d.Kind == drawing.Linear || d.Kind == drawing.Diameter && d.Facing == drawing.Section
		switch {
		case linear && level && a.Y > middle:
			aboves = append(aboves, above.item(d, a, b))
		case linear && level:
			belows = append(belows, below.item(d, a, b))
		case linear && upright && d.Facing == drawing.Section:
			rights = append(rights, right.item(d, a, b))
		case linear && upright:
			lefts = append(lefts, left.item(d, a, b))
		case linear:
			s.slanting(d, a, b)
		case d.Kind == drawing.Angle:
			s.angle(d, l)
		default:
			callouts = append(callouts, s.callout(d))
		}
	}
	s.set(above, below, aboves)
	s.set(below, above, belows)
	s.set(left, right, lefts)
	s.set(right, left, rights)
	s.call(callouts)
}

// set places items on their side, those without room on the other, and lists
// what finds none there either.
func (s *viewSetter) set(side, other stack, items []item) {
	left := side.set(&s.board, items)
	for i := range left {
		left[i].va, left[i].vb = -left[i].va, -left[i].vb
	}
	s.list(other.set(&s.board, left)...)
}

func (s *viewSetter) list(items ...item) {
	for _, it := range items {
		s.listed = append(s.listed, it.text)
	}
}

// callout turns a diameter of the plan, a radius or a chamfer into a text with a
// leader.
func (s *viewSetter) callout(d drawing.Dimension) callout {
	a, b := d.A.Scale(s.scale), d.B.Scale(s.scale)
	note := d.Note
	d.Note = ""
	c := callout{label: label{d.Text(), d.Checked}, note: note}
	switch d.Kind {
	case drawing.Diameter:
		c.to, c.radius = a.Add(b).Scale(0.5), b.Sub(a).Len()/2
	case drawing.Radius:
		c.to = b
	default:
		c.to = a.Add(b).Scale(0.5)
	}
	return c
}

// call sets callouts to the right of a plan, and to the left of a section, whose
// right side has the heights; what finds no room goes to the other side.
func (s *viewSetter) call(callouts []callout) {
	side := 1.0
	if s.view.Facing == drawing.Section {
		side = -1
	}
	for range 2 {
		more := shelfPart / 4 * float64(len(callouts))
		column := column{x: s.hi.X + shelfGap, side: side, lo: s.lo.Y - 8 - more, hi: s.hi.Y + 8 + more}
		if side < 0 {
			column.x = s.lo.X - shelfGap
		}
		callouts = column.set(&s.board, callouts)
		side = -side
	}
	for _, c := range callouts {
		s.listed = append(s.listed, c.text+" "+c.note)
	}
}

// steep is the sine of the angle from upright below which a figure is read from
// the right and never from the left (ISO 129-1, from memory; the angle is a design
// choice).
const steep = 0.26

// slanting sets a length that runs along neither axis outside the view, on the
// nearer side that has room.
func (s *viewSetter) slanting(d drawing.Dimension, a, b geom.Point) {
	u := b.Sub(a)
	u = u.Scale(1 / u.Len())
	if upright := math.Abs(u.X) < steep; upright && u.Y < 0 || !upright && u.X < 0 {
		u = u.Scale(-1)
	}
	sides := []geom.Point{{X: -u.Y, Y: u.X}, {X: u.Y, Y: -u.X}}
	off := func(v geom.Point) float64 { return s.edge(v) - dot(a, v) }
	if off(sides[1]) < off(sides[0])-offOutline {
		slices.Reverse(sides)
	}
	for _, v := range sides {
		st := stack{u: u, v: v, edge: s.edge(v), lo: min(dot(a, u), dot(b, u)), hi: max(dot(a, u), dot(b, u)), turn: math.Atan2(u.Y, u.X), far: []float64{-1, 1}, levels: s.levels}
		if st.place(&s.board, st.item(d, a, b)) {
			return
		}
	}
	s.list(item{label: label{text: d.Text()}})
}

// edge returns how far the view's outlines reach along a unit vector, in mm on
// paper.
func (s *viewSetter) edge(v geom.Point) float64 {
	var turned drawing.View
	for _, stroke := range s.view.Strokes {
		if stroke.Kind != drawing.Centre {
			turned.Strokes = append(turned.Strokes, moved(stroke, s.scale, geom.Motion{Turn: -v.Angle()}))
		}
	}
	_, hi := turned.Bounds()
	return hi.X
}

// angle sets an angle at the first radius where its figure is free.
func (s *viewSetter) angle(d drawing.Dimension, l label) {
	apex, a, b := d.Apex.Scale(s.scale), d.A.Scale(s.scale).Sub(d.Apex.Scale(s.scale)), d.B.Scale(s.scale).Sub(d.Apex.Scale(s.scale))
	from := math.Atan2(a.Y, a.X)
	to := from + math.Mod(math.Atan2(b.Y, b.X)-from+4*math.Pi, 2*math.Pi)
	for level := range 2 * s.levels {
		r := max(a.Len(), b.Len()) + firstLevel + nextLevel/2*float64(level)
		middle := (from + to) / 2
		at := apex.Add(geom.Polar(r, middle))
		turn := math.Mod(middle-math.Pi/2+4*math.Pi, 2*math.Pi)
		sp := spot{middle: at.Add(geom.Polar(l.raised(), middle)), turn: turn}
		if turn > math.Pi/2+0.01 && turn < 3*math.Pi/2 { // read from below
			sp = spot{middle: at.Add(geom.Polar(l.lowered(), middle)), turn: turn + math.Pi}
		}
		if !s.free(l.box(sp)) || !s.clear(apex.Add(a), apex.Add(geom.Polar(r+beyondLine, from))) || !s.clear(apex.Add(b), apex.Add(geom.Polar(r+beyondLine, to))) {
			continue
		}
		s.line(drawing.Edge, apex.Add(geom.Polar(a.Len()+offOutline, from)), apex.Add(geom.Polar(r+beyondLine, from)))
		s.line(drawing.Edge, apex.Add(geom.Polar(b.Len()+offOutline, to)), apex.Add(geom.Polar(r+beyondLine, to)))
		s.draw(drawing.Stroke{Kind: drawing.Edge, Curves: []geom.Curve{geom.Arc{Centre: apex, Radius: r, From: from, To: to}}})
		tilt := arrowLength / r / 2
		s.arrow(apex.Add(geom.Polar(r, from)), geom.Polar(1, from-math.Pi/2+tilt))
		s.arrow(apex.Add(geom.Polar(r, to)), geom.Polar(1, to+math.Pi/2-tilt))
		l.write(&s.board, sp)
		return
	}
	s.list(item{label: l})
}

// title sets the view's title above everything that belongs to it.
func (s *viewSetter) title() {
	if s.view.Title == "" {
		return
	}
	_, hi := s.bounds()
	s.write(drawing.Text{
		At: geom.Point{X: (s.lo.X + s.hi.X) / 2, Y: hi.Y + 3}, Text: s.view.Title, Height: letterHeight, Anchor: drawing.Middle,
	})
}
