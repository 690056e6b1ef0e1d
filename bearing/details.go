package bearing

import (
	"fmt"

	"pintle/check"
	"pintle/drawing"
)

// Details returns what matters of the ring on its drawing: the seat, to be
// measured, with its class where it is machined, and the lead-in.
func (h *Housing) Details(part string) drawing.Details {
	if part != h.partName() {
		return drawing.Details{}
	}
	seat := drawing.Turned(h.seat.Drawn, h.SeatHeight()+h.seatDepth/2).ToCheck()
	if h.spec.machined() {
		d, _, err := ToleranceClass(h.spec.Fit, h.spec.Bearing.Outside)
		if err != nil {
			panic("bearing: a class that passed validation: " + err.Error())
		}
		seat = seat.InClass(h.spec.Fit, d.Lower/1000, d.Upper/1000)
	}
	return drawing.Details{
		Dimensions: []drawing.Dimension{seat},
		Notes:      []string{fmt.Sprintf("Lead-in of the seat %s mm wide at 30° to the axis.", check.Number(h.leadWidth))},
	}
}
