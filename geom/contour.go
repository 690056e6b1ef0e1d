package geom

import "math"

// Chord errors by use, in mm on the radius: what a chord may stray from its
// curve (design choice: 1/20 of a first guess at a press fit's interference, a
// flank's share of backlash, and what no caliper shows).
const (
	ChordFit   = 0.0025
	ChordFlank = 0.005
	ChordPlain = 0.02
)

// A Contour is one closed outline: the curves a drawing shows and the points
// sampled from them, in the same order, from which a printed region is made.
// Outer contours run anticlockwise, holes clockwise.
type Contour struct {
	Curves []Curve // empty for a contour that exists only as points
	Points []Point
}

// NewContour samples a closed run of curves to the chord error. Each curve must
// start where the one before it ends; the last ends where the first starts.
func NewContour(curves []Curve, chord float64) Contour {
	var points []Point
	for _, c := range curves {
		points = c.appendTo(points, chord)
	}
	return Contour{Curves: curves, Points: points}
}

// Peg returns a circle as an outer contour: inscribed, with a vertex on each
// axis, so that a caliper across the axes reads the diameter.
func Peg(centre Point, diameter, chord float64) Contour {
	return peg(centre, diameter, CircleSides(diameter/2, chord))
}

func peg(centre Point, diameter float64, sides int) Contour {
	r := diameter / 2
	points := make([]Point, sides)
	for i := range points {
		points[i] = centre.Add(Polar(r, 2*math.Pi*float64(i)/float64(sides)))
	}
	return Contour{[]Curve{Arc{centre, r, 0, 2 * math.Pi}}, points}
}

// Bore returns a circle as a hole: circumscribed, with a flat across each axis,
// so that the facets never eat a fit.
func Bore(centre Point, diameter, chord float64) Contour {
	return bore(centre, diameter, CircleSides(diameter/2, chord))
}

func bore(centre Point, diameter float64, sides int) Contour {
	r := diameter / 2
	outer := r / math.Cos(math.Pi/float64(sides))
	points := make([]Point, sides)
	for i := range points {
		points[i] = centre.Add(Polar(outer, -2*math.Pi*(float64(i)+0.5)/float64(sides)))
	}
	return Contour{[]Curve{Arc{centre, r, 2 * math.Pi, 0}}, points}
}

// Resize returns the same circle with another diameter and as many sides: the
// partner of a Peg or Bore in a chamfer or lead-in. It panics on other contours.
func (c Contour) Resize(diameter float64) Contour {
	arc, ok := c.circle()
	if !ok {
		panic("geom: Resize of a contour that is no circle")
	}
	if arc.To > arc.From {
		return peg(arc.Centre, diameter, len(c.Points))
	}
	return bore(arc.Centre, diameter, len(c.Points))
}

// Diameter returns the diameter of a circle made by Peg, Bore or Resize.
func (c Contour) Diameter() float64 {
	arc, _ := c.circle()
	return 2 * arc.Radius
}

func (c Contour) circle() (Arc, bool) {
	if len(c.Curves) != 1 {
		return Arc{}, false
	}
	arc, ok := c.Curves[0].(Arc)
	return arc, ok
}

