package export

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html/template"
	"maps"
	"slices"
	"strconv"
	"strings"

	"pintle/check"
	"pintle/fit"
)

// A recordSheet is a Report in words, ready to print.
type recordSheet struct {
	Title, Tool, Summary string
	Verdict              check.Verdict
	Sections             []section
	Cautions             []Caution
	Findings             []findingRow
	Parts                []partRow
	Fits                 []fitRow
	Designs              []designRows
	Placed               []placedRow
	Clearances           []clearanceRow
	Moving, Drawings     []inlineDrawing
	Channels             []channelRow
	Pictures             []inlinePicture
	Inputs               []namedText
	Known                []Known
	Assembly             []string
	Curves               []drawnCurve
	Shopping             []supplyRow
}

type (
	section    struct{ ID, Name string }
	designRows struct {
		Name   string
		Values []namedText
	}
	inlineDrawing struct {
		Name string
		SVG  template.HTML
	}
	inlinePicture struct {
		Name string
		Lead bool
		PNG  template.URL
	}
	findingRow struct {
		check.Finding
		Of, Value, Margin string
	}
	partRow struct {
		Part
		Size, Volume, Mass, Files string
	}
	supplyRow struct {
		Supply
		Mass string
	}
	fitRow    struct{ Part, Feature, Wanted, Drawn, Expected, Card string }
	placedRow struct {
		Joint, Part, X, Y, Z, Turn, MovesWith string
		Flip                                  bool
	}
	channelRow   struct{ Channel, Servo, Moves, Low, Middle, High, Stall string }
	clearanceRow struct{ Joint, A, B, Width, Place, At string }
)

func newRecordSheet(r Report, figures Figures) (*recordSheet, error) {
	if _, err := json.Marshal(r); err != nil { // finds NaN and infinities
		return nil, err
	}
	inputs, err := flatten(r.Inputs)
	if err != nil {
		return nil, err
	}
	s := &recordSheet{
		Title: r.Title, Tool: r.Tool, Verdict: r.Verdict, Summary: summary(r.Findings),
		Cautions: r.Cautions, Findings: findingRows(r.Findings), Inputs: inputs, Known: r.Known, Assembly: r.Assembly,
	}
	for _, p := range r.Parts {
		s.Parts = append(s.Parts, partRow{
			p, fmt.Sprintf("%.2f × %.2f × %.2f", p.SizeMM[0], p.SizeMM[1], p.SizeMM[2]),
			fmt.Sprintf("%.0f", p.VolumeMM3), fmt.Sprintf("%.1f", p.MassG), strings.Join(p.Files, ", "),
		})
	}
	for _, f := range r.Fits {
		s.Fits = append(s.Fits, newFitRow(f))
	}
	for _, name := range slices.Sorted(maps.Keys(r.Designs)) {
		values, err := flatten(r.Designs[name])
		if err != nil {
			return nil, err
		}
		s.Designs = append(s.Designs, designRows{name, values})
	}
	for _, p := range r.Placed {
		s.Placed = append(s.Placed, placedRow{
			p.Joint, p.Part, check.Number(p.X), check.Number(p.Y), check.Number(p.Z), check.Number(p.TurnDeg), p.MovesWith, p.Flip,
		})
	}
	for _, c := range r.Channels {
		s.Channels = append(s.Channels, newChannelRow(c))
	}
	for _, c := range r.Clearances {
		s.Clearances = append(s.Clearances, newClearanceRow(c))
	}
	for _, name := range slices.Sorted(maps.Keys(figures.Drawings)) {
		s.Drawings = append(s.Drawings, inlineDrawing{name, template.HTML(svgElement(figures.Drawings[name]))})
	}
	for _, m := range figures.Moving {
		s.Moving = append(s.Moving, inlineDrawing{m.Caption, template.HTML(svgElement(m.SVG))})
	}
	for _, name := range figures.order() {
		png := base64.StdEncoding.EncodeToString(figures.Pictures[name])
		s.Pictures = append(s.Pictures, inlinePicture{name, slices.Contains(figures.Lead, name), template.URL("data:image/png;base64," + png)})
	}
	for _, supply := range r.Shopping {
		s.Shopping = append(s.Shopping, supplyRow{supply, blank(supply.MassG, fmt.Sprintf("%.1f", supply.MassG))})
	}
	for _, c := range r.Curves {
		s.Curves = append(s.Curves, drawCurve(c))
	}
	s.Sections = s.sections()
	return s, nil
}

func newChannelRow(c Channel) channelRow {
	end := func(i int) string {
		return fmt.Sprintf("%.0f µs: %s %s", c.Pulse[i], check.Number(c.Joint[i]), c.Unit)
	}
	row := channelRow{strconv.Itoa(c.Channel), c.Servo, c.Moves, end(0), end(1), end(2), "not stated"}
	if c.StallCurrent > 0 {
		row.Stall = check.Number(c.StallCurrent)
	}
	return row
}

