package export

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"

	svg "github.com/ajstarks/svgo/float"

	"pintle/drawing"
	"pintle/geom"
)

// fonts are asked for in this order; package paper keeps room for the widest.
const fonts = "Arial, 'Liberation Sans', Helvetica, 'DejaVu Sans', sans-serif"

// WriteSVG writes a page at true size: its user unit is the millimetre. It
// returns an error for a page with a number that is not finite, and the writer's
// error.
func WriteSVG(w io.Writer, page drawing.Page) error {
	if !isFinite(page) {
		return fmt.Errorf("drawing %q: %w", page.Title, errNotFinite)
	}
	out := bufio.NewWriter(w) // keeps the first error, which svgo drops
	canvas := svg.New(out)
	canvas.Decimals = 4
	canvas.Startunit(page.Width, page.Height, "mm", fmt.Sprintf(`viewBox="0 0 %.4f %.4f"`, page.Width, page.Height), `role="img"`)
	canvas.Title(page.Title)
	canvas.Rect(0, 0, page.Width, page.Height, `fill="#fff"`)
	ink := pen{page.Height}
	ink.strokes(canvas, page)
	ink.texts(canvas, page.Texts)
	if c := page.Check; c != (geom.Line{}) {
		a, b := ink.at(c.A), ink.at(c.B)
		canvas.Line(a.X, a.Y, b.X, b.Y, `data-line="check"`, `stroke="#000"`, fmt.Sprintf(`stroke-width="%s"`, coordinate(page.Narrow)))
	}
	canvas.End()
	return out.Flush()
}

var errNotFinite = errors.New("a coordinate is not a finite number")

// A pen draws on a page of the height, whose y runs down.
type pen struct{ height float64 }

func (p pen) at(q geom.Point) geom.Point { return geom.Point{X: q.X, Y: p.height - q.Y} }

// texts writes the lettering, one group for each height.
func (p pen) texts(canvas *svg.SVG, texts []drawing.Text) {
	canvas.Group(`font-family="`+fonts+`"`, `fill="#000"`)
	for _, t := range texts {
		at := p.at(t.At)
		style := []string{fmt.Sprintf(`font-size="%s"`, coordinate(fontSize(t.Height)))}
		switch t.Anchor {
		case drawing.Middle:
			style = append(style, `text-anchor="middle"`)
		case drawing.End:
			style = append(style, `text-anchor="end"`)
		}
		if t.Turn != 0 {
			style = append(style, fmt.Sprintf(`transform="rotate(%s %s %s)"`, coordinate(-t.Turn*180/math.Pi), coordinate(at.X), coordinate(at.Y)))
		}
		canvas.Text(at.X, at.Y, t.Text, style...)
	}
	canvas.Gend()
}

// fontSize returns the font size whose capitals have the height: they are 0.716
// of it in Arial and its metric equals.
func fontSize(height float64) float64 { return height / 0.716 }

func isFinite(page drawing.Page) bool {
	sum := page.Width + page.Height
	for _, s := range page.Strokes {
		for _, c := range s.Curves {
			for _, q := range []geom.Point{c.Start(), c.End()} {
				sum += q.X + q.Y
			}
			if cubic, ok := c.(geom.Cubic); ok {
				sum += cubic[1].X + cubic[1].Y + cubic[2].X + cubic[2].Y
			}
		}
	}
	for _, t := range page.Texts {
		sum += t.At.X + t.At.Y + t.Height + t.Turn
	}
	return finite(sum)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
