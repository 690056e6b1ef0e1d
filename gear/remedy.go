package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// A knob is one number of a spec that a remedy can turn, the values to try in
// order, and how the remedy reads.
type knob struct {
	form   string // e.g. "x1 >= %s"
	values []float64
	turn   func(spec *PairSpec, value float64)
}

// remedy returns the first setting of the first knob that makes the judgement
// pass and no other one fail, tried on the whole solution, or advice in words
// where none does.
func (s solution) remedy(j judgement) string {
	before := s.failures()
	good := func(c solution) bool {
		return c.judge(j).verdict() == check.Pass && !c.failures().beyond(before)
	}
	if r, ok := s.firstCure(s.knobs(j), good); ok {
		return r
	}
	return s.advice(j)
}

// failures tells for each tooth rule, in order, by how much it fails: 0 where it
// does not.
type failures []float64

func (s solution) failures() failures {
	var all failures
	for _, j := range s.toothRules() {
		short := 0.0
		if j = s.judge(j); j.verdict() == check.Fail {
			short = math.Max(math.Abs(j.value-j.limit.Fail), math.SmallestNonzeroFloat64)
		}
		all = append(all, short)
	}
	return all
}

// beyond says whether something fails that did not before, or by more.
func (f failures) beyond(before failures) bool {
	for i, short := range f {
		if short > before[i]+1e-9 || short > 0 && before[i] == 0 {
			return true
		}
	}
	return false
}

// firstCure turns one knob after the other until a solution is good and its
// bodies still find room.
func (s solution) firstCure(knobs []knob, good func(solution) bool) (string, bool) {
	for _, k := range knobs {
		for _, v := range k.values {
			spec := s.spec
			k.turn(&spec, v)
			if changed, err := solve(spec); err == nil && good(changed) && changed.hasRoom() {
				return fmt.Sprintf(k.form, check.Number(v)), true
			}
		}
	}
	return "", false
}

// hasRoom says whether both bodies find room in their teeth.
func (s solution) hasRoom() bool {
	for i, t := range s.contact.t {
		drawn, _ := s.drawn(i)
		if _, err := newStructure(s.spec, i, t, drawn, geom.Contour{}); err != nil {
			return false
		}
	}
	return true
}

// knobs returns what can cure a judgement, the gentlest first.
func (s solution) knobs(j judgement) []knob {
	larger := 0
	if s.x[1] > s.x[0] {
		larger = 1
	}
	switch j.rule {
	case "undercut":
		return []knob{s.shiftKnob(j.gear, true), s.teethKnob(j.gear)}
	case "tip-thickness":
		return []knob{s.shiftKnob(j.gear, false), s.teethKnob(j.gear), s.moduleKnob()}
	case "interference", "internal-involute":
		if s.contact.sign < 0 {
			return []knob{s.oppositeShiftsKnob(), s.tipKnob(), s.teethKnob(1)}
		}
		return []knob{s.shiftKnob(0, true), s.shiftKnob(1, true), s.shiftKnob(larger, false), s.tipKnob(), s.teethKnob(0)}
	case "tip-clearance":
		return []knob{s.tipKnob(), s.distanceKnob(), s.shiftKnob(larger, false)}
	case "contact-ratio":
		return []knob{s.shiftKnob(0, true), s.shiftKnob(larger, false), s.teethKnob(0), s.teethKnob(1), s.sameRatioKnob()}
	case "trochoid", "trimming":
		return []knob{s.teethKnob(1), s.tipKnob()}
	case "lost-motion":
		return []knob{s.lessBacklashKnob()}
	case "backlash", "backlash-climate":
		return []knob{s.backlashKnob()}
	case "tooth-size":
		return []knob{s.moduleKnob()}
	}
	return nil
}

// advice is what remains to say where no number cures.
func (s solution) advice(j judgement) string { return "change: " + rule(j.rule).Change }

// shiftKnob turns one profile shift in steps of 0.01 and keeps the other. The
// undercut limit itself is among the values.
func (s solution) shiftKnob(i int, up bool) knob {
	k := knob{form: fmt.Sprintf("x%d <= %%s", i+1)}
	if up {
		k.form = fmt.Sprintf("x%d >= %%s", i+1)
		least := LeastShift(s.spec.Teeth[i], s.spec.PressureAngle, s.spec.Rack)
		if least > s.x[i] && s.spec.Teeth[i] > 0 {
			k.values = append(k.values, least)
		}
		for v := math.Ceil(s.x[i]*100+0.01) / 100; v <= 1.2; v = math.Round(v*100+1) / 100 {
			k.values = append(k.values, v)
		}
	} else {
		for v := math.Floor(s.x[i]*100-0.01) / 100; v >= -0.8; v = math.Round(v*100-1) / 100 {
			k.values = append(k.values, v)
		}
	}
	k.turn = func(spec *PairSpec, v float64) {
		spec.ShiftRule, spec.Shift, spec.KeepShift = ShiftGiven, s.x, true
		spec.Shift[i] = v
	}
	return k
}

