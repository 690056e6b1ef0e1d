package joint

import (
	"fmt"
	"slices"

	"pintle/fit"
	"pintle/quantity"
)

func (t *table) printer() Printer {
	p := t.measurements()
	p.Card, p.Material = t.text("card"), t.text("material")
	p.Nozzle, p.Orientation = t.length("nozzle"), t.word("orientation", fit.Orientations())
	for _, key := range []string{
		"bead_width", "layer_thickness", "bore_error", "outside_error", "first_layer_growth", "bed",
	} {
		if t.has("card") && t.has(key) {
			t.refuse(key, "the card holds it as well", "give either card or measurements")
		}
	}
	t.finish()
	return p
}

// measurements reads what [printer] and a printer card have in common.
func (t *table) measurements() Printer {
	p := Printer{
		BeadWidth:        t.length("bead_width"),
		LayerThickness:   t.length("layer_thickness"),
		Bore:             t.sizeError("bore_error"),
		Outside:          t.sizeError("outside_error"),
		FirstLayerGrowth: t.length("first_layer_growth"),
	}
	t.lengths("bed", p.Bed[:])
	return p
}

// sizeError reads a number, or { offset, per_mm, sigma }.
func (t *table) sizeError(key string) fit.Error {
	v, ok := t.value(key)
	if !ok {
		return fit.Error{}
	}
	if _, ok := v.(map[string]any); !ok {
		return fit.Error{Offset: t.length(key), Sigma: fit.TypedSigma}
	}
	in := t.table(key)
	e := fit.Error{Offset: in.length("offset"), PerMM: in.plain("per_mm"), Sigma: in.length("sigma")}
	if !in.has("sigma") {
		e.Sigma = fit.TypedSigma
	}
	in.need("offset")
	in.finish()
	return e
}

func (t *table) place() Place {
	p := Place{Hottest: t.quantity("hottest", quantity.Temperature), Coldest: t.quantity("coldest", quantity.Temperature)}
	t.finish()
	return p
}

// material reads a material; what it leaves out comes from "like", or from the
// known material of its own name.
func (t *table) material() fit.Material {
	name := t.at[len("material."):]
	like := t.text("like")
	if like == "" {
		like = name
	}
	m, known := fit.MaterialNamed(like)
	if t.has("like") && !known {
		t.refuse("like", fmt.Sprintf("the material %q is not known", like), "leave it out and give all values")
	}
	m.Name = name
	if t.has("source") {
		m.Source = t.text("source")
	}
	t.value("source")
	for _, q := range []struct {
		key string
		to  *float64
	}{
		{"modulus", &m.Modulus},
		{"poisson", &m.Poisson},
		{"expansion", &m.Expansion},
		{"density", &m.Density},
		{"strain_limit", &m.StrainLimit},
		{"service", &m.Service},
		{"deflection", &m.Deflection},
		{"strength", &m.Strength},
		{"moisture", &m.Moisture},
	} {
		if _, ok := t.value(q.key); ok {
			*q.to = t.plain(q.key)
		} else if !known {
			t.need(q.key)
		}
	}
	return m
}

func (t *table) bearing() Bearing {
	b := Bearing{
		Designation: t.text("designation"),
		Bore:        t.length("bore"),
		Outside:     t.length("outside"),
		Overall:     t.length("overall"),
		ConeWidth:   t.length("cone_width"),
		CupWidth:    t.length("cup_width"),
		WasherBore:  t.length("washer_bore"),
	}
	if !t.has("designation") {
		t.need("bore", "outside", "overall")
	}
	return b
}

func (t *table) plate() Plate {
	p := Plate{
		Housing:      t.text("housing"),
		Gears:        t.text("gears"),
		Thickness:    t.length("thickness"),
		ServoTurnDeg: t.quantity("servo_turn", quantity.Angle),
		ServoSlots:   t.length("servo_slots"),
		Stops:        t.quantity("stops", quantity.Angle),
		ScrewSize:    t.text("screw_size"),
		Material:     t.text("material"),
	}
	t.need("housing", "gears", "thickness")
	return p
}

// either refuses a table that gives more than one of the keys.
func (t *table) either(keys ...string) {
	given := slices.DeleteFunc(keys, func(key string) bool { return !t.has(key) })
	if len(given) > 1 {
		t.refuse(given[1], fmt.Sprintf("%q is given as well", given[0]), "give one of them")
	}
}
