package joint

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"io"
	"strings"

	"pintle/check"
	"pintle/drawing"
	"pintle/drawing/paper"
	"pintle/export"
	"pintle/gear"
	"pintle/geom"
)

// writeDrawing sets the drawing of a part on its sheet.
func (b *builder) writeDrawing(w io.Writer, body body) error {
	return writeSheet(w, b.sheet(body))
}

// writeSheet places a drawing on paper and writes it.
func writeSheet(w io.Writer, sheet drawing.Sheet) error {
	page, err := paper.Set(sheet)
	if err != nil {
		return err
	}
	return export.WriteSVG(w, page)
}

// sheet fills the drawing of a part: its views, what its design and the joint
// say of it, and the title block.
func (b *builder) sheet(body body) drawing.Sheet {
	details := body.sheet.details
	if b.file.Drawing.Teeth && details.Toothed != nil {
		shown := *details.Toothed
		shown.Shown = true
		details.Toothed = &shown
	}
	details.Strokes = append(body.sheet.strokes[:len(body.sheet.strokes):len(body.sheet.strokes)], details.Strokes...)
	part := body.part
	if body.cut != nil {
		part = body.cut.part
	}
	sheet := drawing.OfPart(part, details, b.allowances(part.Name()))
	sheet.Notes = append(b.commonNotes(body), append(body.sheet.lines, sheet.Notes...)...)
	sheet.Block = b.titleBlock(part.Name(), "Part drawing")
	sheet.Block.Material = body.material.Name
	if body.cut != nil {
		sheet.Block.Material = fmt.Sprintf("%s, %s mm measured", b.file.Sheet.Material, check.Number(b.file.Sheet.Thickness))
	}
	sheet.Block.Revision = revision(sheet, part)
	return sheet
}

// titleBlock fills in what the file says of all drawings.
func (b *builder) titleBlock(name, kind string) drawing.TitleBlock {
	papers := b.file.Drawing
	language := papers.Language
	if language == "" {
		language = "en"
	}
	return drawing.TitleBlock{
		Title: strings.ReplaceAll(name, "-", " "), Supplement: b.file.Title,
		Number: name, Kind: kind, Language: language, SheetNumber: "1/1", Tolerances: "ISO 2768-m",
		Owner: papers.Owner, Creator: papers.Designer, Approved: papers.Approved, Issued: papers.Date,
	}
}

// allowances returns what the fits of a part say of its diameters. Those that
// another part goes into or onto carry a tolerance: twice the card's uncertainty.
func (b *builder) allowances(part string) []drawing.Allowance {
	var all []drawing.Allowance
	for _, f := range b.report.Fits {
		if f.Part != part {
			continue
		}
		a := drawing.Allowance{Drawn: f.Drawn, Wanted: f.Wanted}
		if mates(f.Feature) {
			a.Tolerance = 2 * f.Sigma
		}
		all = append(all, a)
	}
	return all
}

// mates says whether another part goes into or onto the feature of a fit, so
// that its size matters more than the general tolerance allows.
func mates(feature string) bool {
	for _, word := range []string{"hole", "shoulder", "outside", "opening", "boss", "slot", "cut-out", "hollow"} {
		if strings.Contains(feature, word) {
			return false
		}
	}
	return true
}

// gearOf returns the gear that a part is, or nil.
func (b *builder) gearOf(part string) *gear.Gear {
	for _, name := range sorted(b.racks) {
		if g := b.racks[name].Pinion(); g.Part().Name() == part {
			return g
		}
	}
	for _, name := range sorted(b.turnings) {
		for _, g := range []*gear.Gear{b.turnings[name].pair.Pinion(), b.turnings[name].pair.Wheel()} {
			if g.Part().Name() == part {
				return g
			}
		}
	}
	return nil
}

// commonNotes says what holds for every part.
func (b *builder) commonNotes(body body) []string {
	drawn := "Sizes are those of the finished part; the STL is drawn for this printer (see the fits in the report)."
	switch {
	case body.cut != nil:
		drawn = fmt.Sprintf("Sizes are those of the finished part; the cut file is drawn with a kerf of %s mm. Quantity %d.", check.Number(b.file.Sheet.Kerf), max(b.file.Sheet.Count, 1))
	case body.design == "coupon":
		drawn = "Drawn as its marks say, without allowance for the printer."
	}
	notes := []string{
		drawn,
		"Sizes without tolerance: ISO 2768-m, ±0.1 to 6, ±0.2 to 30, ±0.3 to 120, ±0.5 to 400 mm. Break sharp edges.",
	}
	if body.cut == nil {
		notes = append(notes, "Printed with the bed side at the bottom of section A-A.")
	}
	return notes
}

// revision returns a short mark that changes whenever the shape of a part or
// anything else on a sheet does, and never otherwise.
func revision(sheet drawing.Sheet, parts ...geom.Part) string {
	h := sha256.New()
	for _, part := range parts {
		h.Write(layerBytes(part))
	}
	for _, v := range sheet.Views {
		for _, d := range v.Dimensions {
			fmt.Fprintln(h, d.Text())
		}
	}
	fmt.Fprintln(h, sheet.Tables, sheet.Notes, sheet.Block)
	return fmt.Sprintf("%X", h.Sum(nil)[:3])
}

// layerBytes returns the layers of a part as bytes.
func layerBytes(part geom.Part) []byte {
	var bytes []byte
	put := func(a, b int32) {
		bytes = binary.LittleEndian.AppendUint32(binary.LittleEndian.AppendUint32(bytes, uint32(a)), uint32(b))
	}
	for _, l := range part.Layers() {
		put(l.Z0, l.Z1)
		for _, region := range []geom.Region{l.Bottom, l.Top} {
			for _, loop := range region.Loops() {
				put(int32(len(loop)), 0)
				for _, v := range loop {
					put(v.X, v.Y)
				}
			}
		}
	}
	return bytes
}
