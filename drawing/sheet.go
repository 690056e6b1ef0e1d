// Package drawing holds what a drawing shows, as data: views made of curves in
// the kinds of line that a technical drawing has, the section of a part computed
// from its layers, the sizes that matter, tables and notes.
//
// Lengths are millimetres at true size, y upwards. The package writes no files
// and knows no formats; package paper sets a drawing on a sheet.
package drawing

import (
	"math"

	"pintle/geom"
)

// A LineKind is one of the line types of ISO 128-2.
type LineKind int

// The line types in use, with their numbers in ISO 128-2.
const (
	Outline  LineKind = iota // visible outlines: continuous wide, 01.2
	Edge                     // slight edges, dimensions, hatching: continuous narrow, 01.1
	Hidden                   // hidden edges: dashed narrow, 02.1
	Centre                   // centre lines and pitch circles: long-dashed dotted narrow, 04.1
	Cutting                  // ends of a cutting plane: long-dashed dotted wide, 04.2
	Adjacent                 // neighbouring parts, end positions: long-dashed double-dotted narrow, 05.1
	Solid                    // filled: arrowheads
)

// A Sheet is one drawing: what it shows and what it says, not yet placed.
type Sheet struct {
	Views  []View // the section above the plan that it belongs to
	Tables []Table
	Notes  []string
	Block  TitleBlock
}

// A TitleBlock holds the fields of ISO 7200 and what a shop needs beside them.
// Empty fields stay open, to be filled in by hand.
type TitleBlock struct {
	Owner, Creator, Approved string
	Title, Supplement        string
	Number, Revision         string // identification number and revision index
	Issued                   string // date of issue
	SheetNumber              string // "1/1"
	Kind                     string // document type
	Language                 string
	Material, Tolerances     string
}

// A View shows a part from one side, or cut.
type View struct {
	Title      string
	Facing     Facing
	Strokes    []Stroke
	Hatched    []Hatched
	Dimensions []Dimension
	Cut        *Cut // marks the cut A-A in a plan
	Balloons   []Balloon
}

// A Balloon is an item number with a leader to a place on the item.
type Balloon struct {
	At   geom.Point
	Item string
}

// A Stroke is a run of curves drawn as one line, each starting where the one
// before it ends.
type Stroke struct {
	Kind   LineKind
	Curves []geom.Curve
	Closed bool // the last curve ends where the first starts
}

// OfPart returns the drawing of a part: the section A-A above the plan, with the
// sizes that the design names and those that can be read from the layers. A
// diameter drawn with an allowance gets its wanted size and tolerance. The sheet
// has no title block yet.
func OfPart(part geom.Part, details Details, allowances []Allowance) Sheet {
	if details.As != nil {
		part = *details.As
	}
	cut := details.cut(part)
	section := SectionOf(part, cut, details.Toothed)
	plan := PlanOf(part, details.Toothed, details.Strokes...)
	plan.Cut = &cut
	section.Strokes = append(section.Strokes, details.InSection...)
	section.Title = "A-A"
	for _, d := range read(part, section, details) {
		d = d.allowed(allowances)
		if d.Facing == Section {
			section.Dimensions = append(section.Dimensions, d)
		} else {
			plan.Dimensions = append(plan.Dimensions, d)
		}
	}
	section.Strokes = append(section.Strokes, axes(section)...)
	return Sheet{Views: []View{section, plan}, Tables: details.Tables, Notes: details.Notes}
}

// cut returns where the section goes: where the design wants it, else along x
// through the origin or, for a part beside it, through its middle.
func (d Details) cut(part geom.Part) Cut {
	if d.Cut != nil {
		return *d.Cut
	}
	lo, hi := part.Bounds()
	y := 0.0
	if lo.Y >= 0 || hi.Y <= 0 {
		y = (lo.Y + hi.Y) / 2
	}
	return Cut{From: geom.Point{X: lo.X, Y: y}, To: geom.Point{X: hi.X, Y: y}}
}

// axes returns the centre line of a section with diameters.
func axes(section View) []Stroke {
	for _, d := range section.Dimensions {
		if d.Kind == Diameter {
			lo, hi := section.Bounds()
			x := (d.A.X + d.B.X) / 2
			line := geom.Line{A: geom.Point{X: x, Y: lo.Y - 2}, B: geom.Point{X: x, Y: hi.Y + 2}}
			return []Stroke{{Kind: Centre, Curves: []geom.Curve{line}}}
		}
	}
	return nil
}

// allowed returns the dimension with the wanted size of a diameter, or of half of
// one, that was drawn with an allowance.
func (d Dimension) allowed(allowances []Allowance) Dimension {
	if d.Kind != Diameter && d.Kind != Radius || d.Value != 0 {
		return d
	}
	for _, a := range allowances {
		if d.Kind == Radius && math.Abs(a.Drawn/2-d.Size()) <= 1e-4 {
			return d.Measuring(a.Wanted / 2)
		}
		if d.Kind == Radius || math.Abs(a.Drawn-d.Size()) > 1e-4 {
			continue
		}
		if d = d.Measuring(a.Wanted); d.Lower == d.Upper && a.Tolerance > 0 {
			d = d.Within(-a.Tolerance, a.Tolerance)
		}
		return d
	}
	return d
}

// Bounds returns the smallest and largest x, y of the view's strokes in mm; both
// are zero for a view without strokes.
func (v View) Bounds() (lo, hi geom.Point) {
	lo, hi = geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, s := range v.Strokes {
		for _, c := range s.Curves {
			for _, p := range extremes(c) {
				lo = geom.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
				hi = geom.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
			}
		}
	}
	if lo.X > hi.X {
		return geom.Point{}, geom.Point{}
	}
	return lo, hi
}

// extremes returns points whose bounds hold the curve: exactly for lines and
// arcs, by its control points for a cubic.
func extremes(c geom.Curve) []geom.Point {
	switch c := c.(type) {
	case geom.Cubic:
		return c[:]
	case geom.Arc:
		points := []geom.Point{c.Start(), c.End()}
		from, to := min(c.From, c.To), max(c.From, c.To)
		for q := math.Ceil(from / (math.Pi / 2)); q*math.Pi/2 <= to; q++ {
			points = append(points, c.Centre.Add(geom.Polar(c.Radius, q*math.Pi/2)))
		}
		return points
	}
	return []geom.Point{c.Start(), c.End()}
}
