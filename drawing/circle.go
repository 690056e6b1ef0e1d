package drawing

import (
	"math"

	"pintle/geom"
)

// circlesIn returns the circle of a contour that is one.
func circlesIn(curves []geom.Curve) []geom.Arc {
	if len(curves) != 1 {
		return nil
	}
	arc, ok := curves[0].(geom.Arc)
	if !ok || math.Abs(math.Abs(arc.To-arc.From)-2*math.Pi) > 1e-9 {
		return nil
	}
	return []geom.Arc{arc}
}

// A pattern of more than this many equal circles gets no centre lines: they
// would hide what they mark (design choice).
const mostCentreLines = 60

// centreLines returns a cross for each centre, reaching beyond the largest
// circle about it, and beyond the whole part from the middle of the part.
func centreLines(circles []geom.Arc, lo, hi geom.Point) []Stroke {
	equal := map[float64]int{}
	for _, c := range circles {
		equal[c.Radius]++
	}
	reach := map[geom.Point]geom.Point{}
	var centres []geom.Point // in the order drawn
	middle := lo.Add(hi).Scale(0.5)
	for _, c := range circles {
		if equal[c.Radius] > mostCentreLines {
			continue
		}
		half := geom.Point{X: c.Radius, Y: c.Radius}
		if c.Centre.Sub(middle).Len() < 0.01 {
			half = geom.Point{X: max(half.X, (hi.X-lo.X)/2), Y: max(half.Y, (hi.Y-lo.Y)/2)}
		}
		before, ok := reach[c.Centre]
		if !ok {
			centres = append(centres, c.Centre)
		}
		reach[c.Centre] = geom.Point{X: max(before.X, half.X), Y: max(before.Y, half.Y)}
	}
	var strokes []Stroke
	for _, c := range centres {
		for _, arm := range []geom.Point{{X: beyond(reach[c].X)}, {Y: beyond(reach[c].Y)}} {
			line := geom.Line{A: c.Sub(arm), B: c.Add(arm)}
			strokes = append(strokes, Stroke{Kind: Centre, Curves: []geom.Curve{line}})
		}
	}
	return strokes
}

// beyond lengthens half a centre line past its outline by 1 to 3 mm.
func beyond(half float64) float64 { return half + min(max(0.3*half, 1), 3) }
