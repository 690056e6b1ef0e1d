package fit

import (
	"fmt"
	"math"

	"pintle/check"
)

// A Tried is the mark of a piece that was tried by hand, in mm as drawn: its
// offset on the diameter, or its backlash.
type Tried struct {
	At    float64
	Found bool
}

// Readings are what was read and tried on the pieces of a coupon. Empty lists
// and marks that were not found leave the card's first guesses alone.
type Readings struct {
	Card Card // conditions: name, bead, layer, nozzle, material, orientation, bed; errors are its first guesses

	Bores, Outsides []Feature
	CrossHoles      []Feature
	Flipped         []Feature // rings printed with the other side on the bed
	Bed, Above      []float64 // a plain block across its edge on the bed and above the first layers

	Bearing               float64 // outside diameter, mm
	ByHand, Press, Cracks Tried   // rings: the tightest that goes on by hand, one that was pressed in and held, the loosest that cracked
	Horn                  Tried   // the tightest pocket that takes the horn by hand
	Free, Rattles         Tried   // pairs of gears: the least backlash that turns freely, that rattles
	PitchDiameters        [2]float64
	PressureAngle         float64 // rad
	LeastWeb              float64 // mm; 0 where none was looked at

	Kerf KerfReadings
	Slot Tried // the tightest slot that took a tab by hand, less the thickness of the sheet

	Revision string // of the coupon; "" where nobody said
}

// A Calibration is the card that readings give, and what they support.
type Calibration struct {
	Card      Card
	Bores     *Line // nil where bores were not read
	Outsides  *Line
	Supported []string // one sentence each
	Missing   []string
	Kerf      float64 // mm, of a cutter; 0 where it was not read. It goes into the joint file's [sheet]: it belongs to cutter and sheet, not to the printer
	Revision  string
	How       map[string]string // how each number of the card was found, by the card's key
}

// Calibrate fits a card to readings. The error is a *check.FieldError for too
// few features, or marks that contradict each other.
func Calibrate(r Readings) (Calibration, error) {
	c := Calibration{Card: r.Card, How: map[string]string{}, Revision: r.Revision}
	if err := r.ordered(); err != nil {
		return c, err
	}
	for _, q := range []struct {
		what, key string
		features  []Feature
		line      **Line
		to        *Error
	}{
		{"bores", "bore_error", r.Bores, &c.Bores, &c.Card.Bore},
		{"outsides", "outside_error", r.Outsides, &c.Outsides, &c.Card.Outside},
	} {
		if len(q.features) == 0 {
			c.miss(q.key, "%s were not read: a first guess stays", q.what)
			continue
		}
		l, err := FitLine("number of "+q.what, q.features)
		if err != nil {
			return c, err
		}
		*q.line, *q.to = &l, l.Error
		c.found(q.key, "%d %s from %s to %s mm, scatter %s mm; %s", len(l.Features), q.what,
			check.Number(l.Smallest), check.Number(l.Largest), micro(l.Scatter), l.SlopeDecision)
	}
	c.growth(r)
	c.seats(r)
	c.teeth(r)
	c.others(r)
	if err := c.kerf(r); err != nil {
		return c, err
	}
	return c, c.Card.Validate()
}

// ordered refuses marks that contradict each other.
func (r Readings) ordered() error {
	for _, q := range []struct {
		tight, loose       Tried
		what, first, other string
	}{
		{r.Cracks, r.Press, "cracks", "a ring that cracked", "one that was pressed in and held"},
		{r.Press, r.ByHand, "press", "a ring that needs a press", "one that goes in by hand"},
		{r.Free, r.Rattles, "free", "a pair that turns freely", "one that rattles"},
	} {
		if q.tight.Found && q.loose.Found && q.tight.At >= q.loose.At {
			return &check.FieldError{
				Field: q.what, Value: q.tight.At, Unit: "mm",
				Reason: fmt.Sprintf("%s must be tighter than %s (%s mm)", q.first, q.other, check.Number(q.loose.At)),
				Remedy: "look at the marks again: the smaller the number, the tighter",
			}
		}
	}
	for _, t := range []struct {
		what string
		Tried
	}{{"by hand", r.ByHand}, {"press", r.Press}, {"cracks", r.Cracks}, {"horn", r.Horn}, {"free", r.Free}, {"rattles", r.Rattles}, {"slot", r.Slot}} {
		if t.Found && math.Abs(t.At) > 1 {
			return &check.FieldError{
				Field: t.what, Value: t.At, Unit: "mm", Reason: "is no step of a coupon",
				Remedy: "marks are hundredths of a millimetre: write 0.10 for the piece marked +10",
			}
		}
	}
	return nil
}

func (c *Calibration) found(key, format string, args ...any) {
	c.How[key] = fmt.Sprintf(format, args...)
	c.Supported = append(c.Supported, key+": "+c.How[key])
}

func (c *Calibration) miss(key, format string, args ...any) {
	c.How[key] = fmt.Sprintf(format, args...)
	c.Missing = append(c.Missing, key+": "+c.How[key])
}

