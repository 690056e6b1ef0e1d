package main

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"pintle/check"
)

// Every command and flag says what it does, and each flag that takes a quantity
// names its unit.
func TestHelpNamesUnits(t *testing.T) {
	env := &environment{ctx: t.Context(), talk: &talker{}}
	units := 0
	for _, cmd := range env.newRoot().Commands() {
		if cmd.Short == "" {
			t.Errorf("%s says nothing", cmd.Name())
		}
		for _, name := range flagNames(cmd) {
			f := cmd.Flags().Lookup(name)
			if f.Usage == "" {
				t.Errorf("%s --%s says nothing", cmd.Name(), name)
			}
			if q, ok := f.Value.(*quantityValue); ok {
				units++
				if !strings.Contains(f.Usage, "in "+q.kind.Unit()) {
					t.Errorf("%s --%s does not name its unit %s: %s", cmd.Name(), name, q.kind.Unit(), f.Usage)
				}
			}
		}
	}
	if units < 20 {
		t.Errorf("only %d flags with a unit", units)
	}
}

// The pages of help fit a terminal of 80 columns where their words can be parted,
// list every flag of the command, and are in our words alone.
func TestHelpPages(t *testing.T) {
	env := &environment{ctx: t.Context(), talk: &talker{}}
	root := env.newRoot()
	for _, cmd := range append(root.Commands(), root) {
		env.out.Reset()
		env.writeHelp(cmd)
		page := env.out.String()
		for _, name := range flagNames(cmd) {
			if !strings.Contains(page, "\n  --"+name) {
				t.Errorf("%s: --%s is missing", cmd.Name(), name)
			}
		}
		for line := range strings.Lines(page) {
			if strings.HasPrefix(line, "                    ") && utf8.RuneCountInString(line) > 81 {
				t.Errorf("%s: a line of %d characters: %s", cmd.Name(), utf8.RuneCountInString(line), line)
			}
		}
		for _, foreign := range []string{"Usage:", "Flags:", "Available", "for more information", "(default", "help for", "string "} {
			if strings.Contains(page, foreign) {
				t.Errorf("%s says %q", cmd.Name(), foreign)
			}
		}
		if cmd != root && !strings.Contains(page, "\nusage: pintle "+cmd.Name()) {
			t.Errorf("%s has no line of usage", cmd.Name())
		}
	}
}

// A panic is told in one line that begins with the program's name.
func TestDefect(t *testing.T) {
	var out bytes.Buffer
	talk := &talker{w: &out}
	if code := talk.defect("gear: a tooth\nwithout a tip"); code != exitDefect {
		t.Errorf("exit code %d", code)
	}
	if got := out.String(); strings.Count(got, "\n") != 1 || !strings.HasPrefix(got, "pintle: defect in pintle 0.1: gear: a tooth without a tip;") {
		t.Errorf("got %q", got)
	}
}

func TestExitCodes(t *testing.T) {
	for _, test := range []struct {
		err  error
		want int
		says string
	}{
		{nil, 0, ""},
		{errFailed, 1, ""},
		{usage("no", "do"), 2, "pintle: no\npintle: do\n"},
		{errors.Join(usage("a", ""), &check.FieldError{Field: "b", Reason: "c", Remedy: "d"}), 2, "pintle: a\npintle: b 0: c\npintle: d\n"},
		{&fileError{errors.New("disk")}, 3, "pintle: disk\n"},
		{context.Canceled, 130, "pintle: interrupted, no file was changed\n"},
	} {
		var out bytes.Buffer
		talk := &talker{w: &out}
		if got := talk.outcome(test.err); got != test.want || out.String() != test.says {
			t.Errorf("%v: exit code %d and %q, want %d and %q", test.err, got, &out, test.want, test.says)
		}
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestResultsThatCannotBeWritten(t *testing.T) {
	var errOut bytes.Buffer
	if code := run([]string{"--version"}, brokenWriter{}, &errOut); code != exitFile {
		t.Errorf("exit code %d, want %d", code, exitFile)
	}
	if got := errOut.String(); got != "pintle: writing the results: no space left\n" {
		t.Errorf("got %q", got)
	}
}

func TestFindingsTable(t *testing.T) {
	findings := []check.Finding{
		{Design: "gears.a", Check: "contact-ratio", Value: 1.6652, Limit: ">= 1.2", Verdict: check.Pass, Source: check.CommonPractice, Detail: "not shown"},
		{Design: "plate.b", Part: "b-plate", Check: "µ", Value: 3, Unit: "mm", Limit: ">= 4", Verdict: check.Fail, Remedy: "thickness >= 5 mm", Accepted: "tried"},
	}
	var out bytes.Buffer
	printFindings(&out, findings)
	want := `pass  gears.a  contact-ratio  1.6652  (>= 1.2, common practice, no source)
fail  plate.b  µ b-plate      3 mm    (>= 4)
         accepted: tried
         to do: thickness >= 5 mm
`
	if out.String() != want {
		t.Errorf("got\n%swant\n%s", &out, want)
	}
	out.Reset()
	printFindings(&out, findings[:1])
	if want := "pass  contact-ratio  1.6652  (>= 1.2, common practice, no source)\n"; out.String() != want {
		t.Errorf("got %q, want %q without the design", &out, want)
	}
	if got, want := failedLine(findings[1]), "plate.b: µ b-plate 3 mm, limit >= 4: thickness >= 5 mm"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
