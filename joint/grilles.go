package joint

import (
	"pintle/geom"
	"pintle/grille"
)

// addGrilles designs every grille.
func (b *builder) addGrilles() error {
	for _, name := range sorted(b.file.Grilles) {
		t := b.file.Grilles[name]
		table := "grille." + name
		material, err := b.material(table, t.Material)
		if err != nil {
			return err
		}
		spec := grille.Spec{
			Name: name, Pattern: t.Pattern, Hole: t.Hole, Pitch: t.Pitch, Thickness: t.Thickness, Margin: t.Margin,
			Outline: grille.Outline{Kind: t.Outline.Kind, Diameter: t.Outline.Diameter, Length: t.Outline.Width, Width: t.Outline.Height},
			Card:    b.card, Limits: b.file.Limits,
		}
		if t.Screws.Count > 0 {
			screw, err := b.screw(table, t.Screws.Size, "M3")
			if err != nil {
				return err
			}
			spec.Screws = &grille.Screws{Screw: screw, Count: t.Screws.Count, Circle: t.Screws.Circle}
		}
		g, err := grille.New(spec)
		if err != nil {
			return b.file.Blame(table, err)
		}
		b.add(table, g, material, func(geom.Part) sheetNotes { return sheetNotes{} })
	}
	return nil
}
