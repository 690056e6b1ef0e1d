package joint

import "pintle/quantity"

func (t *table) housing() Housing {
	h := Housing{
		Bearing:      t.text("bearing"),
		Fit:          "press",
		Interference: t.length("interference"),
		Wall:         t.length("wall"),
		Mount:        t.table("mount").mount(),
		Material:     t.text("material"),

		ShoulderThickness: t.length("shoulder_thickness"),
		ShoulderHole:      t.length("shoulder_hole"),
		BoreDepth:         t.length("bore_depth"),
		Ribs:              t.table("ribs").ribs(),
		KnockOut:          t.table("knock_out").knockOut(),
		InspectionSlots:   t.count("inspection_slots"),
		CornerRelief:      t.table("corner_relief").cornerRelief(),
		Retention:         t.table("retention").retention(),
		PressingDisc:      t.yes("pressing_disc"),
		MeasuredSeat:      t.measuredSeat("measured"),

		Load:          t.text("load"),
		RPM:           t.plain("rpm"),
		SecondBearing: t.text("second_bearing"),
		Span:          t.length("span"),
		FaceToFace:    t.yes("face_to_face"),
		Running:       t.word("running", Runnings()),
	}
	h.Rod = t.table("rod").rod()
	if h.Mount.Kind == "clamp" {
		h.Fit = "slip"
	}
	if v, ok := t.value("fit"); ok {
		h.Fit, _ = v.(string)
		if !IsToleranceClass(h.Fit) {
			h.Fit = t.word("fit", Fits())
		}
	}
	t.need("bearing")
	if t.has("second_bearing") {
		t.need("span")
	}
	return h
}

// measuredSeat reads { seat = mm } of one print, or a list of them.
func (t *table) measuredSeat(key string) []float64 {
	v, ok := t.value(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		return t.table(key).seat(nil)
	}
	var all []float64
	for i, v := range list {
		values, ok := v.(map[string]any)
		if !ok {
			t.refuse(element(key, i), "must be a table, not "+describe(v), "write { seat = ... }")
			continue
		}
		all = (&table{reader: t.reader, at: join(t.at, element(key, i)), values: values}).seat(all)
	}
	return all
}

func (t *table) seat(before []float64) []float64 {
	if t == nil {
		return before
	}
	read := t.length("seat")
	t.need("seat")
	t.finish()
	return append(before, read)
}

func (t *table) mount() Mount {
	m := Mount{
		Kind:       t.word("kind", Mounts()),
		ScrewSize:  t.text("screw_size"),
		ScrewCount: t.count("screw_count"),
		Thickness:  t.length("thickness"),
	}
	if m.Kind == "clamp" {
		m.Nut, m.Slit = t.yes("nut"), t.length("slit")
	}
	t.need("kind")
	t.finish()
	return m
}

func (t *table) rod() *Rod {
	if t == nil {
		return nil
	}
	r := Rod{
		Class: t.text("class"), Slides: t.yes("slides"), Shoulder: t.length("shoulder"),
		Flat: t.length("flat"), FlatLength: t.length("flat_length"), Torque: t.quantity("torque", quantity.Torque),
	}
	if t.has("flat") {
		t.need("flat_length")
	}
	t.finish()
	return &r
}

func (t *table) ribs() *Ribs {
	if t == nil {
		return nil
	}
	r := Ribs{Count: t.count("count"), Height: t.length("height")}
	t.finish()
	return &r
}

func (t *table) knockOut() *KnockOut {
	if t == nil {
		return nil
	}
	k := KnockOut{Count: t.count("count"), Width: t.length("width"), Round: t.yes("round")}
	t.need("count")
	t.finish()
	return &k
}

func (t *table) cornerRelief() *CornerRelief {
	if t == nil {
		return nil
	}
	r := CornerRelief{Width: t.length("width"), Depth: t.length("depth")}
	t.need("width")
	t.finish()
	return &r
}

func (t *table) retention() Retention {
	r := Retention{Kind: t.word("kind", Retentions())}
	if t.has("kind") && r.Kind == "lip" {
		r.Height = t.length("height")
	} else {
		r.ScrewSize, r.ScrewCount, r.Thickness = t.text("screw_size"), t.count("screw_count"), t.length("thickness")
	}
	t.need("kind")
	if r.Kind == "cap" {
		t.need("screw_count")
	}
	t.finish()
	return r
}
