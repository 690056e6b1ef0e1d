package gear

import (
	"math"

	"pintle/check"
)

// A Rack is a basic rack tooth profile; all three are in modules.
type Rack struct {
	Addendum     float64 // haP*
	Clearance    float64 // cP*: the dedendum is Addendum + Clearance
	FilletRadius float64 // rhofP*: at the root of the rack, the tip of the tool
}

// ProfileA returns basic rack profile A of ISO 53 (from memory), for high torque.
func ProfileA() Rack { return Rack{1, 0.25, 0.38} }

// ProfileB returns profile B of ISO 53 (from memory).
func ProfileB() Rack { return Rack{1, 0.25, 0.3} }

// ProfileC returns profile C of ISO 53 (from memory).
func ProfileC() Rack { return Rack{1, 0.25, 0.25} }

// ProfileD returns profile D of ISO 53 (from memory), with a deep full fillet.
func ProfileD() Rack { return Rack{1, 0.4, 0.39} }

// RackProfiles returns the letters of the profiles of ISO 53.
func RackProfiles() []string { return []string{"A", "B", "C", "D"} }

// RackNamed returns the profile of ISO 53 with a letter.
func RackNamed(letter string) (Rack, bool) {
	r, ok := map[string]Rack{"A": ProfileA(), "B": ProfileB(), "C": ProfileC(), "D": ProfileD()}[letter]
	return r, ok
}

// dedendum returns hfP*.
func (r Rack) dedendum() float64 { return r.Addendum + r.Clearance }

// formDedendum returns hFfP*, the depth at which the rack's straight flank ends.
func (r Rack) formDedendum(alpha float64) float64 {
	return r.dedendum() - r.FilletRadius*(1-math.Sin(alpha))
}

// largestFillet returns the largest fillet radius in modules: its end must lie
// below the flank that a mating rack uses, rho <= c/(1 - sin alpha), and two of
// them must fit side by side into the space of the rack.
func (r Rack) largestFillet(alpha float64) float64 {
	below := r.Clearance/(1-math.Sin(alpha)) + roundedRadius
	across := (math.Pi/4 - r.dedendum()*math.Tan(alpha)) / math.Tan((math.Pi/2-alpha)/2)
	return math.Min(below, across)
}

// Fitted returns the rack with its fillet reduced to what a pressure angle in
// rad leaves, in steps of 0.01.
func (r Rack) Fitted(alpha float64) Rack {
	r.FilletRadius = math.Min(r.FilletRadius, math.Max(math.Floor(r.largestFillet(alpha)*100)/100, 0))
	return r
}

// roundedRadius is how far profile A's printed radius exceeds its exact limit
// c/(1 - sin 20 deg) = 0.37995.
const roundedRadius = 0.0001

// validate refuses a rack that cannot exist at the pressure angle.
func (r Rack) validate(alpha float64) error {
	if err := check.InRange("rack addendum", r.Addendum, "modules", 0.5, 1.5, "1 is the standard"); err != nil {
		return err
	}
	if err := check.InRange("rack clearance", r.Clearance, "modules", 0.05, 0.8, "0.25 is the standard"); err != nil {
		return err
	}
	top := r.largestFillet(alpha)
	if top < 0 {
		return &check.FieldError{
			Field: "rack dedendum", Value: r.dedendum(), Unit: "modules",
			Reason: "brings the rack's flanks together before its root",
			Remedy: "use addendum 1 and clearance 0.25",
		}
	}
	return check.InRange("rack fillet radius", r.FilletRadius, "modules", 0, top, "use a smaller radius, or a larger clearance")
}
