package fit

import (
	"fmt"
	"math"

	"pintle/check"
)

// Limits of what a caliper can have read (common practice, no source).
const (
	farOff   = 0.5 // mm from the other features: another feature was read, or a slip of the pen
	apart    = 0.3 // mm between two readings of one feature
	mostOff  = 1.0 // mm from the drawn diameter: no card has more
	perInch  = 25.4
	inchBand = 0.1 // share within which a ratio of 25.4 means inches
)

// Check returns an error for a reading that nobody can have taken on the
// feature, with the feature's index and that of the reading; nil where all are
// plausible. It compares each reading with the drawn diameter, with the other
// reading and with how far off the other features are.
func Check(what string, features []Feature) (feature, reading int, err error) {
	refuse := func(i, j int, reason, remedy string) (int, int, error) {
		return i, j, &check.FieldError{Field: what, Value: features[i].Read[j], Unit: "mm", Reason: reason, Remedy: remedy}
	}
	for i, f := range features {
		for j, r := range f.Read {
			if reason, remedy := f.doubt(j); reason != "" {
				return refuse(i, j, reason, remedy)
			}
			if j > 0 && math.Abs(r-f.Read[0]) > apart {
				return refuse(i, j, fmt.Sprintf("is %s mm from the first reading of the same feature", signed(r-f.Read[0])), "read both again, square to the axis")
			}
		}
	}
	worst, most := 0, 0.0
	for i, f := range features {
		if others, ok := typical(features, i); ok && len(f.Read) > 0 && math.Abs(f.Off()-others) > most {
			worst, most = i, math.Abs(f.Off()-others)
		}
	}
	if most > farOff {
		f := features[worst]
		others, _ := typical(features, worst)
		return refuse(worst, 0, fmt.Sprintf("is %s mm off the drawn %s mm, the others are %s mm off", signed(f.Read[0]-f.Drawn), check.Number(f.Drawn), signed(others)), again)
	}
	return 0, 0, nil
}

const again = "read it again, and see whether it is the feature with this mark"

// doubt says what is wrong with a reading for itself, and what to do; "" for
// nothing.
func (f Feature) doubt(reading int) (reason, remedy string) {
	r := f.Read[reading]
	off := r - f.Drawn
	switch {
	case !(r > 0) || math.IsInf(r, 0):
		return "must be above 0", "type in what the caliper shows, or leave the feature out"
	case math.Abs(r/f.Drawn*perInch-1) < inchBand:
		return fmt.Sprintf("is 1/25.4 of the drawn %s mm: it was read in inches", check.Number(f.Drawn)), fmt.Sprintf("switch the caliper to mm, or write \"%sin\"", check.Number(r))
	case math.Abs(off) > mostOff:
		return fmt.Sprintf("is %s mm off the drawn %s mm", signed(off), check.Number(f.Drawn)), again
	}
	return "", ""
}

// typical returns the median of how far off the other features are.
func typical(features []Feature, but int) (float64, bool) {
	var off []float64
	for i, f := range features {
		if i != but && len(f.Read) > 0 {
			off = append(off, f.Off())
		}
	}
	if len(off) < 2 {
		return 0, false
	}
	return median(off), true
}

func signed(v float64) string {
	if v > 0 {
		return "+" + check.Number(v)
	}
	return check.Number(v)
}