func newClearanceRow(c Clearance) clearanceRow {
	row := clearanceRow{
		c.Joint, c.A, c.B, fmt.Sprintf("%.2f", c.Width),
		fmt.Sprintf("%.1f, %.1f, %.1f", c.X, c.Y, c.Z), "they do not move against each other",
	}
	switch {
	case c.AtDeg != nil:
		row.At = fmt.Sprintf("%s at %.1f deg", c.Of, *c.AtDeg)
	case c.Moving:
		row.At = "everywhere"
	}
	return row
}

func (s *recordSheet) sections() []section {
	var sections []section
	for _, q := range []struct {
		id, name string
		rows     int
	}{
		{"pictures", "Pictures", len(s.Pictures)},
		{"cautions", "Cautions", len(s.Cautions)},
		{"findings", "Findings", len(s.Findings)},
		{"assembly", "Putting it together", len(s.Assembly)},
		{"shopping", "To print, cut and buy", len(s.Shopping)},
		{"known", "Measured and guessed", len(s.Known)},
		{"servos", "Servos and their pulses", len(s.Channels)},
		{"parts", "Parts", len(s.Parts)},
		{"fits", "Fits", len(s.Fits)},
		{"designs", "Design values", len(s.Designs)},
		{"placed", "Where the parts stand", len(s.Placed)},
		{"clearances", "Clearances through the swing", len(s.Clearances)},
		{"curves", "Through the motion", len(s.Curves) + len(s.Moving)},
		{"drawings", "Drawings", len(s.Drawings)},
		{"inputs", "Inputs", len(s.Inputs)},
	} {
		if q.rows > 0 {
			sections = append(sections, section{q.id, q.name})
		}
	}
	return sections
}

// svgElement drops what stands before the svg element: a page has its own head.
func svgElement(file []byte) []byte {
	if i := bytes.Index(file, []byte("<svg")); i > 0 {
		return file[i:]
	}
	return file
}

// summary puts the verdict into a sentence.
func summary(findings []check.Finding) string {
	var fails, accepted, cautions int
	for _, f := range findings {
		switch {
		case f.Verdict == check.Fail && f.Accepted != "":
			accepted++
		case f.Verdict == check.Fail:
			fails++
		case f.Verdict == check.Caution:
			cautions++
		}
	}
	var parts []string
	for _, q := range []struct {
		n    int
		text string
	}{{fails, "failed"}, {accepted, "failed and accepted"}, {cautions, "to be looked at"}} {
		if q.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", q.n, q.text))
		}
	}
	of := fmt.Sprintf("%d checks", len(findings))
	if len(parts) == 0 {
		return "nothing stands against this design in " + of + "."
	}
	return "of " + of + ", " + strings.Join(parts, ", ") + "."
}

// findingRows puts the worst findings first and keeps the order otherwise.
func findingRows(findings []check.Finding) []findingRow {
	var rows []findingRow
	for _, v := range []check.Verdict{check.Fail, check.Caution, check.Note, check.Pass} {
		for _, f := range findings {
			if f.Verdict == v {
				of := strings.TrimSuffix(f.Design+", "+f.Part, ", ")
				rows = append(rows, findingRow{f, of, withUnit(f.Value, f.Unit), margin(f)})
			}
		}
	}
	return rows
}

// margin returns how far a value is on the good side of its limit, with its
// sign, or "" where the finding has no limit.
func margin(f check.Finding) string {
	sign, number, ok := strings.Cut(f.Limit, " ")
	limit, err := strconv.ParseFloat(number, 64)
	if !ok || err != nil {
		return ""
	}
	m := f.Value - limit
	if sign == "<=" {
		m = -m
	}
	if m > 0 {
		return "+" + check.Number(m)
	}
	return check.Number(m)
}

func withUnit(v float64, unit string) string {
	return strings.TrimSuffix(check.Number(v)+" "+unit, " ")
}

func newFitRow(f fit.Fit) fitRow {
	row := fitRow{
		f.Part, f.Feature, fmt.Sprintf("%.3f", f.Wanted), fmt.Sprintf("%.3f", f.Drawn),
		fmt.Sprintf("%.3f ± %.3f", f.Expected, f.Sigma), f.Card,
	}
	if (fit.Card{Name: f.Card}).Measured() {
		return row
	}
	row.Card = ""
	return row
}

// order returns the names of the pictures, those that lead first.
func (f Figures) order() []string {
	names := slices.Sorted(maps.Keys(f.Pictures))
	slices.SortStableFunc(names, func(a, b string) int {
		rank := map[bool]int{true: 0, false: 1}
		return rank[slices.Contains(f.Lead, a)] - rank[slices.Contains(f.Lead, b)]
	})
	return names
}