// growth compares a plain block on the bed with itself above.
func (c *Calibration) growth(r Readings) {
	if len(r.Bed) == 0 || len(r.Above) == 0 {
		c.miss("first_layer_growth", "the block was not read on the bed and above: a first guess stays")
		return
	}
	wide := Feature{Read: r.Bed}.Off() - Feature{Read: r.Above}.Off()
	c.Card.FirstLayerGrowth = max(wide/2, 0)
	c.found("first_layer_growth", "the block is %s mm wider on the bed than above, half of it on each side; uncertain by %s mm",
		micro(wide), micro(math.Sqrt2*caliperSigma/2))
}

// seats turns the rings tried with the bearing into clearances of the print.
func (c *Calibration) seats(r Readings) {
	// printed returns how much larger than the bearing a ring's bore came out.
	printed := func(t Tried) float64 { return t.At + c.Card.Bore.At(r.Bearing+t.At) }
	switch {
	case !r.ByHand.Found && !r.Horn.Found:
		c.miss("slip_clearance", "nothing was put together by hand: %s mm stays", check.Number(SlipClearance))
	default:
		var how string
		slip := math.Inf(-1)
		if r.ByHand.Found {
			slip, how = printed(r.ByHand), fmt.Sprintf("the ring marked %s takes the bearing by hand", Mark(r.ByHand.At))
		}
		if horn := r.Horn.At + c.Card.Bore.Offset; r.Horn.Found && horn > slip {
			slip, how = horn, fmt.Sprintf("the pocket marked %s takes the horn by hand", Mark(r.Horn.At))
		}
		if slip <= 0 {
			c.miss("slip_clearance", "%s, yet should measure %s mm less: %s mm stays", how, micro(-slip), check.Number(SlipClearance))
			break
		}
		c.Card.SlipClearance = slip
		c.found("slip_clearance", "%s, which should measure %s mm more; uncertain by %s mm", how, micro(slip), micro(c.Card.Bore.Sigma))
	}
	switch {
	case !r.Press.Found:
		c.miss("interference", "no ring was pressed on")
	case printed(r.Press) >= 0:
		c.miss("interference", "the ring marked %s needed a press, yet should measure %s mm more than the bearing", Mark(r.Press.At), micro(printed(r.Press)))
	default:
		c.Card.Interference, c.Card.InterferenceAt = -printed(r.Press), r.Bearing
		cracked := "none cracked"
		if r.Cracks.Found {
			cracked = fmt.Sprintf("the one marked %s, %s mm smaller than the bearing, cracked", Mark(r.Cracks.At), micro(-printed(r.Cracks)))
		}
		c.found("interference", "the ring marked %s was pressed in and held on %s mm; %s; uncertain by %s mm", Mark(r.Press.At), check.Number(r.Bearing), cracked, micro(c.Card.Bore.Sigma))
	}
}

// teeth takes what the printer adds to the flanks from the backlash as drawn:
// outsides e larger thicken a tooth by e, of either gear, square to the flank.
func (c *Calibration) teeth(r Readings) {
	if !r.Free.Found {
		c.miss("backlash", "no pair of gears was tried")
		return
	}
	taken := (c.Card.Outside.At(r.PitchDiameters[0]) + c.Card.Outside.At(r.PitchDiameters[1])) / math.Cos(r.PressureAngle)
	left := r.Free.At - taken
	if left <= 0 {
		c.miss("backlash", "the pair marked %s turns freely, yet the outsides take %s mm: read the outsides again", Mark(r.Free.At), micro(taken))
		return
	}
	c.Card.Backlash = left
	more := ""
	if r.Rattles.Found {
		more = fmt.Sprintf("; the one marked %s rattles, %s mm", Mark(r.Rattles.At), micro(r.Rattles.At-taken))
	}
	c.found("backlash", "the pair marked %s turns freely, of which the print took %s mm%s", Mark(r.Free.At), micro(taken), more)
}

// others tells what is read without a key of its own, and what is not.
func (c *Calibration) others(r Readings) {
	if r.LeastWeb > 0 {
		c.Card.LeastWeb = r.LeastWeb
		c.found("least_web", "the thinnest web of the comb that printed whole")
	} else {
		c.miss("least_web", "the comb was not looked at")
	}
	for _, q := range []struct {
		what     string
		features []Feature
	}{{"bores with a level axis", r.CrossHoles}, {"rings printed with the other side on the bed", r.Flipped}} {
		for _, f := range q.features {
			c.Supported = append(c.Supported, fmt.Sprintf("%s: drawn %s mm, %s mm off, where upright ones are %s mm off", q.what,
				check.Number(f.Drawn), signedMicro(f.Off()), signedMicro(c.Card.Bore.At(f.Drawn))))
		}
	}
}

// Mark returns the figures that stand on a piece: hundredths of a millimetre.
func Mark(step float64) string {
	hundredths := math.Round(step * 100)
	if hundredths > 0 {
		return fmt.Sprintf("+%g", hundredths)
	}
	return fmt.Sprintf("%g", hundredths+0)
}

// micro prints a length to the thousandth.
func micro(v float64) string { return check.Number(math.Round(v*1000) / 1000) }

func signedMicro(v float64) string { return signed(math.Round(v*1000) / 1000) }
