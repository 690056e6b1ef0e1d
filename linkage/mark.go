package linkage

import (
	"fmt"
	"math"
	"slices"

	"pintle/geom"
	"pintle/geom/lettering"
)

// markDepth is how far a mark is sunk into the top, in mm: raised letters would
// rub on the washer's layer (common practice, no source).
const markDepth = 0.6

// addMark sinks the link's name and its eye distance into the top of the longest
// arm, as much of it as can be read and fits; l.mark is what stands there.
func (l *Link) addMark(body *layers) {
	s := l.spec
	if s.Mark == "" {
		return
	}
	best := 0
	for i, a := range s.Arms {
		if a.Length > s.Arms[best].Length {
			best = i
		}
	}
	a := s.Arms[best]
	rim := 2 * s.Card.BeadWidth
	l.markRoom = min(a.Width, l.hub) - 2*rim
	height := min(lettering.LeastHeight(s.Card.BeadWidth), l.markRoom)
	if height < lettering.LeastCap {
		return
	}
	inner := max(s.Hub.reach()/2, bossEdge(l.hub, s.Hub.Boss))
	for _, o := range s.Hub.Openings {
		for _, p := range slices.Concat(o.Bottom.Points, o.Top.Points) {
			inner = max(inner, p.Len())
		}
	}
	outer := a.Length - max(a.Eye.Hole/2, bossEdge(a.Eye.Diameter, a.Eye.Boss))
	room := outer - inner - 2*rim
	for _, text := range []string{
		fmt.Sprintf("%s %.2f", s.Mark, a.Length), fmt.Sprintf("%.2f", a.Length), s.Mark,
	} {
		letters, wide, err := lettering.Text(text, height, geom.ChordPlain)
		if err != nil || wide > room {
			continue
		}
		low, high := upright(letters)
		if high-low > l.markRoom+rim { // what hangs below the line, such as a j
			continue
		}
		middle := geom.Point{X: (inner+outer)/2 - wide/2, Y: -(low + high) / 2}
		turn := a.Angle
		if math.Cos(turn) < -1e-9 { // keep it upright
			middle.X, turn = -(inner+outer)/2-wide/2, turn+math.Pi
		}
		at := middle.Rotate(turn)
		sunk := lettering.Sunk(lettering.Place(letters, at, turn), geom.ChordPlain)
		body.open(s.Thickness-markDepth, s.Thickness, sunk...)
		l.mark = text
		return
	}
}

// upright returns the lowest and the highest y of letters.
func upright(letters []geom.Contour) (low, high float64) {
	for _, c := range letters {
		for _, p := range c.Points {
			low, high = min(low, p.Y), max(high, p.Y)
		}
	}
	return low, high
}

func bossEdge(diameter, boss float64) float64 {
	if boss <= 0 {
		return 0
	}
	return diameter / 2
}
