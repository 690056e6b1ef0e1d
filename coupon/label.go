package coupon

import (
	"errors"
	"strings"

	"pintle/check"
	"pintle/geom"
	"pintle/geom/lettering"
)

// label draws a tag that says how the coupon was printed, with an arrow that
// points to the back of the bed: print it as it lies beside the rest.
func (d *design) label() error {
	s := d.spec
	lines := []string{s.CardName, s.Material.Name, "layer " + check.Number(s.Card.LayerThickness) + " rev " + s.Revision()}
	if s.Nozzle > 0 {
		lines[1] = strings.TrimSpace(lines[1] + " nozzle " + check.Number(s.Nozzle))
	}
	const high, arrow = 2.0, 12.0
	height := lettering.LeastHeight(s.Card.BeadWidth)
	y, width := 0.0, 0.0
	var letters []geom.Contour
	for _, line := range lines {
		l, _, err := d.markOf(line, geom.Point{}, height)
		var field *check.FieldError
		if errors.As(err, &field) {
			return &check.FieldError{Field: "card name", Text: s.CardName, Reason: field.Reason, Remedy: field.Remedy}
		} else if err != nil {
			return err
		}
		lo, hi := bounds(l)
		letters = append(letters, lettering.Place(l, geom.Point{X: arrow - lo.X, Y: y - height/2}, 0)...)
		width = max(width, hi.X-lo.X)
		y -= height * 1.5
	}
	lo, hi := bounds(letters)
	low, top := lo.Y-margin, hi.Y+margin
	letters = append(letters, upArrow(geom.Point{X: arrow / 2, Y: low + 2*margin}, top-low-4*margin))
	if width+arrow+4*margin > Side {
		return &check.FieldError{Field: "card name", Text: s.CardName, Reason: "does not fit a label", Remedy: "use a shorter name"}
	}
	plate := geom.Rectangle(geom.Point{X: (width + arrow + margin) / 2, Y: (low + top) / 2}, width+arrow+3*margin, top-low, 2, 0, geom.ChordPlain)
	d.sections = append(d.sections, section{piece: "label"})
	return d.add(s.Name+"-label",
		geom.Slab{Z1: high, Bottom: []geom.Contour{plate}},
		geom.Slab{Z0: high, Z1: high + relief, Bottom: letters})
}

// upArrow returns an arrow from its foot along y.
func upArrow(foot geom.Point, length float64) geom.Contour {
	const shaft, barb = 0.8, 2.6
	var points []geom.Point
	for _, p := range []geom.Point{
		{X: -shaft},
		{X: shaft},
		{X: shaft, Y: length - 2*barb},
		{X: barb, Y: length - 2*barb},
		{Y: length},
		{X: -barb, Y: length - 2*barb},
		{X: -shaft, Y: length - 2*barb},
	} {
		points = append(points, foot.Add(p))
	}
	var curves []geom.Curve
	for i, p := range points {
		curves = append(curves, geom.Line{A: p, B: points[(i+1)%len(points)]})
	}
	return geom.Contour{Curves: curves, Points: points}
}
