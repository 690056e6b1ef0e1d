package export

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	svg "github.com/ajstarks/svgo/float"

	"pintle/drawing"
	"pintle/geom"
)

// strokes draws the lines, one group for each kind that the page has.
func (p pen) strokes(canvas *svg.SVG, page drawing.Page) {
	for _, kind := range []struct {
		line   drawing.LineKind
		number string // in ISO 128-2
		width  float64
		dashes []float64 // in line widths, ISO 128-2
	}{
		{drawing.Edge, "01.1", page.Narrow, nil},
		{drawing.Hidden, "02.1", page.Narrow, []float64{12, 3}},
		{drawing.Centre, "04.1", page.Narrow, centreDashes},
		{drawing.Adjacent, "05.1", page.Narrow, []float64{24, 3, 0.5, 3, 0.5, 3}},
		{drawing.Outline, "01.2", page.Wide, nil},
		{drawing.Cutting, "04.2", page.Wide, nil}, // shorter than one dash
		{drawing.Solid, "solid", 0, nil},
	} {
		open := false
		for _, s := range page.Strokes {
			if s.Kind != kind.line || len(s.Curves) == 0 {
				continue
			}
			if !open {
				canvas.Group(groupStyle(kind.number, kind.width, kind.dashes)...)
				open = true
			}
			canvas.Path(p.path(s), pathStyle(s, kind.width)...)
		}
		if open {
			canvas.Gend()
		}
	}
}

var centreDashes = []float64{24, 3, 0.5, 3}

func groupStyle(number string, width float64, dashes []float64) []string {
	if number == "solid" {
		return []string{`data-line="solid"`, `fill="#000"`}
	}
	style := []string{
		fmt.Sprintf(`data-line="%s"`, number), `fill="none"`, `stroke="#000"`,
		fmt.Sprintf(`stroke-width="%s"`, coordinate(width)), `stroke-linejoin="round"`,
	}
	if len(dashes) > 0 {
		lengths := make([]string, len(dashes))
		for i, d := range dashes {
			lengths[i] = coordinate(d * width)
		}
		style = append(style, fmt.Sprintf(`stroke-dasharray="%s"`, strings.Join(lengths, " ")))
	}
	return style
}

// pathStyle puts the middle of a straight centre line on the middle of a long
// dash, so that centre lines cross on dashes.
func pathStyle(s drawing.Stroke, width float64) []string {
	line, ok := s.Curves[0].(geom.Line)
	if !ok || s.Kind != drawing.Centre || len(s.Curves) > 1 {
		return nil
	}
	period := 0.0
	for _, d := range centreDashes {
		period += d * width
	}
	offset := math.Mod(centreDashes[0]*width/2-line.B.Sub(line.A).Len()/2, period)
	return []string{fmt.Sprintf(`stroke-dashoffset="%s"`, coordinate(offset))}
}

// path writes the curves as path data: L, A and C, closed by Z.
func (p pen) path(s drawing.Stroke) string {
	var d strings.Builder
	to := func(command string, points ...geom.Point) {
		d.WriteString(command)
		for _, point := range points {
			q := p.at(point)
			d.WriteString(" " + coordinate(q.X) + " " + coordinate(q.Y))
		}
	}
	to("M", s.Curves[0].Start())
	for i, c := range s.Curves {
		switch c := c.(type) {
		case geom.Arc:
			for _, a := range halves(c) {
				to(fmt.Sprintf(" A %s %[1]s 0 0 %d", coordinate(a.Radius), sweepFlag(a)), a.End())
			}
		case geom.Cubic:
			to(" C", c[1], c[2], c[3])
		default:
			if !s.Closed || i < len(s.Curves)-1 { // Z draws the last line
				to(" L", c.End())
			}
		}
	}
	if s.Closed {
		d.WriteString(" Z")
	}
	return d.String()
}

// halves splits an arc of more than a quarter turn: the end points of a longer
// one say too little about where its circle is.
func halves(a geom.Arc) []geom.Arc {
	if math.Abs(a.To-a.From) <= math.Pi/2 {
		return []geom.Arc{a}
	}
	first, second := a, a
	first.To = (a.From + a.To) / 2
	second.From = first.To
	return append(halves(first), halves(second)...)
}

// sweepFlag is 0 for an anticlockwise arc: the page's y runs down.
func sweepFlag(a geom.Arc) int {
	if a.To > a.From {
		return 0
	}
	return 1
}

// coordinate prints a length with up to four decimals.
func coordinate(v float64) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
