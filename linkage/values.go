package linkage

// Values returns the linkage's numbers for the report, by name; a name ends in
// its unit where that is not mm. Those of the drive stand in Drive's own Values.
func (s *Stroke) Values() map[string]any {
	worst := s.worst(func(st Station) float64 { return OffSquareDeg(st.TransmissionDeg) })
	lo, hi := s.LeverRange()
	least, most := s.RatioRange()
	v := map[string]any{
		"horn": s.spec.Horn, "rod": s.spec.Rod, "lever": s.spec.Lever, "frame": s.spec.Frame,
		"offset": s.spec.Offset, "rod_in_plane": s.flat.Rod,
		"class": string(s.flat.Class()), "grashof": s.flat.Grashof(),
		"horn_from_deg": s.spec.FromDeg, "horn_to_deg": s.spec.ToDeg, "horn_neutral_deg": s.spec.NeutralDeg,
		"lever_from_deg": lo, "lever_to_deg": hi, "lever_swing_deg": hi - lo,
		"mu_min_deg": OffSquareDeg(worst.TransmissionDeg), "mu_worst_at_horn_deg": worst.HornDeg,
		"ratio_min": least, "ratio_max": most,
		"used_horn_from_deg": s.used.HornFromDeg, "used_horn_to_deg": s.used.HornToDeg,
		"used_lever_from_deg": s.used.LeverFromDeg, "used_lever_to_deg": s.used.LeverToDeg,
		"singularity_min": s.worst(func(st Station) float64 { return st.Singularity }).Singularity,
	}
	if rod, ok := s.flat.CentredRod(s.spec.FromDeg, s.spec.ToDeg); ok {
		v["centred_rod"] = s.spec.trueRod(rod)
	}
	if ratio, ok := s.flat.TimeRatio(); ok && s.spec.Turning {
		v["time_ratio"] = ratio
	}
	square := 90.0
	if s.flat.Crossed {
		square = -90
	}
	if f, ok := s.flat.SolveRod(s.spec.FromDeg, s.spec.ToDeg, square); ok && !s.spec.Turning {
		v["rod_for_square_lever"] = s.spec.trueRod(f.Rod) // the middle of the swing square to the frame
	}
	if !s.spec.Turning {
		v["dead_point_margin_deg"], _ = s.DeadPointMargin()
	}
	if n, ok := s.At(s.spec.NeutralDeg); ok {
		v["lever_neutral_deg"], v["ratio_neutral"] = n.LeverDeg, n.Ratio
		v["mu_neutral_deg"], v["horn_angle_neutral_deg"] = n.TransmissionDeg, n.HornAngleDeg
	}
	if at, force, ok := s.designForce(); ok {
		v["rod_force_n"], v["rod_force_at_horn_deg"] = force, at.HornDeg
	}
	if r := s.spec.Stock; r != nil {
		v["buckling_load_n"], v["rod_slenderness"] = Buckling(r.Diameter, s.spec.Rod, r.modulus()), Slenderness(r.Diameter, s.spec.Rod)
		if _, force, ok := s.designForce(); ok {
			if stress, ok := EccentricStress(*r, s.spec.Rod, force); ok {
				v["rod_stress_mpa"] = stress
			}
		}
	}
	v["rod_misalignment_deg"] = s.MisalignmentDeg()
	if shares := s.Plays(s.worstPlay()); len(shares) > 0 {
		v["play_deg"], v["play_at_tip"] = TotalPlay(shares)
	}
	if s.spec.Load != nil {
		held := s.worst(func(st Station) float64 { return -s.HoldingTorque(st) })
		v["holding_torque"], v["holding_torque_at_horn_deg"] = s.HoldingTorque(held), held.HornDeg
	}
	return v
}
