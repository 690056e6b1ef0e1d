package drawing

import (
	"math"

	"pintle/geom"
)

// PlanOf returns the part seen from above its bed. Visible outlines are wide;
// edges of the part's layers that lie under material are dashed. Of chamfers and
// other sloping walls only visible edges are drawn, and thin, unless nothing of
// the part lies beyond them; small ones are left to their dimension. A toothed rim is drawn as ISO 2203 has it: the tip
// circle, and the reference circle as a chain line. Extra strokes are added as
// they are.
func PlanOf(part geom.Part, toothed *Toothed, extra ...Stroke) View {
	slabs, layers := part.Slabs(), part.Layers()
	p := plan{seen: map[geom.Curve]bool{}, all: coversAbove(layers, -1), toothed: toothed}
	for k := len(slabs) - 1; k >= 0; k-- { // prisms from the top down
		if slabs[k].Top == nil {
			p.draw(slabs[k].Bottom, coversAbove(layers, k), true)
		}
	}
	for k := len(slabs) - 1; k >= 0; k-- {
		if above := coversAbove(layers, k); slabs[k].Top != nil && slabs[k].Z1-slabs[k].Z0 >= closest {
			p.draw(slabs[k].Top, above, false)
			p.draw(slabs[k].Bottom, append(above, coverOf(layers[k].Top)), false)
		}
	}
	p.strokes = append(p.strokes, toothed.circles()...)
	for _, s := range extra {
		p.circles = append(p.circles, circlesIn(s.Curves)...)
		p.strokes = append(p.strokes, s)
	}
	if toothed != nil {
		p.circles = append(p.circles, geom.Arc{Centre: toothed.Centre, Radius: max(toothed.Tip, toothed.Root) / 2, To: 2 * math.Pi})
	}
	lo, hi := part.Bounds()
	p.strokes = append(p.strokes, centreLines(p.circles, lo, hi)...)
	return View{Facing: Plan, Strokes: p.strokes}
}

// circles returns what stands for the teeth in the plan.
func (t *Toothed) circles() []Stroke {
	if t == nil {
		return nil
	}
	circle := func(kind LineKind, diameter float64) Stroke {
		return Stroke{Kind: kind, Closed: true, Curves: []geom.Curve{geom.Arc{Centre: t.Centre, Radius: diameter / 2, To: 2 * math.Pi}}}
	}
	if t.Shown {
		return []Stroke{circle(Centre, t.Reference)}
	}
	return []Stroke{circle(Outline, t.Tip), circle(Centre, t.Reference)}
}

// stands says whether circles stand for the contour: it is the toothed rim.
func (t *Toothed) stands(c geom.Contour) bool {
	if t == nil {
		return false
	}
	lo, hi := math.Inf(1), 0.0
	for _, p := range c.Points {
		r := p.Sub(t.Centre).Len()
		lo, hi = min(lo, r), max(hi, r)
	}
	_, _, ok := t.rim(lo, hi)
	return ok
}

// closest is how near lines may run at true size: twice the wide line or 0.7 mm
// (ISO 128-2, as a drawing guide gives it: 2 and 0.7 mm), in mm.
const closest = 0.7

// A plan collects the strokes of one view. An edge that several layers share is
// drawn once, as its topmost layer shows it.
type plan struct {
	strokes []Stroke
	circles []geom.Arc // of upright walls, in the order drawn
	seen    map[geom.Curve]bool
	all     []cover
	toothed *Toothed
}

func (p *plan) draw(contours []geom.Contour, above []cover, upright bool) {
	for _, c := range contours {
		if p.toothed.stands(c) && !p.toothed.Shown {
			continue
		}
		if len(c.Curves) == 0 {
			p.drawPoints(c.Points, above)
			continue
		}
		p.drawCurves(c.Curves, above, upright)
	}
}

// drawCurves cuts a contour where it goes under material and draws each run.
func (p *plan) drawCurves(curves []geom.Curve, above []cover, upright bool) {
	if upright && !p.seen[curves[0]] {
		p.circles = append(p.circles, circlesIn(curves)...)
	}
	var run Stroke
	var runs []Stroke
	end := func() {
		if len(run.Curves) > 0 && (run.Kind != Hidden || upright) {
			runs = append(runs, run)
		}
		run = Stroke{}
	}
	for _, c := range curves {
		if p.seen[c] {
			end()
			continue
		}
		p.seen[c] = true
		for _, piece := range cutByCover(c, above) {
			if kind := p.kind(piece, upright); kind != run.Kind {
				end()
				run.Kind = kind
			}
			run.Curves = append(run.Curves, piece.Curve)
		}
	}
	end()
	if len(runs) == 1 {
		first, last := runs[0].Curves[0].Start(), runs[0].Curves[len(runs[0].Curves)-1].End()
		runs[0].Closed = last.Sub(first).Len() < 1e-6
	}
	p.strokes = append(p.strokes, runs...)
}

// kind returns the line for a piece of a contour. The edge of a sloping wall is
// an outline only where one side of it is empty all the way down.
func (p *plan) kind(piece piece, upright bool) LineKind {
	switch {
	case piece.hidden:
		return Hidden
	case upright || !covered(piece.Curve, 0.5, p.all):
		return Outline
	}
	return Edge
}

// drawPoints draws a contour that has no curves as a thin line, if it is all in
// view.
func (p *plan) drawPoints(points []geom.Point, above []cover) {
	const looks = 32
	for i := 0; i < len(points); i += max(1, len(points)/looks) {
		if covered(geom.Line{A: points[i], B: points[(i+1)%len(points)]}, 0.5, above) {
			return
		}
	}
	s := Stroke{Kind: Edge, Closed: true}
	for i, q := range points {
		s.Curves = append(s.Curves, geom.Line{A: q, B: points[(i+1)%len(points)]})
	}
	if !p.seen[s.Curves[0]] {
		p.seen[s.Curves[0]] = true
		p.strokes = append(p.strokes, s)
	}
}
