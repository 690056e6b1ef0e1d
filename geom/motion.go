package geom

import (
	"math"
	"slices"
)

// A Motion turns about the origin and then shifts. The zero Motion rests.
type Motion struct {
	Turn  float64 // rad, anticlockwise
	Shift Point   // mm
}

// Move returns where the motion takes p.
func (m Motion) Move(p Point) Point { return p.Rotate(m.Turn).Add(m.Shift) }

// Back returns the motion that undoes m.
func (m Motion) Back() Motion {
	return Motion{-m.Turn, m.Shift.Rotate(-m.Turn).Scale(-1)}
}

// After returns the motion that does n first and then m.
func (m Motion) After(n Motion) Motion {
	return Motion{m.Turn + n.Turn, n.Shift.Rotate(m.Turn).Add(m.Shift)}
}

// Towards returns the motion at a share, from 0 to 1, of the way from m to n:
// what moves turns about the one pole that takes it from the one place to the
// other, or shifts where there is no turn. That is exact for a turn about any
// axis of less than a full turn.
func (m Motion) Towards(n Motion, share float64) Motion {
	step := n.After(m.Back())
	part := Motion{share * step.Turn, step.Shift.Scale(share)}
	if pole, ok := step.Pole(); ok {
		part = TurnAbout(pole, part.Turn)
	}
	return part.After(m)
}

// Pole returns the point that stays where it is; a motion that only shifts, or
// turns by less than a millionth of a degree, has none.
func (m Motion) Pole() (Point, bool) {
	sin, cos := math.Sincos(m.Turn / 2)
	if math.Abs(sin) < 1e-8 {
		return Point{}, false
	}
	return m.Shift.Add(Point{-m.Shift.Y, m.Shift.X}.Scale(cos / sin)).Scale(0.5), true
}

// TurnAbout returns the motion that turns about a centre by an angle in radians.
func TurnAbout(centre Point, turn float64) Motion {
	return Motion{turn, centre.Sub(centre.Rotate(turn))}
}

// A placement is a Motion with its sine and cosine at hand.
type placement struct {
	sin, cos float64
	shift    Point
}

func (m Motion) placement() placement {
	sin, cos := math.Sincos(m.Turn)
	return placement{sin, cos, m.Shift}
}

func (m *placement) point(p Point) Point {
	return Point{p.X*m.cos - p.Y*m.sin + m.shift.X, p.X*m.sin + p.Y*m.cos + m.shift.Y}
}

// box returns a box round the moved one.
func (m *placement) box(b edgeBox) edgeBox {
	c := m.point(b.lo.Add(b.hi).Scale(0.5))
	x, y := (b.hi.X-b.lo.X)/2, (b.hi.Y-b.lo.Y)/2
	sin, cos := math.Abs(m.sin), math.Abs(m.cos)
	half := Point{x*cos + y*sin, x*sin + y*cos}
	return edgeBox{c.Sub(half), c.Add(half)}
}

// Move returns the contour where the motion takes it, curves and points.
func (c Contour) Move(m Motion) Contour {
	moved := Contour{Points: make([]Point, len(c.Points))}
	for i, p := range c.Points {
		moved.Points[i] = m.Move(p)
	}
	for _, curve := range c.Curves {
		switch k := curve.(type) {
		case Line:
			curve = Line{m.Move(k.A), m.Move(k.B)}
		case Arc:
			curve = Arc{m.Move(k.Centre), k.Radius, k.From + m.Turn, k.To + m.Turn}
		case Cubic:
			curve = Cubic{m.Move(k[0]), m.Move(k[1]), m.Move(k[2]), m.Move(k[3])}
		}
		moved.Curves = append(moved.Curves, curve)
	}
	return moved
}

// Reversed returns the contour run the other way: a hole where it was an
// outline. Its curves, if it has any, are sampled anew to the chord error, so
// that a bore becomes a peg and the reverse.
func (c Contour) Reversed(chord float64) Contour {
	if len(c.Curves) > 0 {
		return NewContour(reversed(c.Curves), chord)
	}
	back := slices.Clone(c.Points)
	slices.Reverse(back)
	return Contour{Points: back}
}