// Area returns the area in mm² that the sampled points enclose, negative for a
// hole.
func (c Contour) Area() float64 {
	sum := 0.0
	for i, p := range c.Points {
		q := c.Points[(i+1)%len(c.Points)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum / 2
}

// Holds says whether the sampled points run around p.
func (c Contour) Holds(p Point) bool {
	inside := false
	last := c.Points[len(c.Points)-1]
	for _, q := range c.Points {
		if (q.Y > p.Y) != (last.Y > p.Y) && p.X < q.X+(p.Y-q.Y)*(last.X-q.X)/(last.Y-q.Y) {
			inside = !inside
		}
		last = q
	}
	return inside
}

// Map returns the contour with each sampled point moved by f. The curves are
// not kept: the result pairs with c vertex by vertex and exists as points only.
func (c Contour) Map(f func(Point) Point) Contour {
	points := make([]Point, len(c.Points))
	for i, p := range c.Points {
		points[i] = f(p)
	}
	return Contour{Points: points}
}

// Rectangle returns an outer contour of the size, centred on c, turned by angle
// radians, with corners rounded to radius (0 for sharp ones).
func Rectangle(c Point, length, width, radius, angle, chord float64) Contour {
	return NewContour(rectangle(c, length, width, radius, angle, false), chord)
}

// Window is Rectangle as a hole.
func Window(c Point, length, width, radius, angle, chord float64) Contour {
	return NewContour(rectangle(c, length, width, radius, angle, true), chord)
}

func rectangle(c Point, length, width, radius, angle float64, hole bool) []Curve {
	x, y := length/2, width/2
	corners := []Point{{x, y}, {-x, y}, {-x, -y}, {x, -y}} // anticlockwise
	at := func(p Point) Point { return p.Rotate(angle).Add(c) }
	var arcs []Arc
	for i, p := range corners {
		centre := Point{p.X - math.Copysign(radius, p.X), p.Y - math.Copysign(radius, p.Y)}
		from := float64(i) * math.Pi / 2
		arcs = append(arcs, Arc{at(centre), radius, from + angle, from + math.Pi/2 + angle})
	}
	if hole { // run clockwise
		for i, j := 0, len(arcs)-1; i < j; i, j = i+1, j-1 {
			arcs[i], arcs[j] = arcs[j], arcs[i]
		}
		for i := range arcs {
			arcs[i].From, arcs[i].To = arcs[i].To, arcs[i].From
		}
	}
	var curves []Curve
	for i, a := range arcs {
		if radius > 0 {
			curves = append(curves, a)
		}
		side := Line{a.End(), arcs[(i+1)%len(arcs)].Start()}
		if side.B.Sub(side.A).Len() > 1e-9 { // none between the arcs of a slot
			curves = append(curves, side)
		}
	}
	return curves
}

// loop snaps the contour to the grid and drops points that fall together.
func (c Contour) loop() Loop {
	loop := make(Loop, 0, len(c.Points))
	for _, p := range c.Points {
		v := Snap(p)
		if len(loop) > 0 && loop[len(loop)-1] == v {
			continue
		}
		loop = append(loop, v)
	}
	for len(loop) > 1 && loop[0] == loop[len(loop)-1] {
		loop = loop[:len(loop)-1]
	}
	return loop
}

// Fatten returns the contour with d mm more material along it: each side moves
// to its right by d, corners to where the moved sides meet. Outer contours
// grow and holes shrink; a negative d relieves the edge. The result pairs with
// c vertex by vertex. d must be small against the sides at inner corners.
func (c Contour) Fatten(d float64) Contour {
	n := len(c.Points)
	points := make([]Point, n)
	for i, p := range c.Points {
		in := p.Sub(c.neighbour(i, n-1))
		out := c.neighbour(i, 1).Sub(p)
		a, b := in.Scale(1/in.Len()), out.Scale(1/out.Len())
		// The corner moves along the sum of both normals; the sides move by d.
		normal := Point{a.Y + b.Y, -a.X - b.X}
		points[i] = p.Add(normal.Scale(d / (1 + a.X*b.X + a.Y*b.Y)))
	}
	return Contour{Points: points}
}

// neighbour returns the next point that differs from point i, step by step.
func (c Contour) neighbour(i, step int) Point {
	n := len(c.Points)
	for k := (i + step) % n; k != i; k = (k + step) % n {
		if c.Points[k] != c.Points[i] {
			return c.Points[k]
		}
	}
	return c.Points[i].Add(Point{X: 1})
}

// FattenAll returns each contour with d mm more material.
func FattenAll(contours []Contour, d float64) []Contour {
	fat := make([]Contour, len(contours))
	for i, c := range contours {
		fat[i] = c.Fatten(d)
	}
	return fat
}
