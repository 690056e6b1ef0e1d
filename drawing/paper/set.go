// Package paper sets a drawing on a sheet of ISO 5457: it picks the smallest of
// A4 and A3 on which views, tables and notes have room at a scale of ISO 5455,
// true size before any other, and places dimensions, leaders and texts so that
// no text touches another text or a line.
//
// Lengths are mm on paper, y upwards. Text takes the room of its widest common
// font (see Width). The conventions are those of ISO 128, 129-1, 2203, 3098, 5457
// and 7200 as reference books give them, from memory where a comment says so.
package paper

import (
	"fmt"
	"slices"

	"pintle/drawing"
	"pintle/geom"
)

// Sheet margins of ISO 5457:1999: a filing edge on the left, the rest equal.
const (
	marginLeft, margin = 20.0, 10.0
	apart              = 5.0 // between views, tables, notes and title block
	wideLine           = 0.5 // ISO 128-2 group for A4 and A3
	narrowLine         = 0.25
	checkLength        = 100.0
)

// A format is a trimmed sheet of ISO 216, as it is used.
type format struct {
	name          string
	width, height float64
}

var formats = []format{{"A4", 210, 297}, {"A3", 420, 297}}

// A ratio is a scale of ISO 5455.
type ratio struct {
	name  string
	scale float64
	whole bool // taken only where every size finds room beside its view
}

// ratios returns the scales to try in order: true size, then smaller. Parts of
// which nothing could be read at true size are enlarged first, small ones where
// true size has no room for all that there is to say (design choice).
func ratios(size float64) []ratio {
	var all []ratio
	switch {
	case size < 15:
		all = append(all, ratio{"5:1", 5, false}, ratio{"2:1", 2, false})
	case size < 20:
		all = append(all, ratio{"2:1", 2, false})
	case size < 30:
		all = append(all, ratio{"1:1", 1, true}, ratio{"2:1", 2, false})
	}
	for _, n := range []float64{1, 2, 5, 10, 20, 50} {
		all = append(all, ratio{fmt.Sprintf("1:%g", n), 1 / n, false})
	}
	return all
}

// Set places a sheet on paper. Tables and notes that no sheet has room for beside
// the views are left to the report, with a note that says so; views that no
// sheet can show are an error.
func Set(sheet drawing.Sheet) (drawing.Page, error) {
	page, ok := set(sheet)
	if !ok {
		sheet.Tables, sheet.Notes = nil, []string{"More notes and tables belong to this drawing than it has room for: see the report."}
		page, ok = set(sheet)
	}
	if !ok {
		return page, fmt.Errorf("%s: no sheet up to A3 holds its views", sheet.Block.Number)
	}
	return page, nil
}

func set(sheet drawing.Sheet) (drawing.Page, bool) {
	size := 0.0
	for _, v := range sheet.Views {
		lo, hi := v.Bounds()
		size = max(size, hi.X-lo.X, hi.Y-lo.Y)
	}
	for _, r := range ratios(size) {
		for _, levels := range []int{12, 5, 2} {
			views, listed := setViews(sheet.Views, r.scale, levels)
			if r.whole && len(listed) > 0 {
				break
			}
			tables := sheet.Tables
			if len(listed) > 0 {
				tables = append(tables[:len(tables):len(tables)], further(listed))
			}
			for _, f := range formats {
				if b, ok := f.compose(views, tables, sheet.Notes); ok {
					return f.page(b, sheet, r), true
				}
			}
		}
	}
	return drawing.Page{}, false
}

// further lists what found no room beside a view, in rows of three.
func further(listed []string) drawing.Table {
	t := drawing.Table{Title: "Further sizes"}
	for row := range slices.Chunk(listed, 3) {
		t.Row(row...)
	}
	return t
}

// setViews stacks the views, the first on top, their origins in line.
func setViews(views []drawing.View, scale float64, levels int) (*board, []string) {
	all := &board{}
	var listed []string
	y := 0.0
	for i, v := range views {
		b, left := setView(v, scale, levels)
		listed = append(listed, left...)
		lo, hi := b.bounds()
		if i > 0 {
			y -= apart + hi.Y
		}
		all.put(b, geom.Point{Y: y})
		y += lo.Y
	}
	return all, listed
}

// space returns the drawing space inside the frame.
func (f format) space() (lo, hi geom.Point) {
	return geom.Point{X: marginLeft, Y: margin}, geom.Point{X: f.width - margin, Y: f.height - margin}
}

// A layout is a way to share the drawing space.
type layout func(lo, hi geom.Point, views, tables, notes size) (at [3]geom.Point, ok bool)

// A size is width and height in mm.
type size struct{ w, h float64 }

func sizeOf(b *board) size {
	lo, hi := b.bounds()
	return size{hi.X - lo.X, hi.Y - lo.Y}
}

// Widths of notes beside tables in mm (design choice).
const widestNotes, narrowestNotes = 88.0, 60.0

// compose places views, tables and notes around the title block, and says
// whether they have room.
func (f format) compose(views *board, tables []drawing.Table, notes []string) (*board, bool) {
	lo, hi := f.space()
	room := hi.X - lo.X
	for _, way := range []struct {
		place  layout
		beside bool    // tables stand beside each other
		notes  float64 // their width
	}{
		{tablesRight, false, min(room, 390-blockWidth-apart)},
		{tablesBelow, true, room},
		{tablesAndNotesBelow, false, widestNotes},
	} {
		t := setTables(tables, way.beside)
		width := way.notes
		if width == widestNotes { // beside the tables
			width = max(narrowestNotes, min(width, room-4-apart-sizeOf(t).w))
		}
		if f.width > 300 {
			width = min(width, room-blockWidth-apart)
		}
		n := setNotes(notes, width)
		if at, ok := way.place(lo, hi, sizeOf(views), sizeOf(t), sizeOf(n)); ok {
			all := &board{}
			for i, b := range []*board{views, t, n} {
				corner, top := b.bounds()
				all.put(b, at[i].Sub(geom.Point{X: corner.X, Y: top.Y}))
			}
			return all, true
		}
	}
	return nil, false
}

