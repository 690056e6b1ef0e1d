package paper

import (
	"math"

	"pintle/drawing"
	"pintle/geom"
)

// Size of the title block in mm: as wide as the drawing space of A4 upright
// (ISO 7200).
const blockWidth, blockHeight = 180.0, 36.0

// A field is one cell of the title block, from its lower left corner.
type field struct {
	x, y, w, h   float64
	label, value string
	height       float64 // wanted of the value
}

// setBlock draws the title block with its lower left corner at the origin.
func setBlock(t drawing.TitleBlock, scale, format string) *board {
	b := &board{}
	fields := []field{
		{0, 27, 50, 9, "Legal owner", t.Owner, textHeight},
		{0, 18, 50, 9, "Created by", t.Creator, textHeight},
		{0, 9, 50, 9, "Approved by", t.Approved, textHeight},
		{0, 0, 50, 9, "Document type", t.Kind, textHeight},
		{50, 18, 80, 18, "Title", t.Title, titleHeight},
		{50, 9, 80, 9, "Material", t.Material, textHeight},
		{50, 0, 58, 9, "Tolerances not given", t.Tolerances, textHeight},
		{108, 0, 22, 9, "Sizes in", "mm", textHeight},
		{130, 27, 50, 9, "Identification number", t.Number, letterHeight},
		{130, 18, 16, 9, "Revision", t.Revision, textHeight},
		{146, 18, 34, 9, "Date of issue", t.Issued, textHeight},
		{130, 9, 16, 9, "Scale", scale, textHeight},
		{146, 9, 12, 9, "Sheet", t.SheetNumber, textHeight},
		{158, 9, 10, 9, "Size", format, textHeight},
		{168, 9, 12, 9, "Lang.", t.Language, textHeight},
		{130, 0, 50, 9, "Projection", "", textHeight},
	}
	for _, f := range fields {
		f.write(b, t.Supplement)
	}
	firstAngle(b, geom.Point{X: 162, Y: 4.5})
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	b.line(drawing.Outline, at(0, 0), at(0, blockHeight))
	b.line(drawing.Outline, at(0, blockHeight), at(blockWidth, blockHeight))
	b.line(drawing.Outline, at(blockWidth, blockHeight), at(blockWidth, 0))
	b.line(drawing.Outline, at(blockWidth, 0), at(0, 0))
	return b
}

// write draws the cell's left and upper line, its name and its value; a tall
// cell has room for a second line.
func (f field) write(b *board, second string) {
	if f.x > 0 {
		b.line(drawing.Edge, geom.Point{X: f.x, Y: f.y}, geom.Point{X: f.x, Y: f.y + f.h})
	}
	if f.y+f.h < blockHeight {
		b.line(drawing.Edge, geom.Point{X: f.x, Y: f.y + f.h}, geom.Point{X: f.x + f.w, Y: f.y + f.h})
	}
	b.write(drawing.Text{At: geom.Point{X: f.x + 1, Y: f.y + f.h - 2.7}, Text: f.label, Height: labelHeight})
	y := f.y + 1.5
	if f.h > blockHeight/3 {
		y = f.y + 7.2
		text, height := fitting(second, textHeight, f.w-2)
		b.write(drawing.Text{At: geom.Point{X: f.x + 1, Y: f.y + 1.8}, Text: text, Height: height})
	}
	text, height := fitting(f.value, f.height, f.w-2)
	b.write(drawing.Text{At: geom.Point{X: f.x + 1, Y: y}, Text: text, Height: height})
}

// fitting returns the text at the largest height of ISO 3098 up to the wanted
// one at which it fits, cut short if it must be.
func fitting(text string, height, width float64) (string, float64) {
	for _, h := range []float64{titleHeight, letterHeight, textHeight, labelHeight} {
		if h <= height && Width(text, h) <= width {
			return text, h
		}
	}
	letters := []rune(text)
	for len(letters) > 0 && Width(string(letters)+"...", labelHeight) > width {
		letters = letters[:len(letters)-1]
	}
	return string(letters) + "...", labelHeight
}

// firstAngle draws the symbol of first-angle projection about a place: a cone's
// frustum from the side, and to its right what it shows from the left (ISO 5456-2,
// from memory).
func firstAngle(b *board, at geom.Point) {
	const half, large, small = 3.0, 3.0, 1.5
	p := func(x, y float64) geom.Point { return at.Add(geom.Point{X: x, Y: y}) }
	side, end := -6.0, 5.0
	b.line(drawing.Outline, p(side-half, -small), p(side-half, small))
	b.line(drawing.Outline, p(side-half, small), p(side+half, large))
	b.line(drawing.Outline, p(side+half, large), p(side+half, -large))
	b.line(drawing.Outline, p(side+half, -large), p(side-half, -small))
	for _, r := range []float64{small, large} {
		b.draw(drawing.Stroke{Kind: drawing.Outline, Closed: true, Curves: []geom.Curve{geom.Arc{Centre: p(end, 0), Radius: r, To: 2 * math.Pi}}})
	}
	b.line(drawing.Centre, p(side-half-1, 0), p(side+half+1, 0))
	b.line(drawing.Centre, p(end-large-1, 0), p(end+large+1, 0))
	b.line(drawing.Centre, p(end, -large-1), p(end, large+1))
}
