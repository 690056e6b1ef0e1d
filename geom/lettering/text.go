// Package lettering draws letters as outlines: part names and "this side down",
// raised, sunk or cut through.
//
// The letters are Go Bold, an open face without contrast between thick and thin
// strokes that would be lost in print. Sizes are cap heights: that of an H, in
// mm. The base line is the x axis and a text begins at x = 0. The package does
// not lay out lines and knows no parts: marks become holes or outlines of a
// layer where a design puts them.
package lettering

import (
	"fmt"
	"strings"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"pintle/check"
	"pintle/geom"
)

// Of the face, in its own units of which a square em has 2048.
const (
	capUnits  = 1480.0
	thinUnits = 167.0 // the thinnest stroke: the bar of an e
	spacing   = 120.0 // between letters beyond the face's own, since plastic spreads
)

// Least sizes, in mm.
const (
	// LeastStroke: PLA and PETG from a nozzle of 0.4 mm (rigidprints.co.uk, design
	// guide, wall thickness; xometry.com, ultimate guide to 3D printed text).
	LeastStroke = 0.6
	// LeastRelief: raised or sunk by (rigidprints.co.uk, same page).
	LeastRelief = 0.4
	// MostRelief: on a wall that stands upright (hycubeworks.in, design guide).
	MostRelief = 0.6
	// LeastCap: bold letters without serifs (common practice, no source).
	LeastCap = 4.0
	// LeastBridge holds the island of a counter in a cut letter (common practice,
	// no source).
	LeastBridge = 2.0
)

// LeastHeight returns the least cap height in mm that a printer with the bead
// width draws readably: no stroke thinner than LeastStroke or one and a half
// beads (common practice, no source), and not below LeastCap.
func LeastHeight(bead float64) float64 {
	return max(LeastCap, max(LeastStroke, 1.5*bead)*capUnits/thinUnits)
}

// Text returns the outlines of a text of the cap height, and the width it takes
// on the base line, both in mm. Outer contours run anticlockwise, counters (the
// eyes of o and e) clockwise. The error is a *check.FieldError that names a
// character the face has not, or a height that is no length.
func Text(text string, capHeight, chord float64) ([]geom.Contour, float64, error) {
	if !(capHeight > 0 && capHeight <= geom.Extent) {
		return nil, 0, &check.FieldError{
			Field: "cap height", Value: capHeight, Unit: "mm",
			Reason: fmt.Sprintf("must be above 0 and at most %g", geom.Extent), Remedy: "give the height of a capital letter",
		}
	}
	if strings.TrimSpace(text) == "" {
		return nil, 0, &check.FieldError{Field: "text", Reason: "must have a letter", Remedy: "write what the part should say"}
	}
	face, err := sfnt.Parse(gobold.TTF)
	if err != nil {
		panic("lettering: the face cannot be read: " + err.Error())
	}
	p := printer{face: face, scale: capHeight / capUnits}
	for _, r := range text {
		if err := p.add(r, text); err != nil {
			return nil, 0, err
		}
	}
	contours, err := geom.Arrange(p.runs, chord)
	if err != nil {
		return nil, 0, fmt.Errorf("the letters of %q at a cap height of %g mm: %w", text, capHeight, err)
	}
	return contours, (p.x - spacing) * p.scale, nil
}

// A printer sets letter after letter.
type printer struct {
	face  *sfnt.Font
	buf   sfnt.Buffer
	scale float64 // mm per unit
	x     float64 // where the next letter begins, units
	last  sfnt.GlyphIndex
	runs  [][]geom.Curve
}

func (p *printer) add(r rune, text string) error {
	em := fixed.I(int(p.face.UnitsPerEm()))
	glyph, err := p.face.GlyphIndex(&p.buf, r)
	if err != nil || glyph == 0 {
		return &check.FieldError{
			Field: "text", Reason: fmt.Sprintf("has a character that the letters lack: %q in %q", r, text),
			Remedy: "use letters, digits and common signs",
		}
	}
	if p.last != 0 {
		if kern, err := p.face.Kern(&p.buf, p.last, glyph, em, 0); err == nil {
			p.x += float64(kern) / 64
		}
	}
	segments, err := p.face.LoadGlyph(&p.buf, glyph, em, nil)
	if err != nil {
		panic(fmt.Sprintf("lettering: the letter %q cannot be read: %v", r, err))
	}
	p.draw(segments)
	advance, err := p.face.GlyphAdvance(&p.buf, glyph, em, 0)
	if err != nil {
		panic(fmt.Sprintf("lettering: the letter %q has no width: %v", r, err))
	}
	p.x += float64(advance)/64 + spacing
	p.last = glyph
	return nil
}

// draw turns the segments of a letter into closed runs of curves.
func (p *printer) draw(segments sfnt.Segments) {
	var run []geom.Curve
	var start, at geom.Point
	line := func(to geom.Point) {
		if to != at {
			run = append(run, geom.Line{A: at, B: to})
		}
		at = to
	}
	end := func() {
		if line(start); len(run) > 0 {
			p.runs = append(p.runs, run)
		}
		run = nil
	}
	for _, s := range segments {
		a := p.place(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			end()
			start, at = a, a
		case sfnt.SegmentOpLineTo:
			line(a)
		case sfnt.SegmentOpQuadTo: // the same as a curve of degree three (elementary)
			b := p.place(s.Args[1])
			third := func(end geom.Point) geom.Point { return end.Add(a.Sub(end).Scale(2.0 / 3)) }
			run = append(run, geom.Cubic{at, third(at), third(b), b})
			at = b
		case sfnt.SegmentOpCubeTo:
			run = append(run, geom.Cubic{at, a, p.place(s.Args[1]), p.place(s.Args[2])})
			at = p.place(s.Args[2])
		}
	}
	end()
}

// place returns a point of a letter in mm, y up.
func (p *printer) place(v fixed.Point26_6) geom.Point {
	return geom.Point{X: (p.x + float64(v.X)/64) * p.scale, Y: -float64(v.Y) / 64 * p.scale}
}
