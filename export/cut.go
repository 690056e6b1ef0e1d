package export

import (
	"bufio"
	"fmt"
	"io"

	svg "github.com/ajstarks/svgo/float"

	"pintle/drawing"
	"pintle/geom"
)

// An Operation is what a cutter does in one go: closed runs of curves in mm, y
// upwards, in one colour.
type Operation struct {
	Name   string
	Colour string // as SVG writes it: #rrggbb
	Paths  [][]geom.Curve
}

// Sizes of a cut file, in mm (common practice, no source).
const (
	cutMargin = 5.0
	cutStroke = 0.1
)

// WriteCut writes the file for a cutter: closed paths only, at true size, one
// group for each operation that has any, in the order given. There is no text
// in it, not even a title, and no fill. It returns an error for a path that is
// not closed or not finite, and the writer's error.
func WriteCut(w io.Writer, name string, operations []Operation) error {
	var view drawing.View
	for _, o := range operations {
		for _, path := range o.Paths {
			stroke := drawing.Stroke{Curves: path, Closed: true}
			if len(path) == 0 || !(path[len(path)-1].End().Sub(path[0].Start()).Len() < 1e-5) {
				return fmt.Errorf("cut file of %s: a path is not closed", name)
			}
			view.Strokes = append(view.Strokes, stroke)
		}
	}
	if !isFinite(drawing.Page{Strokes: view.Strokes}) {
		return fmt.Errorf("cut file of %s: %w", name, errNotFinite)
	}
	lo, hi := view.Bounds()
	size := hi.Sub(lo)
	width, height := size.X+2*cutMargin, size.Y+2*cutMargin
	out := bufio.NewWriter(w)
	canvas := svg.New(out)
	canvas.Decimals = 4
	canvas.Startunit(width, height, "mm", fmt.Sprintf(`viewBox="0 0 %.4f %.4f"`, width, height))
	ink := pen{height}
	by := geom.Point{X: cutMargin, Y: cutMargin}.Sub(lo)
	for _, o := range operations {
		if len(o.Paths) == 0 {
			continue
		}
		canvas.Group(`id="`+o.Name+`"`, `fill="none"`, `stroke="`+o.Colour+`"`, fmt.Sprintf(`stroke-width="%s"`, coordinate(cutStroke)))
		for _, path := range o.Paths {
			canvas.Path(ink.path(drawing.Stroke{Curves: shifted(path, by), Closed: true}))
		}
		canvas.Gend()
	}
	canvas.End()
	return out.Flush()
}

func shifted(curves []geom.Curve, by geom.Point) []geom.Curve {
	return geom.Contour{Curves: curves}.Move(geom.Motion{Shift: by}).Curves
}
