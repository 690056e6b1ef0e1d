package joint

import (
	"cmp"
	"math"
	"slices"

	"pintle/check"
	"pintle/drive"
	"pintle/gear"
)

// A Train is two pairs one after the other, on a shaft between. Each passes
// every check of gear, the second under what the first makes of the servo's
// torque. pintle builds one stage: a train is a proposal.
type Train struct {
	Stages      [2]Stage `json:"stages"`
	Ratio       float64  `json:"ratio"`
	Length      float64  `json:"length"` // mm, with the three axes in line
	PeakShare   float64  `json:"peak_share"`
	HeldShare   float64  `json:"held_share"`
	SpeedShare  float64  `json:"speed_share"`
	SpareTravel float64  `json:"spare_travel_deg"`
	LostMotion  float64  `json:"lost_motion_deg"`
	Cautions    []string `json:"cautions"`

	balance float64
}

// A Stage is one pair of a train.
type Stage struct {
	Module         float64    `json:"m"`
	Teeth          [2]int     `json:"z"`
	Shift          [2]float64 `json:"x"`
	CentreDistance float64    `json:"a_w"`
	Tip            [2]float64 `json:"d_a"`
}

// mostTrains is how many trains are proposed.
const mostTrains = 3

// trains returns the best trains of two stages, with one module for both. Where
// a centre distance or teeth were given there are none: these ask for one stage.
func (w *wish) trains() []Train {
	if w.spec.CentreDistance > 0 || len(w.pinion) == 1 || len(w.wheel) == 1 {
		return nil
	}
	rows := make([][]Train, len(w.modules))
	parallel(len(w.modules), func(k int) { rows[k] = w.trainsOf(w.modules[k]) })
	all := slices.Concat(rows...)
	slices.SortStableFunc(all, func(a, b Train) int { return cmp.Compare(b.balance, a.balance) })
	var listed []Train
	for tries := 0; len(all) > 0 && len(listed) < mostTrains && tries < 40; tries++ {
		best := all[0]
		all = slices.DeleteFunc(all, func(t Train) bool {
			return t.Stages[0].Module == best.Stages[0].Module && math.Abs(t.Ratio/best.Ratio-1) < 0.05 && math.Abs(t.Length/best.Length-1) < 0.1
		})
		if w.checkTrain(&best) {
			listed = append(listed, best)
		}
	}
	return listed
}

// trainsOf goes through the trains of one module: the smallest pinions that find
// room, wheels in steps of two teeth, both ratios within a factor of two.
func (w *wish) trainsOf(m float64) []Train {
	const pinions, coarse = 4, 2
	first := w.fewest(m, 0)
	var all []Train
	for z1 := first; z1 < first+2*pinions; z1 += coarse {
		for z3 := 12; z3 < 12+2*pinions; z3 += coarse {
			for z2 := z1 + 2; z2 <= mostTeeth; z2 += coarse {
				one := float64(z2) / float64(z1)
				for z4 := max(w.fewest(m, 1), z3+2); z4 <= mostTeeth; z4 += coarse {
					two := float64(z4) / float64(z3)
					if one > 2*two || two > 2*one {
						continue
					}
					if t, ok := w.train(m, [4]int{z1, z2, z3, z4}); ok {
						all = append(all, t)
					}
				}
			}
		}
	}
	return all
}

// fewest returns the fewest teeth whose root leaves the walls of pinion or wheel.
func (w *wish) fewest(m float64, i int) int {
	root := w.roots[m][i][0]
	if math.IsInf(root, 1) {
		return mostTeeth + 1
	}
	return max(12, int(math.Ceil(root/m+2.5)))
}

