package fit

import (
	"fmt"
	"math"
	"slices"

	"pintle/check"
)

// A Feature is one bore or outside of a coupon: its diameter as drawn and what a
// caliper read on the print, in mm.
type Feature struct {
	Drawn float64
	Read  []float64
}

// Off returns how much larger than drawn the feature was read, in mm: the mean
// of its readings less the drawn diameter.
func (f Feature) Off() float64 {
	sum := 0.0
	for _, r := range f.Read {
		sum += r - f.Drawn
	}
	return sum / float64(len(f.Read))
}

// A Line is an Error fitted to features, with what is known of it. All values
// are mm on the diameter.
type Line struct {
	Error                   // Sigma is that of one feature printed with it, the line's own included
	Features      []Feature // that were fitted
	Residuals     []float64 // read less fitted, by feature
	Scatter       float64   // standard deviation of one feature about the line
	OffsetSigma   float64   // standard uncertainty of the line at the middle of the diameters
	PerMMSigma    float64   // of the slope; 0 where none was fitted
	Middle        float64   // mean diameter
	Smallest      float64   // diameter that was read
	Largest       float64
	Sloped        bool   // a slope was fitted and told from 0
	SlopeDecision string // why, or why not
}

// Of the fit.
const (
	huberTuning  = 1.345 // 95 % efficiency on normal noise (Huber 1964; Holland and Welsch 1977, from memory)
	madToSigma   = 1.4826
	caliperSigma = 0.01 // mm: a workshop caliper repeats within 0.02 mm (common practice, no source)
	leastScale   = 0.003
	slopeGroups  = 3    // of diameters further than 1 mm apart
	slopeReach   = 10.0 // mm between the smallest and the largest
	leastNumber  = 3    // of features
)

// FitLine fits offset and slope over the diameter to what was read, by least
// squares with Huber's weights, so that one bad print counts little. A slope
// needs three diameters over 10 mm and twice its standard uncertainty; else it
// is 0. The error is a *check.FieldError for fewer than three features.
func FitLine(what string, features []Feature) (Line, error) {
	if len(features) < leastNumber {
		return Line{}, &check.FieldError{
			Field: what, Value: float64(len(features)), Reason: fmt.Sprintf("must be at least %d that were read", leastNumber),
			Remedy: "read more of them: two readings each, a quarter turn apart",
		}
	}
	l := Line{Features: features, Smallest: math.Inf(1), Largest: math.Inf(-1)}
	for _, f := range features {
		l.Middle += f.Drawn / float64(len(features))
		l.Smallest, l.Largest = min(l.Smallest, f.Drawn), max(l.Largest, f.Drawn)
	}
	groups := l.groups()
	switch {
	case groups < slopeGroups || l.Largest-l.Smallest < slopeReach:
		l.SlopeDecision = fmt.Sprintf("no slope: it needs %d diameters over %g mm, here: %d from %s to %s mm",
			slopeGroups, slopeReach, groups, check.Number(l.Smallest), check.Number(l.Largest))
		l.solve(false)
		return l, nil
	}
	l.solve(true)
	l.Sloped = math.Abs(l.PerMM) >= 2*l.PerMMSigma && math.Abs(l.PerMM) > 1e-12
	if !l.Sloped {
		l.SlopeDecision = fmt.Sprintf("no slope: %s per mm cannot be told from 0 with a standard uncertainty of %s", check.Number(l.PerMM), check.Number(l.PerMMSigma))
		l.solve(false)
		return l, nil
	}
	l.SlopeDecision = fmt.Sprintf("a slope of %s per mm, standard uncertainty %s", check.Number(l.PerMM), check.Number(l.PerMMSigma))
	return l, nil
}

// groups counts the diameters that stand more than 1 mm apart.
func (l *Line) groups() int {
	var drawn []float64
	for _, f := range l.Features {
		drawn = append(drawn, f.Drawn)
	}
	slices.Sort(drawn)
	groups := 1
	for i := 1; i < len(drawn); i++ {
		if drawn[i]-drawn[i-1] > 1 {
			groups++
		}
	}
	return groups
}

// solve fits by weights that follow the residuals. The uncertainties are Huber's
// for the slope and height of a regression (Huber, Robust Statistics, section
// 7.6, from memory): s² [sum psi² / (n-p)] / mean(psi')² times the inverse of the
// normal matrix, here diagonal since diameters count from their middle.
func (l *Line) solve(sloped bool) {
	n := len(l.Features)
	weights := make([]float64, n)
	for i := range weights {
		weights[i] = 1
	}
	var height, slope, scale float64
	l.Residuals = make([]float64, n)
	for range 100 {
		before := [2]float64{height, slope}
		height, slope = l.weighted(weights, sloped)
		for i, f := range l.Features {
			l.Residuals[i] = f.Off() - height - slope*(f.Drawn-l.Middle)
		}
		scale = max(madToSigma*medianSize(l.Residuals), leastScale)
		for i, r := range l.Residuals {
			weights[i] = min(1, huberTuning*scale/max(math.Abs(r), 1e-12))
		}
		if math.Abs(height-before[0]) < 1e-9 && math.Abs(slope-before[1]) < 1e-11 {
			break
		}
	}
	parameters, spread := 1, 0.0
	if sloped {
		parameters = 2
	}
	squares, inside := 0.0, 0
	for i, r := range l.Residuals {
		psi := min(math.Abs(r)/scale, huberTuning)
		squares += psi * psi
		if weights[i] == 1 {
			inside++
		}
		spread += (l.Features[i].Drawn - l.Middle) * (l.Features[i].Drawn - l.Middle)
	}
	share := max(float64(inside)/float64(n), 0.5)
	l.Scatter = scale * math.Sqrt(squares/float64(max(n-parameters, 1))) / share
	least := max(l.Scatter, leastScale)
	l.OffsetSigma, l.PerMMSigma = least/math.Sqrt(float64(n)), 0
	if sloped {
		l.PerMMSigma = least / math.Sqrt(spread)
	}
	reach := max(l.Middle-l.Smallest, l.Largest-l.Middle)
	own := math.Hypot(l.OffsetSigma, l.PerMMSigma*reach)
	l.Error = Error{Offset: height - slope*l.Middle, PerMM: slope, Sigma: math.Hypot(math.Hypot(l.Scatter, own), caliperSigma)}
}

// weighted returns the height at the middle diameter and the slope of the line
// through the features with these weights.
func (l *Line) weighted(weights []float64, sloped bool) (height, slope float64) {
	var w, x, y, xx, xy float64
	for i, f := range l.Features {
		d, e := f.Drawn-l.Middle, f.Off()
		w += weights[i]
		x += weights[i] * d
		y += weights[i] * e
		xx += weights[i] * d * d
		xy += weights[i] * d * e
	}
	if !sloped {
		return y / w, 0
	}
	slope = (w*xy - x*y) / (w*xx - x*x)
	return (y - slope*x) / w, slope
}

// medianSize returns the median of the sizes of the residuals.
func medianSize(residuals []float64) float64 {
	sizes := make([]float64, len(residuals))
	for i, r := range residuals {
		sizes[i] = math.Abs(r)
	}
	return median(sizes)
}

func median(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
