package joint

import (
	"cmp"
	"container/heap"
	"math"
	"slices"

	"pintle/check"
	"pintle/drive"
)

// An Obstacle is one wish that stands in the way of every pair, and the smallest
// change of it that lets one through with all other wishes kept.
type Obstacle struct {
	Wish string  `json:"wish"` // e.g. "largest wheel"
	Unit string  `json:"unit"`
	From float64 `json:"from"`
	To   float64 `json:"to"`
	Text string  `json:"text"` // e.g. "largest wheel >= 62 mm"
	Pair string  `json:"pair"` // that it lets through, e.g. "28:36, m 1.5"
}

// A loosening is one wish that may be changed up to a reach. A wish in steps has
// its values listed, the nearest first.
type loosening struct {
	wish, unit   string
	value, reach float64
	even         bool // what opens goes on to open up to the reach
	steps        []float64
	with         func(w *wish, value float64) error
}

// obstacles tries one wish after the other and returns those of which a change
// alone opens the search, the smallest change first.
func (w *wish) obstacles() []Obstacle {
	loose := w.loosenings()
	found := make([]*Obstacle, len(loose))
	parallel(len(loose), func(i int) { found[i] = w.opened(loose[i]) })
	var all []Obstacle
	for _, o := range found {
		if o != nil {
			all = append(all, *o)
		}
	}
	change := func(o Obstacle) float64 { return math.Abs(math.Log(o.To / o.From)) }
	slices.SortStableFunc(all, func(a, b Obstacle) int { return cmp.Compare(change(a), change(b)) })
	return all
}

// shares of a reach are tried for a wish that may open and close again.
var shares = [...]float64{0.125, 0.25, 0.375, 0.5, 0.75}

// reached returns the value at the end of the reach.
func (l loosening) reached() float64 { return l.value * l.reach }

// opened returns the smallest change of a wish that opens the search, nil where
// none within its reach does.
func (w *wish) opened(l loosening) *Obstacle {
	opens := func(value float64) *option {
		changed := *w
		if l.with(&changed, value) != nil {
			return nil
		}
		return changed.any()
	}
	say := func(value float64, o *option) *Obstacle {
		sign := " >= "
		if value < l.value {
			sign = " <= "
		}
		return &Obstacle{
			Wish: l.wish, Unit: l.unit, From: l.value, To: value,
			Text: l.wish + sign + check.Number(value) + spaced(l.unit), Pair: pairText(o.module, o.teeth),
		}
	}
	for _, value := range l.steps {
		if o := opens(value); o != nil {
			return say(value, o)
		}
	}
	if l.steps != nil {
		return nil
	}
	bad, good := l.value, l.reached()
	for k := 0; opens(good) == nil; k++ {
		if l.even || k == len(shares)-1 {
			return nil // what its whole reach does not open, less of it does not
		}
		good = l.value * math.Pow(l.reach, shares[k])
	}
	for math.Abs(math.Log(good/bad)) > 0.001 {
		if middle := math.Sqrt(good * bad); opens(middle) != nil {
			good = middle
		} else {
			bad = middle
		}
	}
	value := check.RoundAway(good, l.reach > 1)
	o := opens(value)
	if o == nil {
		return nil
	}
	return say(value, o)
}

