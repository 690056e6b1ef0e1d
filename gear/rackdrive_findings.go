package gear

import (
	"fmt"
	"math"

	"pintle/check"
)

// Values returns the drive's numbers for the report: mm, and degrees where the
// key says so. Index 1 is the pinion; M_rack is read from the rack's back over
// one pin between two teeth.
func (d *RackDrive) Values() map[string]any {
	t, p, pair := d.pair.contact.t[0], d.spec.Pair, d.pair
	g := d.Pinion()
	const degree = math.Pi / 180
	v := map[string]any{
		"m": p.Module, "alpha_deg": p.PressureAngle / degree, "z1": t.z, "x1": pair.x[0], "d1": 2 * t.r, "da1": 2 * t.ra, "df1": 2 * t.rf, "db1": 2 * t.rb,
		"d_Ff1": 2 * t.form(), "s1": g.ToothThickness(), "s_a1": g.TipThickness(), "b": p.FaceWidth,
		"a_axis_to_reference_line": d.AxisDistance(), "a_axis_to_back": d.AxisDistance() + d.backToLine(),
		"epsilon_alpha": d.ContactRatio(), "j_wt": p.Backlash, "j_bn": d.normalBacklash(0), "j_bn_nearest": d.normalBacklash(p.CentreTolerance),
		"travel": d.spec.Travel, "travel_per_turn": 2 * math.Pi * t.r, "turn_for_travel_deg": d.spec.Travel / t.r / degree, "lost_motion_mm": p.Backlash,
		"rack_teeth": d.teeth, "rack_length": d.Length(), "rack_height": d.backToLine() + d.bar.tip, "s_rack": d.bar.thick, "s_a_rack": d.bar.tipWidth(),
		"Y1": g.LewisFactor(), "Y_rack": d.bar.lewis(),
	}
	if span := g.Span(); span.Teeth > 0 {
		v["W1"], v["k1"] = span.Width, span.Teeth
	}
	if pins := g.Pins(); pins.Diameter > 0 {
		v["dp1"], v["M1"] = pins.Diameter, pins.Over
	}
	pair.addCaliper(v, 0)
	if pin, over := d.bar.pin(); pin > 0 {
		v["dp_rack"], v["M_rack"] = pin, over+d.backToLine()
	}
	d.addForces(v)
	pair.addSpline(v)
	if d.motion.meets {
		v["motion_positions"] = len(d.motion.points)
		v["j_bn_measured_min"], v["j_bn_measured_max"], v["te_measured"] = d.motion.min, d.motion.max, d.motion.error
		v["gap_measured_min"], v["epsilon_measured"] = d.motion.gap, d.motion.pairs
	}
	return v
}

// addForces adds what the servo does at the teeth.
func (d *RackDrive) addForces(v map[string]any) {
	l, r := d.spec.Pair.Loading, d.pair.contact.working(0)
	if l.Stall > 0 {
		force := d.pair.TangentialForce(l.Stall)
		v["F_t_stall"], v["F_r_stall"] = force, force*math.Tan(d.spec.Pair.PressureAngle)
	}
	if l.Speed > 0 {
		v["pitch_line_speed_mm_per_s"] = l.Speed * r
	}
	if teeth, ok := d.pair.teethInUse(); ok {
		v["teeth_in_use1"] = teeth[0]
	}
}

// backToLine returns the distance in mm from the rack's back to its reference
// line.
func (d *RackDrive) backToLine() float64 { return d.spec.Height - d.bar.root }

// Findings returns what the checks say about pinion and rack.
func (d *RackDrive) Findings() []check.Finding {
	all := d.sayMesh()
	pair := d.pair
	all = append(all, d.sayTouch(), pair.sayFaceWidth(), pair.saySpan(0), pair.sayChamfer(0), pair.sayAllowance(0))
	all = append(all, pair.sayStrength(0)...)
	all = append(all, d.sayRackStrength()...)
	all = append(all, pair.judgeMargins(0)...)
	for _, say := range []func(int) (check.Finding, bool){d.saySectorTeeth, pair.saySector, pair.sayReadings} {
		if f, ok := say(0); ok {
			all = append(all, f)
		}
	}
	if f, ok := d.saySpline(); ok {
		all = append(all, f)
	}
	return all
}

// saySpline tells how near the pinion comes to the angle at which it is wanted,
// and the rack to its place.
func (d *RackDrive) saySpline() (check.Finding, bool) {
	f, ok := d.pair.saySpline()
	if ok && f.Remedy != "" {
		seat, _ := d.pair.seat()
		f.Remedy = fmt.Sprintf("choose the place on the spline together with the tooth in mesh: the rack comes within %s mm; take up the rest with the neutral pulse",
			short(math.Abs(seat.teeth)*math.Pi/180*d.pair.contact.t[0].r))
	}
	return f, ok
}

