package joint

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"pintle/check"
)

var rulePairChoice = check.Rule{
	Name:    "pair-choice",
	Meaning: "The joint file leaves module or teeth open: the pair was chosen among those that pass every check of gears and drive, and in this joint as a whole.",
	Formula: "number of pairs listed; fail where there is none",
	Source:  "the order of pintle drive: fewest cautions, then the sum of five grades (design choice)",
	Change:  "pin module and teeth to keep the pair, or loosen the wish that stands in the way",
	Sense:   check.Informs, Final: true,
}

// open says whether a gears table leaves the pair to be chosen: it says nothing
// of module or teeth. A 0 that was given is none to choose from.
func (f *File) open(name string) bool {
	at, g := "gears."+name, f.Gears[name]
	return g.Module == 0 && !f.Has(at+".module") || g.Teeth == [2]int{} && !f.Has(at+".teeth")
}

// withPair returns the file with a candidate in place of what a table left open.
func (f *File) withPair(name string, c Candidate) *File {
	closed := *f
	closed.Gears = maps.Clone(f.Gears)
	g := closed.Gears[name]
	g.Module, g.Teeth = c.Module, c.Teeth
	if !f.Has("gears." + name + ".shift") {
		g.Shift = Shift{Rule: ShiftChoose}
	}
	closed.Gears[name] = g
	return &closed
}

// errNoPair ends a design of which a finding says that no pair was found: nothing
// of the joint can then be made.
var errNoPair = errors.New("no pair does all that is asked")

// choosePairs fills in every pair that the file leaves open. The error is
// errNoPair where none was found.
func (b *builder) choosePairs() error {
	for _, name := range sorted(b.file.Gears) {
		if !b.file.open(name) {
			continue
		}
		if err := b.choosePair(name); err != nil {
			return err
		}
	}
	return nil
}

// wishFor returns what the search for the pair of a table is asked. It works on a
// builder of its own, so that nothing is said twice.
func (b *builder) wishFor(name string) (*wish, error) {
	own := newBuilder(b.file, b.options)
	if err := own.readCard(); err != nil {
		return nil, err
	}
	t := &turning{name: name, at: "gears." + name, table: own.file.Gears[name]}
	if err := own.stack(t); err != nil {
		return nil, err
	}
	return own.wishOf(t)
}

// wider is how often a search is repeated with the axes further apart, where the
// joint around the pair asks for it.
const wider = 4

func (b *builder) choosePair(name string) error {
	w, err := b.wishFor(name)
	if err != nil {
		return err
	}
	s, chosen := w.search(DefaultListed), 0
	if len(s.Candidates) == 0 {
		b.find("gears."+name, rulePairChoice.Say(check.Fail, 0, s.Blocked(), s.Opening()))
		b.report.Designs["search."+name] = s.values(-1)
		return errNoPair
	}
	if b.trying {
		b.file = b.file.withPair(name, s.Candidates[0])
		return nil
	}
	var failed []string
	for range wider {
		least := 0.0
		if chosen, least, failed = b.fitting(name, s.Candidates); least <= w.least {
			break
		}
		w.least = least
		again := w.list(must(w.space()), DefaultListed, map[string]int{})
		if len(again) == 0 {
			break
		}
		w.explain(again)
		s.Candidates, s.Asked.LeastDistance = again, least
	}
	c := s.Candidates[chosen]
	b.find("gears."+name, rulePairChoice.Say(check.Note, float64(len(s.Candidates)), choiceText(c, chosen, failed),
		"to keep it whatever else changes, type: "+strings.ReplaceAll(c.Pin, "\n", ", ")))
	b.report.Designs["search."+name] = s.values(chosen)
	b.file = b.file.withPair(name, c)
	return nil
}

func must(options []option, _ map[string]int) []option { return options }

// choiceText says why a pair was chosen.
func choiceText(c Candidate, place int, failed []string) string {
	text := c.Sentence
	if text == "" || place > 0 {
		text = fmt.Sprintf("%d:%d of module %s is number %d of the list: with the first, the joint fails %s.", c.Teeth[0], c.Teeth[1], check.Number(c.Module), place+1, strings.Join(failed, ", "))
	}
	if len(failed) > 0 && place == 0 {
		text += " No pair of the list fits the joint: the first fails " + strings.Join(failed, ", ") + "."
	}
	return text
}

// fitting builds the joint with one candidate after the other and returns the
// first with which nothing fails, and what fails with the first of all. Where none
// fits it returns the first. A plate that is too narrow for a pair asks for a
// centre distance, 0 where that is not at fault.
func (b *builder) fitting(name string, all []Candidate) (chosen int, least float64, failed []string) {
	trials := make([]trial, len(all))
	for i := range all { // one after the other: each uses both processors
		trials[i] = b.tried(name, all[i])
		if len(trials[i].failed) == 0 {
			return i, 0, trials[0].failed
		}
		if trials[i].least > 0 {
			return i, trials[i].least, trials[i].failed
		}
	}
	return 0, 0, trials[0].failed
}

// A trial is what the joint around a candidate says of it.
type trial struct {
	failed []string
	least  float64 // mm, the centre distance that its plate asks for; 0 where it is wide enough
}

// tried builds a joint with a candidate, without meshes and files.
func (b *builder) tried(name string, c Candidate) trial {
	options := b.options
	options.Slice = false
	tb := newBuilder(b.file.withPair(name, c), options)
	tb.trying = true
	if err := tb.run(); err != nil {
		return trial{failed: []string{reasonOf(err)}}
	}
	tb.accept()
	var t trial
	for _, f := range tb.report.Findings {
		if f.Verdict == check.Fail && f.Accepted == "" {
			t.failed = append(t.failed, f.Check)
		}
	}
	if p := tb.turnings[name].plate; p != nil && len(t.failed) > 0 {
		if short := p.spec.limits.Of(rulePlateBridge).Caution - p.bridge(); short > 0 {
			t.least = p.spec.centreDistance + short
		}
	}
	return t
}

// Blocked says why a search found nothing.
func (s *Search) Blocked() string {
	return fmt.Sprintf("no pair of %d does all that is asked: %s", s.Considered, ruledOut(s.RuledOut))
}

// Opening names the changes that let a pair through, the smallest first.
func (s *Search) Opening() string {
	var texts []string
	for _, o := range s.Obstacles {
		texts = append(texts, o.Text)
	}
	if len(texts) == 0 {
		return "no change of one wish alone opens it: loosen two, such as a larger wheel and more time"
	}
	return strings.Join(texts, ", or ")
}

// values is what the report keeps of a search.
func (s *Search) values(chosen int) map[string]any {
	v := map[string]any{"considered": s.Considered, "ruled_out": s.RuledOut, "asked": s.Asked, "candidates": s.Candidates}
	if chosen >= 0 {
		v["chosen"] = chosen + 1
	} else {
		v["obstacles"], v["trains"] = s.Obstacles, s.Trains
	}
	return v
}

// found says whether a verdict fell so far.
func (b *builder) found(v check.Verdict) bool {
	return slices.ContainsFunc(b.report.Findings, func(f check.Finding) bool { return f.Verdict == v })
}