func spaced(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

func pairText(module float64, teeth [2]int) string {
	return check.Number(float64(teeth[0])) + ":" + check.Number(float64(teeth[1])) + ", m " + check.Number(module)
}

// any returns the first pair of the order that passes every check, nil for none.
func (w *wish) any() *option {
	all, why := w.space()
	o := order(all)
	heap.Init(&o)
	for {
		best, ok := w.next(&o, func(option) bool { return false }, why)
		if !ok {
			return nil
		}
		if w.check(best) != nil {
			return &best
		}
	}
}

// loosenings lists what may be changed.
func (w *wish) loosenings() []loosening {
	size := func(name string, value, reach float64, set func(w *wish, v float64)) loosening {
		return loosening{wish: name, unit: "mm", value: value, reach: reach, even: name != "centre distance" && name != "backlash", with: func(w *wish, v float64) error {
			set(w, v)
			return nil
		}}
	}
	all := w.loosenDrive()
	if w.ratio > 0 {
		for _, reach := range []float64{8, 1.0 / 8} {
			all = append(all, loosening{wish: "ratio", value: w.ratio, reach: reach, with: func(w *wish, v float64) error {
				w.ratio = v
				return nil
			}})
		}
	}
	if w.largestWheel > 0 {
		all = append(all, size("largest wheel", w.largestWheel, 6, func(w *wish, v float64) { w.largestWheel = v }))
	}
	if d := w.spec.CentreDistance; d > 0 {
		for _, reach := range []float64{4, 0.25} {
			all = append(all, size("centre distance", d, reach, func(w *wish, v float64) { w.spec.CentreDistance = v }))
		}
	}
	if w.clear > 0 {
		all = append(all, size("clear", w.clear, 0.2, func(w *wish, v float64) { w.least -= (w.clear - v) / 2 }))
	}
	if w.bed > 0 {
		all = append(all, size("bed", w.bed, 4, func(w *wish, v float64) { w.bed = v }))
	}
	all = append(all, size("face width", w.spec.FaceWidth, 5, func(w *wish, v float64) { w.spec.FaceWidth = v }),
		size("backlash", max(w.spec.Backlash, 0.01), 8, func(w *wish, v float64) { w.spec.Backlash = v }))
	return append(all, w.loosenSteps()...)
}

// loosenDrive lists what servo, load and motion could be instead.
func (w *wish) loosenDrive() []loosening {
	if !w.known {
		return nil
	}
	of := func(name, unit string, value, reach float64, set func(d *drive.Spec, v float64)) loosening {
		return loosening{wish: name, unit: unit, value: value, reach: reach, even: name != "stall torque", with: func(w *wish, v float64) (err error) {
			set(&w.drive, v)
			w.spec.Loading.Stall = w.drive.Servo.StallTorque * w.drive.Servo.VoltageShare()
			w.task, err = drive.NewTask(w.drive)
			return err
		}}
	}
	servo, motion := w.drive.Servo, w.drive.Motion
	all := []loosening{
		of("time", "s", motion.Time, 20, func(d *drive.Spec, v float64) { d.Motion.Time = v }),
		of("swing", "deg", motion.SwingDeg, 0.1, func(d *drive.Spec, v float64) { d.Motion.SwingDeg = v }),
		of("stall torque", "N·m", servo.StallTorque, 20, func(d *drive.Spec, v float64) { d.Servo.StallTorque = v }),
		of("servo speed", "deg/s", servo.SpeedDegPerS, 10, func(d *drive.Spec, v float64) { d.Servo.SpeedDegPerS = v }),
		of("servo travel", "deg", servo.Travel(), 8, func(d *drive.Spec, v float64) { d.Servo = d.Servo.WithTravel(v) }),
	}
	if mass := w.drive.Load.Mass; mass > 0 {
		all = append(all, of("mass", "kg", mass, 0.05, func(d *drive.Spec, v float64) {
			d.Load.Inertia *= v / mass
			d.Load.BearingFriction *= v / mass
			d.Load.Mass = v
		}))
	}
	return all
}

// loosenSteps lists what comes in steps: a module or a number of teeth that was
// pinned.
func (w *wish) loosenSteps() []loosening {
	var all []loosening
	if len(w.modules) == 1 {
		given := w.modules[0]
		steps := slices.DeleteFunc(standardModules(), func(m float64) bool { return m == given || m < w.leastModule })
		nearestFirst(steps, given)
		all = append(all, loosening{wish: "module", unit: "mm", value: given, steps: steps, with: func(w *wish, m float64) error {
			w.modules = []float64{m}
			w.measureRoots()
			return nil
		}})
	}
	for i, teeth := range []*[]int{&w.pinion, &w.wheel} {
		if len(*teeth) > 1 {
			continue
		}
		given := float64((*teeth)[0])
		var steps []float64
		for z := fewestTeeth; z <= mostTeeth; z++ {
			if float64(z) != given {
				steps = append(steps, float64(z))
			}
		}
		nearestFirst(steps, given)
		name := [2]string{"teeth of the pinion", "teeth of the wheel"}[i]
		all = append(all, loosening{wish: name, value: given, steps: steps, with: func(w *wish, z float64) error {
			*[2]*[]int{&w.pinion, &w.wheel}[i] = []int{int(z)}
			w.forms = newForms(w.spec, w.pinion, w.wheel)
			return nil
		}})
	}
	return all
}

func nearestFirst(steps []float64, from float64) {
	away := func(v float64) float64 { return math.Abs(math.Log(v / from)) }
	slices.SortStableFunc(steps, func(a, b float64) int { return cmp.Compare(away(a), away(b)) })
}