// sayMesh judges how the teeth of pinion and rack work together. A rack cannot
// reach into the fillet that a deeper rack has cut, so that interference is left
// to the motion.
func (d *RackDrive) sayMesh() []check.Finding {
	p, t, m := d.spec.Pair, d.pair.contact.t[0], d.spec.Pair.Module
	pinion, bead, a := p.partName(0), p.Card.BeadWidth, d.AxisDistance()
	shift := "x1 >= " + check.Number(LeastShift(t.z, p.PressureAngle, p.Rack))
	tip := check.Limit{Caution: math.Max(0.2*m, 2*bead), Fail: bead}
	clear := check.Limit{Caution: 0.15 * m, Fail: 0.1 * m}
	var all []check.Finding
	judge := func(name, part string, value float64, own check.Limit, remedy string) {
		if remedy == "" {
			remedy = "change: " + rule(name).Change
		}
		f := rule(name).Judge(value, d.pair.limit(name, own), remedy)
		if own.Fail == math.SmallestNonzeroFloat64 && f.Verdict == check.Fail {
			f.Limit = "> 0"
		}
		f.Part = part
		all = append(all, f)
	}
	judge("contact-ratio", "", d.ContactRatio(), rule("contact-ratio").Limit, shift)
	judge("backlash", "", d.normalBacklash(p.CentreTolerance), check.Limit{Caution: minBacklashFloor(a, m), Fail: math.SmallestNonzeroFloat64}, d.backlashRemedy())
	judge("tooth-size", "", m, check.Limit{Caution: 2.5 * bead, Fail: check.None}, "module >= "+check.Number(ceilTo(2.5*bead))+" mm")
	judge("tip-clearance", pinion, a-d.bar.tip-t.rf, clear, "")
	judge("tip-clearance", d.name(), a-t.ra-d.bar.root, clear, "")
	judge("tip-thickness", pinion, t.thickness(t.ra), tip, d.tipRemedy(tip.Caution))
	judge("tip-thickness", d.name(), d.bar.tipWidth(), tip, "")
	return append(all, d.sayUndercut(shift))
}

// sayUndercut judges what undercut takes of the flank that the rack works on.
func (d *RackDrive) sayUndercut(shift string) check.Finding {
	start, _ := d.path()
	j := d.pair.judgeUndercutOf(judgement{rule: "undercut", limit: d.pair.limit("undercut", rule("undercut").Limit)}, start)
	f := j.finding(shift)
	f.Part = d.spec.Pair.partName(0)
	return f
}

// tipRemedy is the largest shift free of undercut with which the pinion's tip is
// as thick as wanted, or the least number of teeth with which there is one.
func (d *RackDrive) tipRemedy(wanted float64) string {
	p, x := d.spec.Pair, d.pair.x[0]
	thick := func(z int, x float64) bool {
		t := newTooth(z, p.Module, p.PressureAngle, x, p.Rack, d.pair.thin, 0)
		return t.thickness(t.ra) >= wanted
	}
	floor := x
	if p.ShiftRule != ShiftGiven {
		floor = 0 // more teeth are then given less shift
	}
	for z := p.Teeth[0]; z <= p.Teeth[0]+60; z++ {
		least := LeastShift(z, p.PressureAngle, p.Rack)
		if z > p.Teeth[0] && thick(z, math.Max(floor, least)) {
			return fmt.Sprintf("z1 >= %d", z)
		}
		for v := math.Floor(x*100-0.01) / 100; z == p.Teeth[0] && v >= least; v = math.Round(v*100-1) / 100 {
			if thick(z, v) {
				return "x1 <= " + check.Number(v)
			}
		}
	}
	return ""
}

// backlashRemedy is the backlash that keeps its floor with the rack as near as
// the tolerance lets it come, in steps of 0.01 mm, where one is allowed.
func (d *RackDrive) backlashRemedy() string {
	p := d.spec.Pair
	sin, cos := math.Sincos(p.PressureAngle)
	need := ceilTo((minBacklashFloor(d.AxisDistance(), p.Module) + 2*p.CentreTolerance*sin) / cos)
	if need > largestBacklash*p.Module*math.Pi/2 {
		return ""
	}
	return "backlash >= " + check.Number(need) + " mm"
}

// sayTouch judges the proof by motion.
func (d *RackDrive) sayTouch() check.Finding {
	m := d.motion
	f := rule("mesh-by-motion").Judge(m.gap, rule("mesh-by-motion").Limit, "change: "+rule("mesh-by-motion").Change)
	f.Limit = "> 0"
	f.Detail = fmt.Sprintf("%d positions of the expected print: backlash %s to %s mm along the line of action, transmission error %s mm",
		len(m.points), check.Number(m.min), check.Number(m.max), check.Number(m.error))
	return f
}

// sayRackStrength judges the rack's teeth against the servo.
func (d *RackDrive) sayRackStrength() []check.Finding {
	all := d.pair.sayTeeth(1, d.bar.lewis())
	for i := range all {
		all[i].Part = d.name()
	}
	return all
}

// saySectorTeeth tells whether a pinion that is a sector has the teeth that the
// travel needs.
func (d *RackDrive) saySectorTeeth(i int) (check.Finding, bool) {
	return d.pair.sayKept(i, d.ContactRatio())
}
