package coupon

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"pintle/check"
	"pintle/fit"
)

// Of the plot, in mm: its field and the room round it.
const (
	plotWidth, plotHeight = 160.0, 70.0
	plotLeft, plotTop     = 22.0, 20.0
)

// WritePlot draws what was read of bores and outsides over the diameter, with
// the fitted lines and twice their standard uncertainty, as SVG. It returns the
// writer's error.
func WritePlot(w io.Writer, c fit.Calibration) error {
	var b bytes.Buffer
	lines := []struct {
		name string
		line *fit.Line
	}{{"bores", c.Bores}, {"outsides", c.Outsides}}
	height := plotTop
	for _, l := range lines {
		if l.line != nil {
			height += plotHeight + 26
		}
	}
	width := plotLeft + plotWidth + 12
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm" viewBox="0 0 %g %g" role="img" font-family="sans-serif" fill="#000">`+"\n", width, height, width, height)
	fmt.Fprintf(&b, "<title>Printer card %s: readings</title>\n<rect width=\"%g\" height=\"%g\" fill=\"#fff\"/>\n", escaped(c.Card.Name), width, height)
	text(&b, plotLeft, 9, 4.5, "bold", "Printer card "+c.Card.Name+": read less drawn, mm on the diameter")
	y := plotTop
	for _, l := range lines {
		if l.line != nil {
			newAxes(*l.line, y).draw(&b, l.name)
			y += plotHeight + 26
		}
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

// axes place diameters and errors on the page.
type axes struct {
	line           fit.Line
	top            float64
	d0, d1, e0, e1 float64
}

func newAxes(l fit.Line, top float64) axes {
	a := axes{line: l, top: top, d0: 0, d1: l.Largest * 1.06, e0: 0, e1: 0}
	see := func(e float64) { a.e0, a.e1 = min(a.e0, e), max(a.e1, e) }
	for _, f := range l.Features {
		see(f.Off())
	}
	for _, d := range []float64{l.Smallest, l.Largest} {
		see(l.At(d) - 2*l.Sigma)
		see(l.At(d) + 2*l.Sigma)
	}
	a.e0, a.e1 = math.Floor(a.e0*20)/20, math.Ceil(a.e1*20+1e-9)/20
	if a.e1-a.e0 < 0.05 {
		a.e1 += 0.05
	}
	return a
}

func (a axes) x(d float64) float64 { return plotLeft + (d-a.d0)/(a.d1-a.d0)*plotWidth }
func (a axes) y(e float64) float64 { return a.top + (a.e1-e)/(a.e1-a.e0)*plotHeight }

func (a axes) draw(b *bytes.Buffer, name string) {
	l := a.line
	text(b, plotLeft, a.top-3, 3.5, "bold", fmt.Sprintf("%s: %s mm %s mm/mm x diameter, standard uncertainty %s mm", name, check.Number(round(l.Offset, 1e3)), signed(round(l.PerMM, 1e5)), check.Number(round(l.Sigma, 1e3))))
	fmt.Fprintf(b, `<rect x="%g" y="%.2f" width="%g" height="%g" fill="none" stroke="#000" stroke-width="0.25"/>`+"\n", plotLeft, a.top, plotWidth, plotHeight)
	step := 0.05
	for (a.e1-a.e0)/step > 10 {
		step *= 2
	}
	for e := math.Ceil(a.e0/step-1e-9) * step; e <= a.e1+1e-9; e += step {
		text(b, 6, a.y(e)+1, 2.8, "normal", fmt.Sprintf("%+.2f", round(e, 100)))
		fmt.Fprintf(b, `<path d="M%g %.2fH%g" stroke="#bbb" stroke-width="0.15"/>`+"\n", plotLeft, a.y(e), plotLeft+plotWidth)
	}
	tick := 5.0
	for a.d1/tick > 8 {
		tick *= 2
	}
	for d := 0.0; d <= a.d1; d += tick {
		text(b, a.x(d)-1.5, a.top+plotHeight+4.5, 2.8, "normal", check.Number(d))
	}
	text(b, plotLeft+plotWidth/2-20, a.top+plotHeight+10, 3, "normal", "diameter as drawn, mm")
	a.band(b)
	for i, f := range l.Features {
		for _, r := range f.Read {
			fmt.Fprintf(b, `<circle cx="%.2f" cy="%.2f" r="0.5" fill="#999"/>`+"\n", a.x(f.Drawn), a.y(r-f.Drawn))
		}
		mark := "#000"
		if math.Abs(l.Residuals[i]) > 3*l.Scatter && l.Scatter > 0.003 {
			mark = "#c00"
			text(b, a.x(f.Drawn)+1.5, a.y(f.Off())-1, 2.6, "normal", "apart from the rest")
		}
		fmt.Fprintf(b, `<circle cx="%.2f" cy="%.2f" r="0.9" fill="none" stroke="%s" stroke-width="0.3"/>`+"\n", a.x(f.Drawn), a.y(f.Off()), mark)
	}
}

// band draws the line over what was read, with twice its uncertainty either way.
func (a axes) band(b *bytes.Buffer) {
	l := a.line
	x0, x1 := a.x(l.Smallest), a.x(l.Largest)
	e0, e1 := l.At(l.Smallest), l.At(l.Largest)
	fmt.Fprintf(b, `<path d="M%.2f %.2fL%.2f %.2fL%.2f %.2fL%.2f %.2fZ" fill="#000" fill-opacity="0.07"/>`+"\n",
		x0, a.y(e0-2*l.Sigma), x1, a.y(e1-2*l.Sigma), x1, a.y(e1+2*l.Sigma), x0, a.y(e0+2*l.Sigma))
	fmt.Fprintf(b, `<path d="M%.2f %.2fL%.2f %.2f" stroke="#06c" stroke-width="0.4"/>`+"\n", x0, a.y(e0), x1, a.y(e1))
}

func round(v, by float64) float64 { return math.Round(v*by)/by + 0 }

func signed(v float64) string {
	if v < 0 {
		return "- " + check.Number(-v)
	}
	return "+ " + check.Number(v)
}
