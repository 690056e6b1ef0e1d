package joint

import "pintle/check"

// refuseZeros refuses sizes that were given as 0: only what is left out is chosen.
func (b *builder) refuseZeros(name string, t Housing) error {
	sizes := b.file.Bearings[t.Bearing]
	ribs, knock, relief, rod := orEmpty(t.Ribs), orEmpty(t.KnockOut), orEmpty(t.CornerRelief), orEmpty(t.Rod)
	const chosen, none = "leave it out to have it chosen", "leave it out where there is none"
	for _, q := range []struct {
		path, field string
		value       float64
		unit        string
		remedy      string
	}{
		{"bearing." + t.Bearing + ".bore", "bearing bore", sizes.Bore, "mm", chosen},
		{"bearing." + t.Bearing + ".outside", "bearing outside diameter", sizes.Outside, "mm", chosen},
		{"bearing." + t.Bearing + ".overall", "bearing width", sizes.Overall, "mm", chosen},
		{"bearing." + t.Bearing + ".cone_width", "cone width", sizes.ConeWidth, "mm", chosen},
		{"bearing." + t.Bearing + ".cup_width", "cup width", sizes.CupWidth, "mm", chosen},
		{"bearing." + t.Bearing + ".washer_bore", "housing washer bore", sizes.WasherBore, "mm", chosen},
		{"housing." + name + ".interference", "interference", t.Interference, "mm", chosen},
		{"housing." + name + ".wall", "wall", t.Wall, "mm", chosen},
		{"housing." + name + ".shoulder_thickness", "shoulder thickness", t.ShoulderThickness, "mm", chosen},
		{"housing." + name + ".shoulder_hole", "shoulder hole", t.ShoulderHole, "mm", chosen},
		{"housing." + name + ".bore_depth", "bore depth", t.BoreDepth, "mm", chosen},
		{"housing." + name + ".mount.thickness", "flange thickness", t.Mount.Thickness, "mm", chosen},
		{"housing." + name + ".mount.slit", "slit width", t.Mount.Slit, "mm", chosen},
		{"housing." + name + ".ribs.height", "rib height", ribs.Height, "mm", chosen},
		{"housing." + name + ".knock_out.width", "knock-out width", knock.Width, "mm", chosen},
		{"housing." + name + ".corner_relief.depth", "corner relief depth", relief.Depth, "mm", chosen},
		{"housing." + name + ".rod.shoulder", "shoulder diameter", rod.Shoulder, "mm", none},
		{"housing." + name + ".rod.flat", "flat depth", rod.Flat, "mm", none},
		{"housing." + name + ".rod.flat_length", "flat length", rod.FlatLength, "mm", none},
		{"housing." + name + ".rod.torque", "torque on the flat", rod.Torque, "N·m", none},
		{"housing." + name + ".span", "span", t.Span, "mm", none},
		{"housing." + name + ".rpm", "speed", t.RPM, "rpm", none},
		{"housing." + name + ".retention.height", "lip height", t.Retention.Height, "mm", chosen},
		{"housing." + name + ".retention.thickness", "cap thickness", t.Retention.Thickness, "mm", chosen},
	} {
		if q.value == 0 && b.file.Has(q.path) {
			return b.file.Blame("housing."+name, &check.FieldError{
				Field: q.field, Value: 0, Unit: q.unit, Reason: "must be greater than 0", Remedy: q.remedy,
			})
		}
	}
	return nil
}

// orEmpty returns what a pointer points to, or an empty value.
func orEmpty[T any](p *T) (v T) {
	if p != nil {
		v = *p
	}
	return v
}
