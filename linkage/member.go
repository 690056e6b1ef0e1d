package linkage

import (
	"math"

	"pintle/geom"
)

// A Member is one of the three links that move.
type Member string

// The members. Each has a frame of its own: its origin at its first pin, x
// towards its second. The first pin of the horn is the servo's axis, of the rod
// the horn's pin, of the lever the joint's axis.
const (
	OnHorn  Member = "horn"
	OnRod   Member = "rod"
	OnLever Member = "lever"
)

// A capsule is a bar as it is drawn: with round ends, from pin to pin.
type capsule struct {
	from, to geom.Point // mm, of its middle line
	radius   float64    // mm, half its width
}

var moving = []Member{OnHorn, OnRod, OnLever}

// frameOf returns a member's origin and x axis at a station.
func (s *Stroke) frameOf(on Member, st Station) (origin, x geom.Point) {
	var angle float64
	switch on {
	case OnHorn:
		angle = st.HornDeg
	case OnRod:
		origin, angle = st.HornPin, st.RodDeg
	case OnLever:
		origin, angle = geom.Point{X: s.flat.Frame}, st.LeverDeg
	}
	return origin, geom.Polar(1, angle*deg)
}

// shape returns a member's bar in its own frame.
func (s *Stroke) shape(on Member) capsule {
	length := map[Member]float64{OnHorn: s.flat.Horn, OnRod: s.flat.Rod, OnLever: s.flat.Lever}[on]
	return capsule{to: geom.Point{X: length}, radius: barWidth / 2}
}

// placed returns a member's bar at a station.
func (s *Stroke) placed(on Member, st Station) capsule {
	origin, x := s.frameOf(on, st)
	b := s.shape(on)
	return capsule{origin, origin.Add(x.Scale(b.to.X)), b.radius}
}

// outline returns the closed outline of a bar with round ends.
func (b capsule) outline() []geom.Curve {
	angle := b.to.Sub(b.from).Angle()
	side := geom.Polar(b.radius, angle+math.Pi/2)
	return []geom.Curve{
		geom.Line{A: b.from.Sub(side), B: b.to.Sub(side)},
		geom.Arc{Centre: b.to, Radius: b.radius, From: angle - math.Pi/2, To: angle + math.Pi/2},
		geom.Line{A: b.to.Add(side), B: b.from.Add(side)},
		geom.Arc{Centre: b.from, Radius: b.radius, From: angle + math.Pi/2, To: angle + 3*math.Pi/2},
	}
}
