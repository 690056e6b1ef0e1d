package linkage

import (
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// Details returns what matters on the link's drawing: the distances of its eyes,
// each hole with what it takes, the widths and heights.
func (l *Link) Details(string) drawing.Details {
	s := l.spec
	d := drawing.Details{}
	add := func(dims ...drawing.Dimension) { d.Dimensions = append(d.Dimensions, dims...) }
	drawn := func(i int) float64 { return l.eyes[i].Drawn }
	for i, a := range s.Arms {
		at := geom.Polar(a.Length, a.Angle)
		add(drawing.Between(geom.Point{}, at).Measuring(a.Length).ToCheck())
		eye := drawing.Circle(at, drawn(i)).Measuring(a.Eye.Hole)
		eye.Note = a.Eye.What
		add(eye)
		if i > 0 {
			first := geom.Polar(s.Arms[0].Length, s.Arms[0].Angle)
			add(drawing.Opening(geom.Point{}, first, at))
		}
		line := geom.Line{A: geom.Polar(-l.hub/2-2, a.Angle), B: geom.Polar(a.Length+a.Eye.Diameter/2+2, a.Angle)}
		d.Strokes = append(d.Strokes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{line}})
	}
	if s.Hub.Hole > 0 && s.Hub.Clamp == nil {
		hub := drawing.Circle(geom.Point{}, l.bore.Drawn).Measuring(s.Hub.Hole)
		hub.Note = s.Hub.What
		add(hub)
	}
	if b := s.Hub.Bolts; b != nil {
		d.Notes = append(d.Notes, fmt.Sprintf("%d holes for %s that cuts its thread, on a circle of %s mm", b.Count, b.Screw.Size, check.Number(b.Diameter)))
	}
	reach := s.Arms[0].Length + s.Arms[0].Eye.Diameter/2
	add(drawing.Heights(reach+4, 0, s.Thickness))
	if s.Hub.Boss > 0 {
		add(drawing.Heights(-l.hub/2-4, 0, s.Thickness+s.Hub.Boss))
	}
	d.Cut = &drawing.Cut{From: geom.Polar(-l.hub/2-4, s.Arms[0].Angle), To: geom.Polar(reach+4, s.Arms[0].Angle)}
	if l.mark != "" {
		d.Notes = append(d.Notes, fmt.Sprintf("Sunk %s mm into the top: %s", check.Number(markDepth), l.mark))
	}
	return d
}

// Details returns what matters on the bracket's drawing: the distance from shaft
// to pivot, the window and the holes of the servo, the heights.
func (b *Bracket) Details(string) drawing.Details {
	s := b.spec
	d := drawing.Details{}
	add := func(dims ...drawing.Dimension) { d.Dimensions = append(d.Dimensions, dims...) }
	along, across := geom.Polar(1, s.Turn), geom.Polar(1, s.Turn+math.Pi/2)
	centre := s.ServoCentre()
	length, width := s.Body.Length+2*bodyPlay, s.Body.Width+2*bodyPlay
	corner := func(x, y float64) geom.Point { return centre.Add(along.Scale(x)).Add(across.Scale(y)) }
	add(drawing.Between(corner(-length/2, -width/2), corner(length/2, -width/2)).Measuring(length),
		drawing.Between(corner(length/2, -width/2), corner(length/2, width/2)).Measuring(width))
	if p := s.Pivot; p != nil {
		at := geom.Point{X: p.Distance}
		add(drawing.Between(geom.Point{}, at).ToCheck())
		for _, h := range b.placed {
			if h.pivot {
				hole := drawing.Circle(at, h.contour.Diameter()).Measuring(h.wanted)
				if hole.Note = "clear of the shaft"; p.Hole == 0 {
					hole.Note = p.Screw.Size + " cuts its thread"
				}
				add(hole)
			}
		}
		if p.Height > 0 {
			add(drawing.Circle(at, s.Card.Outside.Draw(p.Diameter)).Measuring(p.Diameter), drawing.Heights(p.Distance+p.Diameter/2+4, s.Thickness, s.Thickness+p.Height))
		}
		d.Cut = &drawing.Cut{From: geom.Point{X: b.lo.X - 4}, To: geom.Point{X: b.hi.X + 4}}
	}
	tabs := b.TabHoles()
	if len(tabs) > 2 {
		add(drawing.Between(tabs[1], tabs[2]).Measuring(s.Body.Holes[1]))
	}
	add(drawing.Between(tabs[0], tabs[1]).Measuring(s.Body.Holes[0]))
	i := slices.IndexFunc(b.placed, func(h bracketHole) bool { return h.at == tabs[1] })
	add(drawing.Circle(tabs[1], b.placed[i].contour.Diameter()).Measuring(b.placed[i].wanted).Times(len(tabs)).Saying("servo, " + b.tabScrew.Size))
	add(drawing.Heights(b.lo.X-4, 0, s.Thickness))
	cross := func(p geom.Point) {
		for _, arm := range []geom.Point{{X: 5}, {Y: 5}} {
			d.Strokes = append(d.Strokes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{geom.Line{A: p.Sub(arm), B: p.Add(arm)}}})
		}
	}
	cross(geom.Point{})
	d.Notes = append(d.Notes, fmt.Sprintf("Tab holes for %s that cuts its thread. The cross in the window is the servo's shaft.", b.tabScrew.Size))
	return d
}
