package coupon

import (
	"fmt"
	"math"

	"pintle/bearing"
	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// Sizes in mm of rings and pegs (common practice, no source).
const (
	tongue   = 1.6 // height of what carries a mark: a ring stays a ring above it
	leadIn   = 0.5 // wide, at 30 degrees from the axis, as in a housing
	mostSeat = 8.0 // of a ring's or peg's length; shorter bearings set it
	margin   = 1.0 // round a mark
)

// rings draws a ring for each step of the bore round the bearing, and one more,
// of the bearing's own size, the other way up.
func (d *design) rings() error {
	wall, err := d.ringWall()
	if err != nil {
		return err
	}
	s := d.spec
	var pieces []piece
	rows := section{piece: "rings", title: fmt.Sprintf("Rings round the bearing, outside %s mm", check.Number(s.Bearing.Outside)), key: "bores", trial: ringTrial}
	for _, step := range s.Rings.At() {
		bore := s.Bearing.Outside + step
		p, err := d.ring(bore, wall, fit.Mark(step), false)
		if err != nil {
			return err
		}
		pieces = append(pieces, p)
		rows.add(fit.Mark(step), bore)
		d.note("rings", "bore of the ring marked "+fit.Mark(step), bore, s.Card.Bore)
	}
	if err := d.plates("rings", pieces); err != nil {
		return err
	}
	flipped, err := d.ring(s.Bearing.Outside, wall, "0F", true)
	if err != nil {
		return err
	}
	rows.flipped, rows.of = "0F", s.Bearing.Outside
	d.note("ring-flipped", "bore of the ring marked 0F", s.Bearing.Outside, s.Card.Bore)
	d.sections = append(d.sections, rows)
	return d.plates("ring-flipped", []piece{flipped})
}

// ringWall returns the wall of the housing that the bearing would get, so that
// as many beads lie side by side.
func (d *design) ringWall() (float64, error) {
	if d.spec.Wall > 0 {
		return d.spec.Wall, nil
	}
	ring, err := bearing.NewHousing(bearing.HousingSpec{Name: "ring", Bearing: d.spec.Bearing, Fit: bearing.Slip, Material: d.spec.Material, Card: d.spec.Card})
	if err != nil {
		return 0, err
	}
	return ring.Wall(), nil
}

// seatLength returns how much of the bearing a ring or peg carries, in mm.
func (d *design) seatLength() float64 {
	if w := d.spec.Bearing.SeatWidth(); w > 0 {
		return min(max(w, 4), mostSeat)
	}
	return mostSeat
}

// ring draws one ring with a tongue for its mark. Its bed edge is relieved and
// its mouth has a lead-in; flipped, the mouth lies on the bed.
func (d *design) ring(bore, wall float64, text string, flipped bool) (piece, error) {
	size, err := d.size(text)
	if err != nil {
		return piece{}, err
	}
	radius := bore/2 + wall
	outer := geom.Peg(geom.Point{}, 2*radius, geom.ChordFlank)
	far := radius + 0.5 + size.X + 2*margin
	body := tongued(outer, radius+0.5, far, size.Y/2+margin)
	letters, _, err := d.mark(text, geom.Point{X: radius + 0.5 + margin + size.X/2})
	if err != nil {
		return piece{}, err
	}
	seat := geom.Bore(geom.Point{}, bore, geom.ChordFit)
	chamfer, lead := d.spec.Card.BedChamfer(), leadIn*math.Sqrt(3)
	low, high := geom.Point{X: chamfer, Y: chamfer}, geom.Point{X: leadIn, Y: lead} // wide, high
	if flipped {
		low, high = high, low
	}
	opened := func(c float64) geom.Contour { return seat.Resize(bore + 2*c) }
	height := low.Y + d.seatLength() + high.Y
	return newPiece(
		geom.Slab{Z1: low.Y, Bottom: []geom.Contour{body, opened(low.X)}, Top: []geom.Contour{body, seat}},
		geom.Slab{Z0: low.Y, Z1: tongue, Bottom: []geom.Contour{body, seat}},
		geom.Slab{Z0: tongue, Z1: tongue + relief, Bottom: append([]geom.Contour{outer, seat}, letters...)},
		geom.Slab{Z0: tongue + relief, Z1: height - high.Y, Bottom: []geom.Contour{outer, seat}},
		geom.Slab{Z0: height - high.Y, Z1: height, Bottom: []geom.Contour{outer, seat}, Top: []geom.Contour{outer, opened(high.X)}},
	), nil
}

// tongued returns a ring's outside with a tongue along the x axis: it leaves the
// circle at corners that the circle has, so that the layers above share them.
func tongued(outer geom.Contour, near, far, half float64) geom.Contour {
	n := len(outer.Points)
	k := 1
	for k < n/6 && outer.Points[k+1].Y <= half {
		k++
	}
	var points []geom.Point
	for i := k; i <= n-k; i++ {
		points = append(points, outer.Points[i])
	}
	points = append(points, geom.Point{X: near, Y: -half}, geom.Point{X: far, Y: -half}, geom.Point{X: far, Y: half}, geom.Point{X: near, Y: half})
	from := 2 * math.Pi * float64(k) / float64(n)
	radius := outer.Diameter() / 2
	curves := []geom.Curve{geom.Arc{Radius: radius, From: from, To: 2*math.Pi - from}}
	for i := n - 2*k; i < len(points); i++ {
		curves = append(curves, geom.Line{A: points[i], B: points[(i+1)%len(points)]})
	}
	return geom.Contour{Curves: curves, Points: points}
}

// pegs draws a peg on a foot for each step round the bore.
func (d *design) pegs() error {
	s := d.spec
	var texts []string
	for _, step := range s.Pegs.At() {
		texts = append(texts, fit.Mark(step))
	}
	size, err := d.widest(texts)
	if err != nil {
		return err
	}
	rows := section{piece: "pegs", title: fmt.Sprintf("Pegs for the bore of %s mm", check.Number(s.Bore)), key: "outsides"}
	var pieces []piece
	for i, step := range s.Pegs.At() {
		diameter := s.Bore + step
		p, err := d.peg(diameter, size, texts[i])
		if err != nil {
			return err
		}
		pieces = append(pieces, p)
		rows.add(texts[i], diameter)
		d.note("pegs", "peg marked "+texts[i], diameter, s.Card.Outside)
	}
	d.sections = append(d.sections, rows)
	return d.plates("pegs", pieces)
}

// peg draws one peg at the origin, its foot reaching to where the mark stands.
func (d *design) peg(diameter float64, size geom.Point, text string) (piece, error) {
	most := d.spec.Bore + d.spec.Pegs.To
	wide := max(most+4, size.X+2*margin)
	high := most/2 + 2 + size.Y + 2*margin + most/2 + 2
	top := most/2 + 2
	foot := geom.Rectangle(geom.Point{Y: top - high/2}, wide, high, 2, 0, geom.ChordPlain)
	letters, _, err := d.mark(text, geom.Point{Y: top - high + margin + size.Y/2})
	if err != nil {
		return piece{}, err
	}
	round := geom.Peg(geom.Point{}, diameter, geom.ChordFit)
	lead := min(leadIn, d.spec.Bore/8)
	height := tongue + relief + d.seatLength() + 1
	return newPiece(
		geom.Slab{Z1: tongue, Bottom: []geom.Contour{foot}},
		geom.Slab{Z0: tongue, Z1: tongue + relief, Bottom: append([]geom.Contour{round}, letters...)},
		geom.Slab{Z0: tongue + relief, Z1: height - lead, Bottom: []geom.Contour{round}},
		geom.Slab{Z0: height - lead, Z1: height, Bottom: []geom.Contour{round}, Top: []geom.Contour{round.Resize(diameter - 2*lead)}},
	), nil
}
