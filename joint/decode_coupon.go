package joint

import (
	"fmt"

	"pintle/quantity"
)

func (t *table) coupon() *Coupon {
	if t == nil {
		return nil
	}
	c := &Coupon{
		Bearing:       t.text("bearing"),
		Servo:         t.text("servo"),
		Bore:          t.length("bore"),
		Wall:          t.length("wall"),
		Rings:         t.table("rings").steps(),
		Pegs:          t.table("pegs").steps(),
		Backlash:      t.table("backlash").steps(),
		Webs:          t.table("webs").steps(),
		Slots:         t.table("slots").steps(),
		SheetMaterial: t.text("sheet_material"), SheetThickness: t.length("sheet_thickness"),
		Pockets:   t.anyLengths("pockets"),
		Holes:     t.anyLengths("holes"),
		CrossHole: t.length("cross_hole"),
		Module:    t.length("module"),
		CardName:  t.text("card_name"),
		Material:  t.text("material"),
		Nozzle:    t.length("nozzle"),
		Only:      t.texts("only"),
	}
	if _, ok := t.value("pressure_angle"); ok {
		c.PressureAngleDeg = t.quantity("pressure_angle", quantity.Angle)
	}
	for i, v := range t.list("teeth", 2) {
		c.Teeth[i] = t.whole(element("teeth", i), v)
	}
	t.finish()
	return c
}

func (t *table) steps() Steps {
	s := Steps{From: t.length("from"), To: t.length("to"), Step: t.length("step")}
	t.need("from", "to", "step")
	t.finish()
	return s
}

// elements reads a list of one or more.
func (t *table) elements(key string) []any {
	v, ok := t.value(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok || len(list) == 0 {
		t.refuse(key, fmt.Sprintf("must be a list of one or more values, not %s", describe(v)), "write it in square brackets")
		return nil
	}
	return list
}

// anyLengths reads a list of one or more lengths.
func (t *table) anyLengths(key string) []float64 {
	var all []float64
	for i, v := range t.elements(key) {
		all = append(all, t.number(element(key, i), v, quantity.Length))
	}
	return all
}

// texts reads a list of one or more texts.
func (t *table) texts(key string) []string {
	var all []string
	for i, v := range t.elements(key) {
		s, ok := v.(string)
		if !ok {
			t.refuse(element(key, i), "must be a text, not "+describe(v), "write it in quotes")
			continue
		}
		all = append(all, s)
	}
	return all
}
