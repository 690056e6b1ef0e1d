package linkage

import (
	"fmt"
	"slices"
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

// addRemedies tries one change at a time for each check that does not pass and
// names those that let it pass and make no other check worse. Bodies are left
// out of that: their sizes do not follow the lengths.
func (s *Stroke) addRemedies() {
	change := map[string]string{}
	for _, r := range append(Rules(), drive.Rules()...) {
		change[r.Name] = r.Change
	}
	before := slices.DeleteFunc(slices.Clone(s.findings), func(f check.Finding) bool {
		return f.Check == ruleGap.Name || f.Check == ruleOverlap.Name
	})
	for i, f := range before {
		if f.Verdict == check.Pass || f.Verdict == check.Note {
			continue
		}
		cures := s.cures(before, i)
		if f.Check == ruleSwing.Name || f.Check == ruleTransmission.Name {
			cures = append(cures, s.chosen(before, i)...)
		}
		if f.Remedy != "" && f.Remedy != change[f.Check] { // a number of its own
			cures = append([]string{f.Remedy}, cures...)
		}
		if len(cures) == 0 {
			cures = []string{change[f.Check]}
		}
		s.findings[i].Remedy = strings.Join(cures, ", or ")
	}
}

func (s *Stroke) cures(before []check.Finding, number int) []string {
	var cures []string
	cured := func(spec Spec) bool { return cured(spec, before, number) }
	for _, c := range s.changes() {
		coarse := func(v float64) bool {
			spec := c.with(s.spec, v)
			spec.Stations = min(spec.Stations, trialStations)
			return cured(spec)
		}
		if v, ok := check.Nearest(c.value, c.reach, coarse); ok && cured(c.with(s.spec, v)) {
			sign := ">="
			if c.reach < 1 {
				sign = "<="
			}
			cures = append(cures, fmt.Sprintf("%s %s %s %s", c.name, sign, check.Number(v), c.unit))
		}
	}
	return cures
}

// cured says whether a spec passes a check and no other got worse.
func cured(spec Spec, before []check.Finding, number int) bool {
	spec.Bodies = nil
	after, err := followed(spec)
	if err != nil {
		return false
	}
	found := after.judge()
	return check.NoWorse(before, found) && found[number].Verdict == check.Pass
}

// chosen names the choices that cure, rounded so that the swing is a little more
// than wanted.
func (s *Stroke) chosen(before []check.Finding, number int) []string {
	var cures []string
	for _, c := range s.Choices() {
		spec := s.spec
		value := ceil(c.Horn, 1)
		if c.Changed == "lever" {
			value = floor(c.Lever, 1)
			spec.Lever = value
		} else {
			spec.Horn = value
		}
		rod, ok := spec.FourBar.CentredRod(spec.FromDeg, spec.ToDeg)
		spec.Rod = round(s.spec.trueRod(rod), 2)
		if ok && cured(spec, before, number) {
			cures = append(cures, fmt.Sprintf("%s = %s mm with rod = %s mm", c.Changed, check.Number(value), check.Number(spec.Rod)))
		}
	}
	return cures
}
