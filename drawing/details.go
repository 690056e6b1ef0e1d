package drawing

import "pintle/geom"

// Details is what a design knows of one of its parts that the layers do not
// show. The zero value leaves the drawing to what can be read from the part:
// overall sizes, circles and heights.
type Details struct {
	Dimensions []Dimension // the sizes that matter; they take the place of what would be read
	Strokes    []Stroke    // more lines in the plan: axes, pitch circles
	InSection  []Stroke    // more lines in the section
	As         *geom.Part  // drawn in place of the part, whose cross holes stand in steps; nil for the part
	Toothed    *Toothed    // drawn without its teeth (ISO 2203)
	Cut        *Cut        // where the section goes; nil for along x through the origin
	Tables     []Table
	Notes      []string
}

// Toothed is a gear's rim, all on the diameter in mm, as drawn. An internal one
// has a root larger than its tip.
type Toothed struct {
	Centre               geom.Point
	Tip, Reference, Root float64
	Shown                bool // the plan shows the teeth all the same
}

// A Cut is the straight line in the plan that a section follows, seen from its
// right when going from From to To.
type Cut struct{ From, To geom.Point }

// A Table is a list of values with a title, such as the data of a gear.
type Table struct {
	Title   string
	Columns []string  // headings, or nil
	Room    []float64 // least width of each column on paper in mm, to write in; or nil
	Rows    [][]string
}

// Row adds a row to the table.
func (t *Table) Row(cells ...string) { t.Rows = append(t.Rows, cells) }

// A Detailer is a design that has something to say on the drawings of its parts.
type Detailer interface {
	// Details returns what matters of the part with the name.
	Details(part string) Details
}
