package joint

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"pintle/check"
	"pintle/drive"
)

// SearchSchema names the form in which a search is printed as JSON.
const SearchSchema = "pintle-drive/1"

// A Search is what was found for one gears table.
type Search struct {
	Schema     string         `json:"schema"`
	Tool       string         `json:"tool"`
	Title      string         `json:"title"`
	Gears      string         `json:"gears"`
	Inputs     any            `json:"inputs"`
	Asked      Asked          `json:"asked"`
	Considered int            `json:"considered"` // pairs of module and numbers of teeth
	RuledOut   map[string]int `json:"ruled_out"`  // of these, by what stood against them
	Candidates []Candidate    `json:"candidates"` // the best first
	Present    *Candidate     `json:"present"`    // the pair that the file names, where it passes; else null
	Trains     []Train        `json:"trains"`     // of two stages, where one does not do
	Obstacles  []Obstacle     `json:"obstacles"`  // where there is no candidate: the smallest change first

	Findings []check.Finding     `json:"findings"` // of what was given
	Cautions []check.CautionText `json:"cautions"` // that the joint calls for, whatever the pair
}

// Asked is what a search had to keep to, lengths in mm.
type Asked struct {
	Modules        []float64  `json:"modules"`
	LeastModule    float64    `json:"least_module"` // that the bead width prints well
	BeadWidth      float64    `json:"bead_width"`
	Pinion         [2]int     `json:"pinion_teeth"` // fewest and most
	Wheel          [2]int     `json:"wheel_teeth"`
	Ratio          float64    `json:"ratio"` // 0 for any
	RatioTolerance float64    `json:"ratio_tolerance"`
	CentreDistance float64    `json:"centre_distance"`       // 0 for any
	LeastDistance  float64    `json:"least_centre_distance"` // so that the servo keeps clear
	LargestWheel   float64    `json:"largest_wheel"`         // 0 for any
	LeastRoot      [2]float64 `json:"least_root"`            // of pinion and wheel, for what they sit on; 0 for any
	Driven         bool       `json:"driven"`                // servo, load and motion are known
	ServoTravel    float64    `json:"servo_travel_deg"`
	CyclesAYear    float64    `json:"cycles_a_year"` // 0 where not known
	DeadBand       float64    `json:"dead_band_deg"` // of the servo, 0 where not known
	StallTorque    float64    `json:"stall_torque"`  // N·m at the supply's voltage
}

// FindPairs searches pairs for one gears table of a file, whether or not it
// names teeth, and lists at most count of them. The error is an *InputError.
// Where nothing is found the search says what stands in the way.
func FindPairs(file *File, name string, options Options, count int) (*Search, error) {
	free := file.withoutPair(name)
	b := newBuilder(free, options)
	w, err := b.wishFor(name)
	if err != nil {
		return nil, err
	}
	s := w.search(count)
	s.Schema, s.Tool, s.Title, s.Inputs = SearchSchema, options.Tool, file.Title, file.Inputs()
	s.Present = present(file, name, options)
	g := free.Gears[name]
	if servo, ok := free.Servos[g.Servo]; ok {
		b.find("servo."+g.Servo, likelyServo(servo, free.Limits))
	}
	if load, ok := free.Loads[g.Load]; ok {
		b.find("load."+g.Load, likelyLoad(load, free.Limits)...)
	}
	s.Findings = append([]check.Finding{}, b.report.Findings...)
	return s, nil
}

// present judges the pair that a file names already, nil where it names none or
// one that fails.
func present(file *File, name string, options Options) *Candidate {
	g := file.Gears[name]
	b := newBuilder(file, options)
	if g.Module == 0 || g.Teeth[0] <= 0 || g.Teeth[1] <= 0 {
		return nil
	}
	w, err := b.wishFor(name)
	if err != nil {
		return nil
	}
	only, _ := w.space()
	if len(only) == 0 {
		return nil
	}
	return w.check(only[0])
}

// search lists the best pairs, or what stands in their way.
func (w *wish) search(count int) *Search {
	options, why := w.space()
	s := &Search{
		Gears: w.name, Asked: w.asked(), RuledOut: why, Considered: len(w.modules) * len(w.pinion) * len(w.wheel),
		Cautions:   w.cautions(),
		Candidates: []Candidate{}, Trains: []Train{}, Obstacles: []Obstacle{},
	}
	s.Candidates = append(s.Candidates, w.list(options, count, why)...)
	if len(s.Candidates) == 0 {
		s.Trains = append(s.Trains, w.trains()...)
		s.Obstacles = append(s.Obstacles, w.obstacles()...)
	}
	w.explain(s.Candidates)
	return s
}

func (w *wish) asked() Asked {
	a := Asked{
		Modules: w.modules, LeastModule: w.leastModule, BeadWidth: w.spec.Card.BeadWidth,
		Pinion: ends(w.pinion), Wheel: ends(w.wheel), Ratio: w.ratio, RatioTolerance: w.tolerance,
		CentreDistance: w.spec.CentreDistance, LeastDistance: w.least, LargestWheel: w.largestWheel,
		Driven: w.known,
	}
	for _, m := range w.modules[:min(1, len(w.modules))] {
		for i := range 2 {
			if root := w.roots[m][i][0]; !math.IsInf(root, 1) {
				a.LeastRoot[i] = root
			}
		}
	}
	if w.known {
		a.CyclesAYear, a.DeadBand = 365*w.drive.Motion.CyclesPerDay, w.drive.Servo.DeadBandDeg()
		a.ServoTravel, a.StallTorque = w.drive.Servo.Travel(), w.drive.Servo.StallTorque*w.drive.Servo.VoltageShare()
	}
	return a
}

