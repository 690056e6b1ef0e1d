package linkage

import (
	"math"

	"pintle/check"
)

// A RodStock is what the rod is made of: a round bar, or a threaded one taken at
// its core.
type RodStock struct {
	Diameter     float64 // mm, of the round bar, or of the thread's core; see ThreadCore
	Modulus      float64 // MPa; 0 is steel's
	Eccentricity float64 // mm, from the line of the pins to the rod's axis where it is bent or set off
}

// SteelModulus is Young's modulus of steel in MPa, as rounded in tables.
const SteelModulus = 200_000.0

// ThreadCore returns the core diameter in mm of an ISO metric thread, d3 =
// d - 1.226869 P (from memory), the least section of a threaded rod.
func ThreadCore(diameter, pitch float64) float64 { return diameter - 1.226869*pitch }

// Buckling returns the load in N at which a slender round rod with pinned ends
// bows out: Euler's pi² E I/L², I = pi d⁴/64. Length and diameter in mm, the
// modulus in MPa.
func Buckling(diameter, length, modulus float64) float64 {
	return math.Pi * math.Pi * modulus * math.Pi * math.Pow(diameter, 4) / 64 / (length * length)
}

// Slenderness returns the length of a round rod over its radius of gyration,
// d/4. Euler's load holds above about 100 for steel; below, the rod yields first.
func Slenderness(diameter, length float64) float64 { return length / (diameter / 4) }

// EccentricStress returns the greatest stress in MPa in a pinned round rod under
// a force in N that acts beside its axis, by the secant formula
// F/A (1 + e c/r² sec(pi/2 sqrt(F/Pcr))) (textbook, from memory), or false at and
// above the buckling load.
func EccentricStress(r RodStock, length, force float64) (float64, bool) {
	share := force / Buckling(r.Diameter, length, r.modulus())
	if share >= 1 {
		return 0, false
	}
	area, gyration := math.Pi*r.Diameter*r.Diameter/4, r.Diameter/4
	bend := r.Eccentricity * (r.Diameter / 2) / (gyration * gyration) / math.Cos(math.Pi/2*math.Sqrt(share))
	return force / area * (1 + bend), true
}

func (r RodStock) modulus() float64 {
	if r.Modulus == 0 {
		return SteelModulus
	}
	return r.Modulus
}

func (r *RodStock) validate() error {
	if r == nil {
		return nil
	}
	if err := check.InRange("rod diameter", r.Diameter, "mm", 0.1, 100,
		"measure the round bar; of a thread give the core, 2.39 mm for M3"); err != nil {
		return err
	}
	if err := check.InRange("modulus of the rod", r.modulus(), "MPa", 1, 1e6,
		"200000 for steel, 70000 for aluminium, 2500 for a printed bar"); err != nil {
		return err
	}
	return check.InRange("eccentricity of the rod", r.Eccentricity, "mm", 0, 100,
		"give the distance from the line of the pins to the rod's axis, 0 for a straight rod")
}

var ruleBuckling = check.Rule{
	Name: "rod-buckling", Symbol: "F/P_cr",
	Meaning: "The push in the rod with the servo stalled, over the load at which the rod bows out.",
	Formula: "F L²/(pi² E I), pinned ends, I of the round bar or the thread's core",
	Source:  "Euler; a third: " + check.CommonPractice,
	Change:  "take a thicker or a shorter rod",
	Sense:   check.AtMost, Limit: check.Limit{Caution: 0.25, Fail: 1.0 / 3},
}

func (s *Stroke) judgeBuckling(force float64, where string) check.Finding {
	r := s.spec.Stock
	share := force / Buckling(r.Diameter, s.spec.Rod, r.modulus())
	thick := r.Diameter * math.Pow(share/s.aim(ruleBuckling), 0.25)
	f := ruleBuckling.Judge(share, s.spec.Limits.Of(ruleBuckling), "rod or core diameter >= "+check.Number(ceil(thick, 2))+" mm")
	f.Detail = where
	return f
}
