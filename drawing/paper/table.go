package paper

import (
	"slices"
	"strings"

	"pintle/drawing"
	"pintle/geom"
)

// Rows of a table, in mm.
const (
	rowHeight = 4.8
	cellRoom  = 1.2 // either side of a text

	lineHeight = 4.2 // between the lines of a cell or a note
)

// setTable draws a table from its top left corner down, as wide as its texts
// need and at most as wide as the drawing space of A4: longer texts go on in
// more lines, and a word wider than its column is cut.
func setTable(t drawing.Table) *board {
	b := &board{}
	rows := t.Rows
	if t.Columns != nil {
		rows = append([][]string{t.Columns}, rows...)
	}
	widths, total := columnWidths(t, rows)
	y := 0.0
	at := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	b.line(drawing.Outline, at(0, 0), at(total, 0))
	if t.Title != "" {
		b.write(drawing.Text{At: at(cellRoom, y-baseline), Text: t.Title, Height: textHeight})
		y -= rowHeight
		b.line(drawing.Outline, at(0, y), at(total, y))
	}
	top := y
	for i, row := range rows {
		x, lines := 0.0, 1
		for k, cell := range row {
			room := widths[k] - 2*cellRoom
			broken := wrap(cell, room+1e-9)
			for n, line := range broken {
				b.write(drawing.Text{At: at(x+cellRoom, y-baseline-lineHeight*float64(n)), Text: shortened(line, room), Height: textHeight})
			}
			x += widths[k]
			lines = max(lines, len(broken))
		}
		y -= rowHeight + lineHeight*float64(lines-1)
		kind := drawing.Edge
		if i == len(rows)-1 || i == 0 && t.Columns != nil {
			kind = drawing.Outline
		}
		b.line(kind, at(0, y), at(total, y))
	}
	x := 0.0
	for _, w := range widths[:max(len(widths)-1, 0)] {
		x += w
		b.line(drawing.Edge, at(x, top), at(x, y))
	}
	b.line(drawing.Outline, at(0, 0), at(0, y))
	b.line(drawing.Outline, at(total, 0), at(total, y))
	return b
}

// columnWidths returns how wide the columns are and all of them together.
func columnWidths(t drawing.Table, rows [][]string) (widths []float64, total float64) {
	widths = make([]float64, columns(t))
	copy(widths, t.Room)
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], Width(cell, textHeight)+2*cellRoom)
		}
	}
	for _, w := range widths {
		total += w
	}
	for total > columnWidth+0.01 {
		widest := slices.Index(widths, slices.Max(widths))
		less := min(total-columnWidth, widths[widest]/4)
		widths[widest] -= less
		total -= less
	}
	if title := Width(t.Title, textHeight) + 2*cellRoom; title > total && len(widths) > 0 {
		widths[len(widths)-1] += title - total
		total = title
	}
	return widths, total
}

// shortened returns the text, its end cut where it is wider than the width in mm.
func shortened(text string, width float64) string {
	if Width(text, textHeight) <= width+1e-9 {
		return text
	}
	letters := []rune(text)
	for len(letters) > 0 && Width(string(letters)+"...", textHeight) > width {
		letters = letters[:len(letters)-1]
	}
	return string(letters) + "..."
}

// baseline is the depth in mm of a row's base line under its top.
const baseline = (rowHeight + textHeight) / 2

// setNotes writes notes below each other, broken at spaces to the width in mm;
// a note's further lines stand in.
func setNotes(notes []string, width float64) *board {
	b := &board{}
	y := 0.0
	for _, note := range notes {
		x := 0.0
		for _, line := range wrap(note, width-3) {
			y -= lineHeight
			b.write(drawing.Text{At: geom.Point{X: x, Y: y}, Text: line, Height: textHeight})
			x = 3
		}
	}
	return b
}

// wrap breaks text at spaces so that each line is at most as wide, in mm.
func wrap(text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && Width(line+" "+word, textHeight) > width {
			lines = append(lines, line)
			line = ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

func columns(t drawing.Table) int {
	n := len(t.Columns)
	for _, row := range t.Rows {
		n = max(n, len(row))
	}
	return n
}
