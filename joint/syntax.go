package joint

import (
	"bytes"
	"regexp"
	"strings"
)

// A slip is a value as people write it who do not know TOML, and what to write.
type slip struct {
	value  *regexp.Regexp
	remedy string // with $1 and $2 for what the pattern holds
}

var slips = []slip{
	{regexp.MustCompile(`^([+-]?\d+),(\d+)$`), "use a point: $1.$2; a list stands in square brackets: [$1, $2]"},
	{regexp.MustCompile(`^([+-]?\d[^"\[\]]*,[^"\[\]]*)$`), "a list stands in square brackets: [$1]"},
	{regexp.MustCompile(`^([+-]?)(\.\d+)$`), "write a digit before the point: ${1}0$2"},
	{regexp.MustCompile(`^(?i:yes|on|true)$`), "write true"},
	{regexp.MustCompile(`^(?i:no|off|false)$`), "write false"},
	{regexp.MustCompile(`^[“”„‘’](.*)[“”‘’]$`), `use straight quotes: "$1"`},
	{regexp.MustCompile(`^(.*?)\s*;$`), "leave the semicolon out: $1"},
	{regexp.MustCompile(`^([+-]?\d[\d.]*\s*[^\d\s.,"\[\]][^"\[\]]*)$`), `put a number with its unit in quotes: "$1"`},
	{regexp.MustCompile(`^(\pL[^"\[\]]*)$`), `put a text in quotes: "$1"`},
	{regexp.MustCompile(`^$`), "give it a value, or put # before the line"},
}

var (
	keyedLine = regexp.MustCompile(`^\s*([\w.-]+)\s*=\s*(.*?)\s*(?:#.*)?$`)
	colonLine = regexp.MustCompile(`^\s*([\w.-]+)\s*:\s*(.*?)\s*(?:#.*)?$`)
)

// likelySlip says how a line that is no TOML reads without its comment, and what
// to write where it shows a slip that people make; else both are "".
func likelySlip(line string) (written, remedy string) {
	if m := colonLine.FindStringSubmatch(line); m != nil {
		return m[1] + ": " + m[2], "write = after the key: " + m[1] + " = " + m[2]
	}
	m := keyedLine.FindStringSubmatch(line)
	if m == nil {
		return "", ""
	}
	for _, s := range slips {
		if s.value.MatchString(m[2]) {
			return strings.TrimSpace(m[1] + " = " + m[2]), s.value.ReplaceAllString(m[2], s.remedy)
		}
	}
	return "", ""
}

// refusedSyntax gives the reason and the remedy for a document that is no TOML,
// by the parser's words and the number of the line, counted from 1.
func refusedSyntax(data []byte, line int, words string) (reason, remedy string) {
	if lines := bytes.Split(data, []byte("\n")); line >= 1 && line <= len(lines) {
		if written, remedy := likelySlip(strings.TrimSuffix(string(lines[line-1]), "\r")); remedy != "" {
			return "not valid TOML: " + written, remedy
		}
	}
	reason = "not valid TOML: " + words
	if strings.HasSuffix(words, "already exists") || strings.Contains(words, "already defined") {
		return reason, "each table and each key stands once: give the second another name, or take it out"
	}
	return reason, "a line reads: key = value; texts stand in quotes"
}
