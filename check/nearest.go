package check

import (
	"math"
	"slices"
	"strconv"
)

// Nearest looks for the value nearest to a present one, above 0, that cures a
// failed check: upwards to reach times the value where reach is above 1,
// otherwise downwards. It is rounded away from the present value to three
// significant digits, and cures as rounded; false where none was found.
func Nearest(value, reach float64, cured func(float64) bool) (float64, bool) {
	const tries = 40
	good, bad := math.NaN(), value
	for i := 1; i <= tries && math.IsNaN(good); i++ {
		v := value * math.Pow(reach, float64(i)/tries)
		if cured(v) {
			good = v
		} else {
			bad = v
		}
	}
	if math.IsNaN(good) {
		return 0, false
	}
	for range 20 {
		if middle := (good + bad) / 2; cured(middle) {
			good = middle
		} else {
			bad = middle
		}
	}
	rounded := RoundAway(good, reach > 1)
	return rounded, cured(rounded)
}

// RoundAway rounds a positive number to three significant digits, up or down.
func RoundAway(v float64, up bool) float64 {
	unit := math.Pow(10, math.Floor(math.Log10(v))-2)
	count := math.Floor(v/unit + 1e-9)
	if up {
		count = math.Ceil(v/unit - 1e-9)
	}
	clean, err := strconv.ParseFloat(strconv.FormatFloat(count*unit, 'g', 4, 64), 64)
	if err != nil {
		panic("check: a rounded number does not parse: " + err.Error())
	}
	return clean
}

// NoWorse says whether no finding of a design got a worse verdict by a change;
// both lists judge the same rules in the same order.
func NoWorse(before, after []Finding) bool {
	if len(before) != len(after) {
		return false
	}
	for i := range before {
		if after[i].Verdict.Worse(before[i].Verdict) {
			return false
		}
	}
	return true
}

// Worse says whether a verdict is worse than another, from Pass over Note and
// Caution to Fail.
func (v Verdict) Worse(than Verdict) bool {
	order := []Verdict{Pass, Note, Caution, Fail}
	return slices.Index(order, v) > slices.Index(order, than)
}
