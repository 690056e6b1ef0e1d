package gear

import (
	"fmt"
	"math"

	"pintle/check"
)

// A judgement is one number of a solution with the limit it is held against.
type judgement struct {
	rule  string
	gear  int // 0 or 1; -1 for the pair
	value float64
	limit check.Limit
	note  string

	slight bool // a caution that is worth a note only
}

// verdict returns how the judgement falls.
func (j judgement) verdict() check.Verdict { return j.finding("").Verdict }

// finding returns the judgement as a finding; its part is left to the caller.
func (j judgement) finding(remedy string) check.Finding {
	f := rule(j.rule).Judge(j.value, j.limit, remedy)
	if math.IsInf(j.limit.Caution, 1) {
		f.Limit = "no undercut"
		if f.Verdict == check.Fail {
			f.Limit = ">= 0"
		}
	}
	if j.limit.Fail == math.SmallestNonzeroFloat64 && f.Verdict == check.Fail {
		f.Limit = "> 0"
	}
	if j.slight && f.Verdict == check.Caution {
		f.Verdict = check.Note
	}
	f.Detail = j.note
	return f
}

// limit returns the user's own limit for a rule, or the pair's.
func (s solution) limit(name string, own check.Limit) check.Limit {
	if l, ok := s.spec.Limits[name]; ok {
		return l
	}
	return own
}

// toothRules are the checks that follow from the teeth alone, and whether each
// gear has its own.
func (s solution) toothRules() []judgement {
	js := []judgement{{rule: "contact-ratio", gear: -1}, {rule: "backlash", gear: -1}, {rule: "interference", gear: -1}, {rule: "tooth-size", gear: -1}, {rule: "lost-motion", gear: -1}}
	if s.spec.Climate.Known {
		js = append(js, judgement{rule: "backlash-climate", gear: -1})
	}
	if s.contact.sign < 0 {
		js = append(js, judgement{rule: "internal-involute", gear: -1}, judgement{rule: "trochoid", gear: -1}, judgement{rule: "trimming", gear: -1})
	}
	for i := range 2 {
		js = append(js, judgement{rule: "tip-thickness", gear: i}, judgement{rule: "tip-clearance", gear: i}, judgement{rule: "undercut", gear: i})
	}
	return js
}

// judge fills in value and limit of one of the tooth rules.
func (s solution) judge(j judgement) judgement {
	c, m, bead := s.contact, s.spec.Module, s.spec.Card.BeadWidth
	own := rule(j.rule).Limit
	switch j.rule {
	case "contact-ratio":
		j.value = c.ratio()
		j.note = "with the centres off by their tolerance " + check.Number(c.closer(-s.spec.CentreTolerance).ratio())
	case "backlash":
		j.value = c.closer(s.spec.CentreTolerance).normalBacklash()
		j.note = s.windowText()
		own = check.Limit{Caution: minBacklashFloor(c.a, m), Fail: math.SmallestNonzeroFloat64}
	case "lost-motion":
		far := c.closer(-s.spec.CentreTolerance)
		j.value = far.normalBacklash() / far.t[1].rb * 180 / math.Pi
		j.note = s.lostMotionText(j.value)
		if l := s.spec.LostMotion.Limit; l > 0 {
			own = check.Limit{Caution: l * 180 / math.Pi, Fail: check.None}
		}
	case "backlash-climate":
		cold, hot := s.coldAndHot(s.spec.CentreTolerance)
		j.value = math.Min(cold, hot)
		j.note = fmt.Sprintf("%s mm at %s °C, %s mm at %s °C, with the centres off by their tolerance", check.Number(cold), check.Number(s.spec.Climate.Coldest), check.Number(hot), check.Number(s.spec.Climate.Hottest))
		own = check.Limit{Caution: minBacklashFloor(c.a, m) / 2, Fail: math.SmallestNonzeroFloat64}
	case "interference":
		j.value = c.interference()
	case "internal-involute":
		j.value = c.internalInvolute()
	case "trochoid":
		j.value = c.trochoid()
	case "trimming":
		j.value = c.trimming()
		if j.value < 0 {
			j.note = "the pinion goes in along its axis only"
		}
	case "tooth-size":
		j.value = m
		own = check.Limit{Caution: 2.5 * bead, Fail: check.None}
	case "tip-thickness":
		j.value = c.t[j.gear].thickness(c.t[j.gear].ra)
		own = check.Limit{Caution: math.Max(0.2*m, 2*bead), Fail: bead}
	case "tip-clearance":
		j.value = c.tipClearance(j.gear)
		own = check.Limit{Caution: 0.15 * m, Fail: 0.1 * m}
	case "undercut":
		j.limit = s.limit(j.rule, own)
		return s.judgeUndercut(j)
	}
	j.limit = s.limit(j.rule, own)
	return j
}

// slightUndercut is the shift in modules that may lack before an undercut that
// takes no working flank is worth a caution: 17 teeth at 20 deg, where 17.1 would
// be free of it, lose nothing that can be measured (common practice, no source).
const slightUndercut = 0.02

// judgeUndercut counts the flank that undercut takes below its working part. An
// undercut that takes none is still a caution: the tooth is thin at its root.
func (s solution) judgeUndercut(j judgement) judgement {
	return s.judgeUndercutOf(j, s.contact.rollOfMate(j.gear))
}

// judgeUndercutOf is judgeUndercut for a mate whose tip works at a length from
// the tangent point.
func (s solution) judgeUndercutOf(j judgement, start float64) judgement {
	t := s.contact.t[j.gear]
	j.value = start - s.contact.form[j.gear]
	if t.inner {
		j.value = -j.value
	}
	switch {
	case !t.cut:
		// Without undercut a tip below the form circle is interference.
		j.value = math.Max(j.value, 0)
	case math.IsNaN(j.limit.Caution):
		j.limit.Caution = math.Inf(1)
		j.note = "the rack undercuts the tooth"
		j.slight = LeastShift(t.z, t.alpha, s.spec.Rack)-s.x[j.gear] <= slightUndercut
	}
	return j
}

// windowText says how far the centre distance may be off before the flanks jam.
func (s solution) windowText() string {
	c := s.contact
	way := "nearer"
	if c.sign < 0 {
		way = "farther apart"
	}
	return fmt.Sprintf("the teeth jam at a centre distance of %s mm, %s mm %s than wanted; what the card does not know of the printer may take or add %s mm",
		check.Number(c.tight()), check.Number(math.Abs(c.a-c.tight())), way, check.Number(s.backlashBand()))
}

// lostMotionText says what the lost motion, in degrees with the centres off by
// their tolerance, is as a length, and where it reaches its limit.
func (s solution) lostMotionText(deg float64) string {
	text := "at the wheel, with the centres off by their tolerance"
	if r := s.spec.LostMotion.Radius; r > 0 {
		text += fmt.Sprintf("; %s mm at a radius of %s mm", check.Number(deg*math.Pi/180*r), check.Number(r))
	}
	if l := s.spec.LostMotion.Limit; l > 0 {
		text += fmt.Sprintf("; the limit is reached at a centre distance of %s mm", check.Number(s.contact.distanceAt(l*s.contact.t[1].rb)))
	}
	return text
}
