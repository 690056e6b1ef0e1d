package bearing

import (
	"math"

	"pintle/check"
)

// A PressFitSpec is a ring or shaft pressed into a hub: two elastic cylinders of
// one length. Any consistent units serve; with mm and MPa forces are N.
type PressFitSpec struct {
	Joint        float64 // diameter where the two meet
	HubOutside   float64 // diameter
	ShaftInner   float64 // bore of the inner member; 0 for a solid one
	Interference float64 // on the diameter; 0 or less does not grip
	HubE         float64 // Young's moduli
	HubNu        float64 // Poisson's ratios
	ShaftE       float64
	ShaftNu      float64
	Length       float64 // engaged
	Friction     float64 // coefficient
}

// A PressFit is the state of a pressed joint: stresses tensile positive,
// changes of diameter.
type PressFit struct {
	Pressure        float64 // at the joint, MPa
	HubHoopBore     float64 // MPa
	HubHoopOutside  float64 // MPa
	HubEquivalent   float64 // von Mises at the hub's bore, MPa
	ShaftHoopJoint  float64 // MPa, negative
	ShaftHoopBore   float64 // MPa, negative; the value at the centre of a solid one
	AxialForce      float64 // N to slide the members
	Torque          float64 // N·m to turn them, for lengths in mm
	HubGrowth       float64 // of the hub's outside diameter
	BoreLoss        float64 // of the inner member's bore diameter
	HubOpening      float64 // of the hub's bore diameter
	ShaftCompressed float64 // of the inner member's outside diameter
}

// NewPressFit solves Lamé's equations for both members in plane stress (open
// ends): p = delta / (d [(Co + nu_o)/Eo + (Ci - nu_i)/Ei]) with Co = (Do² + d²) /
// (Do² - d²) and Ci = (d² + di²) / (d² - di²) (Norton, Machine Design, 4th ed.,
// section 10.12, from memory; its example 10-5 is a test). It returns a
// *check.FieldError for members without a wall or without stiffness.
func NewPressFit(s PressFitSpec) (PressFit, error) {
	if err := s.validate(); err != nil {
		return PressFit{}, err
	}
	d, outer, inner := s.Joint*s.Joint, s.HubOutside*s.HubOutside, s.ShaftInner*s.ShaftInner
	co, ci := (outer+d)/(outer-d), (d+inner)/(d-inner)
	p := max(s.Interference, 0) / (s.Joint * ((co+s.HubNu)/s.HubE + (ci-s.ShaftNu)/s.ShaftE))
	f := PressFit{
		Pressure:        p,
		HubHoopBore:     p * co,
		HubHoopOutside:  p * (co - 1),
		HubEquivalent:   p * math.Sqrt(co*co+co+1),
		ShaftHoopJoint:  -p * ci,
		ShaftHoopBore:   -2 * p * d / (d - inner),
		AxialForce:      math.Pi * s.Joint * s.Length * s.Friction * p,
		HubOpening:      p * s.Joint * (co + s.HubNu) / s.HubE,
		ShaftCompressed: p * s.Joint * (ci - s.ShaftNu) / s.ShaftE,
	}
	if s.ShaftInner == 0 {
		f.ShaftHoopBore = -p
	}
	f.Torque = f.AxialForce * s.Joint / 2 / 1000
	f.HubGrowth = f.HubHoopOutside * s.HubOutside / s.HubE
	f.BoreLoss = -f.ShaftHoopBore * s.ShaftInner / s.ShaftE
	return f, nil
}

func (s PressFitSpec) validate() error {
	const huge = math.MaxFloat64
	for _, q := range []struct {
		field     string
		value     float64
		above, hi float64
		unit      string
		remedy    string
	}{
		{"joint diameter", s.Joint, 0, 1e4, "mm", "measure where the two parts meet"},
		{"outside diameter", s.HubOutside, s.Joint, 1e5, "mm", "the hub needs a wall: make it larger than the joint diameter"},
		{"interference", s.Interference, -huge, s.Joint / 2, "mm", "some hundredths of a millimetre are usual"},
		{"hub modulus", s.HubE, 0, huge, "MPa", "give Young's modulus"},
		{"ring modulus", s.ShaftE, 0, huge, "MPa", "give Young's modulus"},
		{"hub Poisson's ratio", s.HubNu, -1, 0.5, "", "between 0.3 and 0.45 for metals and plastics"},
		{"ring Poisson's ratio", s.ShaftNu, -1, 0.5, "", "between 0.3 and 0.45 for metals and plastics"},
	} {
		lo := math.Nextafter(q.above, math.Inf(1))
		if q.above == 0 {
			lo = math.SmallestNonzeroFloat64
		}
		if err := check.InRange(q.field, q.value, q.unit, lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	for _, q := range []struct {
		field string
		value float64
		hi    float64
		unit  string
	}{
		{"ring bore", s.ShaftInner, math.Nextafter(s.Joint, 0), "mm"},
		{"engaged length", s.Length, 1e5, "mm"},
		{"coefficient of friction", s.Friction, 10, ""},
	} {
		if err := check.InRange(q.field, q.value, q.unit, 0, q.hi, "must not be negative, nor beyond the part"); err != nil {
			return err
		}
	}
	return nil
}
