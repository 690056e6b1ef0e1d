package joint

import (
	"math"
	"slices"

	"pintle/check"
	"pintle/drive"
	"pintle/gear"
	"pintle/geom"
)

// A Candidate is a pair that passes every check of gear and drive. Lengths are
// mm, angles deg; what needs servo, load and motion is 0 where these are not
// known.
type Candidate struct {
	Module         float64    `json:"m"`
	Teeth          [2]int     `json:"z"`
	Shift          [2]float64 `json:"x"`
	Ratio          float64    `json:"ratio"`
	CentreDistance float64    `json:"a_w"`
	Tip            [2]float64 `json:"d_a"`
	Length         float64    `json:"length"` // over both tip circles
	ContactRatio   float64    `json:"epsilon_alpha"`

	PeakShare    float64  `json:"peak_share"`
	HeldShare    float64  `json:"held_share"`
	SpeedShare   float64  `json:"speed_share"`
	SpareTravel  float64  `json:"spare_travel_deg"`
	ShortestTime float64  `json:"shortest_time_s"`
	LostMotion   float64  `json:"lost_motion_deg"` // of teeth and servo, at the joint
	Resolution   float64  `json:"resolution_deg"`
	StressShare  float64  `json:"stress_share"` // worst root stress over its failing limit
	TeethInUse   int      `json:"teeth_in_use"` // of the wheel, 0 for all
	Balance      float64  `json:"balance"`      // sum of the five grades, 0 to 5
	Grades       Grades   `json:"grades"`
	Cautions     []string `json:"cautions"`
	Sentence     string   `json:"sentence,omitempty"`
	Pin          string   `json:"pin"` // lines for the joint file
}

// Grades say how good a candidate is by each of the five criteria, from 0 to 1
// (design choices). Torque: 0 at the failing limit, 1 at half the caution limit.
// Travel: 1 with 15 deg to spare at each end. Lost motion: 1/2 at half the limit
// given with the joint, or at 0.5 deg. Size: falls to 0.2 at 240 mm over both
// gears. Strength: 0 at the failing limit, 1 from the caution limit down.
type Grades struct {
	Torque     float64 `json:"torque"`
	Travel     float64 `json:"travel"`
	LostMotion float64 `json:"lost_motion"`
	Size       float64 `json:"size"`
	Strength   float64 `json:"strength"`
}

func (g Grades) sum() float64 { return g.Torque + g.Travel + g.LostMotion + g.Size + g.Strength }

// atLeast says whether no grade is below the other's.
func (g Grades) atLeast(h Grades) bool {
	return g.Torque >= h.Torque && g.Travel >= h.Travel && g.LostMotion >= h.LostMotion && g.Size >= h.Size && g.Strength >= h.Strength
}

// DefaultListed is how many candidates a search lists at most.
const DefaultListed = 8

// maxModule is the largest module that is tried where none is given: printed
// joints are driven by hobby servos (common practice, no source).
const maxModule = 6

// standardModules returns the preferred modules of ISO 54, series I, in mm (from
// memory), and below 1 mm those of DIN 780, series 1 (from memory).
func standardModules() []float64 {
	return []float64{0.5, 0.6, 0.8, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10}
}

// The numbers of teeth that a search tries where none are given: printed gears
// have 8 to 120 (common practice, no source).
const (
	fewestTeeth = 8
	mostTeeth   = 120
	mostRatio   = 100 // of two pairs one after the other
)

// DefaultRatioTolerance is how far a pair's ratio may be from the wanted one, as
// a share of it (design choice).
const DefaultRatioTolerance = 0.01

// servoClearance in mm is left between the servo's body and what the wheel's axis
// must be kept clear for (common practice, no source).
const servoClearance = 1.0

