package joint

import (
	"slices"

	"pintle/gear"
)

// The profile shifts at which form factors are tabulated; between them they are
// interpolated, good to one part in 100.
const (
	formFrom  = -0.6
	formStep  = 0.2
	formCount = 11
	leastForm = 0.05 // where no rack leaves a tooth
)

// forms tabulates the form factors of the teeth of a search.
type forms [mostTeeth + 1][formCount]float64

func newForms(spec gear.PairSpec, teeth ...[]int) *forms {
	var f forms
	all := slices.Concat(teeth...)
	slices.Sort(all)
	all = slices.Compact(all)
	parallel(len(all), func(k int) {
		z := min(all[k], mostTeeth)
		for i := range formCount {
			y := gear.LewisFactorOf(z, formFrom+formStep*float64(i), spec.PressureAngle, spec.Rack)
			if !(y > leastForm) {
				y = leastForm
			}
			f[z][i] = y
		}
	})
	return &f
}

// at returns the form factor of a tooth.
func (f *forms) at(z int, x float64) float64 {
	place := min(max((x-formFrom)/formStep, 0), formCount-1)
	i := min(int(place), formCount-2)
	row := &f[min(z, mostTeeth)]
	return row[i] + (row[i+1]-row[i])*(place-float64(i))
}
