package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
)

// Defaults of a Loading (all common practice, no source).
const (
	DefaultServiceFactor = 1.5  // shock and reversal by a servo: 1.25 to 2
	WorkingShare         = 0.25 // of the stall torque that a servo may give for long
	AllowableShare       = 0.2  // of the printed plastic's strength that a tooth may bear for good, lying flat on the bed
)

// A Loading is what a pair transmits. Zero values are not known, and nothing is
// said about them.
type Loading struct {
	Stall     float64         // N·m, of the servo on the pinion
	Held      float64         // N·m on the wheel, at rest
	Speed     float64         // rad/s of the pinion
	Swing     float64         // rad of the wheel from end to end; 0 for full turns
	Service   float64         // factor; 0 means DefaultServiceFactor
	Allowable [2]float64      // MPa, bending for good; 0 means AllowableShare of the strength
	Material  [2]fit.Material // of pinion and wheel; a strength of 0 is not known
}

func (l Loading) validate() error {
	for _, q := range []struct {
		field, unit   string
		value, lo, hi float64
		remedy        string
	}{
		{"stall torque", "N·m", l.Stall, 0, 1000, "use the servo's leaflet"},
		{"held torque", "N·m", math.Abs(l.Held), 0, 1e4, "leave it out, or give what the joint holds at rest"},
		{"pinion speed", "rad/s", l.Speed, 0, 1e4, "use the servo's leaflet"},
		{"swing", "rad", l.Swing, 0, 2 * math.Pi, "give the angle from end to end, or leave it out for full turns"},
		{"service factor", "", l.Service, 0, 10, "use 1.25 to 2"},
		{"allowable bending stress of the pinion", "MPa", l.Allowable[0], 0, 500, "a fifth of the printed plastic's strength, 8 to 12 MPa"},
		{"allowable bending stress of the wheel", "MPa", l.Allowable[1], 0, 500, "a fifth of the printed plastic's strength, 8 to 12 MPa"},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	return nil
}

// LewisFactor returns the form factor Y of the generated tooth, loaded at its
// tip: two thirds of the least y^2/h, in modules, over the places of the root
// fillet, where y is half the tooth's thickness and h the depth below the point
// at which the load's line crosses the centre line (the parabola of uniform
// strength inscribed in the tooth; W. Lewis, 1892, from memory).
func (g *Gear) LewisFactor() float64 { return g.nominal.lewis() }

func (t tooth) lewis() float64 {
	if t.inner {
		return t.innerLewis()
	}
	apex := t.rb / math.Cos(math.Atan(t.to)-t.angleAt(t.ra))
	least := math.Inf(1)
	const steps = 200
	for i := range steps + 1 {
		p, _ := t.fillet(t.bottom * float64(i) / steps)
		if h := apex - p.X; h > 0 {
			least = math.Min(least, p.Y*p.Y/h)
		}
	}
	return 2.0 / 3 * least / t.m
}

// innerLewis is lewis for an internal gear, whose teeth widen outwards.
func (t tooth) innerLewis() float64 {
	apex := t.rb / math.Cos(math.Atan(t.to)+t.angleAt(t.ra))
	least := math.Inf(1)
	const steps = 200
	for i := range steps + 1 {
		p, _ := t.fillet(t.bottom * float64(i) / steps)
		p = p.Rotate(-math.Pi / float64(t.z)) // into the frame of the tooth beside the space
		if h := p.X - apex; h > 0 {
			least = math.Min(least, p.Y*p.Y/h)
		}
	}
	return 2.0 / 3 * least / t.m
}

// bending returns the Lewis stress in MPa of a tangential force in N on a face
// width and module in mm: F/(b m Y).
func bending(force, width, module, form float64) float64 { return force / (width * module * form) }

// TangentialForce returns the force in N at the working pitch circle for a
// torque in N·m on the pinion.
func (p *Pair) TangentialForce(torque float64) float64 {
	return torque * 1000 / p.contact.working(0)
}

// allowable returns the bending stress in MPa that gear i bears for good, and
// false where nothing is known of its plastic.
func (l Loading) allowable(i int) (float64, bool) {
	if l.Allowable[i] > 0 {
		return l.Allowable[i], true
	}
	return AllowableShare * l.Material[i].Strength, l.Material[i].Strength > 0
}

func (l Loading) service() float64 {
	if l.Service > 0 {
		return l.Service
	}
	return DefaultServiceFactor
}

// addStrength adds forces, stresses and speeds to the report's values.
func (p *Pair) addStrength(v map[string]any) {
	l, c := p.spec.Loading, p.contact
	for i, g := range p.gears {
		v[fmt.Sprintf("Y%d", i+1)] = g.LewisFactor()
	}
	if l.Stall > 0 {
		force := p.TangentialForce(l.Stall)
		v["F_t_stall"], v["F_r_stall"], v["F_n_stall"] = force, force*math.Tan(c.alphaW), force/math.Cos(c.alphaW)
		for i, g := range p.gears {
			v[fmt.Sprintf("sigma_F_stall%d", i+1)] = bending(force, p.spec.FaceWidth, p.spec.Module, g.LewisFactor())
		}
	}
	if l.Speed > 0 {
		speed := l.Speed * c.working(0)
		v["pitch_line_speed_mm_per_s"] = speed
		v["sliding_speed_mm_per_s"] = p.slidingSpeed(speed)
	}
	if teeth, ok := p.teethInUse(); ok {
		v["teeth_in_use1"], v["teeth_in_use2"] = teeth[0], teeth[1]
	}
}

// slidingSpeed returns the largest speed in mm/s at which flanks slide: at the
// end of the path further from the pitch point, v g (2/d_w1 + 2/d_w2).
func (p *Pair) slidingSpeed(pitchLine float64) float64 {
	c := p.contact
	pitch := c.t[0].rb * math.Tan(c.alphaW)
	g := math.Max(pitch-math.Max(c.start, c.form[0]), math.Min(c.end, c.sign*(c.length-c.form[1]))-pitch)
	return pitchLine * g * (1/c.working(0) + c.sign/c.working(1))
}

// teethInUse returns how many teeth of each gear a swing uses, rounded up, and
// false for full turns.
func (p *Pair) teethInUse() ([2]int, bool) {
	swing := p.spec.Loading.Swing
	if swing == 0 {
		return [2]int{}, false
	}
	passed := float64(p.contact.t[1].z) * swing / (2 * math.Pi)
	n := int(math.Ceil(passed - 1e-9))
	return [2]int{min(n, p.contact.t[0].z), min(n, p.contact.t[1].z)}, true
}

// sayStrength judges the teeth of gear i against the servo and what is held.
func (p *Pair) sayStrength(i int) []check.Finding { return p.sayTeeth(i, p.gears[i].LewisFactor()) }

// sayTeeth is sayStrength for teeth of a form factor.
func (p *Pair) sayTeeth(i int, form float64) []check.Finding {
	l := p.spec.Loading
	limit, known := l.allowable(i)
	if l.Stall == 0 || !known {
		return nil
	}
	stress := func(torque float64) float64 {
		return bending(p.TangentialForce(torque), p.spec.FaceWidth, p.spec.Module, form)
	}
	judge := func(name string, value float64, own check.Limit, detail string) check.Finding {
		own = p.limit(name, own)
		f := rule(name).Judge(value, own, fmt.Sprintf("face width >= %s mm", check.Number(ceilTo(p.spec.FaceWidth*value/own.Caution))))
		f.Part, f.Detail = p.spec.partName(i), detail
		return f
	}
	all := []check.Finding{judge("tooth-bending", stress(l.Stall*WorkingShare)*l.service(), check.Limit{Caution: limit, Fail: 2 * limit},
		fmt.Sprintf("%s of the stall torque, service factor %s, Y %s; layers parallel to the teeth's cross-section (flat on the bed), half of that across layers", check.Number(WorkingShare), check.Number(l.service()), check.Number(math.Round(form*1e3)/1e3)))}
	if strength := l.Material[i].Strength; strength > 0 {
		all = append(all, judge("tooth-stall", stress(l.Stall), check.Limit{Caution: strength / 2, Fail: strength}, "one tooth against a blocked joint"))
	}
	if l.Held != 0 {
		f := judge("tooth-creep", stress(math.Abs(l.Held)/p.Ratio()), check.Limit{Caution: limit / 2, Fail: check.None}, "the same teeth carry it as long as the joint rests there")
		if f.Verdict == check.Pass && f.Value > limit/8 {
			f.Verdict, f.Remedy = check.Note, "unload the joint at power-off, or move the wheel on by some teeth at service"
		}
		all = append(all, f)
	}
	return all
}

// saySector tells which teeth of a part-turn gear carry everything.
func (p *Pair) saySector(i int) (check.Finding, bool) {
	teeth, ok := p.teethInUse()
	if !ok {
		return check.Finding{}, false
	}
	used, z := teeth[i], p.contact.t[i].z
	f := rule("working-sector").Say(check.Pass, float64(used), fmt.Sprintf("%d of %d teeth are in use", used, z), "")
	f.Part = p.spec.partName(i)
	if 2*used <= z {
		f.Verdict = check.Note
		f.Remedy = fmt.Sprintf("mark the working sector; at service move the gear on by %d teeth: it has %d such sectors", used, z/used)
		if need := p.sectorNeed(p.contact.ratio()); p.gears[i].sector == 0 && !p.contact.t[i].inner && need <= p.spec.mostKept(i) {
			f.Remedy += fmt.Sprintf("; or make it a sector of %d teeth", max(need, leastKept))
		}
	}
	return f, true
}
