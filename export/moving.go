package export

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strings"

	"pintle/drawing"
	"pintle/geom"
)

// movingMargin is the rim of a moving picture, in mm.
const movingMargin = 8.0

// WriteMoving writes a mechanism in motion as an SVG that moves by style alone.
// Where a reader wants less motion, and where styles do not move, it stands still
// at rest with both ends drawn thin. The name, of letters, digits and hyphens,
// keeps several apart on one page. It returns an error for a number that is not
// finite, and the writer's error.
func WriteMoving(w io.Writer, name string, m drawing.Moving) error {
	if !movingIsFinite(m) {
		return fmt.Errorf("moving picture %q: %w", m.Title, errNotFinite)
	}
	lo, hi := movingBounds(m)
	size := hi.Sub(lo).Add(geom.Point{X: 2 * movingMargin, Y: 2 * movingMargin})
	p := movingPen{lo: lo, ink: pen{size.Y}, id: "moving-" + name, line: max(size.X, size.Y) / 300}
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" id=%q width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" role=\"img\">\n",
		p.id, coordinate(size.X), coordinate(size.Y), coordinate(size.X), coordinate(size.Y))
	fmt.Fprintf(out, "<title>%s</title>\n<desc>%s</desc>\n<style>\n%s</style>\n", escaped(m.Title), escaped(m.Caption), p.style(m))
	fmt.Fprintf(out, "<rect class=\"ground\" width=\"%s\" height=\"%s\"/>\n", coordinate(size.X), coordinate(size.Y))
	for _, s := range m.Still {
		class := "end"
		if s.Kind == drawing.Centre {
			class = "path"
		}
		fmt.Fprintf(out, "<path class=%q d=%q/>\n", class, p.placed(s))
	}
	for i, b := range m.Bars {
		fmt.Fprintf(out, "<g class=\"bar b%d\" transform=\"%s\"><title>%s</title><path d=%q/></g>\n", i, p.transform(b.Rest, ""), escaped(b.Name), p.own(b.Shape))
	}
	for _, q := range m.Pivots {
		at := p.at(q)
		fmt.Fprintf(out, "<circle class=\"pivot\" cx=\"%s\" cy=\"%s\" r=\"%s\"/>\n", coordinate(at.X), coordinate(at.Y), coordinate(5*p.line))
	}
	fmt.Fprint(out, "</svg>\n")
	return out.Flush()
}

// A movingPen turns places into user units: mm, y down, from the upper left.
type movingPen struct {
	lo   geom.Point
	ink  pen
	id   string
	line float64 // width of a line, mm
}

func (p movingPen) at(q geom.Point) geom.Point {
	return p.ink.at(q.Sub(p.lo).Add(geom.Point{X: movingMargin, Y: movingMargin}))
}

// transform writes a place; unit is "px" and "deg" in a style and nothing in an
// attribute. A style's translate must not lose its sign to the turned y axis.
func (p movingPen) transform(at drawing.Place, unit string) string {
	q := p.at(geom.Point{X: at.X, Y: at.Y})
	turn, comma := unit, ","
	if unit == "px" {
		turn = "deg"
	}
	return fmt.Sprintf("translate(%s%s%s%s%s) rotate(%s%s)", coordinate(q.X), unit, comma, coordinate(q.Y), unit, coordinate(-at.Turn*180/math.Pi), turn)
}

// placed writes a stroke of the mechanism's plane.
func (p movingPen) placed(s drawing.Stroke) string {
	shifted := drawing.Stroke{Closed: s.Closed}
	for _, c := range s.Curves {
		shifted.Curves = append(shifted.Curves, moved(c, geom.Point{X: movingMargin, Y: movingMargin}.Sub(p.lo)))
	}
	return p.ink.path(shifted)
}

// own writes a stroke in the frame of its bar.
func (p movingPen) own(s drawing.Stroke) string { return pen{}.path(s) }

