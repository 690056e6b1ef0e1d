package joint

import (
	"math"
	"os"
	"strings"
	"testing"

	"pintle/check"
)

func measuredFile(t *testing.T, lines string) (*Result, error) {
	t.Helper()
	data, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		t.Fatal(err)
	}
	file, err := Read("l.toml", []byte(string(data)+lines))
	if err != nil {
		t.Fatal(err)
	}
	return Design(file, Options{Tool: "pintle test"})
}

// Bores and outsides of finished parts, read back, move their features alone on
// the next print: the journal by the sum of two prints, a hole by what it was too
// small, the flange by 0.15 mm at most. The history stands in the findings.
func TestMeasuredBack(t *testing.T) {
	plain, err := measuredFile(t, "")
	if err != nil {
		t.Fatal(err)
	}
	read, err := measuredFile(t, "\n[measured.lamp-wheel]\njournal = [16.95, 16.91]\n\"M3 pilot hole\" = 2.425\n[measured.lamp-ring]\nflange = \"66 mm\"\n")
	if err != nil {
		t.Fatal(err)
	}
	moves := map[string]float64{"lamp-wheel journal": -0.06, "lamp-wheel M3 pilot hole": 0.1, "lamp-ring flange": -0.15}
	for i, f := range plain.Report.Fits {
		g := read.Report.Fits[i]
		want := moves[f.Part+" "+f.Feature]
		if math.Abs(g.Drawn-f.Drawn-want) > 1e-9 || math.Abs(g.Correction-want) > 1e-9 || g.Expected != f.Expected {
			t.Errorf("%s, %s: %+v, was %+v, want %v more", f.Part, f.Feature, g, f, want)
		}
	}
	for _, test := range []struct {
		part, says string
		want       check.Verdict
	}{
		{"lamp-wheel", "print 1: journal 16.95 mm, wanted 16.9; print 2: journal 16.91 mm, wanted 16.9; the next is drawn -0.06 mm larger", check.Note},
		{"lamp-ring", "print 1: flange 66 mm, wanted 65.5; the next is drawn -0.15 mm larger", check.Caution},
	} {
		told := false
		for _, f := range read.Report.Findings {
			told = told || f.Check == "measured-back" && f.Part == test.part && f.Detail == test.says && f.Verdict == test.want
		}
		if !told {
			t.Errorf("nothing says %q", test.says)
		}
	}
}

// What no part has, teeth, seats and slips of a digit are refused at their place.
func TestMeasuredBackRefused(t *testing.T) {
	for _, test := range []struct{ lines, want string }{
		{"[measured.lamp-wheel]\njurnal = 17\n", "measured.lamp-wheel.jurnal \"jurnal\": is no feature of lamp-wheel"},
		{"[measured.lamp-weel]\njournal = 17\n", "no part of this file"},
		{"[measured.lamp-wheel]\nspan = 16.1\n", "readings of its own"},
		{"[measured.lamp-ring]\nseat = 39.8\n", "readings of its own"},
		{"[measured.lamp-wheel]\njournal = 1.695\n", "was read as 1.695 mm, where 16.9 mm were wanted"},
		{"[measured.lamp-wheel]\njournal = 0\n", "was read as 0 mm"},
	} {
		if _, err := measuredFile(t, "\n"+test.lines); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v, want %s", test.lines, err, test.want)
		}
	}
}
