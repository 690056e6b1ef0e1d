package drawing

import (
	"math"
	"slices"

	"pintle/geom"
)

// A span is a stretch of the cutting line inside material, and where hatching
// ends in it: at the roots of teeth, which are not hatched (ISO 2203).
type span struct{ from, to, hatchFrom, hatchTo float64 }

// A cutLayer is one layer as the cutting plane meets it.
type cutLayer struct {
	z0, z1      float64
	loft        bool
	toothed     bool
	bottom, top face
}

// A face is one end of a layer on the cutting plane: what is cut, and the
// outlines beyond, each point with x along the cut and y away from the viewer.
type face struct {
	spans []span
	loops [][]geom.Point
}

// A cutter turns the plan so that the cut runs along x.
type cutter struct {
	along, across geom.Point // unit vectors
	depth         float64    // of the line, across
	toothed       *Toothed
}

func newCutter(cut Cut, toothed *Toothed) cutter {
	u := cut.To.Sub(cut.From)
	u = u.Scale(1 / u.Len())
	c := cutter{along: u, across: geom.Point{X: -u.Y, Y: u.X}, toothed: toothed}
	c.depth = dot(cut.From, c.across)
	return c
}

func dot(a, b geom.Point) float64 { return a.X*b.X + a.Y*b.Y }

// layers returns the part's layers on the cutting plane, from the bed up.
func (c cutter) layers(part geom.Part) []cutLayer {
	var layers []cutLayer
	for _, l := range part.Layers() {
		cut := cutLayer{z0: float64(l.Z0) / geom.PerMM, z1: float64(l.Z1) / geom.PerMM, loft: l.Loft}
		cut.bottom, cut.toothed = c.face(l.Bottom)
		cut.top = cut.bottom
		if l.Loft {
			cut.top, _ = c.face(l.Top)
		}
		layers = append(layers, cut)
	}
	return layers
}

// face cuts a region; loops with teeth become circles over the tips.
func (c cutter) face(r geom.Region) (f face, toothed bool) {
	var at []crossing
	for _, loop := range r.Loops() {
		points := make([]geom.Point, len(loop))
		for i, v := range loop {
			p := geom.Point{X: float64(v.X) / geom.PerMM, Y: float64(v.Y) / geom.PerMM}
			points[i] = geom.Point{X: dot(p, c.along), Y: dot(p, c.across) - c.depth}
		}
		radius, root, teeth := c.teeth(loop)
		if teeth {
			toothed = true
			centre := geom.Point{X: dot(c.toothed.Centre, c.along), Y: dot(c.toothed.Centre, c.across) - c.depth}
			points = circlePoints(centre, radius)
			at = append(at, circleCrossings(centre, radius, root)...)
		} else {
			at = append(at, crossings(points)...)
		}
		f.loops = append(f.loops, points)
	}
	slices.SortFunc(at, func(a, b crossing) int { return sign(a.x - b.x) })
	for i := 0; i+1 < len(at); i += 2 {
		f.spans = append(f.spans, span{at[i].x, at[i+1].x, at[i].hatch, at[i+1].hatch})
	}
	return f, toothed
}

// A crossing is where an outline crosses the cut, and where hatching starts.
type crossing struct{ x, hatch float64 }

func crossings(points []geom.Point) []crossing {
	var at []crossing
	last := points[len(points)-1]
	for _, p := range points {
		if (p.Y < 0) != (last.Y < 0) {
			x := last.X + (p.X-last.X)*last.Y/(last.Y-p.Y)
			at = append(at, crossing{x, x})
		}
		last = p
	}
	return at
}

func circleCrossings(centre geom.Point, radius, root float64) []crossing {
	half := func(r float64) float64 { return math.Sqrt(max(r*r-centre.Y*centre.Y, 0)) }
	if half(radius) == 0 {
		return nil
	}
	return []crossing{
		{centre.X - half(radius), centre.X - half(root)},
		{centre.X + half(radius), centre.X + half(root)},
	}
}

func circlePoints(centre geom.Point, radius float64) []geom.Point {
	const sides = 144
	points := make([]geom.Point, sides)
	for i := range points {
		points[i] = centre.Add(geom.Polar(radius, 2*math.Pi*float64(i)/sides))
	}
	return points
}

// teeth says whether a loop is the toothed rim, with the radii of its own tips
// and of the roots.
func (c cutter) teeth(loop geom.Loop) (tip, root float64, ok bool) {
	if c.toothed == nil {
		return 0, 0, false
	}
	lo, hi := math.Inf(1), 0.0
	for _, v := range loop {
		p := geom.Point{X: float64(v.X) / geom.PerMM, Y: float64(v.Y) / geom.PerMM}
		r := p.Sub(c.toothed.Centre).Len()
		lo, hi = min(lo, r), max(hi, r)
	}
	return c.toothed.rim(lo, hi)
}

