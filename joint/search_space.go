package joint

import (
	"container/heap"
	"math"
	"slices"

	"pintle/check"
	"pintle/drive"
	"pintle/gear"
)

// An option is one pair of the space of a search that no closed form rules out.
type option struct {
	module   float64
	teeth    [2]int
	ratio    float64
	length   float64 // mm, over both tip circles
	grades   Grades
	cautions int // at least as many
	sketched bool
}

// rootSlack in mm is what the bisection of the least root and the printer card's
// allowance may be off; a sketch decides within it.
const rootSlack = 0.05

// A root stress beyond these shares of its failing limit fails or cautions for
// certain: form factors of thinned teeth are somewhat less than the tabulated.
const (
	surelyFails    = 1.2
	surelyCautions = 0.6
)

// backlashSlack in mm is what the closed form of the backlash may be off.
const backlashSlack = 0.003

// farthest is how many modules a wanted centre distance may be from the
// reference one of teeth that are chosen: one tooth more or less on either gear
// moves it by half a module (derived).
const farthest = 0.5

// space returns every pair that closed forms do not rule out, and how many each
// reason did.
func (w *wish) space() ([]option, map[string]int) {
	rows := make([][]option, len(w.pinion))
	reasons := make([]map[string]int, len(w.pinion))
	parallel(len(w.pinion), func(i int) {
		reasons[i] = map[string]int{}
		rows[i] = w.row(w.pinion[i], reasons[i])
	})
	all, why := slices.Concat(rows...), map[string]int{}
	for _, r := range reasons {
		for reason, n := range r {
			why[reason] += n
		}
	}
	return all, why
}

// row returns the options with one pinion.
func (w *wish) row(z1 int, why map[string]int) []option {
	var all []option
	for _, z2 := range w.wheel {
		ratio := float64(z2) / float64(z1)
		if w.ratio > 0 && math.Abs(ratio/w.ratio-1) > w.tolerance+1e-12 {
			why["ratio"] += len(w.modules)
			continue
		}
		driven, reason := w.driven(ratio, drive.DefaultEfficiency)
		if reason != "" {
			why[reason] += len(w.modules)
			continue
		}
		all = w.withModules(all, [2]int{z1, z2}, driven, why)
	}
	return all
}

// A driven is what a ratio alone decides.
type driven struct {
	torque, travel float64 // grades
	play           float64 // deg, of the servo at the joint
	cautions       int
}

// fullTravel in deg is the spare travel at an end beyond which more is no better
// (common practice, no source).
const fullTravel = 15

// driven meets the task through a ratio, or names the check that fails.
func (w *wish) driven(ratio, efficiency float64) (driven, string) {
	if !w.known {
		return driven{torque: 1, travel: 1}, ""
	}
	if name := w.task.Excluded(ratio, efficiency); name != "" && !w.accepted[name] {
		return driven{}, name
	}
	d := w.task.WithRatio(ratio, efficiency)
	var g driven
	for i, v := range d.Verdicts() {
		switch v {
		case check.Fail:
			if name := drive.Rules()[i].Name; !w.accepted[name] {
				return g, name
			}
		case check.Caution:
			g.cautions++
		}
	}
	g.torque = w.torqueGrade(d)
	g.travel = clamp(d.SpareTravelDeg() / fullTravel)
	g.play = w.drive.Servo.PlayDeg / ratio
	return g, ""
}

// torqueGrade is the reserve of the worse of peak and held torque.
func (w *wish) torqueGrade(d *drive.Drive) float64 {
	return min(reserve(d.PeakShare(), w.torque[0]), reserve(d.HeldShare(), w.torque[1]))
}

// sizeGrade grades a length in mm over both gears: it falls evenly to 0.2 at 240
// mm, about the bed of a hobby printer, and slowly beyond (design choice).
func sizeGrade(length float64) float64 {
	const large, left = 240, 0.2
	if length > large {
		return left * large / length
	}
	return 1 - (1-left)*length/large
}

// reserve grades a share: 0 at its failing limit, 1 at half the limit of its
// caution, where more is no better.
func reserve(share float64, limit check.Limit) float64 {
	caution, fail := threshold(limit.Caution), threshold(limit.Fail)
	if math.IsInf(fail, 1) {
		fail = 2 * caution
	}
	if math.IsInf(fail, 1) {
		return 1
	}
	full := min(caution, fail) / 2
	return clamp((fail - share) / (fail - full))
}

func clamp(share float64) float64 { return min(max(share, 0), 1) }

// withModules adds the options of one pair of numbers of teeth. Without a wanted
// centre distance all sizes grow with the module.
func (w *wish) withModules(all []option, teeth [2]int, d driven, why map[string]int) []option {
	unit, err := gear.Proportions{}, error(nil)
	scales := w.spec.CentreDistance == 0
	if scales {
		unit, err = w.of(1, teeth).Proportions()
	}
	for _, m := range w.modules {
		p := unit.Scaled(m)
		if !scales {
			p, err = w.of(m, teeth).Proportions()
		}
		if err != nil || w.far(m, teeth) {
			why["centre distance"]++
			continue
		}
		o, reason := w.option(m, teeth, p, d)
		if reason != "" {
			why[reason]++
			continue
		}
		all = append(all, o)
	}
	return all
}

