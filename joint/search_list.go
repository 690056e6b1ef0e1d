package joint

import (
	"container/heap"
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/drive"
	"pintle/gear"
)

// list returns the best pairs, at most count of them, each fully checked. Going
// down the order, a pair is left out where a listed one is at least as good by
// all five grades (so that the list is a Pareto front), or is much like it.
func (w *wish) list(options []option, count int, why map[string]int) []Candidate {
	o := order(options)
	heap.Init(&o)
	var kept []option
	var listed []Candidate
	for len(kept) < count {
		var passed []option
		var batch []option
		skip := func(x option) bool {
			for _, k := range slices.Concat(kept, batch) {
				if k.grades.atLeast(x.grades) || k.like(x) {
					passed = append(passed, x)
					return true
				}
			}
			return false
		}
		for len(kept)+len(batch) < count {
			best, ok := w.next(&o, skip, why)
			if !ok {
				break
			}
			batch = append(batch, best)
		}
		if len(batch) == 0 {
			break
		}
		checked := make([]*Candidate, len(batch))
		parallel(len(batch), func(k int) { checked[k] = w.check(batch[k]) })
		for k, c := range checked {
			if c == nil { // what was passed over in its favour has its chance again
				for _, x := range slices.Concat(batch[k+1:], passed) {
					heap.Push(&o, x)
				}
				break
			}
			kept, listed = append(kept, batch[k]), append(listed, *c)
		}
	}
	return listed
}

// like says whether two options differ too little for a list: in ratio and
// length by less than a tenth, with the same module.
func (o option) like(p option) bool {
	const little = 1.1
	near := func(a, b float64) bool { return max(a, b) < little*min(a, b) }
	return o.module == p.module && near(o.ratio, p.ratio) && near(o.length, p.length)
}

// check makes the pair of an option and runs every check of gear and drive; nil
// where one fails that was not accepted.
func (w *wish) check(o option) *Candidate {
	pair, err := gear.NewPair(w.of(o.module, o.teeth))
	if err != nil {
		return nil
	}
	c := &Candidate{
		Module: o.module, Teeth: o.teeth, Shift: [2]float64{pair.Pinion().Shift(), pair.Wheel().Shift()},
		Ratio: pair.Ratio(), CentreDistance: pair.CentreDistance(), ContactRatio: pair.ContactRatio(),
		Tip:        [2]float64{pair.Pinion().TipDiameter(), pair.Wheel().TipDiameter()},
		LostMotion: pair.LostMotion() * 180 / math.Pi,
		Grades:     o.grades, Balance: o.grades.sum(), Cautions: []string{},
	}
	c.Length = c.CentreDistance + (c.Tip[0]+c.Tip[1])/2
	c.Pin = w.pin(c)
	for _, f := range pair.Findings() {
		if !c.take(f.Check, f.Verdict, w.accepted) {
			return nil
		}
		if f.Check == "tooth-bending" || f.Check == "tooth-stall" {
			c.StressShare = max(c.StressShare, stressShare(f, pair))
		}
		if f.Check == "working-sector" && f.Part == w.name+"-wheel" {
			c.TeethInUse = int(f.Value)
		}
	}
	if w.known && !w.move(c) {
		return nil
	}
	if w.lost > 0 && c.LostMotion > w.lost {
		c.take("joint-lost-motion", check.Caution, w.accepted)
	}
	return c
}

// stressShare returns a stress as a share of the limit at which it fails.
func stressShare(f check.Finding, pair *gear.Pair) float64 {
	i := 0
	if f.Part == pair.Spec().Name+"-wheel" {
		i = 1
	}
	return pair.Spec().StressLimitShare(f.Check, i, f.Value)
}

// move adds what servo and load say of a candidate; false where a check fails.
func (w *wish) move(c *Candidate) bool {
	d := w.task.WithRatio(c.Ratio, drive.DefaultEfficiency)
	for i, v := range d.Verdicts() {
		if !c.take(drive.Rules()[i].Name, v, w.accepted) {
			return false
		}
	}
	c.PeakShare, c.HeldShare, c.SpeedShare, c.SpareTravel = d.PeakShare(), d.HeldShare(), d.SpeedShare(), d.SpareTravelDeg()
	c.Resolution = d.ResolutionDeg()
	c.LostMotion += d.LostMotionDeg()
	if t, ok := d.ShortestTime(); ok {
		c.ShortestTime = t
	}
	return true
}

// take notes a caution; false for a failure that was not accepted.
func (c *Candidate) take(name string, v check.Verdict, accepted map[string]bool) bool {
	if v == check.Fail && !accepted[name] {
		return false
	}
	if (v == check.Caution || v == check.Fail) && !slices.Contains(c.Cautions, name) {
		c.Cautions = append(c.Cautions, name)
	}
	return true
}

// pin returns the lines that make a joint file keep the pair.
func (w *wish) pin(c *Candidate) string {
	shift := "[0, 0]"
	switch {
	case w.spec.ShiftRule == gear.ShiftChoose && (c.Shift != [2]float64{} || w.spec.CentreDistance > 0):
		shift = `"choose"`
	case w.spec.ShiftRule == gear.ShiftGiven:
		shift = fmt.Sprintf("[%s, %s]", check.Number(w.spec.Shift[0]), check.Number(w.spec.Shift[1]))
	}
	return fmt.Sprintf("module = %s\nteeth = [%d, %d]\nshift = %s", check.Number(c.Module), c.Teeth[0], c.Teeth[1], shift)
}
