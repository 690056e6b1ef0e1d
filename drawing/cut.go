package drawing

import (
	"math"

	"pintle/geom"
)

// A piece is part of a curve that is all in view or all under material.
type piece struct {
	geom.Curve
	hidden bool
}

// cutByCover looks along the curve about every half millimetre and halves the
// interval wherever the view changes.
func cutByCover(c geom.Curve, above []cover) []piece {
	if len(above) == 0 {
		return []piece{{c, false}}
	}
	const least, most = 4, 256
	looks := min(max(int(length(c)/0.5), least), most)
	at := func(i int) float64 { return (float64(i) + 0.5) / float64(looks) }
	var pieces []piece
	from, hidden := 0.0, covered(c, at(0), above)
	for i := 1; i < looks; i++ {
		if covered(c, at(i), above) == hidden {
			continue
		}
		lo, hi := at(i-1), at(i)
		for range 30 {
			if middle := (lo + hi) / 2; covered(c, middle, above) == hidden {
				lo = middle
			} else {
				hi = middle
			}
		}
		pieces = append(pieces, piece{between(c, from, hi), hidden})
		from, hidden = hi, !hidden
	}
	if from == 0 {
		return []piece{{c, hidden}}
	}
	return append(pieces, piece{between(c, from, 1), hidden})
}

func length(c geom.Curve) float64 {
	const chords = 8
	sum, last := 0.0, c.Start()
	for i := 1; i <= chords; i++ {
		p := at(c, float64(i)/chords)
		sum, last = sum+p.Sub(last).Len(), p
	}
	return sum
}

// at returns the point of a curve at a share t of its parameter.
func at(c geom.Curve, t float64) geom.Point {
	switch c := c.(type) {
	case geom.Arc:
		return c.Centre.Add(geom.Polar(c.Radius, c.From+t*(c.To-c.From)))
	case geom.Cubic:
		return c.At(t)
	}
	return c.Start().Add(c.End().Sub(c.Start()).Scale(t))
}

// between returns the piece of a curve between two shares of its parameter.
func between(c geom.Curve, from, to float64) geom.Curve {
	switch c := c.(type) {
	case geom.Arc:
		sweep := c.To - c.From
		return geom.Arc{Centre: c.Centre, Radius: c.Radius, From: c.From + from*sweep, To: c.From + to*sweep}
	case geom.Cubic:
		return geom.Hermite(c.At(from), slope(c, from).Scale(to-from), c.At(to), slope(c, to).Scale(to-from))
	}
	return geom.Line{A: at(c, from), B: at(c, to)}
}

func slope(c geom.Cubic, t float64) geom.Point {
	s := 1 - t
	return c[1].Sub(c[0]).Scale(3 * s * s).
		Add(c[2].Sub(c[1]).Scale(6 * s * t)).
		Add(c[3].Sub(c[2]).Scale(3 * t * t))
}

// normal returns the unit normal of a curve at a share t of its parameter.
func normal(c geom.Curve, t float64) geom.Point {
	const step = 1e-4
	d := at(c, min(t+step, 1)).Sub(at(c, max(t-step, 0)))
	if n := d.Len(); n > 0 {
		return geom.Point{X: -d.Y / n, Y: d.X / n}
	}
	return geom.Point{X: math.NaN()}
}
