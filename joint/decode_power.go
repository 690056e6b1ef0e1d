package joint

import "pintle/quantity"

func (t *table) supply() Supply {
	if t == nil {
		return Supply{}
	}
	s := Supply{
		Voltage: t.quantity("voltage", quantity.Voltage),
		Current: t.quantity("current", quantity.Current),
		Peak:    t.quantity("peak_current", quantity.Current),
		Fuse:    t.quantity("fuse", quantity.Current),
	}
	if !t.has("peak_current") {
		s.Peak = s.Current
	}
	t.need("voltage", "current")
	t.finish()
	return s
}

func (t *table) wire() Wire {
	w := Wire{
		Servos:     t.texts("servos"),
		Length:     t.length("length"),
		Section:    t.plain("section"),
		Resistance: t.plain("resistance"),
		Current:    t.quantity("current", quantity.Current),
	}
	t.need("length")
	return w
}
