package joint

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"pintle/check"
	"pintle/drawing"
	"pintle/drawing/paper"
	"pintle/export"
)

// defaultInspection is after how many cycles there and back a joint is looked
// into, where the file does not say (common practice, no source).
const defaultInspection = 50000

// A Keeper table is what the sheet for whoever looks after the figure says.
type Keeper struct {
	InspectionCycles float64 `json:"inspection_cycles,omitzero"` // there and back; zero for the default
	Purpose          string  `json:"purpose,omitzero"`
	Contact          string  `json:"contact,omitzero"` // whom to ask
}

func (t *table) keeper() Keeper {
	if t == nil {
		return Keeper{}
	}
	k := Keeper{InspectionCycles: t.plain("inspection_cycles"), Purpose: t.text("purpose"), Contact: t.text("contact")}
	if t.has("inspection_cycles") && k.InspectionCycles < 1 {
		t.refuse("inspection_cycles", "must be 1 or more", "50000 is a start; go by what the first inspections find")
	}
	t.finish()
	return k
}

// keeperSheet is one page for whoever looks after the figure.
func (b *builder) keeperSheet() []OutputFile {
	if len(b.turnings)+len(b.racks)+len(b.linkages) == 0 || b.options.Slice {
		return nil
	}
	return []OutputFile{{"keeper.svg", func(w io.Writer) error {
		form := b.keeperForm()
		page, err := paper.SetForm(form)
		for err != nil && len(form.Sections) > 1 { // many joints: the last sections can go
			form.Sections = form.Sections[:len(form.Sections)-1]
			page, err = paper.SetForm(form)
		}
		if err != nil {
			return err
		}
		return export.WriteSVG(w, page)
	}}}
}

func (b *builder) keeperForm() drawing.Form {
	k := b.file.Keeper
	f := drawing.Form{Title: "Keeper's sheet", Supplement: b.file.Title}
	about := []string{}
	if k.Purpose != "" {
		about = append(about, k.Purpose)
	}
	about = append(about, "Ask when in doubt: "+orLine(k.Contact))
	f.Sections = append(f.Sections,
		drawing.FormSection{Title: "What it is", Lines: about},
		drawing.FormSection{Title: "On and off", Lines: b.onAndOff()},
		drawing.FormSection{Title: "Cautions", Lines: b.keeperCautions()},
		drawing.FormSection{Title: "Every day", Lines: []string{
			"Look for loose screws, cracks at rings and hubs, dust under the gears.",
			"Listen for clicks while it moves and for a hum at rest.",
			"Feel the free play at the end of the moving part, and after an hour how warm the servo is. Try the stop switch.",
		}},
		drawing.FormSection{Title: "Inspection", Table: b.inspections()},
		drawing.FormSection{Title: "Readings", Lines: []string{"Fill in on the first day what it measured when new; stop the figure when a reading passes its limit."}, Table: b.baseline()},
		drawing.FormSection{Title: "Spares", Table: b.spares()},
		drawing.FormSection{Title: "Log", Table: log()},
	)
	f.Mark = "keeper, revision " + revision(drawing.Sheet{Notes: formText(f)})
	return f
}

// orLine returns the text, or a line to write on.
func orLine(text string) string {
	if text == "" {
		return "________________________________"
	}
	return text
}

func formText(f drawing.Form) []string {
	var text []string
	for _, s := range f.Sections {
		text = append(text, s.Title)
		text = append(text, s.Lines...)
		for _, row := range s.Table.Rows {
			text = append(text, row...)
		}
	}
	return text
}

// onAndOff is the order of switching, from what the cautions know.
func (b *builder) onAndOff() []string {
	on, off := "On: look that nobody and nothing is in the way, then switch on and keep clear until it stands still.", "Off: let it come to rest, then switch off."
	if b.cautioned("C3") {
		off = "Off: support what it holds up first, then switch off: it falls when the power goes."
	}
	return []string{on, off}
}

func (b *builder) cautioned(code string) bool {
	return slices.ContainsFunc(b.report.Cautions, func(c export.Caution) bool { return c.Code == code })
}

