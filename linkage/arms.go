package linkage

import (
	"math"

	"pintle/geom"
)

// An armShape is one arm of a link in plan, from the hub's centre to its eye:
// sides parallel, the end round about the eye.
type armShape struct {
	angle  float64 // rad, of the arm from the x axis
	length float64 // mm, hub centre to eye centre
	half   float64 // mm, half the width
	eye    float64 // mm, radius around the eye, at least half
	fillet float64 // mm, where the arm meets hub and eye
}

// leave returns where the fillet's centre stands along the arm at a round of
// the radius, from that round's centre: tangent to the round and to the arm's
// side.
func (a armShape) leave(radius float64) float64 {
	return math.Sqrt(max((radius+a.fillet)*(radius+a.fillet)-(a.half+a.fillet)*(a.half+a.fillet), 0))
}

// spread returns the angle at the hub's centre from the arm's axis to where its
// fillet ends on the hub.
func (a armShape) spread(hub float64) float64 { return math.Atan2(a.half+a.fillet, a.leave(hub)) }

// fitted returns the arm with a fillet and a width that its length leaves room
// for, and false where the eye lies so near the hub that one round holds both.
func (a armShape) fitted(hub float64) (armShape, bool) {
	a.half = min(a.half, a.eye, hub)
	straight := func(a armShape) bool { return a.leave(hub)+a.leave(a.eye) <= a.length }
	for range 12 { // a smaller fillet first
		if straight(a) {
			return a, true
		}
		a.fillet *= 0.7
	}
	a.half = min(a.eye, hub)
	return a, straight(a)
}

// starOutline returns the outline of a hub with arms, which must stand in the
// order of their angles, anticlockwise, less than a turn from first to last.
// Arms that meet before the hub are joined by a fillet between their sides. It
// returns the index of the first arm that runs into the next, or -1.
func starOutline(hub float64, arms []armShape, chord float64) (geom.Contour, int) {
	var curves []geom.Curve
	for i, a := range arms {
		next := arms[(i+1)%len(arms)]
		curves = append(curves, a.end()...)
		between := next.angle - a.angle
		if i == len(arms)-1 {
			between += 2 * math.Pi
		}
		if between >= a.spread(hub)+next.spread(hub)-1e-9 {
			curves = append(curves, overHub(hub, a, next, between)...)
			continue
		}
		corner, ok := inCorner(a, next, between)
		if !ok {
			return geom.Contour{}, i
		}
		curves = append(curves, corner)
	}
	return geom.NewContour(joined(curves), chord), -1
}

// at returns a point of the arm's own frame in the link's.
func (a armShape) at(x, y float64) geom.Point { return geom.Point{X: x, Y: y}.Rotate(a.angle) }

// end returns the outline round the eye, from the arm's right side to its left,
// where the straight sides end.
func (a armShape) end() []geom.Curve {
	back := a.leave(a.eye)
	x, y := a.length-back, a.half+a.fillet
	b := math.Atan2(y, back)
	return []geom.Curve{
		geom.Arc{Centre: a.at(x, -y), Radius: a.fillet, From: a.angle + math.Pi/2, To: a.angle + b},
		geom.Arc{Centre: a.at(a.length, 0), Radius: a.eye, From: a.angle - math.Pi + b, To: a.angle + math.Pi - b},
		geom.Arc{Centre: a.at(x, y), Radius: a.fillet, From: a.angle - b, To: a.angle - math.Pi/2},
	}
}

// overHub returns the outline from an arm's left side over the hub to the right
// side of the next, which stands between rad further.
func overHub(hub float64, a, next armShape, between float64) []geom.Curve {
	g, h := a.spread(hub), next.spread(hub)
	right := next.at(next.leave(hub), -next.half-next.fillet)
	return []geom.Curve{
		geom.Arc{Centre: a.at(a.leave(hub), a.half+a.fillet), Radius: a.fillet, From: a.angle - math.Pi/2, To: a.angle - math.Pi + g},
		geom.Arc{Radius: hub, From: a.angle + g, To: a.angle + between - h},
		geom.Arc{Centre: right, Radius: next.fillet, From: next.angle + math.Pi - h, To: next.angle + math.Pi/2},
	}
}

// inCorner returns the fillet between the left side of an arm and the right side
// of the next, and false where it would reach past an eye.
func inCorner(a, next armShape, between float64) (geom.Curve, bool) {
	f := min(a.fillet, next.fillet)
	sin, cos := math.Sincos(between)
	// The centre is half + f off both axes: along the first axis by x, along the
	// second by z.
	x := (next.half + f + (a.half+f)*cos) / sin
	z := (a.half + f + (next.half+f)*cos) / sin
	if sin <= 0 || x > a.length-a.leave(a.eye) || z > next.length-next.leave(next.eye) {
		return nil, false
	}
	return geom.Arc{Centre: a.at(x, a.half+f), Radius: f, From: a.angle - math.Pi/2, To: a.angle + between - 3*math.Pi/2}, true
}

// joined returns the arcs without those of no extent, with lines between them.
func joined(arcs []geom.Curve) []geom.Curve {
	const none = 1e-7
	var kept, curves []geom.Curve
	for _, c := range arcs {
		if arc := c.(geom.Arc); math.Abs(arc.To-arc.From)*arc.Radius > none {
			kept = append(kept, c)
		}
	}
	for i, c := range kept {
		curves = append(curves, c)
		if gap := (geom.Line{A: c.End(), B: kept[(i+1)%len(kept)].Start()}); gap.B.Sub(gap.A).Len() > none {
			curves = append(curves, gap)
		}
	}
	return curves
}