func moved(c geom.Curve, by geom.Point) geom.Curve {
	switch c := c.(type) {
	case geom.Arc:
		c.Centre = c.Centre.Add(by)
		return c
	case geom.Cubic:
		for i := range c {
			c[i] = c[i].Add(by)
		}
		return c
	}
	return geom.Line{A: c.Start().Add(by), B: c.End().Add(by)}
}

// style writes colours for light and dark, and the motion only for readers who
// have not asked for less of it.
func (p movingPen) style(m drawing.Moving) string {
	var css strings.Builder
	rule := func(selector, format string, values ...any) {
		fmt.Fprintf(&css, "#%s %s{%s}\n", p.id, selector, fmt.Sprintf(format, values...))
	}
	line := coordinate(p.line)
	rule(".ground", "fill:#fff")
	rule(".bar path", "fill:#b4b8bd;fill-opacity:.85;stroke:#111;stroke-width:%s", line)
	rule(".pivot", "fill:#fff;stroke:#111;stroke-width:%s", coordinate(2*p.line))
	rule(".end", "fill:none;stroke:#777;stroke-width:%s;stroke-dasharray:%s %s", coordinate(p.line/2), coordinate(6*p.line), coordinate(2*p.line))
	rule(".path", "fill:none;stroke:#0b6e8a;stroke-width:%s", line)
	css.WriteString("@media (prefers-color-scheme:dark){\n")
	rule(".ground", "fill:#15171a")
	rule(".bar path", "fill:#5a6068;stroke:#eee")
	rule(".pivot", "fill:#15171a;stroke:#eee")
	rule(".end", "stroke:#999")
	rule(".path", "stroke:#5cc4e0")
	css.WriteString("}\n@media (prefers-reduced-motion:no-preference){\n")
	way := "alternate"
	if m.Turning {
		way = "normal"
	}
	for i, b := range m.Bars {
		rule(fmt.Sprintf(".b%d", i), "animation:%s-%d %ss linear infinite %s", p.id, i, coordinate(m.Seconds), way)
		fmt.Fprintf(&css, "@keyframes %s-%d{", p.id, i)
		for k, at := range b.Places {
			fmt.Fprintf(&css, "%s%%{transform:%s}", coordinate(100*float64(k)/float64(len(b.Places)-1)), p.transform(at, "px"))
		}
		css.WriteString("}\n")
	}
	css.WriteString("}\n@media print{\n")
	rule(".ground", "fill:#fff")
	rule(".bar path", "fill:#b4b8bd;stroke:#111")
	css.WriteString("}\n")
	return css.String()
}

// movingBounds holds all that stands still and every place of every bar's ends.
func movingBounds(m drawing.Moving) (lo, hi geom.Point) {
	all := drawing.View{Strokes: append([]drawing.Stroke(nil), m.Still...)}
	for _, b := range m.Bars {
		for _, at := range append([]drawing.Place{b.Rest}, b.Places...) {
			for _, c := range b.Shape.Curves {
				q := geom.Point{X: at.X, Y: at.Y}.Add(c.Start().Rotate(at.Turn))
				all.Strokes = append(all.Strokes, drawing.Stroke{Curves: []geom.Curve{geom.Line{A: q, B: q}}})
			}
		}
	}
	for _, q := range m.Pivots {
		all.Strokes = append(all.Strokes, drawing.Stroke{Curves: []geom.Curve{geom.Line{A: q, B: q}}})
	}
	return all.Bounds()
}

func movingIsFinite(m drawing.Moving) bool {
	lo, hi := movingBounds(m)
	sum := lo.X + lo.Y + hi.X + hi.Y + m.Seconds
	for _, b := range m.Bars {
		for _, at := range append([]drawing.Place{b.Rest}, b.Places...) {
			sum += at.X + at.Y + at.Turn
		}
	}
	return finite(sum) && m.Seconds > 0
}