// foot returns the room in the drawing space above the title block, and where
// the notes go: above the block on an upright sheet, left of it on a wide one.
func foot(lo, hi geom.Point, notes size) (top float64, notesAt geom.Point, ok bool) {
	beside := hi.X - lo.X - blockWidth - apart
	if beside >= notes.w {
		top = lo.Y + max(blockHeight, notes.h+2) + apart
		return top, geom.Point{X: lo.X + 3, Y: lo.Y + notes.h + 2}, true
	}
	base := lo.Y + blockHeight + 2
	return base + notes.h + apart, geom.Point{X: lo.X + 3, Y: base + notes.h}, true
}

// tablesRight puts the tables into the upper right corner, the views in the
// middle of what is left of them.
func tablesRight(lo, hi geom.Point, views, tables, notes size) (at [3]geom.Point, ok bool) {
	bottom, notesAt, _ := foot(lo, hi, notes)
	right := hi.X - 2
	if tables.w > 0 {
		right -= tables.w + apart
	}
	if views.w > right-lo.X-2 || max(views.h, tables.h) > hi.Y-bottom-2 {
		return at, false
	}
	at[0] = geom.Point{X: (lo.X + 2 + right - views.w) / 2, Y: hi.Y - 2 - (hi.Y-2-bottom-views.h)/3}
	at[1] = geom.Point{X: hi.X - 2 - tables.w, Y: hi.Y - 2}
	at[2] = notesAt
	return at, true
}

// tablesBelow puts the tables beside each other above the notes.
func tablesBelow(lo, hi geom.Point, views, tables, notes size) (at [3]geom.Point, ok bool) {
	bottom, notesAt, _ := foot(lo, hi, notes)
	base := bottom + tables.h + apart
	if max(views.w, tables.w) > hi.X-lo.X-4 || views.h > hi.Y-2-base {
		return at, false
	}
	at[0] = geom.Point{X: (lo.X + hi.X - views.w) / 2, Y: hi.Y - 2 - (hi.Y-2-base-views.h)/3}
	at[1] = geom.Point{X: lo.X + 2, Y: bottom + tables.h}
	at[2] = notesAt
	return at, true
}

// tablesAndNotesBelow puts the tables under each other left, the notes right.
func tablesAndNotesBelow(lo, hi geom.Point, views, tables, notes size) (at [3]geom.Point, ok bool) {
	base := lo.Y + blockHeight + 2
	top := base + max(tables.h, notes.h) + apart
	if views.w > hi.X-lo.X-4 || tables.w+apart+notes.w > hi.X-lo.X-4 || views.h > hi.Y-2-top {
		return at, false
	}
	at[0] = geom.Point{X: (lo.X + hi.X - views.w) / 2, Y: hi.Y - 2 - (hi.Y-2-top-views.h)/3}
	at[1] = geom.Point{X: lo.X + 2, Y: base + tables.h}
	at[2] = geom.Point{X: lo.X + 2 + tables.w + apart, Y: base + max(notes.h, 0)}
	return at, true
}

// setTables stacks tables, or puts them side by side.
func setTables(tables []drawing.Table, beside bool) *board {
	all := &board{}
	at := geom.Point{}
	for _, t := range tables {
		b := setTable(t)
		all.put(b, at)
		if s := sizeOf(b); beside {
			at.X += s.w + apart
		} else {
			at.Y -= s.h + apart
		}
	}
	return all
}

// checkLine draws the line to measure on the print into the lower border: the
// metric reference graduation of ISO 5457.
func (f format) checkLine(b *board) {
	lo, _ := f.space()
	p := geom.Point{X: lo.X, Y: margin / 2}
	q := p.Add(geom.Point{X: checkLength})
	b.check = geom.Line{A: p, B: q}
	b.segs = append(b.segs, b.check)
	for i := range 11 {
		tick := 1.0
		if i%5 == 0 {
			tick = 1.8
		}
		x := p.X + float64(i)*checkLength/10
		b.line(drawing.Edge, geom.Point{X: x, Y: p.Y}, geom.Point{X: x, Y: p.Y + tick})
	}
	b.write(drawing.Text{At: geom.Point{X: q.X + 3, Y: p.Y - 0.5}, Text: "must measure 100 mm on paper", Height: textHeight})
}

// page adds frame and title block to what was composed.
func (f format) page(b *board, sheet drawing.Sheet, r ratio) drawing.Page {
	lo, hi := f.space()
	b.put(setBlock(sheet.Block, r.name, f.name), geom.Point{X: hi.X - blockWidth, Y: lo.Y})
	f.checkLine(b)
	corners := []geom.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	for i, p := range corners {
		b.line(drawing.Outline, p, corners[(i+1)%4])
	}
	return drawing.Page{
		Title: sheet.Block.Title, Format: f.name, Scale: r.name, Width: f.width, Height: f.height,
		Wide: wideLine, Narrow: narrowLine, Strokes: b.strokes, Texts: b.texts, Check: b.check,
	}
}
