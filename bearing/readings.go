package bearing

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
	"pintle/fit"
)

// readingsRule tells what the readings of earlier prints change.
var readingsRule = check.Rule{
	Name: "seat-readings", Unit: "mm", Sense: check.AtMost, Limit: check.Limit{Caution: fit.LargestStep, Fail: check.None},
	Meaning: "What a caliper read on the seats of earlier prints, and what that changes on the next.",
	Formula: "largest difference of a reading from what was wanted; each print adds its own, at most 0.15 mm",
	Source:  check.CommonPractice, Change: "read the seat again, a quarter turn apart, above the first layers",
}

// seatCorrection returns how much larger in mm the next seat is drawn.
func (h *Housing) seatCorrection() float64 {
	return fit.Correction(h.seat.Wanted, h.spec.MeasuredSeat)
}

// correctSeat draws the seat by what earlier prints measured. A seat for a
// machine is drawn at its nominal size whatever was read.
func (h *Housing) correctSeat() {
	if h.spec.machined() {
		return
	}
	c := h.seatCorrection()
	h.seat.Drawn += c
	h.seat.Correction += c
	if h.spec.Fit == CrushRibs {
		h.tips.Drawn += c
	}
}

// seatReadings judges the readings.
func (h *Housing) seatReadings() []check.Finding {
	if len(h.spec.MeasuredSeat) == 0 || h.spec.machined() {
		return nil
	}
	var worst float64
	var said []string
	for i, read := range h.spec.MeasuredSeat {
		worst = math.Max(worst, math.Abs(read-h.seat.Wanted))
		said = append(said, fmt.Sprintf("print %d: seat %s mm, wanted %s", i+1, check.Number(read), check.Number(h.seat.Wanted)))
	}
	f := readingsRule.Judge(worst, h.spec.Limits.Of(readingsRule), fmt.Sprintf("a reading counts %s mm at most: read it again", check.Number(fit.LargestStep)))
	f.Detail = strings.Join(said, "; ") + fmt.Sprintf("; the next seat is drawn %s mm larger", check.Number(h.seatCorrection()))
	return []check.Finding{f}
}
