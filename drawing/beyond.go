package drawing

import (
	"math"

	"pintle/geom"
)

// columns is how many places along the cut are looked at for edges beyond it;
// their ends then move to the outline's own corners.
const columns = 512

// A section through more outlines than this shows the cut only: what lies
// beyond would be a grey patch (design choice).
const mostLoopsBeyond = 400

// beyondCut returns the visible edges behind the cutting plane: where the
// surface nearest to the viewer steps back or ends between neighbouring layers
// (along x) or within a layer (upright).
func beyondCut(layers []cutLayer) []Stroke {
	lo, hi, loops := math.Inf(1), math.Inf(-1), 0
	for _, l := range layers {
		loops = max(loops, len(l.bottom.loops))
		for _, loop := range l.bottom.loops {
			for _, p := range loop {
				lo, hi = min(lo, p.X), max(hi, p.X)
			}
		}
	}
	if loops > mostLoopsBeyond || lo >= hi {
		return nil
	}
	g := grid{lo: lo, step: (hi - lo) / columns}
	var strokes []Stroke
	var below *seen
	for i := range layers {
		l := &layers[i]
		bottom, top := g.look(l.bottom), g.look(l.top)
		strokes = append(strokes, g.level(l.z0, below, &bottom, l.slopes() || i > 0 && layers[i-1].slopes())...)
		strokes = append(strokes, g.upright(l, &bottom)...)
		below = &top
	}
	return append(strokes, g.level(layers[len(layers)-1].z1, below, nil, false)...)
}

// slopes says whether the edges of a sloping wall are far enough apart to draw.
func (l cutLayer) slopes() bool { return l.loft && l.z1-l.z0 >= closest }

// A grid is a row of columns along the cut.
type grid struct{ lo, step float64 }

func (g grid) x(column int) float64 { return g.lo + (float64(column)+0.5)*g.step }

// seen is what one face shows in each column: cut, or the depth of the first
// surface behind the plane, +Inf where there is none.
type seen struct {
	cut   [columns]bool
	depth [columns]float64
	ends  []float64 // of cuts and outlines, where lines may end
}

func (g grid) look(f face) seen {
	var s seen
	for i := range s.depth {
		s.depth[i] = math.Inf(1)
	}
	for _, c := range f.spans {
		s.ends = append(s.ends, c.from, c.to)
		for i := max(g.column(c.from), 0); i < columns && g.x(i) < c.to; i++ {
			s.cut[i] = s.cut[i] || g.x(i) > c.from
		}
	}
	for _, loop := range f.loops {
		g.lookAt(loop, &s)
	}
	return s
}

func (g grid) column(x float64) int { return int(math.Floor((x - g.lo) / g.step)) }

func (g grid) lookAt(loop []geom.Point, s *seen) {
	n := len(loop)
	for i, p := range loop {
		last, next := loop[(i+n-1)%n], loop[(i+1)%n]
		if p.Y > 0 && (p.X-last.X)*(next.X-p.X) <= 0 {
			s.ends = append(s.ends, p.X)
		}
		if p.Y <= 0 && last.Y <= 0 {
			continue
		}
		a, b := last, p
		if a.X > b.X {
			a, b = b, a
		}
		for c := max(g.column(a.X), 0); c < columns && g.x(c) < b.X; c++ {
			if x := g.x(c); x >= a.X {
				if y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X); y > 0 {
					s.depth[c] = min(s.depth[c], y)
				}
			}
		}
	}
}

// level returns the lines at a height where the face below and that above show
// different surfaces, or meet at an edge of a sloping wall.
func (g grid) level(z float64, below, above *seen, sloping bool) []Stroke {
	const same = 0.02 // mm of depth
	differs := func(c int) bool {
		a, b := math.Inf(1), math.Inf(1)
		if below != nil {
			if below.cut[c] {
				return false
			}
			a = below.depth[c]
		}
		if above != nil {
			if above.cut[c] {
				return false
			}
			b = above.depth[c]
		}
		if math.IsInf(a, 1) && math.IsInf(b, 1) {
			return false
		}
		return sloping || !(math.Abs(a-b) < same)
	}
	var strokes []Stroke
	for c := 0; c < columns; c++ {
		if !differs(c) {
			continue
		}
		from := c
		for c+1 < columns && differs(c+1) {
			c++
		}
		a, b := g.snap(g.x(from)-g.step/2, below, above), g.snap(g.x(c)+g.step/2, below, above)
		if b-a > g.step {
			strokes = append(strokes, Stroke{Kind: Outline, Curves: []geom.Curve{geom.Line{A: geom.Point{X: a, Y: z}, B: geom.Point{X: b, Y: z}}}})
		}
	}
	return strokes
}

// snap moves an end to the nearest corner of an outline within two columns.
func (g grid) snap(x float64, faces ...*seen) float64 {
	best, reach := x, 2*g.step
	for _, f := range faces {
		if f == nil {
			continue
		}
		for _, e := range f.ends {
			if d := math.Abs(e - x); d < reach {
				best, reach = e, d
			}
		}
	}
	return best
}

// upright returns the lines within a layer where the surface ends or jumps.
func (g grid) upright(l *cutLayer, s *seen) []Stroke {
	var strokes []Stroke
	last := math.Inf(-1)
	for c := -1; c < columns; c++ {
		if !g.jumps(s, c) {
			continue
		}
		x := g.snap(g.x(c)+g.step/2, s)
		if x-last < 2*g.step {
			continue
		}
		last = x
		strokes = append(strokes, Stroke{Kind: Outline, Curves: []geom.Curve{geom.Line{A: geom.Point{X: x, Y: l.z0}, B: geom.Point{X: x, Y: l.z1}}}})
	}
	return strokes
}

// jumps says whether the surface jumps between column c and the next: ends
// there, or moves by far more than it does in the columns around.
func (g grid) jumps(s *seen, c int) bool {
	at := func(i int) float64 {
		if i < 0 || i >= columns {
			return math.Inf(1)
		}
		return s.depth[i]
	}
	cut := func(i int) bool { return i >= 0 && i < columns && s.cut[i] }
	if cut(c) || cut(c+1) {
		return false
	}
	a, b := at(c), at(c+1)
	switch {
	case math.IsInf(a, 1) || math.IsInf(b, 1):
		return a != b
	case cut(c-1) || cut(c+2):
		return false
	}
	around := 0.0
	for _, d := range []float64{at(c) - at(c-1), at(c+2) - at(c+1)} {
		if !math.IsInf(d, 0) && !math.IsNaN(d) {
			around = max(around, math.Abs(d))
		}
	}
	return math.Abs(a-b) > 4*around+0.2
}
