package joint

import "pintle/quantity"

func (t *table) horn() Horn {
	h := Horn{
		Kind:          t.word("kind", HornKinds()),
		Diameter:      t.length("diameter"),
		Thickness:     t.length("thickness"),
		HubDiameter:   t.length("hub_diameter"),
		HubHeight:     t.length("hub_height"),
		Holes:         t.count("holes"),
		HoleCircle:    t.length("hole_circle"),
		Hole:          t.length("hole"),
		Arm:           t.length("arm"),
		WidthAtHub:    t.length("width_at_hub"),
		WidthAtTip:    t.length("width_at_tip"),
		Arms:          t.count("arms"),
		HolesAt:       t.someLengths("holes_at"),
		AtNeutralDeg:  t.quantity("at_neutral", quantity.Angle),
		WantedDeg:     t.quantity("wanted", quantity.Angle),
		TriedOnSpline: t.has("at_neutral"),
	}
	t.need("kind", "thickness")
	switch {
	case h.Kind == "disc":
		t.need("diameter")
		t.foreign("for a horn with arms", "arm", "width_at_hub", "width_at_tip", "arms", "holes_at")
	case h.Kind != "":
		t.need("arm", "width_at_hub", "width_at_tip", "hub_diameter")
		t.foreign("for a disc", "diameter", "holes", "hole_circle")
		h.Diameter = 2 * h.Arm // the circle it sweeps
		if h.HolesAt != nil {
			t.need("hole")
		}
	}
	t.finish()
	return h
}

// foreign refuses keys that mean nothing here.
func (t *table) foreign(where string, keys ...string) {
	for _, key := range keys {
		if t.has(key) {
			t.refuse(key, "is "+where, "leave it out, or change kind")
		}
	}
}

// someLengths reads one length or a list of them.
func (t *table) someLengths(key string) []float64 {
	v, ok := t.value(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		return []float64{t.length(key)}
	}
	var lengths []float64
	for i, v := range list {
		lengths = append(lengths, t.number(element(key, i), v, quantity.Length))
	}
	return lengths
}
