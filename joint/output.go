package joint

import (
	"bytes"
	"io"
	"sync"

	"pintle/check"
	"pintle/drawing"
	"pintle/export"
	"pintle/mesh"
)

var ruleMesh = check.Rule{
	Name: "mesh-closed", Unit: "triangles",
	Meaning: "The mesh is one closed, oriented surface: each edge once in either direction, one fan round each vertex, no flat triangle, and the volume of the drawn layers.",
	Formula: "number of triangles proved",
	Source:  "geometry", Change: "nothing: a failure is a defect of the tool, please report it",
	Sense: check.Informs, Final: true,
}

// meshAll makes and proves the mesh of every part, as many at a time as the
// machine has processors.
func (b *builder) meshAll() error {
	errs := make([]error, len(b.bodies))
	hanging := make([]check.Finding, len(b.bodies))
	parallel(len(b.bodies), func(i int) {
		body := &b.bodies[i]
		if body.mesh, errs[i] = mesh.FromPart(body.part); errs[i] == nil {
			errs[i] = body.mesh.Verify()
		}
		if errs[i] == nil {
			hanging[i] = b.overhang(body.part)
		}
	})
	for i, body := range b.bodies {
		f := ruleMesh.Say(check.Pass, 0, "", "")
		if errs[i] != nil {
			f.Verdict, f.Detail, f.Remedy = check.Fail, errs[i].Error(), ruleMesh.Change
		} else {
			f.Value = float64(len(body.mesh.Triangles))
			b.report.Parts = append(b.report.Parts, b.entry(body))
			hanging[i].Part = body.part.Name()
			b.find(body.design, hanging[i])
		}
		f.Part = body.part.Name()
		b.find(body.design, f)
	}
	b.noteBeds()
	return nil
}

// entry returns the part's line in the report.
func (b *builder) entry(body body) export.Part {
	lo, hi := body.part.Bounds()
	volume := body.mesh.Volume()
	name := body.part.Name()
	entry := export.Part{
		Name: name, Design: body.design, Files: []string{name + ".stl", name + "-drawing.svg"},
		SizeMM:    [3]float64{hi.X - lo.X, hi.Y - lo.Y, body.part.Height()},
		VolumeMM3: volume, MassG: volume / 1000 * body.material.Density,
		Triangles: len(body.mesh.Triangles), Closed: true, Material: body.material.Name, Count: 1,
		Orientation: "as in the STL, bed side down, not mirrored", BeadsAcross: b.beadsAcross(body),
	}
	if body.cut != nil {
		stock := b.file.Sheet
		entry.Files = append(entry.Files, name+"-cut.svg")
		entry.Material, entry.Count = stock.Material, max(stock.Count, 1)
		entry.MassG = volume / 1000 * stock.Density // 0 where nobody said
		entry.Orientation, entry.BeadsAcross = "", 0
	}
	return entry
}

// accept marks the failures that the file or the command lets through, never
// those of a final rule.
func (b *builder) accept() {
	accepts := b.options.Accept
	for _, key := range sorted(b.file.Accept) {
		accepts = append(accepts, parseAccept(key, b.file.Accept[key]))
	}
	final := map[string]bool{}
	for _, r := range Rules() {
		final[r.Name] = r.Final
	}
	for _, a := range accepts {
		used := false
		for i := range b.report.Findings {
			f := &b.report.Findings[i]
			if f.Verdict == check.Fail && a.Check == f.Check && (a.Design == "" || a.Design == f.Design) && !final[f.Check] {
				f.Accepted, used = a.Reason, true
			}
		}
		if !used {
			b.find(a.Design, ruleUnusedAccept.Say(check.Note, 0, a.Check+" did not fail here: nothing was accepted", "leave it out"))
		}
	}
}

var ruleUnusedAccept = check.Rule{
	Name: "accept-unused", Meaning: "A failure was to be let through that did not occur.",
	Formula: "failed findings of that check and design", Source: "the command and the joint file",
	Change: "leave it out, or name the design as the findings do", Sense: check.Informs,
}

