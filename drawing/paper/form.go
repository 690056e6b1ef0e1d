package paper

import (
	"fmt"

	"pintle/drawing"
	"pintle/geom"
)

// columnWidth is the room of a form's column in mm: the drawing space of A4.
const columnWidth = 180.0

// SetForm places a form on A4 or, where that is too short, in two columns on A3.
// A form too long for that is an error.
func SetForm(f drawing.Form) (drawing.Page, error) {
	var blocks []*board
	for _, s := range f.Sections {
		blocks = append(blocks, setSection(s))
	}
	head := setHead(f)
	for _, sheet := range formats {
		if b, ok := sheet.columns(head, blocks); ok {
			sheet.checkLine(b)
			return drawing.Page{
				Title: f.Title, Format: sheet.name, Scale: "1:1", Width: sheet.width, Height: sheet.height,
				Wide: wideLine, Narrow: narrowLine, Strokes: b.strokes, Texts: b.texts, Check: b.check,
			}, nil
		}
	}
	return drawing.Page{}, fmt.Errorf("%s: the form is too long for a sheet of A3", f.Title)
}

// setHead writes the form's title.
func setHead(f drawing.Form) *board {
	b := &board{}
	title, height := fitting(f.Title, titleHeight, columnWidth)
	b.write(drawing.Text{At: geom.Point{Y: -titleHeight}, Text: title, Height: height})
	mark := Width(f.Mark, textHeight)
	b.write(drawing.Text{At: geom.Point{X: columnWidth, Y: -titleHeight - 5}, Text: f.Mark, Height: textHeight, Anchor: drawing.End})
	text, height := fitting(f.Supplement, textHeight, columnWidth-mark-apart)
	b.write(drawing.Text{At: geom.Point{Y: -titleHeight - 5}, Text: text, Height: height})
	b.line(drawing.Outline, geom.Point{Y: -titleHeight - 7}, geom.Point{X: columnWidth, Y: -titleHeight - 7})
	return b
}

// setSection writes heading, lines and table from the top left corner down.
func setSection(s drawing.FormSection) *board {
	b := &board{}
	b.write(drawing.Text{At: geom.Point{Y: -letterHeight}, Text: s.Title, Height: letterHeight})
	y := -letterHeight - 1.5
	if len(s.Lines) > 0 {
		lines := setNotes(s.Lines, columnWidth)
		b.put(lines, geom.Point{Y: y})
		y -= sizeOf(lines).h + 2
	}
	if len(s.Table.Rows) > 0 {
		b.put(setTable(s.Table), geom.Point{Y: y - 0.5})
	}
	return b
}

// columns stacks head and sections in as many columns as the sheet has, and says
// whether they have room.
func (f format) columns(head *board, blocks []*board) (*board, bool) {
	lo, hi := f.space()
	b := &board{}
	x, y := lo.X, hi.Y
	for _, block := range append([]*board{head}, blocks...) {
		bottom, top := block.bounds()
		if top.X-bottom.X > columnWidth+0.01 {
			return nil, false
		}
		if y+bottom.Y < lo.Y {
			if x += columnWidth + apart; x+columnWidth > hi.X+0.01 {
				return nil, false
			}
			y = hi.Y
		}
		b.put(block, geom.Point{X: x, Y: y})
		y += bottom.Y - 3.5
	}
	return b, true
}
