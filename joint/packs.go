package joint

import (
	"fmt"
	"io"
	"strings"

	"pintle/check"
	"pintle/export"
	"pintle/geom"
	"pintle/mesh"
)

// packs lists the 3MF files: all parts laid out to print, and each joint that a
// plate places, put together.
func (b *builder) packs() []OutputFile {
	if len(b.report.Parts) == 0 {
		return nil
	}
	pack := func(name string, items func() []export.Item) OutputFile {
		title := strings.TrimPrefix(b.file.Title+", "+name, ", ")
		return OutputFile{name + ".3mf", func(w io.Writer) error { return export.Write3MF(w, title, items()) }}
	}
	files := []OutputFile{pack("bed", b.laidOut)}
	for _, a := range b.arrangements {
		files = append(files, pack(a.name+jointSuffix, func() []export.Item { return b.assembled(a) }))
	}
	return files
}

// laidOut places the parts side by side on the bed.
func (b *builder) laidOut() []export.Item {
	var items []export.Item
	spots := b.spots()
	for i, body := range b.printed() {
		lo, hi := body.part.Bounds()
		items = append(items, export.Item{Mesh: body.mesh, Transform: spots[i].transform(lo, hi)})
	}
	return items
}

// printed returns the bodies that have a mesh.
func (b *builder) printed() []body {
	var printed []body
	for _, body := range b.bodies {
		if body.mesh != nil {
			printed = append(printed, body)
		}
	}
	return printed
}

func (b *builder) spots() []Spot {
	var sizes [][2]float64
	for _, body := range b.printed() {
		lo, hi := body.part.Bounds()
		sizes = append(sizes, [2]float64{hi.X - lo.X, hi.Y - lo.Y})
	}
	return LayOut(sizes, b.card.Bed)
}

// transform brings a part of the bounds from its own frame to the spot.
func (s Spot) transform(lo, hi geom.Point) [12]float64 {
	if s.Turned { // (x, y) to (-y, x)
		return [12]float64{0, 1, 0, -1, 0, 0, 0, 0, 1, s.X + hi.Y, s.Y - lo.X, 0}
	}
	return export.Moved(s.X-lo.X, s.Y-lo.Y, 0)
}

// assembled places the parts of a joint as they stand in it.
func (b *builder) assembled(a *arrangement) []export.Item {
	meshes := map[string]*mesh.Mesh{}
	for _, body := range b.printed() {
		meshes[body.part.Name()] = body.mesh
	}
	var items []export.Item
	for _, p := range a.placed {
		if m, ok := meshes[p.Part]; ok {
			items = append(items, export.Item{Mesh: m, Transform: p.Transform()})
		}
	}
	return items
}

var ruleBeds = check.Rule{
	Name:    "beds",
	Meaning: "How many beds the parts fill when they lie side by side, 5 mm apart, as bed.3mf shows them.",
	Formula: "rows of bounding boxes, the deepest first; noted where there is more than one bed",
	Source:  "geometry",
	Change:  "print one bed after the other, or use a larger bed",
	Sense:   check.Informs,
	Limit:   check.Limit{Caution: check.None, Fail: check.None},
}

// noteBeds records where the parts do not lie on one bed together.
func (b *builder) noteBeds() {
	beds := 0
	for _, spot := range b.spots() {
		beds = max(beds, spot.Bed+1)
	}
	if beds > 1 {
		b.find("printer", ruleBeds.Say(check.Note, float64(beds), fmt.Sprintf("bed.3mf shows %d beds side by side", beds), ruleBeds.Change))
	}
}
