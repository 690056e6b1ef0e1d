package joint

import (
	"bytes"
	"io"

	"pintle/drawing"
	"pintle/export"
)

// motionFiles lists what is written of each linkage beside its parts, the drawing
// of the mechanism, the moving picture and the table of pulses, and of each
// mechanism the moving picture. The drawings are added to those of the report, and
// the moving pictures returned for it.
func (b *builder) motionFiles(drawings map[string][]byte) (files []OutputFile, moving []export.MovingFigure) {
	show := func(name, design string, shown drawing.Moving) {
		var picture bytes.Buffer
		shown.Title = design + " in motion"
		err := export.WriteMoving(&picture, name, shown)
		moving = append(moving, export.MovingFigure{Caption: design + ": " + shown.Caption, SVG: picture.Bytes()})
		files = append(files, OutputFile{name + "-moving.svg", func(w io.Writer) error { return put(w, picture.Bytes(), err) }})
	}
	for _, name := range sorted(b.courses) {
		show(name, "mechanism."+name, b.courses[name].Moving())
	}
	for _, name := range sorted(b.linkages) {
		l := b.linkages[name]
		var sheet bytes.Buffer
		err := b.writeMechanism(&sheet, l)
		drawings[name+"-mechanism"] = sheet.Bytes()
		files = append(files, OutputFile{name + "-mechanism.svg", func(w io.Writer) error { return put(w, sheet.Bytes(), err) }})
		show(name, l.design(), l.stroke.Moving())
		if table, ok := l.stroke.Pulses(); ok {
			files = append(files, OutputFile{name + "-pulses.csv", func(w io.Writer) error {
				var rows []export.Pulse
				for _, r := range table.Rows {
					rows = append(rows, export.Pulse{Joint: r.JointDeg, Lever: r.LeverDeg, Horn: r.HornDeg, Microseconds: r.PulseMicroseconds})
				}
				return export.WritePulsesCSV(w, rows)
			}})
		}
	}
	return files, moving
}

// writeMechanism sets the drawing of a linkage on its sheet.
func (b *builder) writeMechanism(w io.Writer, l *linked) error {
	sheet := l.stroke.Sheet()
	sheet.Block = b.titleBlock(l.name+"-mechanism", "Assembly drawing")
	sheet.Block.Revision = revision(sheet)
	return writeSheet(w, sheet)
}