// addCautions adds the warnings that apply to this joint.
func (b *builder) addCautions() {
	applies := map[string]string{"C9": "parts are printed", "C15": "strength figures are given"}
	for _, name := range sorted(b.turnings) {
		t := b.turnings[name]
		applies["C2"] = "gears." + name + " meshes in the open"
		if t.table.Servo != "" {
			applies["C4"] = "servo." + t.table.Servo + " moves it"
			applies["C1"] = "gears." + name + " moves; look at what your figure adds to it, too"
		}
		if load := b.file.Loads[t.table.Load]; load.Axis == "horizontal" && load.CentreOfGravity.Offset > 0 {
			applies["C3"] = "load." + t.table.Load + " is held up by the servo"
		}
	}
	for _, name := range sorted(b.racks) {
		applies["C2"], applies["C1"] = "rack."+name+" meshes in the open", "rack."+name+" moves"
		if servo := b.file.Racks[name].Servo; servo != "" {
			applies["C4"] = "servo." + servo + " moves it"
		}
	}
	for _, name := range sorted(b.linkages) {
		b.linkages[name].warn(applies)
	}
	if len(b.uses) > 0 {
		applies["C10"] = "servos need a supply"
	}
	for _, name := range sorted(b.file.Housings) {
		if b.file.Housings[name].Fit != "slip" {
			applies["C5"] = "housing." + name + " is a press fit"
		}
	}
	for _, name := range sorted(b.file.Loads) {
		if b.file.Loads[name].Overhead {
			applies["C11"] = "load." + name + " is overhead"
		}
	}
	if _, cut := b.report.Designs["sheet"]; cut {
		applies["C14"] = "parts are cut from " + b.file.Sheet.Material
	}
	for _, f := range b.report.Findings {
		if f.Check == ruleCrushing.Name {
			applies["C1"] = f.Detail
		}
		if f.Verdict == check.Fail || f.Verdict == check.Caution {
			switch f.Check {
			case "servo-torque", "servo-held-torque":
				applies["C6"] = f.Design + ": " + f.Check
			case "heat":
				applies["C7"] = f.Part
			}
		}
	}
	for _, c := range check.Cautions() {
		if when, ok := applies[c.Code]; ok {
			c.When = when
			b.report.Cautions = append(b.report.Cautions, c)
		}
	}
}

// files lists what a build writes: meshes and drawings by part, pictures of the
// placed joints, the table of parts, the page, and last the report that names
// the complete set. Pictures are made only when the first of them is written.
func (b *builder) files() []OutputFile {
	var files []OutputFile
	add := func(name string, write func(io.Writer) error) { files = append(files, OutputFile{name, write}) }
	report := b.report
	drawings := map[string]func() ([]byte, error){}
	pictures := sync.OnceValue(b.pictures)
	for _, body := range b.bodies {
		if body.mesh == nil {
			continue
		}
		name := body.part.Name()
		drawings[name] = sync.OnceValues(func() ([]byte, error) {
			var sheet bytes.Buffer
			err := b.writeDrawing(&sheet, body)
			return sheet.Bytes(), err
		})
		add(name+".stl", func(w io.Writer) error { return export.WriteSTL(w, name, body.mesh) })
		add(name+"-drawing.svg", func(w io.Writer) error {
			sheet, err := drawings[name]()
			return put(w, sheet, err)
		})
		if body.cut != nil {
			add(name+"-cut.svg", func(w io.Writer) error { return b.writeCut(w, body) })
		}
	}
	for _, name := range b.joints() {
		add(name+".png", func(w io.Writer) error { return put(w, pictures()[name], nil) })
	}
	files = append(files, b.packs()...)
	for name, draw := range b.assemblies() {
		drawings[name] = sync.OnceValues(draw)
	}
	for _, name := range b.joints() {
		if draw, ok := drawings[name]; ok {
			add(name+"-drawing.svg", func(w io.Writer) error {
				sheet, err := draw()
				return put(w, sheet, err)
			})
		}
	}
	files = append(files, b.keeperSheet()...)
	files = append(files, b.couponFiles()...)
	mechanisms := map[string][]byte{}
	motion, moving := b.motionFiles(mechanisms)
	files = append(files, motion...)
	if len(report.Channels) > 0 {
		add("channels.csv", func(w io.Writer) error { return export.WriteChannelsCSV(w, report.Channels) })
	}
	add("parts.csv", func(w io.Writer) error { return export.WritePartsCSV(w, report.Parts, report.Rods...) })
	add("shopping.csv", func(w io.Writer) error { return export.WriteShoppingCSV(w, report.Shopping) })
	add("report.html", func(w io.Writer) error {
		figures := export.Figures{Drawings: mechanisms, Pictures: pictures(), Lead: b.joints(), Moving: moving}
		for name, draw := range drawings {
			sheet, err := draw()
			if err != nil {
				return err
			}
			figures.Drawings[name] = sheet
		}
		return export.WriteHTML(w, report, figures)
	})
	return files
}

func put(w io.Writer, content []byte, err error) error {
	if err == nil {
		_, err = w.Write(content)
	}
	return err
}

// sheetNotes is what a drawing says beside the outline.
type sheetNotes struct {
	strokes []drawing.Stroke
	lines   []string
	details drawing.Details // from designs that are a drawing.Detailer
}

// detailed adds what the design itself says of a part.
func (n sheetNotes) detailed(design any, part string) sheetNotes {
	if d, ok := design.(drawing.Detailer); ok {
		n.details = d.Details(part)
	}
	return n
}
