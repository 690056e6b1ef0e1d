package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"pintle/check"
	"pintle/joint"
)

// printSearch writes the pairs of a search as a table, the sentences on the
// first three, and what to type next.
func printSearch(w io.Writer, s *joint.Search, next func(joint.Candidate) []string) {
	for _, f := range s.Findings {
		if f.Verdict != check.Pass {
			printFindings(w, []check.Finding{f})
		}
	}
	if len(s.Candidates) == 0 {
		printTrains(w, s)
		return
	}
	for _, line := range align(pairRows(s)) {
		fmt.Fprintln(w, line)
	}
	fmt.Fprintln(w)
	for _, c := range s.Candidates {
		if c.Sentence != "" {
			fmt.Fprint(w, wrapped("", c.Sentence))
		}
	}
	for _, line := range append(bases(s), warnings(s)...) {
		fmt.Fprint(w, wrapped("", line))
	}
	fmt.Fprintln(w)
	for _, line := range next(s.Candidates[0]) {
		fmt.Fprintln(w, line)
	}
}

// pairRows is the table of pairs: what servo and load decide is left out where
// they are not known.
func pairRows(s *joint.Search) [][]string {
	head := []string{"", "teeth", "m", "ratio", "a_w mm", "tips mm"}
	if s.Asked.Driven {
		head = append(head, "peak", "held", "speed", "spare deg", "least s")
		if s.Asked.DeadBand > 0 {
			head = append(head, "step deg")
		}
	}
	head = append(head, "lost deg")
	if s.Asked.Driven {
		head = append(head, "stress")
	}
	rows := [][]string{append(head, "cautions")}
	all := s.Candidates
	if s.Present != nil {
		all = append(slices.Clone(all), *s.Present)
	}
	for i, c := range all {
		place := fmt.Sprint(i + 1)
		if i == len(s.Candidates) {
			place = "in the file"
		}
		row := []string{
			place, fmt.Sprintf("%d:%d", c.Teeth[0], c.Teeth[1]), trimmed(c.Module), places(c.Ratio, 3), places(c.CentreDistance, 2),
			places(c.Tip[0], 1) + "/" + places(c.Tip[1], 1),
		}
		if s.Asked.Driven {
			row = append(row, share(c.PeakShare), share(c.HeldShare), share(c.SpeedShare), places(c.SpareTravel, 1), places(c.ShortestTime, 2))
			if s.Asked.DeadBand > 0 {
				row = append(row, places(c.Resolution, 2))
			}
		}
		cautions := "-"
		if len(c.Cautions) > 0 {
			cautions = strings.Join(c.Cautions, ", ")
		}
		row = append(row, places(c.LostMotion, 2))
		if s.Asked.Driven {
			row = append(row, share(c.StressShare))
		}
		rows = append(rows, append(row, cautions))
	}
	return rows
}

func places(v float64, decimals int) string { return fmt.Sprintf("%.*f", decimals, v) }

// share prints a share in percent, with one decimal where it is small.
func share(v float64) string {
	if v < 0.0995 {
		return places(100*v, 1) + " %"
	}
	return places(100*v, 0) + " %"
}

// bases says what the numbers mean and what the search kept to.
func bases(s *joint.Search) []string {
	var lines []string
	if s.Asked.Driven {
		lines = append(lines, "peak, held: servo torque as a share of its stall torque; speed: of what it gives under that torque; spare: travel left at each end; least: shortest time for the swing.")
		if s.Asked.DeadBand > 0 {
			lines = append(lines, "step: the servo's dead band at the joint, its least step, and by as much it may jitter at rest.")
		}
	}
	lost := "lost: play of teeth and servo at the joint"
	if s.Asked.Driven {
		lost += "; stress: at the tooth root, as a share of where it fails"
	}
	lines = append(lines, lost+".")
	a := s.Asked
	text := fmt.Sprintf("%d pairs looked at, module %s", s.Considered, numbers(a.Modules))
	if len(a.Modules) > 1 {
		text = fmt.Sprintf("%d pairs looked at, modules %s", s.Considered, numbers(a.Modules))
		text += fmt.Sprintf(" (from %s mm, 2.5 beads of %s mm: common practice, no source)", check.Number(a.LeastModule), check.Number(a.BeadWidth))
	}
	for i, who := range []string{"pinion", "wheel"} {
		if a.LeastRoot[i] > 0 {
			text += fmt.Sprintf("; what the %s sits on asks for a root circle of %s mm", who, places(a.LeastRoot[i], 1))
		}
	}
	return append(lines, text+".")
}

// warnings says what to look after whatever pair is built.
func warnings(s *joint.Search) []string {
	var lines []string
	if n := s.Candidates[0].TeethInUse; n > 0 && s.Asked.CyclesAYear > 0 {
		lines = append(lines, fmt.Sprintf("%s swings a year, there and back, all on %d teeth of the first wheel.", check.Number(s.Asked.CyclesAYear), n))
	}
	for _, c := range s.Cautions {
		if c.Code == "C3" {
			lines = append(lines, c.Text)
		}
	}
	return lines
}

func numbers(values []float64) string {
	var parts []string
	for _, v := range values {
		parts = append(parts, trimmed(v))
	}
	return strings.Join(parts, ", ")
}

// printTrains writes the trains of two stages that would do.
func printTrains(w io.Writer, s *joint.Search) {
	if len(s.Trains) == 0 {
		return
	}
	fmt.Fprintln(w, "one stage does not do; two would, each pair checked, the servo's torque passed on:")
	rows := [][]string{{"", "first", "second", "m", "ratio", "a_w mm", "peak", "held", "speed", "spare deg", "lost deg", "cautions"}}
	for i, t := range s.Trains {
		one, two := t.Stages[0], t.Stages[1]
		cautions := "-"
		if len(t.Cautions) > 0 {
			cautions = strings.Join(t.Cautions, ", ")
		}
		rows = append(rows, []string{
			fmt.Sprint(i + 1), fmt.Sprintf("%d:%d", one.Teeth[0], one.Teeth[1]), fmt.Sprintf("%d:%d", two.Teeth[0], two.Teeth[1]), trimmed(one.Module),
			places(t.Ratio, 2), places(one.CentreDistance, 2) + " + " + places(two.CentreDistance, 2),
			share(t.PeakShare), share(t.HeldShare), share(t.SpeedShare), places(t.SpareTravel, 1), places(t.LostMotion, 2), cautions,
		})
	}
	for _, line := range align(rows) {
		fmt.Fprintln(w, line)
	}
	fmt.Fprintln(w, "pintle builds joints of one stage: a train is a proposal to build pair by pair (pintle gears)")
}

// noPair says why there is none and what opens the search.
func noPair(s *joint.Search) []string {
	lines := []string{s.Blocked()}
	if len(s.Obstacles) == 0 {
		return append(lines, s.Opening())
	}
	first := s.Obstacles[0]
	lines = append(lines, fmt.Sprintf("in the way is the %s of %s: %s lets %s through", first.Wish, strings.TrimSpace(check.Number(first.From)+" "+first.Unit), first.Text, first.Pair))
	for _, o := range s.Obstacles[1:] {
		lines = append(lines, fmt.Sprintf("or %s (%s)", o.Text, o.Pair))
	}
	return lines
}
