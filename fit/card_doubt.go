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
	for i, f := range features {
		for j, r := range f.Read {
			refuse := func(reason, remedy string) (int, int, error) {
				return i, j, &check.FieldError{Field: what, Value: r, Unit: "mm", Reason: reason, Remedy: remedy}
			}
			off := r - f.Drawn
			switch ratio := r / f.Drawn; {
			case !(r > 0) || math.IsInf(r, 0):
				return refuse("must be above 0", "type in what the caliper shows, or leave the feature out")
			case math.Abs(ratio*perInch-1) < inchBand:
				return refuse(fmt.Sprintf("is 1/25.4 of the drawn %s mm: it was read in inches", check.Number(f.Drawn)), fmt.Sprintf("switch the caliper to mm, or write \"%sin\"", check.Number(r)))
			case math.Abs(off) > mostOff:
				return refuse(fmt.Sprintf("is %s mm off the drawn %s mm", signed(off), check.Number(f.Drawn)), "read it again, and see whether it is the feature with this mark")
			}
			if others, ok := typical(features, i); ok && math.Abs(off-others) > farOff {
				return refuse(fmt.Sprintf("is %s mm off the drawn %s mm, the others are %s mm off", signed(off), check.Number(f.Drawn), signed(others)),
					"read it again, and see whether it is the feature with this mark")
			}
			if j > 0 && math.Abs(r-f.Read[0]) > apart {
				return refuse(fmt.Sprintf("is %s mm from the first reading of the same feature", signed(r-f.Read[0])), "read both again, square to the axis")
			}
		}
	}
	return 0, 0, nil
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
