package fit

// Orientations are the ways the axis of a measured bore stood while printing.
func Orientations() []string { return []string{Upright, Level} }

// How the axes of bores and pegs stand over the bed.
const (
	Upright = "upright" // square to the bed: the usual way for rings and gears
	Level   = "level"   // along the bed
)

// Guessed says whether bores or outsides still stand at a first guess or were
// typed in: nothing was measured, or the coupon was read in part.
func (c Card) Guessed() bool {
	return !c.Measured() || c.Bore == FirstGuessBore || c.Outside == FirstGuessOutside
}

// Slip returns the clearance in mm on the diameter for parts put together by
// hand: what the coupon showed, else SlipClearance.
func (c Card) Slip() float64 {
	if c.SlipClearance > 0 {
		return c.SlipClearance
	}
	return SlipClearance
}

// Holds returns the interference in mm on the diameter that gives the diameter
// the hoop strain which held on the coupon, and false where none was tried.
func (c Card) Holds(diameter float64) (float64, bool) {
	if !(c.Interference > 0) {
		return 0, false
	}
	if c.InterferenceAt > 0 {
		return c.Interference * diameter / c.InterferenceAt, true
	}
	return c.Interference, true
}
