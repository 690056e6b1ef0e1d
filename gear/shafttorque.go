package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
)

// Of the torque that a bore holds (all common practice, no source).
const (
	pressureShare = 0.5 // of the strength, as pressure on the plastic for a short time
	gripFriction  = 0.2 // printed plastic or a set screw's point on steel
	creepLeft     = 0.5 // of a screw's force after the plastic under it has crept
)

// holds returns the torque in N·m that the bore of a gear holds on its shaft
// with a plastic that bears a pressure in MPa, and how; 0 for a bore that turns.
//
// A flat of width w and length L with a pressure that grows from its middle to
// one edge carries p L w²/12 (derived); n flats carry n times that. A key bears
// on its side in the hub, h - t1 high, at half the shaft's diameter. A set screw
// pushes with F and the bore pushes back: friction at both, mu F d. Halves of a
// clamp turn about the hub's wall opposite the slit: the shaft gets the screw's
// force in the ratio of the levers, and grips at both halves.
func (s *structure) holds(pressure float64) (torque float64, how string) {
	x, length := s.spec.Shaft, s.height
	if x == nil {
		return 0, ""
	}
	flats := func(n, width float64) float64 { return n * pressure * length * width * width / 12 / 1000 }
	switch {
	case x.Kind == DBore:
		return flats(1, s.values["flat_width"]), "by its flat"
	case x.Kind == HexBore:
		return flats(6, x.Size/math.Sqrt(3)), "by its flats"
	case x.Kind == SquareBore:
		return flats(4, x.Size), "by its flats"
	case x.Kind == Keyway:
		side := s.values["key_height"] - s.values["key_shaft_depth"]
		return pressure * side * length * x.Size / 2 / 1000, "by its key"
	case s.spec.SetScrew != nil:
		set := *s.spec.SetScrew
		return float64(max(set.Count, 1)) * gripFriction * creepLeft * setForce(set, pressure, s) * x.Size / 1000, "by friction of its set screw"
	case s.spec.Clamp != nil:
		lever := (x.Size + s.values["hub_diameter"]) / 4
		force := nutForce(s.spec.Clamp.Screw, pressure) * (s.values["clamp_screw_from_axis"] + lever) / lever
		return gripFriction * creepLeft * force * x.Size / 1000, "by its clamp"
	}
	return 0, ""
}

// nutForce returns the force in N that the plastic under a nut bears.
func nutForce(screw fit.Screw, pressure float64) float64 {
	area := math.Sqrt(3)/2*screw.NutAcross*screw.NutAcross - math.Pi/4*screw.Clearance*screw.Clearance
	return pressure * area
}

// setForce returns the force in N of a set screw: what the plastic under its nut
// bears, or in shear around its thread or insert.
func setForce(set SetScrew, pressure float64, s *structure) float64 {
	switch set.Holds {
	case "", fit.Nut:
		return nutForce(set.Screw, pressure)
	}
	const shear = 0.5 // of the pressure
	return shear * pressure * math.Pi * set.Screw.Diameter * math.Min(selfCutting*set.Screw.Diameter, s.values["set_screw_length_max"])
}

// needs returns the torque in N·m that the servo's stall puts on the shaft of
// gear i.
func (p *Pair) needs(i int) float64 {
	t := p.spec.Loading.Stall
	if i == 1 {
		t *= p.Ratio()
	}
	return t
}

// sayShaft judges whether the bore of gear i holds what the servo can give.
func (p *Pair) sayShaft(i int) (check.Finding, bool) {
	s, strength := p.gears[i].body, p.spec.Loading.Material[i].Strength
	x := s.spec.Shaft
	if x == nil || x.Fit == FitTurning {
		return check.Finding{}, false
	}
	r := rule("shaft-torque")
	held, how := s.holds(pressureShare * strength)
	need := p.needs(i)
	f := r.Say(check.Note, held, "the bore alone does not hold the gear on its shaft", "use a set screw, a clamp, a D-bore, a hexagon or a keyway, or say fit = \"turning\" where it should turn")
	switch {
	case how != "" && (strength == 0 || need == 0):
		return f, false
	case how != "":
		limit := p.limit("shaft-torque", check.Limit{Caution: 1.5 * need, Fail: need})
		f = r.Judge(held, limit, p.holdFix(i, held, math.Max(limit.Caution, limit.Fail)))
		f.Detail = fmt.Sprintf("%s N·m %s; the servo's stall puts %s N·m on it", check.Number(held), how, check.Number(need))
	}
	f.Part = p.spec.partName(i)
	return f, true
}

// holdFix says what makes the bore of gear i hold a torque: a longer hub where
// shape holds, else another way to hold.
func (p *Pair) holdFix(i int, held, wanted float64) string {
	s := p.gears[i].body
	if s.spec.Shaft.Kind == RoundBore {
		for _, screw := range fit.Screws() {
			trial := s.spec
			if trial.Clamp != nil && screw.Diameter > trial.Clamp.Screw.Diameter {
				trial.Clamp = &Clamp{Screw: screw}
			} else if trial.SetScrew != nil && screw.Diameter > trial.SetScrew.Screw.Diameter {
				trial.SetScrew = &SetScrew{screw, trial.SetScrew.Holds, trial.SetScrew.Count}
			} else {
				continue
			}
			if g, err := p.bodied(i, trial); err == nil {
				if t, _ := g.body.holds(pressureShare * p.spec.Loading.Material[i].Strength); t >= wanted {
					return "use " + screw.Size
				}
			}
		}
		return "use a D-bore, a hexagon or a keyway: they hold by their shape"
	}
	length := s.height * wanted / held
	return "hub length >= " + check.Number(ceilTo(length-s.face)) + " mm, or a thicker shaft"
}

// bodied returns gear i with another body, not proved against its mate.
func (p *Pair) bodied(i int, b Body) (*Gear, error) {
	s := p.solution
	*[2]*Body{&s.spec.Pinion, &s.spec.Wheel}[i] = b
	return newGear(s, i)
}
