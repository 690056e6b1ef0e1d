package joint

import (
	"fmt"
	"slices"

	"pintle/fit"
	"pintle/gear"
	"pintle/quantity"
)

func (t *table) gears() Gears {
	g := Gears{
		Servo:            t.text("servo"),
		Load:             t.text("load"),
		Motion:           t.text("motion"),
		Module:           t.length("module"),
		Ratio:            t.plain("ratio"),
		RatioTolerance:   t.plain("ratio_tolerance"),
		LargestWheel:     t.length("largest_wheel"),
		Clear:            t.length("clear"),
		Shift:            t.shift("shift"),
		CentreDistance:   t.length("centre_distance"),
		Backlash:         t.length("backlash"),
		FaceWidth:        t.length("face_width"),
		PressureAngleDeg: DefaultPressureAngleDeg,
		Material:         t.text("material"),
		Pinion:           t.table("pinion").gear(pinionHubs()),
		Wheel:            t.table("wheel").gear(Hubs()),
		Rack:             t.rack("rack"),
		TipAlteration:    t.plain("tip_alteration"),
		CentreTolerance:  t.length("centre_tolerance"),
		LostMotion:       t.table("lost_motion").lostMotion(),
		Temperature:      t.table("temperature").temperature(),
		Measured:         t.measured("measured", 2),
		ServiceFactor:    t.plain("service_factor"),
		Allowable:        t.allowable("allowable_bending"),
	}
	if _, ok := t.value("pressure_angle"); ok {
		g.PressureAngleDeg = t.quantity("pressure_angle", quantity.Angle)
	}
	for i, v := range t.list("teeth", 2) {
		g.Teeth[i] = t.whole(element("teeth", i), v)
	}
	t.either("teeth", "ratio")
	t.need("face_width")
	return g
}

// shift reads two numbers or the name of a rule.
func (t *table) shift(key string) Shift {
	v, _ := t.value(key)
	if _, ok := v.(string); ok {
		return Shift{Rule: t.word(key, ShiftRules())}
	}
	var s Shift
	for i, v := range t.list(key, 2) {
		s.X[i] = t.number(element(key, i), v, quantity.Number)
	}
	return s
}

// A pinion turns on its servo, never on the joint's bearing.
func pinionHubs() []string {
	return slices.DeleteFunc(Hubs(), func(hub string) bool { return hub == "journal" })
}

func (t *table) gear(hubs []string) Gear {
	g := Gear{
		Hub:        t.word("hub", hubs),
		Bore:       t.length("bore"),
		Bearing:    t.text("bearing"),
		BoltCircle: t.length("bolt_circle"),
		ScrewSize:  t.text("screw_size"),
		ScrewCount: t.count("screw_count"),
		Spacer:     t.length("spacer"),
		Material:   t.text("material"),
		Rim:        t.length("rim"),
		Sector:     t.count("sector"),
		SectorHub:  t.length("sector_hub"),
		Retain:     t.table("retain").retain(),

		Shaft:       t.length("shaft"),
		Fit:         t.word("fit", append(gear.ShaftFits(), "crush-ribs")),
		OverFlat:    t.length("over_flat"),
		HubDiameter: t.length("hub_diameter"),
		HubLength:   t.length("hub_length"),
		SetScrew:    t.setScrew("set_screw"),
		Clamp:       t.table("clamp").clamp(),
		ScrewKind:   t.word("screw_kind", fit.ScrewHoles()),
		HornScrews:  t.word("horn_screws", []string{fit.Clearance, fit.Counterbore}),
		Lighten:     t.lighten("lighten"),
		Mark:        t.mark("mark"),
		TopChamfer:  t.length("top_chamfer"),
	}
	t.gearKeys(g)
	t.finish()
	return g
}

func (t *table) retain() Retain {
	r := Retain{Kind: t.word("kind", Retainers()), ScrewSize: t.text("screw_size")}
	t.need("kind")
	t.finish()
	return r
}

// rack reads the letter of a profile, or sizes in modules.
func (t *table) rack(key string) Rack {
	v, ok := t.value(key)
	if !ok {
		return Rack{}
	}
	if _, ok := v.(map[string]any); !ok {
		return Rack{Profile: t.word(key, gear.RackProfiles())}
	}
	in := t.table(key)
	r := Rack{Addendum: in.plain("addendum"), Clearance: in.plain("clearance"), FilletRadius: in.plain("fillet_radius")}
	in.need("addendum", "clearance", "fillet_radius")
	in.finish()
	return r
}

func (t *table) lostMotion() LostMotion {
	l := LostMotion{Radius: t.length("radius"), LimitDeg: t.quantity("limit", quantity.Angle), LimitMM: t.length("limit_mm")}
	if t.has("limit_mm") {
		t.need("radius")
		t.either("limit", "limit_mm")
	}
	t.finish()
	return l
}

func (t *table) temperature() Temperature {
	if t == nil {
		return Temperature{}
	}
	c := Temperature{
		Made: 20, Coldest: t.quantity("coldest", quantity.Temperature), Hottest: t.quantity("hottest", quantity.Temperature),
		BaseExpansion: t.plain("base_expansion"),
	}
	if _, ok := t.value("made"); ok {
		c.Made = t.quantity("made", quantity.Temperature)
	}
	t.need("coldest", "hottest")
	t.finish()
	return c
}

// measured reads the readings of one print of so many gears, or a list of them.
func (t *table) measured(key string, gears int) []Measured {
	v, ok := t.value(key)
	if !ok {
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		return []Measured{t.table(key).readings(gears)}
	}
	var all []Measured
	for i, v := range list {
		values, ok := v.(map[string]any)
		if !ok {
			t.refuse(element(key, i), "must be a table, not "+describe(v), "write { W1 = ..., W2 = ... }")
			continue
		}
		one := &table{reader: t.reader, at: join(t.at, element(key, i)), values: values}
		all = append(all, one.readings(gears))
	}
	return all
}

func (t *table) readings(gears int) Measured {
	var m Measured
	for i := range gears {
		m.Span[i] = t.length(fmt.Sprintf("W%d", i+1))
		m.Pins[i] = t.length(fmt.Sprintf("M%d", i+1))
		m.Tip[i] = t.length(fmt.Sprintf("tip%d", i+1))
	}
	t.finish()
	return m
}

// allowable reads one stress for both gears, or one for each.
func (t *table) allowable(key string) [2]float64 {
	v, ok := t.value(key)
	if !ok {
		return [2]float64{}
	}
	if _, ok := v.([]any); !ok {
		stress := t.plain(key)
		return [2]float64{stress, stress}
	}
	var stresses [2]float64
	for i, v := range t.list(key, 2) {
		stresses[i] = t.number(element(key, i), v, quantity.Number)
	}
	return stresses
}
