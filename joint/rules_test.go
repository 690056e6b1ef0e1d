package joint_test

import (
	"math"
	"regexp"
	"testing"

	"pintle/check"
	"pintle/joint"
)

// Every check can be explained: its name is one word, it is listed once, and it
// says what it means, how it is computed, where its limit comes from and what to
// change.
func TestRulesAreComplete(t *testing.T) {
	name := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, group := range joint.RuleGroups() {
		if group.Name == "" || len(group.Rules) == 0 {
			t.Errorf("group %q has %d rules", group.Name, len(group.Rules))
		}
		for _, rule := range group.Rules {
			if !name.MatchString(rule.Name) || seen[rule.Name] {
				t.Errorf("%s: %q is no name or not the only one", group.Name, rule.Name)
			}
			seen[rule.Name] = true
			for _, text := range []struct{ what, says string }{
				{"meaning", rule.Meaning},
				{"formula", rule.Formula},
				{"source", rule.Source},
				{"change", rule.Change},
			} {
				if len(text.says) < 3 {
					t.Errorf("%s: %s is %q", rule.Name, text.what, text.says)
				}
			}
			if last := rule.Meaning[max(len(rule.Meaning)-1, 0):]; last != "." {
				t.Errorf("%s: the meaning is no sentence: %q", rule.Name, rule.Meaning)
			}
			if l := rule.Limit; rule.Sense == check.AtLeast && l.Caution < l.Fail || rule.Sense == check.AtMost && l.Caution > l.Fail {
				t.Errorf("%s: the caution of %g comes after the failure of %g", rule.Name, l.Caution, l.Fail)
			}
			if math.IsInf(rule.Limit.Caution, 0) || math.IsInf(rule.Limit.Fail, 0) {
				t.Errorf("%s: infinite limit", rule.Name)
			}
			if found, err := joint.RuleNamed(rule.Name); err != nil || found.Meaning != rule.Meaning {
				t.Errorf("%s is not found by its name: %v", rule.Name, err)
			}
		}
	}
	if len(seen) != len(joint.Rules()) || len(seen) < 40 {
		t.Errorf("%d rules in groups, %d in all", len(seen), len(joint.Rules()))
	}
}

// A finding names a rule, or nobody could explain or accept it.
func TestFindingsNameRules(t *testing.T) {
	for _, kind := range joint.Kinds() {
		text, err := joint.Starter(kind, "x")
		if err != nil {
			t.Fatal(err)
		}
		for _, finding := range design(t, text).Report.Findings {
			if _, err := joint.RuleNamed(finding.Check); err != nil {
				t.Errorf("%s: %v", finding.Design, err)
			}
		}
	}
}
