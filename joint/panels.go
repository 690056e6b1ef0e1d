package joint

import (
	"errors"
	"fmt"
	"path/filepath"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Panel is a flat part of the builder's own shape.
type Panel struct {
	Path      string  `json:"path,omitzero"` // an SVG path, in mm, y downwards as SVG has it
	SVG       string  `json:"svg,omitzero"`  // or a file whose outlines are taken, in the units it names
	Thickness float64 `json:"thickness,omitzero"`
	Material  string  `json:"material,omitzero"`
}

func (t *table) panel() Panel {
	p := Panel{
		Path: t.text("path"), SVG: t.text("svg"),
		Thickness: t.length("thickness"), Material: t.text("material"),
	}
	t.either("path", "svg")
	t.need("thickness")
	if !t.has("path") && !t.has("svg") {
		t.need("path")
	}
	return p
}

// OutlineFiles returns the SVG files that panels name, by panel, seen from where
// the joint file was.
func (f *File) OutlineFiles() map[string]string {
	files := map[string]string{}
	for name, p := range f.Panels {
		if p.SVG != "" && filepath.IsAbs(p.SVG) {
			files[name] = p.SVG
		} else if p.SVG != "" {
			files[name] = filepath.Join(filepath.Dir(f.Path), p.SVG)
		}
	}
	return files
}

var rulePanelWeb = check.Rule{
	Name: "panel-web", Unit: "mm",
	Meaning: "The narrowest bar of a panel between two of its outlines.",
	Formula: "least distance through the material between outlines, or sides of one outline that face each other",
	Source:  check.CommonPractice, Change: "move the outlines apart",
	Sense: check.AtLeast,
}

// addPanels makes every panel: its outlines at their thickness, with the bed edge
// relieved as far as they leave room.
func (b *builder) addPanels() error {
	for _, name := range sorted(b.file.Panels) {
		p := b.file.Panels[name]
		table := "panel." + name
		material, err := b.material(table, p.Material)
		if err != nil {
			return err
		}
		if err := check.InRange("thickness", p.Thickness, "mm", 0.4, 200, "2 to 6 mm is usual"); err != nil {
			return b.file.Blame(table, err)
		}
		contours, key, err := b.outline(name, p)
		if err != nil {
			line, column := b.file.Locate(table, key)
			return &InputError{
				File: b.file.Path, Line: line, Column: column, Key: table + "." + key, Err: err,
				Remedy: "mend the outline there: closed lines that meet nothing else",
			}
		}
		region, err := geom.RegionOf(contours)
		if err != nil {
			return b.file.Blame(table, err)
		}
		below, chamfer := geom.Chamfer(contours, min(b.card.BedChamfer(), p.Thickness/3))
		slabs := []geom.Slab{{Z0: chamfer, Z1: p.Thickness, Bottom: contours}}
		if chamfer > 0 {
			slabs = append([]geom.Slab{{Z1: chamfer, Bottom: below, Top: contours}}, slabs...)
		}
		part, err := geom.NewPart(name+"-panel", slabs...)
		if err != nil {
			return b.file.Blame(table, err)
		}
		b.report.Designs[table] = map[string]any{
			"thickness": p.Thickness, "area": region.Area(), "outlines": len(contours), "holes": region.Holes(), "bed_chamfer": chamfer,
		}
		if web, ok := region.LeastWeb(); ok {
			b.find(table, judgeWeb(web, b.card, b.file.Limits))
		}
		b.addBody(table, part, material, sheetNotes{})
	}
	return nil
}

// outline reads a panel's outlines and says under which key they stand.
func (b *builder) outline(name string, p Panel) ([]geom.Contour, string, error) {
	if p.Path != "" {
		contours, err := geom.ParsePath(p.Path, geom.ChordPlain)
		return contours, "path", err
	}
	data, ok := b.options.Outlines[name]
	if !ok {
		return nil, "svg", errors.New("the file " + p.SVG + " was not read")
	}
	contours, err := geom.ReadOutline(data, geom.ChordPlain)
	if err != nil {
		err = fmt.Errorf("%s: %w", p.SVG, err)
	}
	return contours, "svg", err
}

func judgeWeb(web geom.Gap, card fit.Card, limits check.Limits) check.Finding {
	rule := rulePanelWeb
	rule.Limit = check.Limit{Caution: 2*card.BeadWidth + 0.1, Fail: 2 * card.BeadWidth}
	limit := limits.Of(rule)
	f := rule.Judge(web.Width, limit, fmt.Sprintf("web >= %s mm at (%.2f, %.2f)", check.Number(limit.Caution), web.A.X, web.A.Y))
	return f
}
