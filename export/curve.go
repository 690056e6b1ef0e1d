package export

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
)

// A drawnCurve is a Curve laid out in a box of 640 x 240 user units.
type drawnCurve struct {
	Title, Path, Grid string
	Labels            []curveLabel
}

type curveLabel struct{ X, Y, Anchor, Text string }

// The field of a drawn curve inside its box: room for labels left and below.
const (
	curveLeft, curveRight = 78.0, 620.0
	curveTop, curveFoot   = 30.0, 190.0
)

// drawCurve scales a curve to its field, from its least to its largest values;
// a curve without height is drawn in the middle.
func drawCurve(c Curve) drawnCurve {
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, p := range c.At {
		for k := range 2 {
			lo[k], hi[k] = min(lo[k], p[k]), max(hi[k], p[k])
		}
	}
	if len(c.At) == 0 {
		lo, hi = [2]float64{}, [2]float64{}
	}
	share := func(k int, v float64) float64 {
		if hi[k] == lo[k] {
			return 0.5
		}
		return (v - lo[k]) / (hi[k] - lo[k])
	}
	var path strings.Builder
	for i, p := range c.At {
		fmt.Fprintf(&path, "%c%.2f %.2f", "ML"[min(i, 1)],
			curveLeft+share(0, p[0])*(curveRight-curveLeft), curveFoot-share(1, p[1])*(curveFoot-curveTop))
	}
	d := drawnCurve{Title: c.Title, Path: path.String()}
	d.Grid = fmt.Sprintf("M%g %gH%gM%g %gH%g", curveLeft, curveTop, curveRight, curveLeft, curveFoot, curveRight)
	d.label(curveLeft-6, curveTop+4, "end", check.Number(hi[1]))
	d.label(curveLeft-6, curveFoot+4, "end", check.Number(lo[1]))
	d.label(curveLeft, curveTop-12, "start", c.Y)
	d.label(curveLeft, curveFoot+18, "start", check.Number(lo[0]))
	d.label(curveRight, curveFoot+18, "end", check.Number(hi[0]))
	d.label((curveLeft+curveRight)/2, curveFoot+36, "middle", c.X)
	return d
}

func (d *drawnCurve) label(x, y float64, anchor, text string) {
	d.Labels = append(d.Labels, curveLabel{fmt.Sprintf("%g", x), fmt.Sprintf("%g", y), anchor, text})
}
