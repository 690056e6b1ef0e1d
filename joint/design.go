// Package joint is where the parts of a joint meet: it reads the joint file,
// stacks servo, gears, bearing, ring and plate so that they fit each other,
// lets each design check itself and checks what only shows between them, and
// hands back the report and every file to write.
//
// The frame of a joint: z = 0 is the top of the plate, z points up to the load,
// the bearing's axis is the origin and x points to the servo's axis. Lengths are
// mm; angles are degrees as in the joint file. The package opens no files.
package joint

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"

	"pintle/bearing"
	"pintle/check"
	"pintle/coupon"
	"pintle/export"
	"pintle/fit"
	"pintle/gear"
	"pintle/geom"
	"pintle/linkage"
	"pintle/mesh"
)

// Options are what a command adds to a joint file. The zero value adds nothing.
type Options struct {
	Tool       string            // name and version, for the report
	Card       *fit.Card         // takes the place of the file's printer numbers
	ChordError float64           // mm on the radius for gear flanks; 0 uses the defaults
	Accept     []Accept          // failures let through, beside those of the file
	Outlines   map[string][]byte // the SVG files that panels name, by panel
	Slice      bool              // make the test slice of the joint in place of its parts
	CheckOnly  bool              // nothing will be written: the report names no files
}

// Accept lets the failures of one check through, of one design or of all.
type Accept struct{ Check, Design, Reason string }

// An OutputFile is one file of a build: its name and how to write its bytes.
type OutputFile struct {
	Name  string
	Write func(io.Writer) error
}

// ReportName is the file that says that a set is complete: it names all of them,
// goes first where a set is put away and comes last where one is written.
const ReportName = "report.json"

// A Result is a designed and checked joint. Files is complete only where
// nothing failed; report.json is the last of it.
type Result struct {
	Report export.Report
	Files  []OutputFile
}

// Failed returns the findings that stop a build: failed and not accepted.
func (r *Result) Failed() []check.Finding {
	var failed []check.Finding
	for _, f := range r.Report.Findings {
		if f.Verdict == check.Fail && f.Accepted == "" {
			failed = append(failed, f)
		}
	}
	return failed
}

// A design is what the joint asks of each kind of design.
type design interface {
	Values() map[string]any
	Findings() []check.Finding
	Fits() []fit.Fit
	Parts() []geom.Part
}

// A body is one part to print and what the report says of it beside its shape.
type body struct {
	part     geom.Part
	design   string
	material fit.Material
	mesh     *mesh.Mesh
	sheet    sheetNotes
	cut      *cutting // nil for a part that is not cut from sheet
}

// A builder gathers one joint.
type builder struct {
	file     *File
	options  Options
	trying   bool // a candidate of a search, for what fails alone
	card     fit.Card
	report   export.Report
	bodies   []body
	turnings map[string]*turning // by gears table
	racks    map[string]*gear.RackDrive
	housings map[string]*bearing.Housing
	linkages map[string]*linked
	courses  map[string]*linkage.Course // by mechanism table
	coupon   *coupon.Coupon

	arrangements []*arrangement
	uses         []servoUse
}

// Design works out and checks the joint. The error is an *InputError where the
// file or a flag holds something that no design can be made of; everything else
// is a finding of the report.
func Design(file *File, options Options) (*Result, error) {
	b := newBuilder(file, options)
	if err := b.run(); err != nil && !errors.Is(err, errNoPair) {
		return nil, err
	}
	return b.finish()
}

func newBuilder(file *File, options Options) *builder {
	return &builder{
		file: file, options: options,
		turnings: map[string]*turning{}, racks: map[string]*gear.RackDrive{}, housings: map[string]*bearing.Housing{},
		linkages: map[string]*linked{}, courses: map[string]*linkage.Course{},
		report: export.Report{
			Tool: options.Tool, Title: file.Title, Inputs: file.Inputs(),
			Designs: map[string]map[string]any{},
		},
	}
}

func (b *builder) run() error {
	if err := b.readCard(); err != nil {
		return err
	}
	for _, step := range []func() error{
		b.addMechanisms,
		b.checkSharing, b.addGears, b.addRacks, b.addHousings, b.addPlates, b.addLinkages, b.addGrilles, b.addPanels, b.addCoupon, b.findLikely,
		b.addDrives, b.addChannels, b.addPower, b.addSheet, b.judgeReadings, b.findGuessed, b.checkNames,
	} {
		if err := step(); err != nil {
			return err
		}
	}
	if b.options.Slice {
		return b.slice()
	}
	return nil
}

// readCard takes the printer's numbers from the options or from the file.
func (b *builder) readCard() error {
	b.card = b.file.Card()
	if b.options.Card != nil {
		b.card = *b.options.Card
	}
	b.card.Readings = b.file.cardReadings()
	if err := b.card.Validate(); err != nil {
		return b.file.Blame("printer", err)
	}
	b.report.Designs["printer"] = map[string]any{
		"card": b.card.Name, "bead_width": b.card.BeadWidth, "layer_thickness": b.card.LayerThickness,
		"bore_error": b.card.Bore.Offset, "bore_error_per_mm": b.card.Bore.PerMM, "bore_error_sigma": b.card.Bore.Sigma,
		"outside_error": b.card.Outside.Offset, "outside_error_per_mm": b.card.Outside.PerMM, "outside_error_sigma": b.card.Outside.Sigma,
		"first_layer_growth": b.card.FirstLayerGrowth,
	}
	return nil
}