// A wish is what a search is asked for.
type wish struct {
	name     string
	spec     gear.PairSpec // without module, teeth and, where a rule chooses them, shifts
	known    bool          // servo, load and motion are known, and so is the task
	drive    drive.Spec    // without ratio
	task     *drive.Task
	torque   [2]check.Limit  // of peak and held torque
	accepted map[string]bool // failures let through
	lost     float64         // deg, the most of lost motion; 0 for any
	balanced float64         // deg of lost motion that is graded one half

	modules       []float64
	pinion, wheel []int // numbers of teeth
	ratio         float64
	tolerance     float64                   // share
	largestWheel  float64                   // mm, tip diameter; 0 for any
	leastModule   float64                   // mm, of teeth that print well
	bed           float64                   // mm, shorter side; 0 for any
	clear         float64                   // mm, diameter around the wheel's axis; 0 for none
	least         float64                   // mm, centre distance
	roots         map[float64][2][2]float64 // by module: of pinion and wheel, failing and caution
	forms         *forms
}

// wishOf gathers what a table leaves open and what the file says of its drive.
func (b *builder) wishOf(t *turning) (*wish, error) {
	g, table := t.table, "gears."+t.name
	if err := b.searchable(t); err != nil {
		return nil, err
	}
	spec, err := b.pairSpec(t)
	if err != nil {
		return nil, err
	}
	if !b.file.Has(table + ".shift") {
		spec.ShiftRule = gear.ShiftChoose
	}
	w := &wish{
		name: t.name, spec: spec, accepted: b.acceptedFor(t.name), balanced: 0.5,
		ratio: g.Ratio, tolerance: DefaultRatioTolerance, largestWheel: g.LargestWheel, clear: g.Clear,
		pinion: teethRange(g.Teeth[0]), wheel: teethRange(g.Teeth[1]),
	}
	if b.file.Has(table + ".ratio_tolerance") {
		w.tolerance = g.RatioTolerance
	}
	if w.lost = g.LostMotion.limitDeg(); w.lost > 0 {
		w.balanced = w.lost / 2
	}
	if b.card.Bed[0] > 0 {
		w.bed = min(b.card.Bed[0], b.card.Bed[1])
	}
	w.least = b.leastDistance(t)
	w.leastModule, w.modules = b.leastModule(), b.modulesFor(g)
	if err := b.addTask(w, t); err != nil {
		return nil, err
	}
	w.measureRoots()
	w.forms = newForms(spec, w.pinion, w.wheel)
	return w, nil
}

// searchable refuses what only a pair with given teeth can have.
func (b *builder) searchable(t *turning) error {
	g, table := t.table, "gears."+t.name
	refuse := func(field, text, reason, remedy string) error {
		return b.file.Blame(table, &check.FieldError{Field: field, Text: text, Reason: reason, Remedy: remedy})
	}
	switch {
	case g.Shift.Rule == ShiftBalanced:
		return refuse("profile shift", ShiftBalanced, "is for teeth that are given", `leave it out, or use "choose" until the teeth are pinned`)
	case g.Pinion.Sector > 0 || g.Wheel.Sector > 0:
		return refuse("teeth of the sector", "", "are counted on teeth that are given", "leave the sector out until the teeth are pinned")
	case g.Teeth[0] < 0 || g.Teeth[1] < 0:
		return refuse("number of teeth", "", "is negative: no internal gear is chosen", "give module and teeth of an internal pair")
	case len(g.Measured) > 0:
		return refuse("measured", "", "belongs to teeth that were printed", "pin module and teeth as printed")
	}
	for _, q := range []struct {
		field, unit   string
		value, lo, hi float64
		remedy        string
	}{
		{"ratio", "", g.Ratio, 0, mostRatio, "give the servo's angle per angle of the joint: one pair reaches 15, two after each other 100; below 1 it is a step-up"},
		{"ratio tolerance", "", g.RatioTolerance, 0, 0.5, "give a share, such as 0.01"},
		{"largest wheel", "mm", g.LargestWheel, 0, 2000, "give the largest tip diameter that there is room for"},
		{"clear", "mm", g.Clear, 0, 2000, "give the diameter around the wheel's axis that the servo must keep out of"},
		{"module", "mm", g.Module, b.leastGiven(table + ".module"), 50, "leave it out, or use 1 to 2 mm"},
		{"centre distance", "mm", g.CentreDistance, 0, 2000, "leave it out: it follows from the teeth"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return b.file.Blame(table, err)
		}
	}
	return nil
}

// leastGiven is what a module must be at least: a 0 that was typed in is none.
func (b *builder) leastGiven(path string) float64 {
	if b.file.Has(path) {
		return 0.2
	}
	return 0
}

