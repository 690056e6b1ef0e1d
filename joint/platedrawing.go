package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// Details returns what matters of the plate on its drawing: the axes' distance,
// what the openings are for, and the servo's axis, which no circle marks.
func (p *plate) Details(string) drawing.Details {
	s := p.spec
	axis := geom.Point{X: s.centreDistance}
	centre, angle := servoBox(s.servo, s.centreDistance, s.servoTurnDeg)
	cut, across := p.cutOut()
	drawn := p.drawn
	half := func(size, turn float64) geom.Point { return geom.Polar(size/2, angle+turn) }
	span := func(size, wanted, turn float64) drawing.Dimension {
		return drawing.Between(centre.Sub(half(size, turn)), centre.Add(half(size, turn))).Measuring(wanted).Saying("servo")
	}
	d := drawing.Details{
		Dimensions: []drawing.Dimension{
			drawing.Between(geom.Point{}, axis).Within(-s.tolerance, s.tolerance).ToCheck(),
			span(drawn.cut, cut, 0), span(drawn.across, across, math.Pi/2),
			drawing.Circle(p.corners()[0], drawn.corner).Times(4).Saying(s.corner.Size + ", corners"),
		},
		Notes: []string{fmt.Sprintf("Ring recess %.1f mm deep, screws %s. Servo axis on the centre line of the bearing.", recessDepth, s.bolt.Size)},
	}
	if s.slots == 0 {
		d.Dimensions = append(d.Dimensions, drawing.Circle(p.tabHoles()[0], drawn.tab).Times(4).Saying(p.tabScrew.Size+", servo"))
	} else {
		d.Notes = append(d.Notes, fmt.Sprintf("Slots for %s, %s mm either way along the line of centres.", p.tabScrew.Size, check.Number(s.slots)))
	}
	for _, arm := range []geom.Point{{X: 5}, {Y: 5}} {
		d.Strokes = append(d.Strokes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{geom.Line{A: axis.Sub(arm), B: axis.Add(arm)}}})
	}
	return d
}
