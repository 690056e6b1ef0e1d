package fit

import (
	"fmt"
	"math"

	"pintle/check"
)

// KerfReadings are what a caliper read on pieces that were cut from sheet.
type KerfReadings struct {
	Thickness float64 // mm, of the sheet
	Count     int     // bars pushed together
	Together  float64 // mm, what they measure as drawn
	Bars      []float64
	WindowOf  float64 // mm, side of the window as drawn
	Window    []float64
}

const (
	mostKerf   = 1.0 // mm: lasers take 0.1 to 0.4, a mill is not meant (common practice, no source)
	kerfAgrees = 0.1 // mm that bars and window may differ: the cut leans (common practice, no source)
)

// kerf takes the width of the cut from the bars, each of which lost one, and holds
// it against the window, which gained one.
func (c *Calibration) kerf(r Readings) error {
	k := r.Kerf
	if len(k.Bars) == 0 && len(k.Window) == 0 {
		return nil // nobody cuts
	}
	window, how, uncertain := 0.0, "", caliperSigma
	if len(k.Window) > 0 {
		window = Feature{Drawn: k.WindowOf, Read: k.Window}.Off()
		how = fmt.Sprintf("the window of %s mm is %s mm wider", check.Number(k.WindowOf), micro(window))
	}
	c.Kerf = window
	if len(k.Bars) > 0 {
		c.Kerf = -Feature{Drawn: k.Together, Read: k.Bars}.Off() / float64(k.Count)
		uncertain /= float64(k.Count)
		bars := fmt.Sprintf("%d bars pushed together are %s mm short of %s mm", k.Count, micro(c.Kerf*float64(k.Count)), check.Number(k.Together))
		if len(k.Window) > 0 {
			bars += "; " + how
		}
		how = bars
	}
	switch {
	case !(c.Kerf >= -4*uncertain && c.Kerf <= mostKerf):
		return &check.FieldError{Field: "kerf", Value: math.Round(c.Kerf*1000) / 1000, Unit: "mm", Reason: "is no width of a cut", Remedy: "push all bars together without a gap and read them again, in mm"}
	case len(k.Bars) > 0 && len(k.Window) > 0 && math.Abs(window-c.Kerf) > kerfAgrees:
		return &check.FieldError{Field: "kerf", Value: math.Round(c.Kerf*1000) / 1000, Unit: "mm", Reason: fmt.Sprintf("by the bars is %s mm by the window", micro(window)), Remedy: "read both again: a burr, or a bar the wrong way round"}
	}
	c.Kerf = max(c.Kerf, 0)
	c.found("kerf", "%s; write kerf = %s into [sheet] of the joint file for this sheet of %s mm; uncertain by %s mm", how, micro(c.Kerf), check.Number(k.Thickness), micro(uncertain))
	if r.Slot.Found {
		c.Supported = append(c.Supported, fmt.Sprintf("slot: the one marked %s takes the sheet by hand, which leaves it %s mm", Mark(r.Slot.At), micro(r.Slot.At+c.Kerf)))
	}
	return nil
}
