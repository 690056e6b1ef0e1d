// Package check holds what every part of pintle says about a design: the rules
// it is judged by, the findings, and the error for input that cannot be used.
//
// A Rule names one check, its symbol, unit, formula and source. Judging a value
// against a rule's Limit gives a Finding with one of four verdicts. Design
// packages list their rules; the report, the explanations and the accept flag
// all read the same lists.
//
// The package computes nothing about gears or bearings and prints nothing.
package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Verdict is the outcome of one check. Only Fail stops a build.
type Verdict string

// The four verdicts, from good to bad.
const (
	Pass    Verdict = "pass"
	Note    Verdict = "note"
	Caution Verdict = "caution"
	Fail    Verdict = "fail"
)

// CommonPractice is the source of a limit that is a habit of the trade.
const CommonPractice = "common practice, no source"

// Sense says on which side of its limit a value is good.
type Sense int

// A value is good at or above its limit (AtLeast), at or below it (AtMost), or
// is only reported (Informs).
const (
	AtLeast Sense = iota
	AtMost
	Informs
)

// Limit holds the two thresholds of a rule in the rule's unit. NaN means that
// the rule has no such threshold.
type Limit struct{ Caution, Fail float64 }

// None is the absent threshold of a Limit.
var None = math.NaN()

// A Rule describes one check.
type Rule struct {
	Name    string // lower-case words joined by hyphens, e.g. "contact-ratio"
	Symbol  string // the standard's symbol, e.g. "epsilon_alpha", or ""
	Unit    string // "mm", "deg", "N·m", "" for a pure number
	Meaning string // one or two sentences in plain words
	Formula string // how the value is computed
	Source  string // of the limit
	Change  string // what a builder can change when the check fails
	Sense   Sense
	Limit   Limit // the default; Limits may override it
	Final   bool  // a failure of this rule can never be accepted
}

// Limits are a user's own thresholds by rule name. The nil map changes nothing.
type Limits map[string]Limit

// Of returns the limit to use for a rule: the user's own where there is one.
func (l Limits) Of(r Rule) Limit {
	if own, ok := l[r.Name]; ok {
		return own
	}
	return r.Limit
}

// A Finding is the outcome of one rule on one design.
type Finding struct {
	Design   string  `json:"design"` // e.g. "gears.lamp"; set by the joint
	Part     string  `json:"part"`   // e.g. "lamp-ring", or ""
	Check    string  `json:"check"`  // the rule's name
	Symbol   string  `json:"symbol"`
	Value    float64 `json:"value"`
	Unit     string  `json:"unit"`
	Limit    string  `json:"limit"` // e.g. ">= 1.2"
	Verdict  Verdict `json:"verdict"`
	Accepted string  `json:"accepted"` // the user's reason, for an accepted failure
	Source   string  `json:"source"`
	Remedy   string  `json:"remedy"` // what to do; empty on a pass
	Detail   string  `json:"detail,omitempty"`
}

// Judge compares value with the limit and returns the finding. The remedy is
// kept only where the verdict is not a pass. A value that is not a number fails.
func (r Rule) Judge(value float64, limit Limit, remedy string) Finding {
	f := Finding{
		Check: r.Name, Symbol: r.Symbol, Value: value, Unit: r.Unit,
		Source: r.Source, Verdict: r.Verdict(value, limit), Remedy: remedy,
	}
	threshold := limit.Caution
	if math.IsNaN(threshold) || (f.Verdict == Fail && !math.IsNaN(limit.Fail)) {
		threshold = limit.Fail
	}
	if r.Sense != Informs && !math.IsNaN(threshold) {
		f.Limit = r.sign() + " " + Number(threshold)
	}
	if f.Verdict == Pass {
		f.Remedy = ""
	}
	return f
}

// Say returns a finding with a verdict decided elsewhere: for rules that
// compare no single number.
func (r Rule) Say(v Verdict, value float64, detail, remedy string) Finding {
	return Finding{
		Check: r.Name, Symbol: r.Symbol, Value: value, Unit: r.Unit,
		Source: r.Source, Verdict: v, Detail: detail, Remedy: remedy,
	}
}

// Verdict returns how a value falls against a limit. A value that is not a
// number fails.
func (r Rule) Verdict(value float64, limit Limit) Verdict {
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return Fail
	}
	worse := func(threshold float64) bool {
		switch {
		case math.IsNaN(threshold) || r.Sense == Informs:
			return false
		case r.Sense == AtLeast:
			return value < threshold
		default:
			return value > threshold
		}
	}
	switch {
	case worse(limit.Fail):
		return Fail
	case worse(limit.Caution):
		return Caution
	}
	return Pass
}

func (r Rule) sign() string {
	if r.Sense == AtMost {
		return "<="
	}
	return ">="
}

// Number prints a value for people: four decimals at most, no trailing zeros, no
// exponent for everyday sizes.
func Number(v float64) string {
	if math.Abs(v) < 1e-9 {
		return "0" // the rounding of a difference that is nothing
	}
	if math.Abs(v) < 1e-4 || math.Abs(v) >= 1e7 {
		return strconv.FormatFloat(v, 'g', 4, 64)
	}
	s := strconv.FormatFloat(v, 'f', 4, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

// A FieldError says which input cannot be used, why, and what to do about it.
// Field is the trade's name for the quantity ("module"), never a flag or a file
// key: the caller knows where the value came from, the design does not.
type FieldError struct {
	Field  string  // e.g. "number of teeth"
	Value  float64 // as given; unused where Text is set
	Text   string  // as given, for values that are words
	Unit   string  // "mm", "deg", or "" for a count
	Reason string  // the broken rule, without a full stop
	Remedy string  // one thing to try, in the imperative
}

// Error gives one sentence: the quantity, its value and the broken rule.
func (e *FieldError) Error() string {
	return e.Field + " " + e.Given() + ": " + e.Reason
}

// Given returns the value as the user gave it.
func (e *FieldError) Given() string {
	if e.Text != "" {
		return strconv.Quote(e.Text)
	}
	if e.Unit == "" {
		return fmt.Sprintf("%v", e.Value)
	}
	return fmt.Sprintf("%v %s", e.Value, e.Unit)
}

// Positive returns an error unless value is a finite number above zero.
func Positive(field string, value float64, unit, remedy string) error {
	return InRange(field, value, unit, math.SmallestNonzeroFloat64, math.MaxFloat64, remedy)
}

// InRange returns an error unless lo <= value <= hi; it also refuses NaN and
// infinities. A lo of the smallest float reads "greater than 0".
func InRange(field string, value float64, unit string, lo, hi float64, remedy string) error {
	if value >= lo && value <= hi && !math.IsInf(value, 0) {
		return nil
	}
	reason := fmt.Sprintf("must be from %.10g to %.10g", lo, hi)
	if unit != "" {
		reason += " " + unit
	}
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		reason = "is not a finite number"
	case lo == math.SmallestNonzeroFloat64 && hi == math.MaxFloat64:
		reason = "must be greater than 0"
	case hi == math.MaxFloat64:
		reason = fmt.Sprintf("must be at least %.10g", lo)
	}
	return &FieldError{Field: field, Value: value, Unit: unit, Reason: reason, Remedy: remedy}
}
