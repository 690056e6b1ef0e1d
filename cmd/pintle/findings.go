package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"pintle/check"
	"pintle/joint"
)

// printFindings writes the findings as an aligned table, one a line: verdict,
// design where there are several, check and part, value, limit and source; below
// a finding that is no pass stands what was seen and what to do. Passes come
// first, so that what wants a look stands last, above the prompt.
func printFindings(w io.Writer, findings []check.Finding) {
	order := []check.Verdict{check.Pass, check.Note, check.Caution, check.Fail}
	findings = slices.SortedStableFunc(slices.Values(findings), func(a, b check.Finding) int {
		return slices.Index(order, a.Verdict) - slices.Index(order, b.Verdict)
	})
	several := slices.ContainsFunc(findings, func(f check.Finding) bool { return f.Design != findings[0].Design })
	rows := make([][]string, 0, len(findings))
	for _, f := range findings {
		row := []string{string(f.Verdict)}
		if several {
			row = append(row, f.Design)
		}
		rows = append(rows, append(row, strings.TrimSpace(f.Check+" "+f.Part), value(f), limit(f)))
	}
	for i, line := range align(rows) {
		fmt.Fprintln(w, line)
		for _, note := range notes(findings[i]) {
			fmt.Fprintln(w, "         "+note)
		}
	}
}

// notes are the lines below a finding.
func notes(f check.Finding) []string {
	if f.Verdict == check.Pass {
		return nil
	}
	var lines []string
	if f.Detail != "" {
		lines = append(lines, f.Detail)
	}
	if f.Accepted != "" {
		lines = append(lines, "accepted: "+f.Accepted)
	}
	if f.Remedy != "" {
		lines = append(lines, "to do: "+f.Remedy)
	}
	return lines
}

// value gives the value with its unit, or nothing for a rule that compares none.
func value(f check.Finding) string {
	if f.Limit == "" && f.Value == 0 && f.Unit == "" {
		return ""
	}
	return strings.TrimSpace(check.Number(f.Value) + " " + f.Unit)
}

func limit(f check.Finding) string {
	switch {
	case f.Limit == "" && f.Source == "":
		return ""
	case f.Limit == "":
		return "(" + f.Source + ")"
	case f.Source == "":
		return "(" + f.Limit + ")"
	}
	return "(" + f.Limit + ", " + f.Source + ")"
}

// failedLine is the line that tells of one failed check.
func failedLine(f check.Finding) string {
	var line strings.Builder
	if f.Design != "" {
		line.WriteString(f.Design + ": ")
	}
	line.WriteString(strings.TrimSpace(f.Check + " " + f.Part))
	if v := value(f); v != "" {
		line.WriteString(" " + v)
	}
	if f.Limit != "" {
		line.WriteString(", limit " + f.Limit)
	}
	if f.Remedy != "" {
		line.WriteString(": " + f.Remedy)
	}
	return line.String()
}

// align pads every column but the last to its widest cell, two spaces apart.
func align(rows [][]string) []string {
	var widths []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	lines := make([]string, len(rows))
	for n, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString(cell)
			line.WriteString(strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell)+2))
		}
		lines[n] = strings.TrimRight(line.String(), " ")
	}
	return lines
}

// listFiles writes the names of the files and the sizes of the parts.
func listFiles(w io.Writer, dir string, result *joint.Result) {
	sizes := map[string]string{}
	for _, part := range result.Report.Parts {
		for _, file := range part.Files {
			if strings.HasSuffix(file, ".stl") {
				s := part.SizeMM
				sizes[file] = fmt.Sprintf("%.2f x %.2f x %.2f mm", s[0], s[1], s[2])
			}
		}
	}
	fmt.Fprintf(w, "wrote %d files to %s\n", len(result.Files), dir)
	var rows [][]string
	for _, file := range result.Files {
		rows = append(rows, []string{file.Name, sizes[file.Name]})
	}
	for _, line := range align(rows) {
		fmt.Fprintln(w, "  "+line)
	}
}