// cautions returns what the joint calls for whatever pair drives it: strength is
// an estimate, a servo may jump, a weight held up by gears alone falls when the
// power goes.
func (w *wish) cautions() []check.CautionText {
	codes := []string{"C2", "C15"}
	if w.known {
		codes = append(codes, "C4")
		if l := w.drive.Load; l.Axis == drive.Horizontal && l.Mass*l.Offset > 0 {
			codes = append(codes, "C3")
		}
	}
	var all []check.CautionText
	for _, code := range codes {
		c, _ := check.CautionOf(code)
		c.When = ""
		all = append(all, c)
	}
	return all
}

func ends(all []int) [2]int { return [2]int{all[0], all[len(all)-1]} }

// withoutPair returns the file with module, teeth and shifts of a table left to
// the search, except what was given alone: a module without teeth, a ratio.
func (f *File) withoutPair(name string) *File {
	free := *f
	free.Gears = map[string]Gears{}
	for n, g := range f.Gears {
		if n == name && g.Teeth != [2]int{} && g.Module > 0 {
			g.Module, g.Teeth, g.Shift, g.Measured = 0, [2]int{}, Shift{}, nil
			g.Pinion.Sector, g.Wheel.Sector = 0, 0
			free.source = f.source.without("gears."+name+".module", "gears."+name+".teeth", "gears."+name+".shift")
		}
		free.Gears[n] = g
	}
	return &free
}

// explain gives the first three candidates a sentence each: the first what makes
// it the first, the others what they save and cost against it.
func (w *wish) explain(all []Candidate) {
	for i := range all[:min(3, len(all))] {
		c := &all[i]
		name := fmt.Sprintf("%d:%d of module %s", c.Teeth[0], c.Teeth[1], check.Number(c.Module))
		if i == 0 {
			c.Sentence = name + " comes first: it " + w.strengths(c) + "."
		} else {
			c.Sentence = name + " " + against(c, &all[0]) + "."
		}
	}
}

// strengths says what the best candidate keeps free.
func (w *wish) strengths(c *Candidate) string {
	var parts []string
	if w.known {
		parts = append(parts, "asks for "+percent(c.PeakShare)+" of the stall torque at the peak", "leaves "+tenth(c.SpareTravel)+" deg of travel at each end")
	}
	text := listed(append(parts, "is "+tenth(c.Length)+" mm long over both gears", "has "+check.Number(roundTo(c.LostMotion, 0.01))+" deg of lost motion"))
	switch len(c.Cautions) {
	case 0:
		return text + ", and no check cautions"
	case 1:
		return text + "; one check cautions: " + c.Cautions[0]
	}
	return text + fmt.Sprintf("; %d checks caution", len(c.Cautions))
}

// against says what a candidate saves and costs against the first.
func against(c, first *Candidate) string {
	var saves, costs []string
	compare := func(what string, saved, least float64) {
		switch {
		case saved >= least:
			saves = append(saves, check.Number(saved)+what)
		case -saved >= least:
			costs = append(costs, check.Number(-saved)+what)
		}
	}
	compare(" mm of length", roundTo(first.Length-c.Length, 0.1), 0.5)
	compare(" deg of lost motion", roundTo(first.LostMotion-c.LostMotion, 0.01), 0.01)
	compare(" deg of servo travel at each end", roundTo(c.SpareTravel-first.SpareTravel, 0.1), 0.5)
	compare(" % of the stall torque", roundTo(100*(first.PeakShare-c.PeakShare), 0.1), 0.5)
	compare(" % of the teeth's strength", roundTo(100*(first.StressShare-c.StressShare), 1), 2)
	text := "is much like the first"
	switch {
	case len(saves) > 0 && len(costs) > 0:
		text = "saves " + listed(saves) + " against the first, and costs " + listed(costs)
	case len(saves) > 0:
		text = "saves " + listed(saves) + " against the first"
	case len(costs) > 0:
		text = "costs " + listed(costs) + " against the first"
	}
	switch n := len(c.Cautions) - len(first.Cautions); {
	case n == 1:
		text += ", with one caution more"
	case n > 1:
		text += fmt.Sprintf(", with %d cautions more", n)
	}
	return text
}

func listed(parts []string) string {
	text := parts[0]
	for i, p := range parts[1:] {
		if i == len(parts)-2 {
			text += " and " + p
		} else {
			text += ", " + p
		}
	}
	return text
}

func tenth(v float64) string { return check.Number(math.Round(v*10) / 10) }

// percent prints a share, with one decimal below 10 %.
func percent(share float64) string {
	if share < 0.0995 {
		return check.Number(math.Round(share*1000)/10) + " %"
	}
	return check.Number(math.Round(share*100)) + " %"
}

// ruledOut names what most pairs failed by, the commonest first.
func ruledOut(why map[string]int) string {
	names := slices.SortedFunc(maps.Keys(why), func(a, b string) int {
		if why[a] != why[b] {
			return why[b] - why[a]
		}
		return strings.Compare(a, b)
	})
	total := 0
	for _, n := range why {
		total += n
	}
	var parts []string
	for i, name := range names {
		if i == 4 || i > 0 && 100*why[name] < total {
			break
		}
		parts = append(parts, fmt.Sprintf("%s %.0f %%", name, math.Round(100*float64(why[name])/float64(total))))
	}
	return strings.Join(parts, ", ")
}
