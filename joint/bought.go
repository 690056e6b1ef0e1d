package joint

import (
	"math"

	"pintle/bearing"
	"pintle/drawing"
	"pintle/geom"
)

// What a section shows of parts that are bought: their boundary dimensions are
// true, the shape inside is a sketch (shares of the section height chosen to
// look right; a drawing may simplify a bearing, ISO 8826, from memory).

// rectangle returns four corners, anticlockwise.
func rectangle(x0, z0, x1, z1 float64) []geom.Point {
	return []geom.Point{{X: x0, Y: z0}, {X: x1, Y: z0}, {X: x1, Y: z1}, {X: x0, Y: z1}}
}

// mirrored returns corners on the other side of the axis, anticlockwise.
func mirrored(corners []geom.Point) []geom.Point {
	other := make([]geom.Point, len(corners))
	for i, p := range corners {
		other[len(corners)-1-i] = geom.Point{X: -p.X, Y: p.Y}
	}
	return other
}

// bearingBody draws the bearing of a kit: rings cut, rolling elements whole.
func (k kit) bearingBody() drawing.Body {
	b := k.bearing
	r, outer := b.Bore/2, b.Outside/2
	h, foot := outer-r, k.cupBack
	var cut, whole [][]geom.Point
	var balls []drawing.Stroke
	switch b.Kind {
	case bearing.Tapered:
		cone := k.coneTop - b.ConeWidth
		lean := 0.13 * h // over the height of the section
		cup := []geom.Point{{X: outer - 0.45*h, Y: foot}, {X: outer, Y: foot}, {X: outer, Y: foot + b.CupWidth}, {X: outer - 0.45*h + 2.2*lean, Y: foot + b.CupWidth}}
		inner := []geom.Point{{X: r, Y: cone}, {X: r + 0.22*h, Y: cone}, {X: r + 0.22*h + 2.2*lean, Y: k.coneTop}, {X: r, Y: k.coneTop}}
		low, high := max(foot, cone)+1, min(foot+b.CupWidth, k.coneTop)-1
		at := func(p, q geom.Point, z float64) float64 { return p.X + (q.X-p.X)*(z-p.Y)/(q.Y-p.Y) }
		roller := []geom.Point{
			{X: at(inner[1], inner[2], low), Y: low},
			{X: at(cup[0], cup[3], low), Y: low},
			{X: at(cup[0], cup[3], high), Y: high},
			{X: at(inner[1], inner[2], high), Y: high},
		}
		cut, whole = [][]geom.Point{cup, inner}, [][]geom.Point{roller}
	case bearing.ThrustBall:
		washer := b.SeatWidth()
		cut = [][]geom.Point{rectangle(b.RingInner()/2, foot, outer, foot+washer), rectangle(r, k.coneTop-washer, outer-0.5, k.coneTop)}
		balls = ball((r+outer)/2, (foot+k.coneTop)/2, (b.Width-1.2*washer)/2)
	default:
		cut = [][]geom.Point{rectangle(outer-0.24*h, foot, outer, k.coneTop), rectangle(r, foot, r+0.24*h, k.coneTop)}
		balls = ball((r+outer)/2, (foot+k.coneTop)/2, min(0.3*h, 0.45*b.Width))
	}
	for _, piece := range cut {
		cut = append(cut, mirrored(piece))
	}
	for _, piece := range whole {
		whole = append(whole, mirrored(piece))
	}
	return drawing.Bought(cut, whole, -math.Pi/4).With(balls...)
}

// ball draws a rolling element on either side of the axis.
func ball(x, z, radius float64) []drawing.Stroke {
	circle := func(x float64) drawing.Stroke {
		return drawing.Stroke{Kind: drawing.Outline, Closed: true, Curves: []geom.Curve{geom.Arc{Centre: geom.Point{X: x, Y: z}, Radius: radius, To: 2 * math.Pi}}}
	}
	return []drawing.Stroke{circle(x), circle(-x)}
}

// servoBody draws the servo: body and, where they stand out along the line of
// centres, its tabs.
func (t *turning) servoBody() drawing.Body {
	s := t.servo
	centre, angle := servoBox(s, t.pair.CentreDistance(), t.plate.spec.servoTurnDeg)
	sin, cos := math.Abs(math.Sin(angle)), math.Abs(math.Cos(angle))
	half := (s.Body[0]*cos + s.Body[1]*sin) / 2
	whole := [][]geom.Point{rectangle(centre.X-half, s.Tabs.BelowTop-s.Body[2], centre.X+half, s.Tabs.BelowTop)}
	if tabs := (s.Tabs.Length*cos + s.Body[1]*sin) / 2; tabs > half+0.1 {
		whole = append(whole, rectangle(centre.X-tabs, 0, centre.X-half, s.Tabs.Thickness), rectangle(centre.X+half, 0, centre.X+tabs, s.Tabs.Thickness))
	}
	return drawing.Bought(nil, whole, 0)
}

// hornBody draws the servo's horn on its shaft.
func (t *turning) hornBody() drawing.Body {
	h, a := t.servo.Horn, t.pair.CentreDistance()
	across := h.Diameter
	if across == 0 {
		across = 2 * h.Arm
	}
	return drawing.Bought(nil, [][]geom.Point{
		rectangle(a-across/2, t.discFoot, a+across/2, t.discFoot+h.Thickness),
		rectangle(a-h.HubDiameter/2, t.discFoot-h.HubHeight, a+h.HubDiameter/2, t.discFoot),
	}, 0)
}
