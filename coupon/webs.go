package coupon

import (
	"math"

	"pintle/check"
	"pintle/geom"
)

// Of the comb, in mm: length of the windows, frame round them, thickness.
const (
	windowLength = 15.0
	combRim      = 3.0
	combHeight   = 2.4
)

// webs draws a comb, or as many as fit the plates: windows with webs of the
// steps between them.
func (d *design) webs() error {
	steps := d.spec.Webs.At()
	rows := section{piece: "webs", title: "Comb of webs, marks in tenths of a millimetre", trial: webTrial}
	var texts []string
	for _, w := range steps {
		text := check.Number(w * 10)
		texts = append(texts, text)
		rows.add(text, w)
		d.note("webs", "web marked "+text, w, d.spec.Card.Outside)
	}
	size, err := d.widest(texts)
	if err != nil {
		return err
	}
	pitch := max(size.X+2, steps[len(steps)-1]+5)
	most := int((Side-1-2*combRim)/pitch) - 1
	combs := (len(steps) + most - 1) / most
	each := int(math.Ceil(float64(len(steps)) / float64(combs)))
	var pieces []piece
	for from := 0; from < len(steps); from += each {
		to := min(from+each, len(steps))
		p, err := d.comb(steps[from:to], texts[from:to], pitch, size)
		if err != nil {
			return err
		}
		pieces = append(pieces, p)
	}
	d.sections = append(d.sections, rows)
	return d.plates("webs", pieces)
}

func (d *design) comb(webs []float64, texts []string, pitch float64, size geom.Point) (piece, error) {
	width := pitch * float64(len(webs)+1)
	var windows, letters []geom.Contour
	left := combRim
	window := func(right float64) {
		windows = append(windows, geom.Window(geom.Point{X: (left + right) / 2}, right-left, windowLength, 0, 0, geom.ChordPlain))
	}
	for i, w := range webs {
		middle := combRim + pitch*float64(i+1)
		window(middle - w/2)
		left = middle + w/2
		l, _, err := d.mark(texts[i], geom.Point{X: middle, Y: -windowLength/2 - margin - size.Y/2})
		if err != nil {
			return piece{}, err
		}
		letters = append(letters, l...)
	}
	window(width + combRim)
	low, high := -windowLength/2-2*margin-size.Y, windowLength/2+combRim
	plate := geom.Rectangle(geom.Point{X: width/2 + combRim, Y: (low + high) / 2}, width+2*combRim, high-low, 2, 0, geom.ChordPlain)
	return newPiece(
		geom.Slab{Z1: combHeight, Bottom: append([]geom.Contour{plate}, windows...)},
		geom.Slab{Z0: combHeight, Z1: combHeight + relief, Bottom: letters}), nil
}