// rim says whether an outline between two radii is the toothed one: as deep as
// the teeth, and where they are. Chamfers may move it by a module.
func (t *Toothed) rim(lo, hi float64) (tip, root float64, ok bool) {
	low, high := min(t.Tip, t.Root)/2, max(t.Tip, t.Root)/2
	deep := high - low
	if hi-lo < deep/2 || lo < low-deep/2 || hi > high+deep/2 {
		return 0, 0, false
	}
	if t.Root > t.Tip {
		return lo, t.Root / 2, true
	}
	return hi, t.Root / 2, true
}

func sign(v float64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

// SectionOf returns the part cut along the line and seen from its right: the cut
// outline wide and hatched, and the visible edges beyond. Its x runs along the
// cut, zero where the part's origin is nearest; its y is the height.
func SectionOf(part geom.Part, cut Cut, toothed *Toothed) View {
	c := newCutter(cut, toothed)
	layers := c.layers(part)
	v := View{Facing: Section, Strokes: outlines(layers)}
	v.Strokes = append(v.Strokes, beyondCut(layers)...)
	v.Strokes = append(v.Strokes, c.rootLines(layers)...)
	v.Hatched = hatched(layers, math.Pi/4)
	return v
}

// outlines returns the edges of the cut: the sides of each layer, and what
// bounds it below and above where the neighbour is not cut as well.
func outlines(layers []cutLayer) []Stroke {
	var strokes []Stroke
	line := func(ax, ay, bx, by float64) {
		strokes = append(strokes, Stroke{Kind: Outline, Curves: []geom.Curve{geom.Line{A: geom.Point{X: ax, Y: ay}, B: geom.Point{X: bx, Y: by}}}})
	}
	for i, l := range layers {
		for _, side := range l.sides() {
			line(side[0], l.z0, side[1], l.z1)
		}
		var below []span
		if i > 0 {
			below = layers[i-1].top.spans
		}
		for _, s := range differ(below, l.bottom.spans) {
			line(s[0], l.z0, s[1], l.z0)
		}
	}
	if n := len(layers); n > 0 {
		for _, s := range differ(layers[n-1].top.spans, nil) {
			line(s[0], layers[n-1].z1, s[1], layers[n-1].z1)
		}
	}
	return strokes
}

// sides pairs the ends of the cut at the bottom and the top of a layer. Where a
// chamfer meets the plane in another number of places, they stay upright.
func (l cutLayer) sides() [][2]float64 {
	var sides [][2]float64
	paired := len(l.bottom.spans) == len(l.top.spans)
	for i, b := range l.bottom.spans {
		t := b
		if paired {
			t = l.top.spans[i]
		}
		sides = append(sides, [2]float64{b.from, t.from}, [2]float64{b.to, t.to})
	}
	return sides
}

// differ returns the stretches that lie in one list of spans but not in both.
func differ(a, b []span) [][2]float64 {
	var ends []float64
	for _, s := range append(slices.Clone(a), b...) {
		ends = append(ends, s.from, s.to)
	}
	slices.Sort(ends)
	var runs [][2]float64
	for i := 0; i+1 < len(ends); i++ {
		from, to := ends[i], ends[i+1]
		if middle := (from + to) / 2; to-from < 1e-3 || holds(a, middle) == holds(b, middle) {
			continue
		}
		if n := len(runs); n > 0 && runs[n-1][1] == from {
			runs[n-1][1] = to
			continue
		}
		runs = append(runs, [2]float64{from, to})
	}
	return runs
}

func holds(spans []span, x float64) bool {
	for _, s := range spans {
		if s.from < x && x < s.to {
			return true
		}
	}
	return false
}

// rootLines draws the roots of the teeth along the face width (ISO 2203: the
// root is drawn in an axial section only), and the reference line through it.
func (c cutter) rootLines(layers []cutLayer) []Stroke {
	if c.toothed == nil {
		return nil
	}
	z0, z1 := math.Inf(1), math.Inf(-1)
	for _, l := range layers {
		if l.toothed {
			z0, z1 = min(z0, l.z0), max(z1, l.z1)
		}
	}
	centre := geom.Point{X: dot(c.toothed.Centre, c.along), Y: dot(c.toothed.Centre, c.across) - c.depth}
	var strokes []Stroke
	for _, q := range []struct {
		kind     LineKind
		diameter float64
		beyond   float64
	}{{Outline, c.toothed.Root, 0}, {Centre, c.toothed.Reference, 2}} {
		half := math.Sqrt(max(q.diameter*q.diameter/4-centre.Y*centre.Y, 0))
		if half == 0 || z0 >= z1 {
			continue
		}
		for _, x := range []float64{centre.X - half, centre.X + half} {
			strokes = append(strokes, Stroke{Kind: q.kind, Curves: []geom.Curve{
				geom.Line{A: geom.Point{X: x, Y: z0 - q.beyond}, B: geom.Point{X: x, Y: z1 + q.beyond}},
			}})
		}
	}
	return strokes
}
