package check_test

import (
	"math"
	"testing"

	"pintle/check"
)

// A verdict turns at its limit and nowhere else; what is no number fails.
func TestJudge(t *testing.T) {
	least := check.Rule{Name: "r", Sense: check.AtLeast}
	most := check.Rule{Name: "r", Sense: check.AtMost}
	for _, test := range []struct {
		name  string
		rule  check.Rule
		value float64
		limit check.Limit
		want  check.Verdict
		text  string
	}{
		{"at the caution", least, 1.2, check.Limit{Caution: 1.2, Fail: 1.1}, check.Pass, ">= 1.2"},
		{"below the caution", least, 1.19, check.Limit{Caution: 1.2, Fail: 1.1}, check.Caution, ">= 1.2"},
		{"at the failure", least, 1.1, check.Limit{Caution: 1.2, Fail: 1.1}, check.Caution, ">= 1.2"},
		{"below the failure", least, 1.09, check.Limit{Caution: 1.2, Fail: 1.1}, check.Fail, ">= 1.1"},
		{"above the most", most, 0.51, check.Limit{Caution: 0.4, Fail: 0.5}, check.Fail, "<= 0.5"},
		{"within the most", most, 0.3, check.Limit{Caution: 0.4, Fail: 0.5}, check.Pass, "<= 0.4"},
		{"no caution", most, 0.45, check.Limit{Caution: check.None, Fail: 0.5}, check.Pass, "<= 0.5"},
		{"no failure", most, 9, check.Limit{Caution: 0.4, Fail: check.None}, check.Caution, "<= 0.4"},
		{"not a number", most, math.NaN(), check.Limit{Caution: 0.4, Fail: 0.5}, check.Fail, "<= 0.5"},
	} {
		t.Run(test.name, func(t *testing.T) {
			f := test.rule.Judge(test.value, test.limit, "do this")
			if f.Verdict != test.want || f.Limit != test.text {
				t.Errorf("verdict %s, limit %q, want %s, %q", f.Verdict, f.Limit, test.want, test.text)
			}
			if (f.Remedy == "") != (test.want == check.Pass) {
				t.Errorf("a %s has the remedy %q", test.want, f.Remedy)
			}
		})
	}
}

func TestNumber(t *testing.T) {
	for value, want := range map[float64]string{
		0: "0", 1.5: "1.5", 48: "48", 1.66521: "1.6652", -0.00001: "-1e-05", 3.6e-15: "0",
		12345678: "1.235e+07", 100: "100", -0.25: "-0.25",
	} {
		if got := check.Number(value); got != want {
			t.Errorf("Number(%v) = %q, want %q", value, got, want)
		}
	}
}

func TestInRange(t *testing.T) {
	for _, value := range []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if check.Positive("module", value, "mm", "") == nil {
			t.Errorf("a module of %v is accepted", value)
		}
	}
	if err := check.InRange("module", 51, "mm", 0.2, 50, ""); err == nil || err.Error() != "module 51 mm: must be from 0.2 to 50 mm" {
		t.Errorf("InRange says %v", err)
	}
	if err := check.Positive("module", 1.5, "mm", ""); err != nil {
		t.Error(err)
	}
}

// A number rounded away from a limit stays beyond it, within a part in 100.
func TestRoundAway(t *testing.T) {
	for _, test := range []struct {
		value float64
		up    bool
		want  float64
	}{{1.2345, true, 1.24}, {1.2345, false, 1.23}, {2, true, 2}, {2, false, 2}, {0.06421, true, 0.0643}, {98765, false, 98700}, {9999, true, 10000}} {
		if got := check.RoundAway(test.value, test.up); got != test.want {
			t.Errorf("%g, up %v: %g, want %g", test.value, test.up, got, test.want)
		}
	}
}
