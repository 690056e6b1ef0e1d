package coupon

import (
	"bytes"
	"fmt"
	"html"
	"io"
	"strings"

	"pintle/check"
)

// Of the form, in mm: A4 (ISO 216), its margins, its two columns.
const (
	pageWidth, pageHeight = 210.0, 297.0
	pageMargin            = 12.0
	columnGap             = 6.0
	columnWidth           = (pageWidth - 2*pageMargin - columnGap) / 2
	headHeight            = 62.0
	mostRow               = 5.4
)

// WriteSheet writes the form for the readings as SVG, one page of A4, black on
// white. It returns the writer's error.
func (c *Coupon) WriteSheet(w io.Writer) error {
	f := &form{row: mostRow}
	for columns := c.laid(f); columns > 2 && f.row > 1.5; columns = c.laid(f) {
		f.row *= 0.95
	}
	var page bytes.Buffer
	fmt.Fprintf(&page, `<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm" viewBox="0 0 %g %g" role="img" font-family="sans-serif" fill="#000">`+"\n", pageWidth, pageHeight, pageWidth, pageHeight)
	fmt.Fprintf(&page, "<title>Coupon: readings</title>\n<rect width=\"%g\" height=\"%g\" fill=\"#fff\"/>\n", pageWidth, pageHeight)
	c.head(&page)
	page.Write(f.body.Bytes())
	page.WriteString("</svg>\n")
	_, err := w.Write(page.Bytes())
	return err
}

// A form flows sections down columns.
type form struct {
	body   bytes.Buffer
	row    float64
	x, y   float64
	column int
}

func (f *form) font() float64 { return min(3.2, f.row*0.62) }

// laid writes the sections and returns how many columns they took.
func (c *Coupon) laid(f *form) int {
	f.body.Reset()
	f.column, f.x, f.y = 1, pageMargin, headHeight
	for _, s := range c.sections {
		if len(s.rows) > 0 {
			f.section(s)
		}
	}
	return f.column
}

// room begins a new column where a height does not fit this one.
func (f *form) room(height float64) {
	if f.y+height <= pageHeight-pageMargin {
		return
	}
	f.column++
	f.x, f.y = f.x+columnWidth+columnGap, headHeight
}

func (f *form) section(s section) {
	f.room(f.row * 4)
	f.y += f.row
	text(&f.body, f.x, f.y-f.row*0.3, f.font()*1.05, "bold", s.title)
	if s.hint != "" {
		f.y += f.row * 0.8
		text(&f.body, f.x, f.y-f.row*0.3, f.font()*0.85, "normal", s.hint)
	}
	if s.key != "" {
		for _, r := range s.rows {
			f.reading(r.mark, decimal(r.drawn))
		}
		if s.flipped != "" {
			f.reading(s.flipped, decimal(s.of)+" flipped")
		}
	}
	for _, q := range s.trial {
		f.room(f.row)
		text(&f.body, f.x, f.y+f.row*0.7, f.font()*0.95, "normal", q.question)
		box(&f.body, f.x+columnWidth-16, f.y+0.3, 16, f.row-0.6)
		f.y += f.row
	}
	f.y += f.row * 0.4
}

// reading is a line with mark, drawn size and two boxes.
func (f *form) reading(mark, drawn string) {
	f.room(f.row)
	text(&f.body, f.x, f.y+f.row*0.7, f.font(), "bold", mark)
	text(&f.body, f.x+15, f.y+f.row*0.7, f.font(), "normal", drawn)
	for _, x := range []float64{columnWidth - 49, columnWidth - 24} {
		box(&f.body, f.x+x, f.y+0.3, 24, f.row-0.6)
	}
	f.y += f.row
}

// head writes what the coupon is and how it is read.
func (c *Coupon) head(w *bytes.Buffer) {
	s := c.spec
	text(w, pageMargin, 18, 6, "bold", "Coupon: readings")
	facts := []string{"card " + s.CardName, s.Material.Name, "bead " + check.Number(s.Card.BeadWidth) + " mm", "layer " + check.Number(s.Card.LayerThickness) + " mm"}
	if s.Nozzle > 0 {
		facts = append(facts, "nozzle "+check.Number(s.Nozzle)+" mm")
	}
	facts = append(facts, "revision "+s.Revision())
	text(w, pageMargin, 25, 3.6, "normal", strings.Join(facts, " · "))
	for i, what := range []string{"printer", "filament, colour", "date", "read by"} {
		x := pageMargin + float64(i)*(pageWidth-2*pageMargin)/4
		text(w, x, 33, 2.8, "normal", what)
		fmt.Fprintf(w, `<path d="M%.2f 33.6H%.2f" stroke="#000" stroke-width="0.2"/>`+"\n", x+22*min(float64(len(what))/14, 1)+2, x+44)
	}
	line := func(i int, words string) { text(w, pageMargin+64, 41+float64(i)*4.4, 3, "normal", words) }
	line(0, "Let it cool. Read twice, a quarter turn apart, at half height; not on the seam,")
	line(1, "not on the lowest or highest millimetre. Write all figures: 21.84, not 21.8.")
	line(2, "Inside nibs have flats and read bores low: try the bearing itself, or a drill shank.")
	line(3, "Marks are hundredths of a millimetre: +10 was drawn 0.10 mm larger.")
	sketch(w)
	fmt.Fprintf(w, `<path d="M%g %gH%g" stroke="#000" stroke-width="0.35"/>`+"\n", pageMargin, headHeight-3, pageWidth-pageMargin)
}

// sketch shows a ring with the caliper inside it, and a peg between its jaws.
func sketch(w *bytes.Buffer) {
	const foot = 55.0
	thin := `fill="none" stroke="#000" stroke-width="0.25"`
	fmt.Fprintf(w, `<g %s><path d="M12 %[2]gH42M46 %[2]gH74"/>`, thin, foot)
	fmt.Fprintf(w, `<g fill="#ccc"><path d="M14 %[1]gv-10h5v10zM35 %[1]gv-10h5v10z"/><path d="M49 %[1]gv-3h22v3zM55 %[1]gv-14h10v14z"/></g>`, foot)
	fmt.Fprintf(w, `<path d="M19 %[1]gH35M19 %[1]gl2.5 -0.8v1.6zM35 %[1]gl-2.5 -0.8v1.6z" fill="#000"/>`, foot-5)
	fmt.Fprintf(w, `<path d="M48 %[1]gH55M72 %[1]gH65M55 %[1]gl-2.5 -0.8v1.6zM65 %[1]gl2.5 -0.8v1.6z" fill="#000"/></g>`+"\n", foot-9)
}

func escaped(words string) string { return html.EscapeString(words) }

func text(w *bytes.Buffer, x, y, size float64, weight, words string) {
	fmt.Fprintf(w, `<text x="%.2f" y="%.2f" font-size="%.2f" font-weight="%s">%s</text>`+"\n", x, y, size, weight, html.EscapeString(words))
}

func box(w *bytes.Buffer, x, y, wide, high float64) {
	fmt.Fprintf(w, `<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" fill="none" stroke="#000" stroke-width="0.2"/>`+"\n", x, y, wide, high)
}