// findGuessed says which fits stand on what nobody has measured.
func (b *builder) findGuessed() error {
	if !b.card.Guessed() {
		return nil
	}
	on := ""
	if n := len(b.report.Fits); n > 0 {
		on = fmt.Sprintf(": each of the %d fits in %s", n, strings.Join(b.partsWithFits(), ", "))
	}
	b.find("printer", fit.RuleUnmeasured.Say(check.Caution, b.card.Bore.Sigma,
		"bores and outsides are first guesses or typed in, not measured on a coupon"+on,
		"print the coupon and measure it before trusting a press fit or a backlash"))
	return nil
}

// find records a finding of a design.
func (b *builder) find(design string, findings ...check.Finding) {
	for _, f := range findings {
		f.Design = design
		b.report.Findings = append(b.report.Findings, f)
	}
}

// add records a finished design and its parts.
func (b *builder) add(name string, d design, material fit.Material, notes func(geom.Part) sheetNotes) {
	b.report.Designs[name] = d.Values()
	b.find(name, d.Findings()...)
	b.report.Fits = append(b.report.Fits, d.Fits()...)
	for _, part := range d.Parts() {
		b.addBody(name, part, material, notes(part).detailed(d, part.Name()))
	}
}

func (b *builder) addBody(design string, part geom.Part, material fit.Material, notes sheetNotes) {
	b.bodies = append(b.bodies, body{part: part, design: design, material: material, sheet: notes})
	b.find(design, b.onBed(design, part))
	if b.file.Has("place.hottest") {
		b.find(design, fit.CheckHeat(material, part.Name(), b.file.Place.Hottest, b.file.Limits))
	}
}

var ruleBed = check.Rule{
	Name: "bed", Unit: "mm",
	Meaning: "The part lies flat on the printer's bed.",
	Formula: "least of bed length - part length and bed width - part width, turned by 90 degrees if that fits better",
	Source:  "geometry", Change: "choose a smaller module, thinner walls or a larger printer",
	Sense: check.AtLeast, Limit: check.Limit{Caution: 4, Fail: 0},
}

func (b *builder) onBed(design string, part geom.Part) check.Finding {
	lo, hi := part.Bounds()
	x, y := hi.X-lo.X, hi.Y-lo.Y
	bed, limit := b.card.Bed, b.file.Limits.Of(ruleBed)
	spare := max(min(bed[0]-x, bed[1]-y), min(bed[0]-y, bed[1]-x))
	fits := fmt.Sprintf("%.1f x %.1f mm are too much: at most %s x %s mm fit", x, y, check.Number(bed[0]-limit.Caution), check.Number(bed[1]-limit.Caution))
	if name, ok := strings.CutPrefix(design, "gears."); ok {
		m := b.file.Gears[name].Module * (min(bed[0], bed[1]) - limit.Caution) / max(x, y)
		fits += fmt.Sprintf(", module <= %s mm with these teeth", check.Number(math.Floor(m*100)/100))
	}
	f := ruleBed.Judge(spare, limit, fits)
	f.Part = part.Name()
	return f
}

// material returns the plastic of a part: its table's own, else the printer's.
func (b *builder) material(table, own string) (fit.Material, error) {
	name, at := own, table
	if name == "" {
		name, at = b.file.Printer.Material, "printer"
	}
	if m, ok := b.file.Materials[name]; ok {
		return m, nil
	}
	if m, ok := fit.MaterialNamed(name); ok {
		return m, nil
	}
	return fit.Material{}, b.file.Blame(at, &check.FieldError{
		Field: "material", Text: name, Reason: "is not one of the known materials",
		Remedy: "use PLA, PETG, ABS or PA, or describe yours in [material." + name + "]",
	})
}

// screw returns the screw of a size word such as "M3".
func (b *builder) screw(table, size, otherwise string) (fit.Screw, error) {
	if size == "" {
		size = otherwise
	}
	if s, ok := fit.ScrewNamed(size); ok {
		return s, nil
	}
	return fit.Screw{}, b.file.Blame(table, &check.FieldError{
		Field: "screw size", Text: size, Reason: "is not one of the known screws",
		Remedy: "use M2, M2.5, M3, M4, M5, M6 or M8",
	})
}

// sorted returns the names of a table in order, so that nothing depends on the
// order of a map.
func sorted[T any](tables map[string]T) []string { return slices.Sorted(maps.Keys(tables)) }

// finish meshes and proves the parts, applies what the user accepts and lists
// the files.
func (b *builder) finish() (*Result, error) {
	if len(b.bodies) == 0 && len(b.report.Findings) <= 1 && b.coupon == nil && !b.found(check.Fail) {
		return nil, errors.Join(b.file.Blame("", &check.FieldError{
			Field: "joint file", Text: b.file.Path, Reason: "describes no part to build",
			Remedy: "add a [gears.NAME], [housing.NAME] or [plate.NAME] table",
		}))
	}
	if err := b.meshAll(); err != nil {
		return nil, err
	}
	b.checkArrangements()
	b.findMismatch()
	b.accept()
	b.addCautions()
	b.addKnown()
	b.addPlaced()
	b.addCurves()
	b.report.Shopping = b.shopping()
	b.report.Verdict = export.Verdict(b.report.Findings)
	return b.named(b.files()), nil
}

// named returns the result with the names of all files in its report, which is
// written last: a later build knows by it what belongs to the set.
func (b *builder) named(files []OutputFile) *Result {
	for _, file := range files {
		b.report.Files = append(b.report.Files, file.Name)
	}
	b.report.Files = append(b.report.Files, ReportName)
	if b.options.CheckOnly {
		b.report.Files = nil
	}
	return &Result{Report: b.report, Files: append(files, OutputFile{ReportName, func(w io.Writer) error { return export.WriteJSON(w, b.report) }})}
}
