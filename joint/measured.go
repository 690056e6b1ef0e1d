package joint

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"pintle/check"
	"pintle/fit"
	"pintle/quantity"
)

var ruleMeasured = check.Rule{
	Name: "measured-back", Unit: "mm",
	Meaning: "What a caliper read on a bore or outside of earlier prints, and what that changes on the next.",
	Formula: "largest difference of a reading from what was wanted; each print adds its own, at most 0.15 mm",
	Source:  check.CommonPractice, Change: "read it again, a quarter turn apart, away from the first layers",
	Sense: check.AtMost, Limit: check.Limit{Caution: fit.LargestStep, Fail: check.None},
}

// drawnElsewhere are features that a card's fit tells of, but that are drawn by
// the teeth or a housing's seat: they have readings of their own.
func drawnElsewhere() map[string]string {
	const teeth = "write measured = { W1 = ..., W2 = ... } in the table of the gears"
	return map[string]string{
		"span": teeth, "tip circle": teeth, "between pins": teeth, "tooth at the reference line": teeth,
		"seat": "write measured = { seat = ... } in the table of the housing", "rib tips": "write measured = { seat = ... } in the table of the housing",
	}
}

// featureReadings reads what features of a part measured: one print, or a list of them. A
// key has the feature's name, as the fits of a report give it, with _ for a space
// where it stands without quotes.
func (t *table) featureReadings() Features {
	all := Features{}
	for _, key := range slices.Sorted(maps.Keys(t.values)) {
		v, _ := t.value(key)
		list, ok := v.([]any)
		if !ok {
			list = []any{v}
		}
		var read []float64
		for i, one := range list {
			at := key
			if ok {
				at = element(key, i)
			}
			read = append(read, t.number(at, one, quantity.Length))
		}
		all[key] = read
	}
	return all
}

func featureOf(key string) string { return strings.ReplaceAll(key, "_", " ") }

// cardReadings returns the file's readings for the printer card.
func (f *File) cardReadings() []fit.Reading {
	var all []fit.Reading
	for _, part := range sorted(f.Measured) {
		for _, key := range sorted(f.Measured[part]) {
			all = append(all, fit.Reading{Part: part, Feature: featureOf(key), Read: f.Measured[part][key]})
		}
	}
	return all
}

// judgeReadings refuses readings of features that nothing draws, and tells what
// the others change.
func (b *builder) judgeReadings() error {
	for _, part := range sorted(b.file.Measured) {
		for _, key := range sorted(b.file.Measured[part]) {
			if err := b.judgeReading(part, key); err != nil {
				return err
			}
		}
	}
	return nil
}

func (b *builder) judgeReading(part, key string) error {
	feature, read := featureOf(key), b.file.Measured[part][key]
	refuse := func(reason, remedy string) error {
		return b.file.Blame("measured."+part, &check.FieldError{Field: key, Text: feature, Reason: reason, Remedy: remedy})
	}
	_, ring := b.housings[strings.TrimSuffix(part, "-ring")]
	if remedy := drawnElsewhere()[feature]; remedy != "" && (ring || feature != "seat" && feature != "rib tips") {
		return refuse("of "+part+" is corrected by readings of its own", remedy)
	}
	f, known, ok := b.fitOf(part, feature)
	switch {
	case len(known) == 0:
		return refuse("is measured on "+part+", which is no part of this file", "parts with fits: "+strings.Join(b.partsWithFits(), ", "))
	case !ok:
		remedy := "known there: " + strings.Join(known, "; ")
		if near, ok := Nearest(feature, known); ok {
			remedy = fmt.Sprintf("did you mean %q?", near)
		}
		return refuse("is no feature of "+part, remedy)
	}
	worst := 0.0
	var said []string
	for i, r := range read {
		if math.Abs(r-f.Wanted) > max(1, 0.1*f.Wanted) {
			return refuse(fmt.Sprintf("was read as %s mm, where %s mm were wanted", check.Number(r), check.Number(f.Wanted)), "read it again, in mm; leave it out where it was not read")
		}
		worst = max(worst, math.Abs(r-f.Wanted))
		said = append(said, fmt.Sprintf("print %d: %s %s mm, wanted %s", i+1, feature, check.Number(r), check.Number(f.Wanted)))
	}
	finding := ruleMeasured.Judge(math.Round(worst*1e6)/1e6, b.file.Limits.Of(ruleMeasured), fmt.Sprintf("a reading counts %s mm at most: read it again", check.Number(fit.LargestStep)))
	if finding.Verdict == check.Pass { // a note, so that what changes is told
		finding.Verdict = check.Note
	}
	finding.Part, finding.Detail = part, fmt.Sprintf("%s; the next is drawn %s mm larger", strings.Join(said, "; "), check.Number(math.Round(f.Correction*1e6)/1e6))
	b.find(b.designOf(part), finding)
	return nil
}

// fitOf returns the fit of a feature, and the features that the part has.
func (b *builder) fitOf(part, feature string) (found fit.Fit, known []string, ok bool) {
	for _, f := range b.report.Fits {
		if f.Part != part {
			continue
		}
		known = append(known, f.Feature)
		if f.Feature == feature {
			found, ok = f, true
		}
	}
	return found, known, ok
}

func (b *builder) partsWithFits() []string {
	var parts []string
	for _, f := range b.report.Fits {
		if !slices.Contains(parts, f.Part) {
			parts = append(parts, f.Part)
		}
	}
	return parts
}

func (b *builder) designOf(part string) string {
	for _, body := range b.bodies {
		if body.part.Name() == part {
			return body.design
		}
	}
	return "printer"
}
