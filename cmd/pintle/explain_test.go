package main

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pintle/check"
	"pintle/joint"
)

func TestExplain(t *testing.T) {
	none := check.Limit{Caution: check.None, Fail: check.None}
	for _, test := range []struct {
		why  string
		rule check.Rule
		want string
	}{
		{
			"limits of its own, and a meaning of two lines",
			check.Rule{
				Name: "play", Symbol: "j", Unit: "mm", Meaning: "How far it moves before it meets anything. Without play it jams, with much it rattles.",
				Formula: "a - b", Source: check.CommonPractice, Change: "more room", Sense: check.AtMost, Limit: check.Limit{Caution: 0.5, Fail: 1},
			},
			`play
meaning  How far it moves before it meets anything. Without play it jams, with
         much it rattles.
symbol   j
unit     mm
formula  a - b
limits   caution above 0.5 mm, fail above 1 mm
source   common practice, no source
change   more room
own      other limits in the joint file, "none" for no limit:
         [limits]
         play = { caution = 0.5, fail = 1 }
accept   --accept 'play=REASON', or in the joint file:
         [accept]
         play = "REASON"
`,
		},
		{
			"limits that follow from the design",
			check.Rule{Name: "play", Meaning: "M.", Formula: "F", Source: "S", Change: "C", Sense: check.AtLeast, Limit: none},
			`play
meaning  M.
formula  F
limits   they follow from the design, see the formula
source   S
change   C
own      other limits in the joint file, "none" for no limit:
         [limits]
         play = { caution = NUMBER, fail = NUMBER }
accept   --accept 'play=REASON', or in the joint file:
         [accept]
         play = "REASON"
`,
		},
		{
			"never accepted",
			check.Rule{Name: "play", Meaning: "M.", Formula: "F", Source: "S", Change: "C", Sense: check.AtLeast, Limit: check.Limit{Caution: check.None, Fail: 0}, Final: true},
			`play
meaning  M.
formula  F
limits   fail below 0
source   S
change   C
accept   never: a failure cannot be accepted
`,
		},
		{
			"no limit",
			check.Rule{Name: "play", Meaning: "M.", Formula: "F", Source: "S", Change: "C", Sense: check.Informs},
			`play
meaning  M.
formula  F
limits   none: it informs, or the formula says when it speaks
source   S
change   C
accept   --accept 'play=REASON', or in the joint file:
         [accept]
         play = "REASON"
`,
		},
	} {
		t.Run(test.why, func(t *testing.T) {
			var out bytes.Buffer
			explain(&out, test.rule)
			if diff := cmp.Diff(test.want, out.String()); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// The list has a line for each rule, and its JSON says the same.
func TestExplainAll(t *testing.T) {
	var text, data bytes.Buffer
	if code := run([]string{"explain"}, &text, &text); code != exitPass {
		t.Fatalf("exit code %d", code)
	}
	if code := run([]string{"explain", "--json"}, &data, &data); code != exitPass {
		t.Fatalf("exit code %d", code)
	}
	var all []explanation
	if err := json.Unmarshal(data.Bytes(), &all); err != nil {
		t.Fatal(err)
	}
	rules := joint.Rules()
	if len(all) != len(rules) || bytes.Count(text.Bytes(), []byte("\n")) != len(rules)+len(joint.RuleGroups()) {
		t.Fatalf("%d rules, %d explained, list\n%s", len(rules), len(all), &text)
	}
	for i, rule := range rules {
		if e := all[i]; e.Check != rule.Name || e.Group == "" || e.Meaning != rule.Meaning || e.Acceptable == rule.Final {
			t.Errorf("%s: %+v", rule.Name, e)
		}
	}
}