// keeperCautions are those that hold while the figure is shown; the others are
// for whoever builds it.
func (b *builder) keeperCautions() []string {
	var lines []string
	for _, c := range b.report.Cautions {
		switch c.Code {
		case "C1", "C2", "C3", "C4", "C6", "C7", "C10", "C11", "C12", "C13", "C16":
			lines = append(lines, c.Code+"  "+c.Text)
		}
	}
	return lines
}

// inspections says how often each joint is looked into.
func (b *builder) inspections() drawing.Table {
	t := drawing.Table{Columns: []string{"Joint", "Cycles a day", "Inspect after", "that is", "What to do"}}
	interval := b.file.Keeper.InspectionCycles
	if interval == 0 {
		interval = defaultInspection
	}
	motions := map[string]string{}
	for name, turning := range b.turnings {
		motions[name] = turning.table.Motion
	}
	for name, linkage := range b.linkages {
		motions[name] = linkage.table.Motion
	}
	for name := range b.racks {
		motions[name] = "" // a rack's table says how it moves, not how often
	}
	for _, name := range sorted(motions) {
		perDay := b.file.Motions[motions[name]].CyclesPerDay
		days, cycles := "count the cycles", "not given"
		if perDay > 0 {
			days, cycles = dayCount(interval/perDay), check.Number(perDay)
		}
		t.Row(name, cycles, check.Number(interval)+" cycles", days, "take the readings below, clean, tighten")
	}
	return t
}

// dayCount rounds days down, so that an inspection is never late.
func dayCount(days float64) string {
	if n := math.Floor(days); n >= 2 {
		return fmt.Sprintf("every %.0f days", n)
	}
	return "every day"
}

// wornShare of the backlash that the wear may add before a pair is replaced: as
// much again as it had when new (common practice, no source).
const wornShare = 1.0

// baseline lists what to measure when new and at each inspection. Where both
// gears wear alike, each tooth loses half of what the backlash gains along the
// base circle, and the span measurement shows it: (j / 2) cos alpha_w.
func (b *builder) baseline() drawing.Table {
	t := drawing.Table{
		Columns: []string{"What", "Should be", "Limit", "When new", "Date", "Read", "Date", "Read"},
		Room:    []float64{0, 0, 0, 17, 14, 14, 14, 14},
	}
	row := func(what, should, limit string) { t.Row(what, should, limit, "", "", "", "", "") }
	for _, name := range sorted(b.turnings) {
		p := b.turnings[name].pair
		wear := wornShare * p.Backlash() / 2 * math.Cos(p.WorkingPressureAngle())
		lost := p.LostMotion() * 180 / math.Pi
		row(name+": free play, wheel", hundredth(lost)+"°", hundredth((1+wornShare)*lost)+"°")
		for i, g := range []string{"pinion", "wheel"} {
			v := p.Values()
			width, ok := v["W"+strconv.Itoa(i+1)].(float64)
			if !ok {
				continue
			}
			row(fmt.Sprintf("%s-%s: W over %v teeth", name, g, v["k"+strconv.Itoa(i+1)]), hundredth(width), hundredth(width-wear))
		}
	}
	for _, name := range sorted(b.racks) {
		play := b.racks[name].Spec().Pair.Backlash
		row(name+": free play, rack", hundredth(play)+" mm", hundredth((1+wornShare)*play)+" mm")
	}
	for _, name := range sorted(b.linkages) {
		row(name+": free play, end of the lever", "as new", "2 × new")
	}
	row("Servo: current at rest, A", "as new", "1.5 × new")
	if len(b.file.Housings) > 0 {
		row("Bearing: rocking by hand", "none felt", "felt")
	}
	return t
}

func hundredth(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// spares lists what should lie in the drawer.
func (b *builder) spares() drawing.Table {
	t := drawing.Table{Columns: []string{"Spares", "What", "How"}}
	for _, s := range b.report.Shopping {
		if s.Spare == 0 {
			continue
		}
		how := s.How
		if s.Wears {
			how += ", wears: " + s.Name + ".stl"
		}
		t.Row(strconv.Itoa(s.Spare), s.Name, how)
	}
	return t
}

// log is lines to write on.
func log() drawing.Table {
	t := drawing.Table{Columns: []string{"Date", "What was seen and done", "By"}, Room: []float64{25, 120, 30}}
	for range 3 {
		t.Row("", "", "")
	}
	return t
}
