package paper

import (
	"cmp"
	"math"
	"slices"

	"pintle/drawing"
	"pintle/geom"
)

// Item numbers stand in circles beside the view (ISO 6433, from memory), in mm.
const (
	balloonRadius = 4.5
	balloonGap    = 10.0 // from the view to the circles' centres
	balloonStep   = 12.0 // between their centres at least
	dotRadius     = 0.6  // where a leader ends on an area
)

// balloons sets the item numbers left and right of the view, in the order of
// the places they point at, so that leaders do not cross.
func (s *viewSetter) balloons() {
	middle := (s.lo.X + s.hi.X) / 2
	var left, right []drawing.Balloon
	for _, b := range s.view.Balloons {
		b.At = b.At.Scale(s.scale)
		if b.At.X < middle && len(left) <= len(s.view.Balloons)/2 {
			left = append(left, b)
		} else {
			right = append(right, b)
		}
	}
	lo, hi := s.bounds()
	s.balloonColumn(left, min(s.lo.X, lo.X)-balloonGap)
	s.balloonColumn(right, max(s.hi.X, hi.X)+balloonGap)
}

// balloonColumn spreads numbers evenly about the height of what they point at,
// each at the nearest height from there at which circle and leader are clear.
func (s *viewSetter) balloonColumn(column []drawing.Balloon, x float64) {
	slices.SortStableFunc(column, func(a, b drawing.Balloon) int { return cmp.Compare(a.At.Y, b.At.Y) })
	sum := 0.0
	for _, b := range column {
		sum += b.At.Y
	}
	n := float64(len(column))
	step := max(balloonStep, (s.hi.Y-s.lo.Y)/max(n, 1))
	y := sum/max(n, 1) - step*(n-1)/2
	for _, b := range column {
		for range 60 {
			if s.balloon(b, geom.Point{X: x, Y: y}) {
				break
			}
			y += 1.5
		}
		y += step
	}
}

// balloon draws one number if circle and leader meet no text.
func (s *viewSetter) balloon(b drawing.Balloon, centre geom.Point) bool {
	toward := b.At.Sub(centre)
	rim := centre.Add(toward.Scale(balloonRadius / toward.Len()))
	box := quad{{X: -balloonRadius, Y: -balloonRadius}, {X: balloonRadius, Y: -balloonRadius}, {X: balloonRadius, Y: balloonRadius}, {X: -balloonRadius, Y: balloonRadius}}
	for i := range box {
		box[i] = box[i].Add(centre)
	}
	if !s.free(box) || !s.clear(rim, b.At) {
		return false
	}
	s.line(drawing.Edge, rim, b.At)
	s.draw(drawing.Stroke{Kind: drawing.Edge, Closed: true, Curves: []geom.Curve{geom.Arc{Centre: centre, Radius: balloonRadius, To: 2 * math.Pi}}})
	s.strokes = append(s.strokes, drawing.Stroke{Kind: drawing.Solid, Closed: true, Curves: []geom.Curve{geom.Arc{Centre: b.At, Radius: dotRadius, To: 2 * math.Pi}}})
	s.write(drawing.Text{At: centre.Sub(geom.Point{Y: letterHeight / 2}), Text: b.Item, Height: letterHeight, Anchor: drawing.Middle})
	return true
}