// teethKnob adds teeth to one gear.
func (s solution) teethKnob(i int) knob {
	k := knob{form: fmt.Sprintf("z%d >= %%s", i+1)}
	for z := s.spec.Teeth[i] + 1; z <= s.spec.Teeth[i]+40; z++ {
		k.values = append(k.values, float64(z))
	}
	k.turn = func(spec *PairSpec, v float64) { spec.Teeth[i] = int(v) }
	if s.spec.Teeth[i] < 0 {
		k.form = fmt.Sprintf("z%d <= %%s", i+1)
		for n := range k.values {
			k.values[n] = float64(s.spec.Teeth[i] - 1 - n)
		}
	}
	return k
}

// sameRatioKnob adds teeth to the pinion and as many times more to the wheel.
func (s solution) sameRatioKnob() knob {
	k := s.teethKnob(0)
	k.form += " at the same ratio"
	k.turn = func(spec *PairSpec, v float64) {
		spec.Teeth = [2]int{int(v), int(math.Round(v * float64(s.spec.Teeth[1]) / float64(s.spec.Teeth[0])))}
	}
	return k
}

// moduleKnob enlarges the module in steps of 0.05 mm.
func (s solution) moduleKnob() knob {
	k := knob{form: "module >= %s mm", turn: func(spec *PairSpec, v float64) { spec.Module = v }}
	for v := math.Floor(s.spec.Module*20+1) / 20; v <= 4*s.spec.Module+1; v = math.Round(v*20+1) / 20 {
		k.values = append(k.values, v)
	}
	return k
}

// oppositeShiftsKnob moves the shifts of an internal pair apart in steps of 0.01
// and keeps their sum, and with it the centre distance.
func (s solution) oppositeShiftsKnob() knob {
	sum := s.x[0] + s.x[1]
	k := knob{form: "x1 >= %s, and x2 = " + check.Number(sum) + " - x1"}
	if math.Abs(sum) < 1e-9 {
		k.form = "x1 >= %s, and x2 = -x1"
	}
	for v := math.Ceil(s.x[0]*100+0.01) / 100; v <= 1.2; v = math.Round(v*100+1) / 100 {
		k.values = append(k.values, v)
	}
	k.turn = func(spec *PairSpec, v float64) {
		spec.ShiftRule, spec.Shift, spec.KeepShift = ShiftGiven, [2]float64{v, sum - v}, true
	}
	return k
}

// tipKnob shortens both tips in steps of 0.01 modules.
func (s solution) tipKnob() knob {
	k := knob{form: "tip alteration <= %s", turn: func(spec *PairSpec, v float64) { spec.KeepTips, spec.TipAlteration = true, v }}
	for v := math.Floor(s.k*100-0.01) / 100; v >= -0.5; v = math.Round(v*100-1) / 100 {
		k.values = append(k.values, v)
	}
	return k
}

// distanceKnob moves the axes apart in steps of 0.05 mm where the user gave
// their distance and the shifts.
func (s solution) distanceKnob() knob {
	k := knob{form: "centre distance >= %s mm", turn: func(spec *PairSpec, v float64) { spec.CentreDistance = v }}
	if s.spec.CentreDistance == 0 || !s.spec.keepsShift() {
		return k
	}
	for v := math.Floor(s.contact.a*20+1) / 20; v <= s.contact.a+s.spec.Module; v = math.Round(v*20+1) / 20 {
		k.values = append(k.values, v)
	}
	return k
}

// backlashKnob raises the backlash in steps of 0.01 mm.
func (s solution) backlashKnob() knob {
	k := knob{form: "backlash >= %s mm", turn: func(spec *PairSpec, v float64) { spec.Backlash = v }}
	for v := math.Floor(s.spec.Backlash*100+1) / 100; v <= largestBacklash*s.spec.Module*math.Pi/2; v = math.Round(v*100+1) / 100 {
		k.values = append(k.values, v)
	}
	return k
}

// lessBacklashKnob lowers the backlash in steps of 0.01 mm.
func (s solution) lessBacklashKnob() knob {
	k := knob{form: "backlash <= %s mm", turn: func(spec *PairSpec, v float64) { spec.Backlash = v }}
	for v := math.Ceil(s.spec.Backlash*100-1) / 100; v > 0; v = math.Round(v*100-1) / 100 {
		k.values = append(k.values, v)
	}
	return k
}
