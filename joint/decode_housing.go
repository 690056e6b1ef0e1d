package joint

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

		SecondBearing: t.text("second_bearing"),
		Span:          t.length("span"),
		FaceToFace:    t.yes("face_to_face"),
		Running:       t.word("running", Runnings()),
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

func (t *table) mount() Mount {
	m := Mount{
		Kind:       t.word("kind", Mounts()),
		ScrewSize:  t.text("screw_size"),
		ScrewCount: t.count("screw_count"),
		Thickness:  t.length("thickness"),
	}
	t.need("kind")
	t.finish()
	return m
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
	k := KnockOut{Count: t.count("count"), Width: t.length("width")}
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
