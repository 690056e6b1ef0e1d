package linkage

import (
	"fmt"
	"strings"

	"pintle/check"
	"pintle/drive"
)

// A change is one number of a linkage that a builder may raise or lower.
type change struct {
	name, unit string
	value      float64
	reach      float64 // how far it is tried, as a multiple of value
	with       func(Spec, float64) Spec
}

// changes lists what may be tried, in the order in which a builder would.
func (s *Stroke) changes() []change {
	both := func(name string, value float64, with func(Spec, float64) Spec) []change {
		return []change{{name, "mm", value, 2, with}, {name, "mm", value, 0.5, with}}
	}
	list := both("rod", s.spec.Rod, func(p Spec, v float64) Spec { p.Rod = v; return p })
	list = append(list, both("horn", s.spec.Horn, func(p Spec, v float64) Spec { p.Horn = v; return p })...)
	list = append(list, both("lever", s.spec.Lever, func(p Spec, v float64) Spec { p.Lever = v; return p })...)
	if m := s.spec.Motion; m != nil {
		list = append(list, change{"time", "s", m.Time, 10, func(p Spec, v float64) Spec {
			own := *p.Motion
			own.Time, p.Motion = v, &own
			return p
		}})
	}
	if s.spec.SwingDeg > 0 {
		list = append(list, change{"swing", "deg", s.spec.SwingDeg, 0.5, func(p Spec, v float64) Spec { p.SwingDeg = v; return p }})
	}
	if own := s.spec.Servo; own != nil {
		list = append(list,
			change{"stall torque", "N·m", own.StallTorque, 20, func(p Spec, v float64) Spec {
				servo := *p.Servo
				servo.StallTorque, p.Servo = v, &servo
				return p
			}},
			change{"servo speed", "deg/s", own.SpeedDegPerS, 10, func(p Spec, v float64) Spec {
				servo := *p.Servo
				servo.SpeedDegPerS, p.Servo = v, &servo
				return p
			}})
	}
	return list
}

// trialStations are enough to find a remedy; it is then proved at full number.
const trialStations = 46

// trials are changed linkages that were judged in the search for remedies.
type trials struct {
	spec   Spec
	before map[string]check.Verdict // the worst of each check
	judged map[trial][]check.Finding
}

type trial struct {
	change int
	value  float64
}

func (s *Stroke) trials() *trials {
	t := &trials{spec: s.spec, before: map[string]check.Verdict{}, judged: map[trial][]check.Finding{}}
	for _, f := range s.findings {
		if v, ok := t.before[f.Check]; !ok || f.Verdict.Worse(v) {
			t.before[f.Check] = f.Verdict
		}
	}
	return t
}

// judge returns the findings on a spec, nil for one that is none.
func (t *trials) judge(spec Spec) []check.Finding {
	s, err := followed(spec)
	if err != nil {
		return nil
	}
	return s.judge()
}

// cures says whether findings pass a check and are no worse in any other; a check
// that could not be made before must not fail.
func (t *trials) cures(name string, found []check.Finding) bool {
	passes := false
	for _, f := range found {
		if f.Check == name {
			passes = true
			if f.Verdict != check.Pass {
				return false
			}
		}
		before, known := t.before[f.Check]
		if known && f.Verdict.Worse(before) || !known && f.Verdict == check.Fail {
			return false
		}
	}
	return passes
}

// addRemedies tries one change at a time for each check that does not pass and
// names those that let it pass and make no other check worse.
func (s *Stroke) addRemedies() {
	change := map[string]string{}
	for _, r := range append(Rules(), drive.Rules()...) {
		change[r.Name] = r.Change
	}
	t := s.trials()
	for i, f := range s.findings {
		if f.Verdict == check.Pass || f.Verdict == check.Note {
			continue
		}
		var cures []string
		if f.Remedy != "" && f.Remedy != change[f.Check] { // a number of its own
			cures = append(cures, f.Remedy)
		}
		for n, c := range s.changes() {
			if text, ok := t.nearest(f.Check, n, c); ok {
				cures = append(cures, text)
			}
		}
		if f.Check == ruleSwing.Name || f.Check == ruleTransmission.Name {
			cures = append(cures, t.chosen(f.Check, s.Choices())...)
		}
		if len(cures) == 0 {
			cures = []string{change[f.Check]}
		}
		s.findings[i].Remedy = strings.Join(cures, ", or ")
	}
}

// nearest looks for the least change that cures a check.
func (t *trials) nearest(name string, number int, c change) (string, bool) {
	coarse := func(v float64) bool {
		key := trial{number, v}
		found, known := t.judged[key]
		if !known {
			spec := c.with(t.spec, v)
			spec.Stations, spec.trial = min(spec.Stations, trialStations), true
			found = t.judge(spec)
			t.judged[key] = found
		}
		return t.cures(name, found)
	}
	v, ok := check.Nearest(c.value, c.reach, coarse)
	if !ok || !t.cures(name, t.judge(c.with(t.spec, v))) {
		return "", false
	}
	sign := ">="
	if c.reach < 1 {
		sign = "<="
	}
	return fmt.Sprintf("%s %s %s %s", c.name, sign, check.Number(v), c.unit), true
}

// chosen names the choices that cure, rounded so that the swing is a little more
// than wanted.
func (t *trials) chosen(name string, choices []Choice) []string {
	var cures []string
	for _, c := range choices {
		spec := t.spec
		value := ceil(c.Horn, 1)
		if c.Changed == "lever" {
			value = floor(c.Lever, 1)
			spec.Lever = value
		} else {
			spec.Horn = value
		}
		rod, ok := spec.FourBar.CentredRod(spec.FromDeg, spec.ToDeg)
		spec.Rod = round(spec.trueRod(rod), 2)
		if ok && t.cures(name, t.judge(spec)) {
			cures = append(cures, fmt.Sprintf("%s = %s mm with rod = %s mm", c.Changed, check.Number(value), check.Number(spec.Rod)))
		}
	}
	return cures
}
