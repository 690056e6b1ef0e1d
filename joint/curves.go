package joint

import (
	"pintle/export"
	"pintle/gear"
)

// addCurves puts into the report what was followed through a mesh cycle.
func (b *builder) addCurves() {
	for _, name := range sorted(b.turnings) {
		b.addMeshCurves("gears."+name, b.turnings[name].pair.Motion())
	}
	for _, name := range sorted(b.racks) {
		b.addMeshCurves("rack."+name, b.racks[name].Motion())
	}
	for _, name := range sorted(b.linkages) {
		for _, plot := range b.linkages[name].stroke.Plots() {
			plot.Title = b.linkages[name].design() + ": " + plot.Title
			b.report.Curves = append(b.report.Curves, export.Curve(plot))
		}
	}
}

func (b *builder) addMeshCurves(design string, points []gear.MotionPoint) {
	if len(points) == 0 {
		return
	}
	const turn = "turn of the pinion, deg"
	backlash := export.Curve{
		Title: design + ": backlash of the outlines as the print is expected, turned through one pitch",
		X:     turn, Y: "normal backlash j_bn, mm",
	}
	gap := export.Curve{
		Title: design + ": least gap between them, each tooth in the middle of its space",
		X:     turn, Y: "gap, mm",
	}
	lag := export.Curve{
		Title: design + ": transmission error, how far the driven teeth lag when pressed against one side",
		X:     turn, Y: "lag along the line of action, µm",
	}
	for _, p := range points {
		backlash.At = append(backlash.At, [2]float64{p.TurnDeg, p.Backlash})
		gap.At = append(gap.At, [2]float64{p.TurnDeg, p.Gap})
		lag.At = append(lag.At, [2]float64{p.TurnDeg, 1000 * p.Error})
	}
	b.report.Curves = append(b.report.Curves, backlash, gap, lag)
}
