package joint

import (
	"slices"

	"pintle/gear"
)

// shaftHubs are the hubs that sit on a rod whose size is given as measured.
func shaftHubs() []string { return []string{"d-bore", "hex", "square", "keyway", "clamp"} }

// gearKeys refuses keys that mean nothing for the hub of a gear, and asks for
// those that it needs.
func (t *table) gearKeys(g Gear) {
	if t == nil {
		return
	}
	onShaft := slices.Contains(shaftHubs(), g.Hub)
	switch {
	case onShaft:
		t.need("shaft")
	case g.Hub == "bearing":
		t.need("bearing")
	}
	if t.has("shaft") && !onShaft && g.Hub != "round" && g.Hub != "" {
		t.refuse("shaft", "means nothing with hub = \""+g.Hub+"\"", "leave it out, or use hub = \"round\"")
	}
	if g.Hub != "d-bore" && t.has("over_flat") {
		t.refuse("over_flat", "is of hub = \"d-bore\"", "leave it out, or change hub")
	}
	if g.Hub != "horn" && t.has("horn_screws") {
		t.refuse("horn_screws", "is of hub = \"horn\"", "leave it out, or change hub")
	}
	if g.Hub != "clamp" && t.has("clamp") {
		t.refuse("clamp", "is of hub = \"clamp\"", "leave it out, or change hub")
	}
}

// setScrew reads the size of a set screw, or a table.
func (t *table) setScrew(key string) SetScrew {
	v, ok := t.value(key)
	if !ok {
		return SetScrew{}
	}
	if _, ok := v.(map[string]any); !ok {
		return SetScrew{ScrewSize: t.text(key)}
	}
	in := t.table(key)
	s := SetScrew{ScrewSize: in.text("screw_size"), Holds: in.word("holds", SetHolders()), Count: in.count("count")}
	in.need("screw_size")
	in.finish()
	return s
}

func (t *table) clamp() Clamp {
	c := Clamp{ScrewSize: t.text("screw_size"), Slit: t.length("slit")}
	t.finish()
	return c
}

// lighten reads the name of a way to lighten a gear, or a table.
func (t *table) lighten(key string) Lighten {
	v, ok := t.value(key)
	if !ok {
		return Lighten{}
	}
	if _, ok := v.(map[string]any); !ok {
		return Lighten{Kind: t.word(key, gear.Lightenings())}
	}
	in := t.table(key)
	l := Lighten{
		Kind: in.word("kind", gear.Lightenings()), Count: in.count("count"), Rim: in.length("rim"), Hub: in.length("hub"),
		Width: in.length("width"), Web: in.length("web"), Fillet: in.length("fillet"),
	}
	in.need("kind")
	in.finish()
	return l
}

// mark reads the style of a mark, or a table.
func (t *table) mark(key string) Mark {
	v, ok := t.value(key)
	if !ok {
		return Mark{}
	}
	if _, ok := v.(map[string]any); !ok {
		return Mark{Style: t.word(key, MarkStyles())}
	}
	in := t.table(key)
	m := Mark{Style: in.word("style", MarkStyles()), Text: in.text("text"), Sector: in.yes("sector"), Height: in.length("height")}
	in.need("style")
	in.finish()
	return m
}
