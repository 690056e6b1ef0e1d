package gear

import (
	"math"

	"pintle/check"
)

// LostMotion says where lost motion matters and how much of it is too much.
type LostMotion struct {
	Radius float64 // mm, e.g. to the tip of what the joint moves; 0 for none
	Limit  float64 // rad at the wheel; 0 for none
}

// A Climate is the temperatures a pair lives in and how its parts grow.
type Climate struct {
	Known            bool
	Made             float64    // °C at which it was printed and fitted
	Coldest, Hottest float64    // °C
	Expansion        [2]float64 // per K, of pinion and wheel
	Moisture         [2]float64 // growth by moisture as a share of size, counted when hottest
	Base             float64    // per K, of what holds the axes
}

func (c Climate) validate() error {
	if !c.Known {
		return nil
	}
	const perK = "per K, 0.00007 for PLA, 0.000023 for aluminium"
	for _, q := range []struct {
		field, unit   string
		value, lo, hi float64
		remedy        string
	}{
		{"temperature when made", "°C", c.Made, -20, 60, "the temperature of the workshop, often 20"},
		{"coldest temperature", "°C", c.Coldest, -60, c.Made, "give the coldest the figure gets, not above that of the workshop"},
		{"hottest temperature", "°C", c.Hottest, c.Made, 200, "give the hottest the figure gets, not below that of the workshop"},
		{"expansion of the pinion", "per K", c.Expansion[0], 0, 1e-3, perK},
		{"expansion of the wheel", "per K", c.Expansion[1], 0, 1e-3, perK},
		{"growth by moisture of the pinion", "", c.Moisture[0], 0, 0.1, "a share of the size, 0.01 for polyamide"},
		{"growth by moisture of the wheel", "", c.Moisture[1], 0, 0.1, "a share of the size, 0.01 for polyamide"},
		{"expansion of the base", "per K", c.Base, 0, 1e-3, perK},
	} {
		if err := check.InRange(q.field, q.value, q.unit, q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	return nil
}

// scaled returns the tooth grown evenly by a factor.
func (t tooth) scaled(k float64) tooth {
	for _, v := range []*float64{&t.m, &t.r, &t.rb, &t.ra, &t.rf, &t.rho, &t.centre, &t.along, &t.tool.axis, &t.tool.tip} {
		*v *= k
	}
	return t
}

// inClimate returns the contact at a temperature, moist or not, with the axes
// moved together by near mm.
func (s solution) inClimate(celsius float64, moist bool, near float64) contact {
	c, warmer := s.spec.Climate, celsius-s.spec.Climate.Made
	var t [2]tooth
	for i := range t {
		grow := 1 + c.Expansion[i]*warmer
		if moist {
			grow += c.Moisture[i]
		}
		t[i] = s.contact.t[i].scaled(grow)
	}
	return newContact(t[0], t[1], s.contact.a*(1+c.Base*warmer)).closer(near)
}

// coldAndHot returns the normal backlash in mm at both ends of the climate.
func (s solution) coldAndHot(near float64) (cold, hot float64) {
	c := s.spec.Climate
	return s.inClimate(c.Coldest, false, near).normalBacklash(), s.inClimate(c.Hottest, true, near).normalBacklash()
}

// backlashBand returns by how much the normal backlash of two prints may differ
// from what is computed, in mm: each gear's two flanks by half of twice the card's
// standard uncertainty, on both gears the same way, since one printer made them.
func (s solution) backlashBand() float64 {
	band := 2 * s.spec.Card.Outside.Sigma
	if s.contact.sign < 0 {
		return band + 2*s.spec.Card.Bore.Sigma
	}
	return 2 * band
}

// addWindow adds backlash and the window of the centre distance to the report's
// values.
func (p *Pair) addWindow(v map[string]any) {
	const degree = math.Pi / 180
	c, lost := p.contact, p.spec.LostMotion
	v["play_at_servo_deg"] = c.backlash() / c.working(0) / degree
	v["backlash_floor"] = minBacklashFloor(c.a, p.spec.Module)
	v["a_w_tolerance"] = p.spec.CentreTolerance
	v["j_bn_band"] = p.backlashBand()
	v["j_bn_nearest"] = c.closer(p.spec.CentreTolerance).normalBacklash()
	v["j_bn_farthest"] = c.closer(-p.spec.CentreTolerance).normalBacklash()
	if a, ok := c.distanceAtRatio(1.2); ok {
		v["a_w_at_contact_ratio_1_2"] = a
	}
	if lost.Radius > 0 {
		v["lost_motion_radius"], v["lost_motion_mm"] = lost.Radius, p.LostMotion()*lost.Radius
	}
	if lost.Limit > 0 {
		v["largest_centre_distance"] = c.distanceAt(lost.Limit * c.t[1].rb)
	}
	if p.spec.Climate.Known {
		v["j_bn_cold"], v["j_bn_hot"] = p.coldAndHot(0)
	}
}
