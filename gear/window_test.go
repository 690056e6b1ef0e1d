package gear

import (
	"math"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// 48 mm of centre distance in a plastic that grows 101e-6 per K, 25 K warmer on
// a base that does not grow: the teeth grow as if the centres were 0.12 mm
// nearer, which takes 2 * 0.12 * tan 20 deg = 0.09 mm of j_wt (calculation).
func TestHotBacklash(t *testing.T) {
	spec := bareSpec(28, 36)
	spec.Climate = Climate{Known: true, Made: 15, Coldest: 15, Hottest: 40, Expansion: [2]float64{101e-6, 101e-6}}
	p := mustPair(t, spec)
	_, hot := p.coldAndHot(0)
	lost := (p.contact.normalBacklash() - hot) / math.Cos(20*degree)
	near(t, "lost backlash", lost, 2*48*101e-6*25*math.Tan(20*degree), 0.002) // linear, 2 % off
	spec.Climate.Base = 101e-6
	p = mustPair(t, spec)
	_, hot = p.coldAndHot(0)
	near(t, "with a base of the same plastic", hot, p.contact.normalBacklash()*(1+101e-6*25), 1e-9)

	spec.Climate.Base, spec.Climate.Hottest, spec.Backlash = 0, 70, 0.2
	f := finding(t, mustPair(t, spec), "", "backlash-climate")
	if f.Verdict != check.Fail || f.Limit != "> 0" || f.Remedy == "" {
		t.Errorf("55 K without a base that grows: %s at %g, limit %q, remedy %q", f.Verdict, f.Value, f.Limit, f.Remedy)
	}
}

// The centre distance of the lamp at which it loses 1 degree: j_wt = 2 * 27
// times 1 degree over 2, from the closed form E34's exact relation inverted.
func TestLostMotion(t *testing.T) {
	spec := bareSpec(28, 36)
	spec.LostMotion = LostMotion{Radius: 100, Limit: 1 * degree}
	p := mustPair(t, spec)
	v := p.Values()
	near(t, "at the radius", v["lost_motion_mm"].(float64), 0.4244*degree*100, 1e-4)
	near(t, "at the servo", v["play_at_servo_deg"].(float64), 0.4244*36/28, 1e-3)
	a := v["largest_centre_distance"].(float64)
	wider := p.contact.at(a)
	near(t, "lost motion there", wider.backlash()/wider.working(1)/degree, 1, 1e-9)
	near(t, "value", finding(t, p, "", "lost-motion").Value, p.contact.at(48.1).normalBacklash()/p.contact.t[1].rb/degree, 1e-12)

	spec.LostMotion.Limit = 0.5 * degree
	f := finding(t, mustPair(t, spec), "", "lost-motion")
	if f.Verdict != check.Caution {
		t.Fatalf("%s at %g deg", f.Verdict, f.Value)
	}
	if !follow(&spec, p, f) {
		t.Fatalf("remedy %q cannot be followed", f.Remedy)
	}
	if f = finding(t, mustPair(t, spec), "", "lost-motion"); f.Verdict != check.Pass {
		t.Errorf("after the remedy: %s at %g", f.Verdict, f.Value)
	}
}

// How far the axes may give way before the contact ratio falls to 1.2: 0.46 m for
// 20/40 and 0.55 m for 30/60 (derived by an independent program, to two digits).
func TestAxesGiveWay(t *testing.T) {
	for _, q := range []struct {
		z1, z2 int
		want   float64
	}{{20, 40, 0.46}, {30, 60, 0.55}} {
		spec := bareSpec(q.z1, q.z2)
		spec.Module, spec.Backlash = 1, 0
		p := mustPair(t, spec)
		near(t, "way in modules", p.Values()["a_w_at_contact_ratio_1_2"].(float64)-p.CentreDistance(), q.want, 0.006)
	}
	spec := ringSpec(24, 60)
	p := mustPair(t, spec)
	if a, ok := p.contact.distanceAtRatio(1.2); !ok || a >= p.CentreDistance() {
		t.Errorf("an internal pair carries badly at %g mm, %v: nearer than %g", a, ok, p.CentreDistance())
	}
	if _, ok := p.contact.distanceAtRatio(3); ok {
		t.Error("a contact ratio that was never there is lost")
	}
}

// A printer whose outsides are uncertain by 0.03 mm may make every flank 0.03 mm
// fatter (twice that on the diameter, half of it on each side): four flanks take
// 0.12 mm. Drawn so, the outlines measure that much less.
func TestBacklashBand(t *testing.T) {
	spec := bareSpec(28, 36)
	spec.Card.Outside = fit.Error{Sigma: 0.03}
	p := mustPair(t, spec)
	near(t, "band", p.Values()["j_bn_band"].(float64), 0.12, 1e-12)
	spec.Card.Outside = fit.Error{Offset: -0.06} // drawn as much fatter
	fat := mustPair(t, spec)
	near(t, "fatter by the band", p.proof.drawn.min-fat.proof.drawn.min, 0.12, 2e-3)
	inner := ringSpec(24, 60)
	inner.Card.Outside, inner.Card.Bore = fit.Error{Sigma: 0.03}, fit.Error{Sigma: 0.05}
	near(t, "band of an internal pair", mustPair(t, inner).backlashBand(), 0.16, 1e-12)
}
