package fit

import "math"

// LargestStep bounds in mm what one reading of a finished part changes on the
// next print: more is a slip of the caliper (common practice, no source).
const LargestStep = 0.15

// A Reading is what one feature of earlier prints measured, in mm, the first
// print first.
type Reading struct {
	Part, Feature string
	Read          []float64
}

// Correction returns how much larger in mm a feature is drawn next: the sum of
// what each earlier print came out too small by, each at most LargestStep, since
// each tells what was still wrong after the corrections before it.
func Correction(wanted float64, read []float64) float64 {
	sum := 0.0
	for _, r := range read {
		sum += math.Max(math.Min(wanted-r, LargestStep), -LargestStep)
	}
	return sum
}

// correction returns that of a feature of the card's readings, 0 without any.
func (c Card) correction(part, feature string, wanted float64) float64 {
	for _, r := range c.Readings {
		if r.Part == part && r.Feature == feature {
			return Correction(wanted, r.Read)
		}
	}
	return 0
}
