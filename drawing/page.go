package drawing

import "pintle/geom"

// A Page is a drawing set on paper: mm from the lower left corner of the
// trimmed sheet, y upwards.
type Page struct {
	Title         string
	Format        string  // of ISO 5457, such as "A4"
	Scale         string  // of ISO 5455, such as "1:1"
	Width, Height float64 // of the trimmed sheet
	Wide, Narrow  float64 // line widths
	Strokes       []Stroke
	Texts         []Text
	Check         geom.Line // the line that must measure 100 mm on the print
}

// A Text is one line of lettering.
type Text struct {
	At     geom.Point // on the base line
	Text   string
	Height float64 // mm, of a capital letter (ISO 3098 series)
	Anchor Anchor
	Turn   float64 // rad, anticlockwise about At
}

// An Anchor says which end of the text stands at its place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)
