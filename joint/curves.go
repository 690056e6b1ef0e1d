package joint

import "pintle/export"

// addCurves puts into the report what was followed through a mesh cycle.
func (b *builder) addCurves() {
	for _, name := range sorted(b.turnings) {
		points := b.turnings[name].pair.Motion()
		if len(points) == 0 {
			continue
		}
		backlash := export.Curve{
			Title: "gears." + name + ": backlash of the outlines as the print is expected, turned through one pitch",
			X:     "turn of the pinion, deg", Y: "normal backlash j_bn, mm",
		}
		gap := export.Curve{
			Title: "gears." + name + ": least gap between them, each tooth in the middle of its space",
			X:     backlash.X, Y: "gap, mm",
		}
		lag := export.Curve{
			Title: "gears." + name + ": transmission error, the wheel's lag pressed against one side of the teeth",
			X:     backlash.X, Y: "lag along the line of action, µm",
		}
		for _, p := range points {
			backlash.At = append(backlash.At, [2]float64{p.TurnDeg, p.Backlash})
			gap.At = append(gap.At, [2]float64{p.TurnDeg, p.Gap})
			lag.At = append(lag.At, [2]float64{p.TurnDeg, 1000 * p.Error})
		}
		b.report.Curves = append(b.report.Curves, backlash, gap, lag)
	}
}
