package joint

import "pintle/grille"

func (t *table) grille() Grille {
	g := Grille{
		Outline:     t.table("outline").outline(),
		Pattern:     t.word("pattern", grille.Patterns()),
		Hole:        t.length("hole"),
		SlotLength:  t.length("slot_length"),
		Pitch:       t.length("pitch"),
		PitchAlong:  t.length("pitch_along"),
		Thickness:   t.length("thickness"),
		Margin:      t.length("margin"),
		HazardDepth: t.length("hazard_depth"),
		OpenTarget:  t.plain("open_target"),
		Material:    t.text("material"),
		Screws:      t.table("screws").screws(),
	}
	t.need("outline", "pattern", "hole", "pitch", "thickness")
	if g.Pattern == grille.Slot {
		t.need("slot_length")
	}
	return g
}

func (t *table) outline() Outline {
	o := Outline{
		Kind:         t.word("kind", Outlines()),
		Diameter:     t.length("diameter"),
		Length:       t.length("length"),
		Width:        t.length("width"),
		CornerRadius: t.length("corner_radius"),
	}
	t.need("kind")
	switch o.Kind {
	case grille.Disc:
		t.need("diameter")
	case grille.Rectangle:
		t.need("length", "width")
	}
	t.finish()
	return o
}

func (t *table) screws() Screws {
	s := Screws{
		Size:   t.text("size"),
		Count:  t.count("count"),
		Circle: t.length("circle"),
		Inset:  t.length("inset"),
	}
	t.need("size", "count")
	t.finish()
	return s
}