// far says whether a wanted centre distance needs more shift than another number
// of teeth would.
func (w *wish) far(m float64, teeth [2]int) bool {
	if w.spec.CentreDistance == 0 || len(w.pinion) == 1 && len(w.wheel) == 1 {
		return false
	}
	return math.Abs(w.spec.CentreDistance-m*float64(teeth[0]+teeth[1])/2) > farthest*m+1e-9
}

// option judges one pair by its chief sizes, or names what rules it out.
func (w *wish) option(m float64, teeth [2]int, p gear.Proportions, d driven) (option, string) {
	roots := w.roots[m]
	switch {
	case w.largestWheel > 0 && p.Tip[1] > w.largestWheel+1e-9:
		return option{}, "largest wheel"
	case w.bed > 0 && max(p.Tip[0], p.Tip[1]) > w.bed:
		return option{}, "bed"
	case p.CentreDistance < w.least-1e-9:
		return option{}, "clear"
	case !w.accepted["rim"] && p.Root[0] < roots[0][0]-rootSlack:
		return option{}, "walls of the pinion"
	case !w.accepted["rim"] && p.Root[1] < roots[1][0]-rootSlack:
		return option{}, "walls of the wheel"
	}
	o := option{module: m, teeth: teeth, ratio: float64(teeth[1]) / float64(teeth[0]), cautions: d.cautions}
	spec := w.of(m, teeth)
	stress := spec.StressShare(p, [2]float64{w.forms.at(teeth[0], p.Shift[0]), w.forms.at(teeth[1], p.Shift[1])})
	if stress > surelyFails && !w.accepted["tooth-stall"] && !w.accepted["tooth-bending"] {
		return option{}, "strength"
	}
	overFloor, overZero := spec.BacklashRoom(p)
	switch {
	case overZero < -backlashSlack && !w.accepted["backlash"]:
		return option{}, "backlash"
	case overFloor < -backlashSlack:
		o.cautions++
	}
	if stress > surelyCautions {
		o.cautions++
	}
	if m < w.leastModule-1e-9 {
		o.cautions++
	}
	lost := 2*w.spec.Backlash/p.Working[1]*180/math.Pi + d.play
	if w.lost > 0 && lost > w.lost {
		o.cautions++
	}
	for i := range 2 {
		if p.Root[i] < roots[i][1]-rootSlack {
			o.cautions++
			break
		}
	}
	o.length = p.CentreDistance + (p.Tip[0]+p.Tip[1])/2
	o.grades = Grades{
		Torque: d.torque, Travel: d.travel, LostMotion: w.balanced / (w.balanced + lost), Size: sizeGrade(o.length), Strength: clamp(2 * (1 - stress)),
	}
	return o, ""
}

// An order hands out options from the best on: first those with the fewest
// cautions, then by the sum of grades, then the smaller numbers of teeth, then
// the smaller module.
type order []option

func (o order) Len() int      { return len(o) }
func (o order) Swap(i, j int) { o[i], o[j] = o[j], o[i] }
func (o order) Less(i, j int) bool {
	a, b := &o[i], &o[j]
	if a.cautions != b.cautions {
		return a.cautions < b.cautions
	}
	if x, y := a.grades.sum(), b.grades.sum(); x != y {
		return x > y
	}
	if x, y := a.teeth[0]+a.teeth[1], b.teeth[0]+b.teeth[1]; x != y {
		return x < y
	}
	if a.teeth[0] != b.teeth[0] {
		return a.teeth[0] < b.teeth[0]
	}
	return a.module < b.module
}
func (o *order) Push(x any) { *o = append(*o, x.(option)) }

func (o *order) Pop() any {
	last := len(*o) - 1
	x := (*o)[last]
	*o = (*o)[:last]
	return x
}

// mostSketches is how many sketches in a row may fail before a search gives up:
// what fails them, such as too little backlash for the climate, is then nothing
// that another pair would cure.
const mostSketches = 3000

// next returns the best option that its sketch lets pass, false where none is
// left. The number of cautions is at first only what chief sizes show; a sketch
// counts them all, and an option with more goes back to its place.
func (w *wish) next(o *order, skip func(option) bool, why map[string]int) (option, bool) {
	for failures := 0; o.Len() > 0 && failures < mostSketches; {
		best := heap.Pop(o).(option)
		if skip(best) {
			continue
		}
		if best.sketched {
			return best, true
		}
		cautions, failed := w.sketch(best)
		if failed != "" {
			failures++
			why[failed]++
			continue
		}
		best.sketched = true
		if cautions > best.cautions {
			best.cautions = cautions
			heap.Push(o, best)
			continue
		}
		return best, true
	}
	return option{}, false
}

// sketch counts the cautions of drive, teeth and walls, or names what fails. The
// climate is left out: no choice of a pair changes it much.
func (w *wish) sketch(o option) (cautions int, failing string) {
	s, err := gear.NewSketch(w.of(o.module, o.teeth))
	if err != nil {
		return 0, "profile shift"
	}
	failed, cautioned := s.Judge()
	for _, name := range failed {
		if !w.accepted[name] {
			return 0, name
		}
	}
	d, _ := w.driven(o.ratio, drive.DefaultEfficiency)
	if w.lost > 0 && s.LostMotion()*180/math.Pi+d.play > w.lost {
		d.cautions++
	}
	for _, name := range cautioned {
		if name != "backlash-climate" {
			d.cautions++
		}
	}
	return d.cautions, ""
}