func teethRange(given int) []int {
	if given > 0 {
		return []int{given}
	}
	var all []int
	for z := fewestTeeth; z <= mostTeeth; z++ {
		all = append(all, z)
	}
	return all
}

// modulesFor returns the modules to try: the given one, or the standard ones
// that the bead width can print.
func (b *builder) modulesFor(g Gears) []float64 {
	if g.Module > 0 {
		return []float64{g.Module}
	}
	least := b.leastModule()
	return slices.DeleteFunc(standardModules(), func(m float64) bool { return m < least || m > max(maxModule, least*1.3) })
}

// leastModule returns the smallest module in mm of which teeth print well: 2.5
// bead widths (common practice, no source), or the limit of tooth-size.
func (b *builder) leastModule() float64 {
	if own, ok := b.file.Limits["tooth-size"]; ok && own.Caution > 0 {
		return own.Caution
	}
	return gear.LeastModule(b.card.BeadWidth)
}

// addTask works out what the motion asks, where servo, load and motion are known.
func (b *builder) addTask(w *wish, t *turning) error {
	load, loaded := b.file.Loads[t.table.Load]
	servo, known := b.file.Servos[t.table.Servo]
	motion, wanted := b.file.Motions[t.table.Motion]
	if !loaded || !known || !wanted {
		return nil
	}
	w.known, w.drive = true, b.task(t.table, t.kit.bearing, servo, load, motion)
	for i, r := range drive.Rules()[:2] {
		w.torque[i] = b.file.Limits.Of(r)
	}
	var err error
	if w.task, err = drive.NewTask(w.drive); err != nil {
		return b.file.Blame("gears."+t.name, err)
	}
	return nil
}

// leastDistance returns the centre distance in mm from which the servo's body
// keeps clear of what stands around the wheel's axis.
func (b *builder) leastDistance(t *turning) float64 {
	clear, turn := t.table.Clear, 90.0
	if clear == 0 {
		return 0
	}
	servo := b.file.Servos[t.table.Servo]
	for _, name := range sorted(b.file.Plates) {
		if p := b.file.Plates[name]; p.Gears == t.name {
			turn = p.ServoTurnDeg
		}
	}
	around := annulus(geom.Point{}, 0, clear/2+servoClearance)
	lo, hi := clear/2, clear/2+servo.Body[0]+servo.Body[1]+2*servoClearance
	if servo.Body[0] == 0 {
		return lo + servoClearance
	}
	for hi-lo > 1e-3 {
		middle := (lo + hi) / 2
		centre, angle := servoBox(servo, middle, turn)
		if plan(around, box(centre, servo.Body[0], servo.Body[1], angle)) < 0 {
			lo = middle
		} else {
			hi = middle
		}
	}
	return hi
}

// acceptedFor returns the checks of a pair and its drive that may fail.
func (b *builder) acceptedFor(name string) map[string]bool {
	accepts := slices.Clone(b.options.Accept)
	for _, key := range sorted(b.file.Accept) {
		accepts = append(accepts, parseAccept(key, b.file.Accept[key]))
	}
	names := map[string]bool{}
	for _, a := range accepts {
		if a.Design == "" || a.Design == "gears."+name || a.Design == "drive."+name {
			names[a.Check] = true
		}
	}
	return names
}

// measureRoots finds for each module how large the root circles must be for what
// the gears sit on.
func (w *wish) measureRoots() {
	all := make([][2][2]float64, len(w.modules))
	parallel(len(w.modules), func(k int) {
		spec := w.spec
		spec.Module = w.modules[k]
		for i := range 2 {
			all[k][i][0], all[k][i][1] = spec.LeastRoot(i)
		}
	})
	w.roots = map[float64][2][2]float64{}
	for k, m := range w.modules {
		w.roots[m] = all[k]
	}
}

// of returns the spec of one pair.
func (w *wish) of(module float64, teeth [2]int) gear.PairSpec {
	spec := w.spec
	spec.Module, spec.Teeth = module, teeth
	return spec
}

// threshold returns a threshold, infinite where there is none.
func threshold(value float64) float64 {
	if math.IsNaN(value) {
		return math.Inf(1)
	}
	return value
}
