package joint

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/export"
)

// tabScrewLength returns the length in mm of the screws that cut their thread
// into the bracket through the servo's tabs.
func (l *linked) tabScrewLength() float64 {
	return longest(l.servo.Tabs.Thickness + l.bracket.Spec().Thickness)
}

// pivotLength returns the length in mm of the screw that the lever turns on.
func (l *linked) pivotLength() float64 {
	grip := l.levels.lever[1] - l.levels.lever[0] + 2*l.pivot.Washer().Thickness
	return longest(grip + l.levels.post + l.bracket.Spec().Thickness)
}

// pinLength returns the length in mm of the screw that a bar turns on at the
// horn (0) or the lever (1).
func (l *linked) pinLength(end int) float64 {
	v, pin := l.levels, l.pins[end]
	into := v.lever[1] - v.lever[0]
	if end == 0 {
		into = v.horn[1] - v.horn[0]
	}
	return screwFor(pin, pin.Washer().Thickness+v.rod[1]-v.rod[0]+v.washer[end]+into)
}

// washersBetween returns how many washers lie between a bar and the arm that it
// turns on.
func (l *linked) washersBetween(end int) int {
	return max(1, int(math.Round(l.levels.washer[end]/l.pins[end].Washer().Thickness)))
}

// boughtLinkage lists the screws, washers and rods of a linkage.
func boughtLinkage(l *linked) []export.Supply {
	var list buying
	if l.bracket != nil {
		list.add(screws(sized(l.bracket.TabScrew(), l.tabScrewLength()), 4, "servo to "+l.name+"-bracket"))
	}
	if l.seat.made && l.seat.Screws > 0 {
		list.add(screws(l.seat.Screw.Size+" self-cutting screw through the arm's floor into the horn", l.seat.Screws, l.name+": horn"))
	}
	if l.posted() {
		list.add(screws(sized(l.pivot, l.pivotLength()), 1, l.name+": lever on its post"), screws(l.pivot.Size+" washer", 2, l.name+": lever on its post"))
	}
	for end, word := range []string{"horn", "lever"} {
		pin, what := l.pins[end], l.name+": at the "+word
		washers := screws(pin.Size+" washer", l.washersBetween(end), what)
		if l.rod != nil {
			list.add(washers)
			continue
		}
		washers.Count++ // under the head
		list.add(screws(sized(pin, l.pinLength(end)), 1, what), washers, screws(pin.Size+" nut", 1, what))
	}
	if l.rod != nil {
		thread := l.rod.Thread().Size
		list.add(
			screws(fmt.Sprintf("%s threaded rod, cut to %s mm", thread, check.Number(math.Round(10*l.rod.Cut())/10)), 1, l.name+": rod"),
			screws(thread+" rod end", 2, l.name+": rod"))
	}
	return list
}
