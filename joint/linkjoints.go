package joint

import (
	"math"

	"pintle/linkage"
)

// rodJoints returns what joins the rod's two ends and what the rod is made of:
// the bar's printed eyes that turn on their screws, or a threaded rod's ends in
// the printed eyes of horn and lever.
func (b *builder) rodJoints(l *linked) (horn, lever *linkage.PinJoint, stock *linkage.RodStock) {
	t := l.table.Rod
	thick := chosen(t.Thickness, barThickness)
	var pins [2]*linkage.PinJoint
	for end := range pins {
		eye, pin := b.eye(l, end, true), l.pins[end]
		pins[end] = &linkage.PinJoint{
			Diameter: pin.Diameter, Thickness: thick, Width: eye.Diameter, EndDistance: eye.Diameter / 2,
			Strength: l.material.Strength, Play: eye.Hole - pin.Diameter,
		}
		if t.Kind == "threaded" {
			pins[end].Thickness = leverThickness
			pins[end].Play = 0
			if end < len(t.Ends) {
				pins[end].Play, pins[end].BallLimit = t.Ends[end].Play, t.Ends[end].BallLimit
			}
		}
	}
	if t.Kind == "threaded" {
		thread, err := b.linkScrew(l, "rod thread", t.Thread, "M3")
		if err != nil {
			return pins[0], pins[1], nil // refused where the rod is cut
		}
		return pins[0], pins[1], &linkage.RodStock{Diameter: linkage.ThreadCore(thread.Diameter, thread.Pitch())}
	}
	// A flat bar bows about its thinner side: the round one of the same second
	// moment, w t³/12 = pi d⁴/64, buckles at the same load.
	width := chosen(t.Width, linkWidth)
	thin, broad := min(width, thick), max(width, thick)
	return pins[0], pins[1], &linkage.RodStock{
		Diameter: math.Pow(64*broad*thin*thin*thin/(12*math.Pi), 0.25), Modulus: l.material.Modulus,
	}
}
