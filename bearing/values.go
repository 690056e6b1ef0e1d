package bearing

// Values returns the ring's numbers under the report's keys: lengths mm (µm where
// the key says so), forces N, stresses MPa, strain a share.
func (h *Housing) Values() map[string]any {
	b := h.spec.Bearing
	lo, hi := HousingShoulder(b)
	v := map[string]any{
		"designation": b.Name(), "kind": string(b.Kind), "d": b.Bore, "D": b.Outside, "width": b.Width, "ring_width": b.SeatWidth(),
		"fit": h.spec.Fit, "delta": h.delta, "material": h.spec.Material.Name,
		"seat_wanted": h.seat.Wanted, "seat_drawn": h.seat.Drawn, "seat_expected": h.seat.Expected, "seat_depth": h.seatDepth, "lead_in": h.leadWidth,
		"wall": h.wall, "outside": h.OutsideDiameter(), "height": h.Height(), "seat_height": h.SeatHeight(),
		"shoulder_hole": h.hole.Wanted, "shoulder_hole_min": lo, "shoulder_hole_max": hi,
		"p": h.press.Pressure, "hoop_strain": h.heldStrain(), "hoop_stress": h.press.HubHoopBore, "outside_growth": h.press.HubGrowth,
		"insertion_force": h.insertionForce(), "retention": h.retention(), "retention_after_creep": h.retention() * creepFactor,
	}
	if b.Kind == Tapered {
		v["T"], v["B"], v["C"] = b.Width, b.ConeWidth, b.CupWidth
	}
	if h.spec.Flange != nil {
		v["flange_diameter"], v["flange_thickness"] = h.FlangeDiameter(), h.FlangeThickness()
		v["bolt_circle"], v["screw_size"], v["screw_count"] = h.BoltCircle(), h.spec.Flange.Screw.Size, h.spec.Flange.Count
	}
	if h.spec.Foot != nil {
		length, pitch := h.footSize()
		v["foot_length"], v["foot_thickness"], v["axis_height"] = length, h.FlangeThickness(), h.AxisHeight()
		v["screw_pitch"], v["screw_size"], v["screw_count"] = pitch, h.spec.Foot.Screw.Size, h.spec.Foot.Count
	}
	h.optionValues(v)
	h.clampValues(v)
	h.rodValues(v)
	return v
}

func (h *Housing) optionValues(v map[string]any) {
	if h.spec.machined() {
		d, _, _ := ToleranceClass(h.spec.Fit, h.spec.Bearing.Outside) // passed validation
		v["seat_lower_um"], v["seat_upper_um"] = d.Lower, d.Upper
		v["fit_tightest_um"], v["fit_loosest_um"] = -1000*h.deltaMax, -1000*h.delta
	}
	if h.spec.Fit == CrushRibs {
		v["rib_count"], v["rib_height"], v["rib_width"] = h.spec.Ribs.Count, h.spec.Ribs.Height, h.ribTip()
	}
	if h.stepped() {
		v["bore_depth"], v["bore_wide"] = h.spec.BoreDepth, h.seat.Drawn+2*stepGap
	}
	if n := h.knockOuts(); n > 0 {
		reach, _ := h.reachOverFace()
		v["knock_out_count"], v["knock_out_reach"] = n, reach
		if h.push.count > 0 {
			v["knock_out_diameter"], v["knock_out_circle"] = h.push.hole.Wanted, 2*h.push.radius
		} else {
			v["knock_out_width"] = h.knockOut().Width
		}
	}
	if h.relief.Width > 0 {
		v["corner_relief_width"], v["corner_relief_depth"] = h.relief.Width, h.relief.Depth
	}
	if h.spec.Lip != nil {
		v["lip_height"], v["lip_diameter"], v["lip_force"] = h.lipHeight, h.lip.Wanted, h.lipForce()
	}
	if h.spec.Cap != nil {
		v["cap_opening"], v["cap_bolt_circle"], v["pilot_depth"] = h.capOpening.Wanted, h.CapBoltCircle(), h.pilotDepth()
		v["cap_screw_size"], v["cap_screw_count"] = h.spec.Cap.Screw.Size, h.spec.Cap.Count
	}
}
