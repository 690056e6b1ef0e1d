package joint

import (
	"fmt"

	"pintle/check"
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
		spec, err := b.grilleSpec(name, t)
		if err != nil {
			return err
		}
		g, err := grille.New(spec)
		if err != nil {
			return b.file.Blame(table, err)
		}
		b.add(table, g, material, func(geom.Part) sheetNotes { return grilleNotes(spec, g) })
	}
	return nil
}

func (b *builder) grilleSpec(name string, t Grille) (grille.Spec, error) {
	spec := grille.Spec{
		Name: name, Outline: grille.Outline(t.Outline), Pattern: t.Pattern,
		Hole: t.Hole, SlotLength: t.SlotLength, Pitch: t.Pitch, PitchAlong: t.PitchAlong,
		Thickness: t.Thickness, Margin: t.Margin, HazardDepth: t.HazardDepth, OpenTarget: t.OpenTarget,
		Card: b.card, Limits: b.webFromCard("grille." + name),
	}
	if err := t.foreign(); err != nil {
		return spec, b.file.Blame("grille."+name, err)
	}
	if t.Screws == (Screws{}) {
		return spec, nil
	}
	screw, err := b.screw("grille."+name, t.Screws.Size, "M3")
	if err != nil {
		return spec, err
	}
	spec.Screws = &grille.Screws{Screw: screw, Count: t.Screws.Count, Circle: t.Screws.Circle, Inset: t.Screws.Inset}
	return spec, nil
}

// foreign returns a *check.FieldError for a size that the outline does not have:
// leaving it aside would make another grille than was asked for.
func (t Grille) foreign() error {
	o, s := t.Outline, t.Screws
	disc, rectangle := o.Kind == grille.Disc, o.Kind == grille.Rectangle
	for _, size := range []struct {
		field  string
		value  float64
		refuse bool
		reason string
	}{
		{"outline length", o.Length, disc, "a disc has a diameter alone"},
		{"outline width", o.Width, disc, "a disc has a diameter alone"},
		{"corner radius", o.CornerRadius, disc, "a disc has no corners"},
		{"outline diameter", o.Diameter, rectangle, "a rectangle has length and width"},
		{"screw circle", s.Circle, rectangle, "the screws of a rectangle stand in its corners and along its sides"},
		{"screw circle", s.Circle, s.Inset != 0, "the inset says it as well"},
	} {
		if size.refuse && size.value != 0 {
			return &check.FieldError{Field: size.field, Value: size.value, Unit: "mm", Reason: size.reason, Remedy: "leave it out"}
		}
	}
	return nil
}

// grilleNotes says on the drawing what nobody wants to count or measure there.
func grilleNotes(spec grille.Spec, g *grille.Grille) sheetNotes {
	return sheetNotes{lines: []string{fmt.Sprintf(
		"%d holes of %s mm in the pattern %s at a pitch of %s mm, narrowest bar %s mm, %.1f %% of the pattern is open",
		len(g.Holes()), check.Number(spec.Hole), spec.Pattern, check.Number(spec.Pitch), check.Number(g.Web()), 100*g.OpenArea(),
	)}}
}
