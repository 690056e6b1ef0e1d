package geom

import (
	"errors"
	"fmt"
	"math"
)

// Offset returns a closed run of curves moved to its right by d mm, as Fatten
// moves points: outer outlines grow and holes shrink. Lines stay lines and arcs
// arcs; a cubic becomes four. Corners between lines are drawn out to where the
// moved lines meet, others get an arc where they open. The error says where a
// corner closes on itself, or an arc is too small for d.
func Offset(curves []Curve, d float64) ([]Curve, error) {
	var pieces []Curve
	for _, c := range curves {
		moved, err := offsetCurve(c, d)
		if err != nil {
			return nil, err
		}
		pieces = append(pieces, moved...)
	}
	n := len(pieces)
	var joined []Curve
	for i := range pieces {
		joined = append(joined, pieces[i])
		p, q := pieces[i], pieces[(i+1)%n]
		if p.End().Sub(q.Start()).Len() < 1e-7 {
			continue
		}
		a, aIsLine := p.(Line)
		b, bIsLine := q.(Line)
		if aIsLine && bIsLine {
			corner, ok := meeting(a, b)
			if !ok {
				return nil, cornerError(p.End())
			}
			a.B, b.A = corner, corner
			joined[len(joined)-1], pieces[i], pieces[(i+1)%n] = a, a, b
			if i == n-1 {
				joined[0] = b
			}
			continue
		}
		arc, err := cornerArc(p.End(), q.Start(), p, q, d)
		if err != nil {
			return nil, err
		}
		joined = append(joined, arc)
	}
	return joined, nil
}

func cornerError(p Point) error {
	return fmt.Errorf("the outline has a corner near (%.2f, %.2f) that closes when it is moved", p.X, p.Y)
}

func offsetCurve(c Curve, d float64) ([]Curve, error) {
	switch c := c.(type) {
	case Arc:
		r := c.Radius + d
		if c.To < c.From {
			r = c.Radius - d
		}
		if r <= 0 {
			return nil, errors.New("an arc of the outline is smaller than it is moved by")
		}
		return []Curve{Arc{c.Centre, r, c.From, c.To}}, nil
	case Cubic:
		return offsetCubic(c, d), nil
	}
	n := rightOf(c.End().Sub(c.Start())).Scale(d)
	return []Curve{Line{c.Start().Add(n), c.End().Add(n)}}, nil
}

// rightOf returns the unit vector to the right of a direction.
func rightOf(v Point) Point {
	if l := v.Len(); l > 0 {
		return Point{v.Y / l, -v.X / l}
	}
	return Point{}
}

// offsetCubic moves a cubic in four pieces, each with the ends and end slopes of
// the moved curve.
func offsetCubic(c Cubic, d float64) []Curve {
	const pieces = 4
	slope := func(t float64) Point {
		s := 1 - t
		return c[1].Sub(c[0]).Scale(3 * s * s).Add(c[2].Sub(c[1]).Scale(6 * s * t)).Add(c[3].Sub(c[2]).Scale(3 * t * t))
	}
	at := func(t float64) Point { return c.At(t).Add(rightOf(slope(t)).Scale(d)) }
	moved := func(t float64) Point { // by a central difference within the curve
		const h = 1e-5
		lo, hi := max(t-h, 0), min(t+h, 1)
		return at(hi).Sub(at(lo)).Scale(1 / (hi - lo) / pieces)
	}
	var curves []Curve
	for i := range pieces {
		t0, t1 := float64(i)/pieces, float64(i+1)/pieces
		curves = append(curves, Hermite(at(t0), moved(t0), at(t1), moved(t1)))
	}
	return curves
}

// meeting returns where two lines meet when they are drawn out.
func meeting(a, b Line) (Point, bool) {
	u, v := a.B.Sub(a.A), b.B.Sub(b.A)
	det := u.X*v.Y - u.Y*v.X
	if math.Abs(det) < 1e-12*u.Len()*v.Len() {
		return Point{}, false
	}
	w := b.A.Sub(a.A)
	t := (w.X*v.Y - w.Y*v.X) / det
	return a.A.Add(u.Scale(t)), t > 0
}

// cornerArc rounds a corner that opens: about the corner of the outline, with d
// as its radius.
func cornerArc(from, to Point, before, after Curve, d float64) (Arc, error) {
	centre := from.Sub(rightOf(endSlope(before)).Scale(d))
	a, b := from.Sub(centre), to.Sub(centre)
	start := math.Atan2(a.Y, a.X)
	turn := math.Remainder(math.Atan2(b.Y, b.X)-start, 2*math.Pi)
	if turn*d <= 0 {
		return Arc{}, cornerError(centre)
	}
	return Arc{centre, math.Abs(d), start, start + turn}, nil
}

// endSlope returns the direction in which a curve ends.
func endSlope(c Curve) Point {
	switch c := c.(type) {
	case Arc:
		return Polar(math.Copysign(1, c.To-c.From), c.To+math.Pi/2)
	case Cubic:
		return c[3].Sub(c[2])
	}
	return c.End().Sub(c.Start())
}
