package paper

import (
	"math"

	"pintle/drawing"
	"pintle/geom"
)

// Lettering heights of ISO 3098, in mm of a capital letter.
const (
	labelHeight  = 1.8 // names of fields
	textHeight   = 2.5 // figures, notes, tables
	letterHeight = 3.5 // sections and items
	titleHeight  = 5.0
)

// capitals is the height of a capital in the fonts that a drawing asks for, as a
// share of the font size: 0.716 in Arial and its metric equals, 0.729 in DejaVu
// Sans (both read from the fonts).
const capitals = 0.716

// widths are the advances of letters in thousandths of the font size, each the
// larger of those of DejaVu Sans and Liberation Sans (read from the fonts). The
// narrower of the two is in use on most machines, so that text comes out a
// little shorter than the room kept for it.
var widths = []struct {
	advance int
	letters string
}{
	{275, "'"},
	{278, "ijl"},
	{295, "I"},
	{318, " ,.·’"},
	{337, "/:;\\|"},
	{353, "f"},
	{361, "-"},
	{391, "()[]"},
	{393, "t"},
	{401, "!²³"},
	{412, "r"},
	{460, "\""},
	{500, "*J`°"},
	{519, "“”"},
	{521, "s"},
	{525, "z"},
	{541, "ε"},
	{550, "cç"},
	{557, "?_–"},
	{558, "L"},
	{559, "ν"},
	{580, "k"},
	{592, "vxy"},
	{611, "FT"},
	{612, "oøö"},
	{613, "aäà"},
	{616, "eéè"},
	{630, "ß"},
	{634, "hnuüñ"},
	{635, "bdgpq"},
	{637, "$0123456789{}μ"},
	{638, "√"},
	{660, "α"},
	{667, "EKPSY"},
	{685, "AVÄ"},
	{686, "XZ"},
	{687, "B"},
	{723, "CR"},
	{732, "UÜ"},
	{749, "N"},
	{752, "H"},
	{771, "D"},
	{778, "G"},
	{780, "&"},
	{788, "OQØÖ"},
	{818, "w"},
	{838, "#+<=>^~±×−≥≤"},
	{863, "M"},
	{951, "%"},
	{975, "m"},
	{989, "W"},
	{1016, "@"},
}

// otherLetter is the advance kept for a letter that is not in the table: wider
// than any in common sans-serif fonts.
const otherLetter = 1100

var advances = func() (table [256]int) {
	for i := range table {
		table[i] = otherLetter
	}
	for _, w := range widths {
		for _, r := range w.letters {
			if r < 256 {
				table[r] = w.advance
			}
		}
	}
	return table
}()

// Width returns the room in mm that a line of text of the capital height takes
// up at most, in any of the fonts that a drawing asks for.
func Width(text string, height float64) float64 {
	sum := 0
	for _, r := range text {
		if r < 256 {
			sum += advances[r]
			continue
		}
		sum += wide(r)
	}
	return float64(sum) / 1000 * height / capitals
}

func wide(r rune) int {
	for _, w := range widths {
		for _, l := range w.letters {
			if l == r {
				return w.advance
			}
		}
	}
	return otherLetter
}

// A quad is the box of a text, anticlockwise.
type quad [4]geom.Point

// Shares of a capital's height that the box reaches below the base line and
// above the capital: tails, accents and inspection frames.
const (
	tail, accent = 0.3, 0.2
)

// boxOf returns the box that a text keeps free.
func boxOf(t drawing.Text) quad {
	w := Width(t.Text, t.Height)
	from := map[drawing.Anchor]float64{drawing.Start: 0, drawing.Middle: -w / 2, drawing.End: -w}[t.Anchor]
	lo, hi := -tail*t.Height, (1+accent)*t.Height
	q := quad{{X: from, Y: lo}, {X: from + w, Y: lo}, {X: from + w, Y: hi}, {X: from, Y: hi}}
	for i := range q {
		q[i] = q[i].Rotate(t.Turn).Add(t.At)
	}
	return q
}

// bounds returns the upright box around a quad.
func (q quad) bounds() (lo, hi geom.Point) {
	lo, hi = q[0], q[0]
	for _, p := range q {
		lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo, hi
}

// meets says whether two convex outlines have a point in common: no side of
// either parts them.
func meets(a, b []geom.Point) bool { return !parted(a, b) && !parted(b, a) }

func parted(a, b []geom.Point) bool {
	for i, p := range a {
		side := a[(i+1)%len(a)].Sub(p)
		normal := geom.Point{X: -side.Y, Y: side.X}
		aLo, aHi := extent(a, normal)
		bLo, bHi := extent(b, normal)
		if aHi <= bLo+1e-9 || bHi <= aLo+1e-9 {
			return true
		}
	}
	return false
}

func extent(points []geom.Point, along geom.Point) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range points {
		d := p.X*along.X + p.Y*along.Y
		lo, hi = min(lo, d), max(hi, d)
	}
	return lo, hi
}
