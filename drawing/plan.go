package drawing

import (
	"fmt"

	"pintle/geom"
)

// OfPart returns a drawing of the part seen from above its bed, at true size.
// Visible outlines are wide; edges of the part's layers that lie under material
// are dashed. Of chamfers and other sloping walls only visible edges are drawn,
// and thin, unless nothing of the part lies beyond them.
// Extra strokes, such as pitch circles, are added as they are.
func OfPart(part geom.Part, extra ...Stroke) Sheet {
	slabs, layers := part.Slabs(), part.Layers()
	p := plan{seen: map[geom.Curve]bool{}, all: coversAbove(layers, -1)}
	for k := len(slabs) - 1; k >= 0; k-- { // prisms from the top down
		if slabs[k].Top == nil {
			p.draw(slabs[k].Bottom, coversAbove(layers, k), true)
		}
	}
	for k := len(slabs) - 1; k >= 0; k-- {
		if above := coversAbove(layers, k); slabs[k].Top != nil {
			p.draw(slabs[k].Top, above, false)
			p.draw(slabs[k].Bottom, append(above, coverOf(layers[k].Top)), false)
		}
	}
	drawn := p.circles
	for _, s := range extra {
		p.circles = append(p.circles, circlesIn(s.Curves)...)
		p.strokes = append(p.strokes, s)
	}
	lo, hi := part.Bounds()
	p.strokes = append(p.strokes, centreLines(p.circles, lo, hi)...)
	sheet := Sheet{
		Title:    part.Name(),
		Subtitle: fmt.Sprintf("%.2f × %.2f × %.2f mm, top view", hi.X-lo.X, hi.Y-lo.Y, part.Height()),
		Views:    []View{{Strokes: p.strokes}},
	}
	if note := diameters(drawn); note != "" {
		sheet.Notes = append(sheet.Notes, note)
	}
	return sheet
}

// A plan collects the strokes of one view. An edge that several layers share is
// drawn once, as its topmost layer shows it.
type plan struct {
	strokes []Stroke
	circles []geom.Arc // of upright walls, in the order drawn
	seen    map[geom.Curve]bool
	all     []cover
}

func (p *plan) draw(contours []geom.Contour, above []cover, upright bool) {
	for _, c := range contours {
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
