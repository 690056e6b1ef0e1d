package export

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	svg "github.com/ajstarks/svgo/float"

	"pintle/drawing"
	"pintle/geom"
)

// Sizes on a drawing, in mm. Lettering heights are those of capitals (ISO
// 3098-1 series); the line groups and dashes are those of ISO 128-2.
const (
	sheetMargin = 10.0
	titleHeight = 5.0
	textHeight  = 3.5
	noteHeight  = 2.5
	checkLength = 100.0
	smallView   = 60.0 // below this size the thinner group of lines is used (design choice)
)

// WriteSVG writes the sheet at true size: its user unit is the millimetre, and
// a check line 100 mm long stands below the views. It returns an error for a
// sheet with a number that is not finite, and the writer's error.
func WriteSVG(w io.Writer, sheet drawing.Sheet) error {
	p := newPage(sheet)
	if !p.finite() {
		return fmt.Errorf("drawing %q: %w", sheet.Title, errNotFinite)
	}
	out := bufio.NewWriter(w) // keeps the first error, which svgo drops
	canvas := svg.New(out)
	canvas.Decimals = 4
	canvas.Startunit(p.width, p.height, "mm", fmt.Sprintf(`viewBox="0 0 %.4f %.4f"`, p.width, p.height), `role="img"`)
	canvas.Title(sheet.Title)
	canvas.Rect(0, 0, p.width, p.height, `fill="#fff"`)
	for _, t := range p.texts {
		canvas.Text(t.At.X, t.At.Y, t.Text, fmt.Sprintf(`font-size="%.2f"`, fontSize(t.Height)), `font-family="sans-serif"`, `fill="#000"`)
	}
	for _, v := range p.views {
		v.write(canvas)
	}
	p.writeCheckLine(canvas)
	canvas.End()
	return out.Flush()
}

var errNotFinite = errors.New("a coordinate is not a finite number")

// A page is a sheet laid out: y downwards from its top left corner, in mm.
type page struct {
	width, height float64
	views         []placedView
	texts         []drawing.Label
	checkY        float64
}

// A placedView puts the view's origin at a place on the page.
type placedView struct {
	view         drawing.View
	origin       geom.Point
	wide, narrow float64
}

// newPage stacks title, views, check line and notes, so that no text of its own
// can lie on a part.
func newPage(sheet drawing.Sheet) *page {
	p := &page{width: checkLength}
	for _, v := range sheet.Views {
		lo, hi := v.Bounds()
		p.width = max(p.width, hi.X-lo.X)
	}
	p.width = max(p.width, textWidth(sheet.Title, titleHeight)) + 2*sheetMargin
	p.height = sheetMargin
	p.write(sheet.Title, titleHeight)
	p.write(sheet.Subtitle, textHeight)
	for _, v := range sheet.Views {
		p.place(v)
	}
	p.height += sheetMargin
	p.checkY = p.height
	p.height += 2
	p.write("Check line 100.0 mm. Sizes in mm, drawn 1:1.", noteHeight)
	p.height += noteHeight
	for _, n := range sheet.Notes {
		p.write(n, noteHeight)
	}
	p.height += sheetMargin
	return p
}

func (p *page) place(v drawing.View) {
	p.height += sheetMargin / 2
	p.write(v.Title, textHeight)
	lo, hi := v.Bounds()
	placed := placedView{view: v, wide: 0.5, narrow: 0.25}
	if max(hi.X-lo.X, hi.Y-lo.Y) < smallView {
		placed.wide, placed.narrow = 0.35, 0.18
	}
	placed.origin = geom.Point{X: (p.width - lo.X - hi.X) / 2, Y: p.height + hi.Y}
	for _, l := range v.Labels {
		l.At = placed.at(l.At)
		p.texts = append(p.texts, l)
	}
	p.views = append(p.views, placed)
	p.height += hi.Y - lo.Y
}

// write adds text at the left margin, broken at spaces to the page's width.
func (p *page) write(text string, height float64) {
	line := ""
	end := func() {
		if line == "" {
			return
		}
		p.height += height
		p.texts = append(p.texts, drawing.Label{At: geom.Point{X: sheetMargin, Y: p.height}, Text: line, Height: height})
		p.height += height * 0.6
		line = ""
	}
	for _, word := range strings.Fields(text) {
		if line != "" && textWidth(line+" "+word, height) > p.width-2*sheetMargin {
			end()
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	end()
}

// fontSize returns the font size whose capitals have the height: they are about
// 0.7 of it in common sans-serif fonts.
func fontSize(height float64) float64 { return height / 0.7 }

// textWidth estimates from above how wide a line of text comes out, at 0.6 of
// the font size for each letter.
func textWidth(text string, height float64) float64 {
	return 0.6 * fontSize(height) * float64(len([]rune(text)))
}

func (p *page) finite() bool {
	sum := p.width + p.height
	for _, v := range p.views {
		for _, s := range v.view.Strokes {
			for _, c := range s.Curves {
				for _, q := range []geom.Point{c.Start(), c.End()} {
					sum += q.X + q.Y
				}
				if cubic, ok := c.(geom.Cubic); ok {
					sum += cubic[1].X + cubic[1].Y + cubic[2].X + cubic[2].Y
				}
			}
		}
	}
	for _, t := range p.texts {
		sum += t.At.X + t.At.Y + t.Height
	}
	return finite(sum)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func (p *page) writeCheckLine(canvas *svg.SVG) {
	const tick = 1.5
	x0, x1 := sheetMargin, sheetMargin+checkLength
	canvas.Group(`fill="none"`, `stroke="#000"`, `stroke-width="0.25"`)
	canvas.Line(x0, p.checkY, x1, p.checkY, `data-line="check"`)
	for _, x := range []float64{x0, x1} {
		canvas.Line(x, p.checkY-tick, x, p.checkY+tick)
	}
	canvas.Gend()
}
