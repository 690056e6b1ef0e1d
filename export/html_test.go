package export_test

import (
	"bytes"
	"errors"
	"regexp"
	"strings"
	"testing"

	"pintle/export"
)

func pageText(t *testing.T, r export.Report, drawings map[string][]byte) string {
	t.Helper()
	var out bytes.Buffer
	if err := export.WriteHTML(&out, r, export.Figures{Drawings: drawings}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// cells returns the words of each table row that holds text.
func cells(page, text string) []string {
	tags := regexp.MustCompile(`<[^>]*>`)
	for _, row := range strings.Split(page, "<tr>") {
		if strings.Contains(row, text) {
			var words []string
			for _, cell := range regexp.MustCompile(`</t[dh]>`).Split(strings.SplitN(row, "</tr>", 2)[0], -1) {
				words = append(words, strings.TrimSpace(tags.ReplaceAllString(cell, "")))
			}
			return words
		}
	}
	return nil
}

// The rows say what the report holds; margins are worked by hand:
// 1.6652 - 1.2, 3.1 - 5 and 0.5 - 0.62.
func TestPageRows(t *testing.T) {
	page := pageText(t, lampReport(), nil)
	for _, test := range []struct{ find, want string }{
		{"contact-ratio", "pass|contact-ratio|1.6652|&gt;= 1.2|&#43;0.4652|gears.lamp||common practice, no source|"},
		{"servo-travel", "caution|servo-travel|3.1 deg|&gt;= 5|-1.9|gears.lamp|ratio &lt;= 1.24, or swing &lt;= 125 deg|common practice, no source|"},
		{"servo-torque", "fail|servo-torque|0.62|&lt;= 0.5|-0.12|gears.lamp|ratio &gt;= 1.6 worst at 65.0 deg from mid-swing|common practice, no source|"},
		{"seat</td>", "lamp-ring|seat|39.900|40.080|39.900 ± 0.030|measured: petg04|"},
		{"screw hole", "lamp-wheel|screw hole|3.400|3.600|3.400 ± 0.100|not measured: print the coupon|"},
		{"lamp-ring.stl", "lamp-ring|housing.lamp|2|PETG, black|64.00 × 64.00 × 16.25|19000|24.1|3000|closed|lamp-ring.stl|"},
	} {
		if got := strings.Join(cells(page, test.find), "|"); got != test.want {
			t.Errorf("row of %s:\n%s\nwant\n%s", test.find, got, test.want)
		}
	}
	for _, want := range []string{
		"<b>fail</b>: of 3 checks, 1 failed, 1 to be looked at.",
		"lamp &lt;turn&gt;", "Meshing teeth pull in hair",
		"<dt>gears.lamp.module</dt><dd>1.5</dd>", "<dt>gears.lamp.teeth</dt><dd>28, 36</dd>",
		"<dt>servo.lamp.points</dt><dd>(500, -90), (1500, 0), (2500, 90)</dd>",
		"<dt>undercut</dt><dd>false</dd>",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Index(page, ">servo-torque<") > strings.Index(page, ">contact-ratio<") {
		t.Error("the failure does not come first")
	}
}

// The page must stand alone: no script, no address to fetch from, and every
// link leads to a heading of the page.
func TestPageStandsAlone(t *testing.T) {
	drawing := bracketSVG(t)
	page := pageText(t, lampReport(), map[string][]byte{"bracket": drawing, "another": drawing})
	if strings.Count(page, "<svg") != 2 || strings.Contains(page, "<?xml") {
		t.Error("the drawings are not in the page, or with their own heads")
	}
	for _, fetch := range []string{"<script", "<link", "<img", "src=", "@import", "url(", "<iframe"} {
		if strings.Contains(page, fetch) {
			t.Errorf("the page holds %q", fetch)
		}
	}
	for _, m := range regexp.MustCompile(`(\S*)="https?://([^"]*)"`).FindAllStringSubmatch(page, -1) {
		if !strings.HasPrefix(m[1], "xmlns") {
			t.Errorf("the page points to %s", m[0])
		}
	}
	links := regexp.MustCompile(`href="#([^"]*)"`).FindAllStringSubmatch(page, -1)
	if len(links) != 10 {
		t.Errorf("%d links", len(links))
	}
	for _, m := range links {
		if strings.Count(page, `id="`+m[1]+`"`) != 1 {
			t.Errorf("link to %s leads nowhere", m[1])
		}
	}
}

// Whoever cannot see or use a mouse reaches every table: each stands in a
// named region that takes the focus.
func TestPageTablesAreReachable(t *testing.T) {
	page := pageText(t, lampReport(), nil)
	tables := strings.Count(page, "<table")
	if boxes := strings.Count(page, `<div class="scroll" tabindex="0" role="region" aria-label=`); tables != 6 || boxes != tables {
		t.Errorf("%d tables in %d boxes", tables, boxes)
	}
	if !strings.Contains(page, `<html lang="en">`) {
		t.Error("the page names no language")
	}
}

func TestPageOfEmptyReport(t *testing.T) {
	page := pageText(t, export.Report{Title: "nothing yet"}, nil)
	if strings.Contains(page, "<table") || !strings.Contains(page, "<b>pass</b>: nothing stands against this design in 0 checks.") {
		t.Error(page)
	}
}

func TestPageKeepsTheWriteError(t *testing.T) {
	if err := export.WriteHTML(fullDisk{}, lampReport(), export.Figures{}); !errors.Is(err, errFull) {
		t.Errorf("got %v", err)
	}
}