// train judges a train by its chief sizes.
func (w *wish) train(m float64, z [4]int) (Train, bool) {
	one, two := float64(z[1])/float64(z[0]), float64(z[3])/float64(z[2])
	t := Train{Ratio: one * two}
	if w.ratio > 0 && math.Abs(t.Ratio/w.ratio-1) > w.tolerance {
		return t, false
	}
	// Sizes without shifts; the full check works out the rest.
	for i := range 2 {
		t.Stages[i] = Stage{
			Module: m, Teeth: [2]int{z[2*i], z[2*i+1]}, CentreDistance: m * float64(z[2*i]+z[2*i+1]) / 2,
			Tip: [2]float64{m * float64(z[2*i]+2), m * float64(z[2*i+1]+2)},
		}
	}
	last := t.Stages[1].Tip[1]
	if w.largestWheel > 0 && last > w.largestWheel || w.bed > 0 && max(last, t.Stages[0].Tip[1]) > w.bed || t.Stages[1].CentreDistance < w.least {
		return t, false
	}
	if w.stressed(t.Stages[1], one) {
		return t, false
	}
	d, reason := w.driven(t.Ratio, drive.DefaultEfficiency*drive.DefaultEfficiency)
	if reason != "" {
		return t, false
	}
	t.Length = t.Stages[0].CentreDistance + t.Stages[1].CentreDistance + (t.Stages[0].Tip[0]+last)/2
	lost := 2 * w.spec.Backlash * (1/(m*float64(z[3])) + 1/(m*float64(z[1])*two)) * 180 / math.Pi
	t.balance = d.torque + d.travel + w.balanced/(w.balanced+lost+d.play) + sizeGrade(t.Length) - float64(d.cautions)
	return t, true
}

// stressed says whether the teeth of a second stage are sure to fail under what
// the first makes of the servo's torque.
func (w *wish) stressed(s Stage, one float64) bool {
	spec := w.of(s.Module, s.Teeth)
	spec.ShiftRule = gear.ShiftChoose
	spec.Loading.Stall *= one * drive.DefaultEfficiency
	p, err := spec.Proportions()
	if err != nil {
		return true
	}
	return spec.StressShare(p, [2]float64{w.forms.at(s.Teeth[0], p.Shift[0]), w.forms.at(s.Teeth[1], p.Shift[1])}) > surelyFails
}

// checkTrain makes both pairs and runs every check; false where one fails.
func (w *wish) checkTrain(t *Train) bool {
	one := float64(t.Stages[0].Teeth[1]) / float64(t.Stages[0].Teeth[0])
	two := t.Ratio / one
	var c Candidate
	var play [2]float64
	for i := range t.Stages {
		s := &t.Stages[i]
		spec := w.of(s.Module, s.Teeth)
		spec.ShiftRule, spec.Shift = gear.ShiftChoose, [2]float64{}
		if i == 0 {
			spec.Wheel = gear.Body{}
			spec.Loading.Swing = min(spec.Loading.Swing*two, 2*math.Pi)
			spec.Loading.Held /= two
		} else {
			spec.Pinion = gear.Body{}
			spec.Loading.Stall *= one * drive.DefaultEfficiency
		}
		pair, err := gear.NewPair(spec)
		if err != nil {
			return false
		}
		for _, f := range pair.Findings() {
			if !c.take(f.Check, f.Verdict, w.accepted) {
				return false
			}
		}
		s.Shift = [2]float64{pair.Pinion().Shift(), pair.Wheel().Shift()}
		s.CentreDistance, s.Tip = pair.CentreDistance(), [2]float64{pair.Pinion().TipDiameter(), pair.Wheel().TipDiameter()}
		play[i] = pair.LostMotion() * 180 / math.Pi
	}
	t.Length = t.Stages[0].CentreDistance + t.Stages[1].CentreDistance + (t.Stages[0].Tip[0]+t.Stages[1].Tip[1])/2
	t.LostMotion = play[1] + play[0]/two
	if w.known {
		d := w.task.WithRatio(t.Ratio, drive.DefaultEfficiency*drive.DefaultEfficiency)
		for i, v := range d.Verdicts() {
			if v == check.Fail || !c.take(drive.Rules()[i].Name, v, w.accepted) {
				return false
			}
		}
		t.PeakShare, t.HeldShare, t.SpeedShare, t.SpareTravel = d.PeakShare(), d.HeldShare(), d.SpeedShare(), d.SpareTravelDeg()
		t.LostMotion += d.LostMotionDeg()
	}
	t.Cautions = append([]string{}, c.Cautions...)
	return true
}
