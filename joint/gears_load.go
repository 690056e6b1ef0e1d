package joint

import (
	"math"

	"pintle/drive"
	"pintle/fit"
	"pintle/gear"
)

// loading returns what a pair transmits, as far as the file knows it, and the
// plastic of each gear.
func (b *builder) loading(t *turning) (gear.Loading, error) {
	g := t.table
	l := gear.Loading{Service: g.ServiceFactor, Allowable: g.Allowable}
	for i, own := range [2]Gear{g.Pinion, g.Wheel} {
		name, at := own.Material, t.at+[2]string{".pinion", ".wheel"}[i]
		if name == "" {
			name, at = g.Material, t.at
		}
		var err error
		if l.Material[i], err = b.material(at, name); err != nil {
			return l, err
		}
	}
	if servo, ok := b.file.Servos[g.Servo]; ok {
		share := servo.measured().VoltageShare()
		l.Stall, l.Speed = share*servo.StallTorque, share*servo.SpeedDeg*math.Pi/180
	}
	if motion, ok := b.file.Motions[g.Motion]; ok && math.Abs(motion.Swing) < 360 {
		l.Swing = math.Abs(motion.Swing) * math.Pi / 180
	}
	if load, ok := b.file.Loads[g.Load]; ok {
		l.Held = load.ExtraTorque + math.Abs(load.CableTorque)
		if drive.Axis(load.Axis) == drive.Horizontal {
			l.Held += load.Mass * drive.Gravity * load.CentreOfGravity.Offset / 1000
		}
	}
	return l, nil
}

// climate returns what the pair lives in: the pair's own temperatures, or from
// 20 °C to the hottest of the place. The base is the plate under it, where there
// is one, unless its expansion is given.
func (b *builder) climate(t *turning, gears [2]fit.Material) (gear.Climate, error) {
	own, table := t.table.Temperature, t.at+".temperature"
	c := gear.Climate{
		Known: b.file.Has(table), Made: own.Made, Coldest: own.Coldest, Hottest: own.Hottest,
		Expansion: [2]float64{gears[0].Expansion, gears[1].Expansion},
		Moisture:  [2]float64{gears[0].Moisture, gears[1].Moisture}, Base: gears[1].Expansion,
	}
	const workshop = 20
	if hottest := b.file.Place.Hottest; !c.Known && hottest > workshop {
		c.Known, c.Made, c.Coldest, c.Hottest = true, workshop, workshop, hottest
	}
	for _, name := range sorted(b.file.Plates) {
		if plate := b.file.Plates[name]; plate.Gears == t.name {
			base, err := b.material("plate."+name, plate.Material)
			if err != nil {
				return c, err
			}
			c.Base = base.Expansion
		}
	}
	if b.file.Has(table + ".base_expansion") {
		c.Base = own.BaseExpansion
	}
	return c, nil
}

// readingsAndLimits hands on what was measured on earlier prints and how much
// lost motion the joint bears.
func (b *builder) readingsAndLimits(t *turning, spec *gear.PairSpec) {
	for _, m := range t.table.Measured {
		for i := range spec.Measured {
			spec.Measured[i] = append(spec.Measured[i], gear.Readings{Span: m.Span[i], Pins: m.Pins[i], Tip: m.Tip[i]})
		}
	}
	lost := t.table.LostMotion
	spec.LostMotion = gear.LostMotion{Radius: lost.Radius, Limit: lost.limitDeg() * math.Pi / 180}
}
