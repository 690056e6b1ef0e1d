package fit

import (
	"math"

	"pintle/check"
)

// A Material is what the checks need of one plastic.
type Material struct {
	Name        string  `json:"-"`       // the key it stands under in a file
	Modulus     float64 `json:"modulus"` // Young's modulus, MPa, short-term, printed, in-plane
	Poisson     float64 `json:"poisson"`
	Expansion   float64 `json:"expansion"`    // per K
	Density     float64 `json:"density"`      // g/cm³
	StrainLimit float64 `json:"strain_limit"` // hoop strain that may be held for good
	Service     float64 `json:"service"`      // highest temperature in °C that its makers state
	Deflection  float64 `json:"deflection"`   // HDT at 0.45 MPa, °C
	Strength    float64 `json:"strength"`     // tensile, in-plane, MPa
	Moisture    float64 `json:"moisture"`     // growth by moisture, share of size
	Source      string  `json:"source"`
}

// HeatLimit returns the highest service temperature in °C: the lower of the
// stated limit and HDT(0.45 MPa) less 10 K.
func (m Material) HeatLimit() float64 { return math.Min(m.Service, m.Deflection-10) }

// Validate returns a *check.FieldError for values no plastic has.
func (m Material) Validate() error {
	if m.Name == "" {
		return &check.FieldError{Field: "material", Reason: "must have a name", Remedy: "use PLA, PETG, ABS or PA, or define one"}
	}
	for _, q := range []struct {
		quantity string
		value    float64
		unit     string
		lo, hi   float64
	}{
		{"modulus", m.Modulus, "MPa", 1, 1e6},
		{"Poisson's ratio", m.Poisson, "", 0, 0.5},
		{"expansion", m.Expansion, "per K", 0, 1e-3},
		{"density", m.Density, "g/cm³", 0.1, 25},
		{"strain limit", m.StrainLimit, "", 1e-5, 0.2},
		{"service limit", m.Service, "°C", 0, 1000},
		{"heat deflection temperature", m.Deflection, "°C", 0, 1000},
		{"strength", m.Strength, "MPa", 0.1, 1e4},
		{"growth by moisture", m.Moisture, "", 0, 0.1},
	} {
		remedy := "look it up on the maker's sheet; the strain limit is a share (0.005 is 0.5 %)"
		if err := check.InRange(m.Name+" "+q.quantity, q.value, q.unit, q.lo, q.hi, remedy); err != nil {
			return err
		}
	}
	return nil
}

// MaterialNamed returns one of the known materials.
func MaterialNamed(name string) (Material, bool) {
	for _, m := range Materials() {
		if m.Name == name {
			return m, true
		}
	}
	return Material{}, false
}

// Materials returns the known plastics, the one that bears least heat first.
//
// Moduli are the middle of the range measured on printed specimens where one
// was seen; strengths, service limits and heat deflection are lower ends. Limits
// of held strain are common practice, no source. What is recalled and not seen
// is named in each Source.
func Materials() []Material {
	const (
		heat   = "service and HDT: lower ends of maker sheets collected in the FDM Polymers technical reference, appendix A.1; "
		strain = "strain limit: common practice, no source; "
	)
	return []Material{
		{
			Name: "PLA", Modulus: 3500, Poisson: 0.36, Expansion: 68e-6, Density: 1.24,
			StrainLimit: 0.005, Service: 50, Deflection: 55, Strength: 50,
			Source: "modulus 3 to 4 GPa, strength 50 to 65 MPa: additive.tools/materials/pla (printed specimens); " + heat + strain +
				"Poisson, expansion, density from memory (one maker's sheet says 1.31 g/cm³)",
		},
		{
			Name: "PETG", Modulus: 2500, Poisson: 0.38, Expansion: 65e-6, Density: 1.27,
			StrainLimit: 0.008, Service: 60, Deflection: 70, Strength: 44,
			Source: "modulus 2 to 3 GPa, strength 44 to 56 MPa: additive.tools/materials/petg (printed specimens); " + heat + strain +
				"Poisson, expansion, density from memory",
		},
		{
			Name: "ABS", Modulus: 2100, Poisson: 0.36, Expansion: 90e-6, Density: 1.04,
			StrainLimit: 0.008, Service: 80, Deflection: 90, Strength: 40,
			Source: "modulus 2.1 GPa, strength 40 MPa: MDPI Processes 13(9) 2733 (raw material); " + heat + strain +
				"Poisson, expansion, density from memory",
		},
		{
			Name: "PA", Modulus: 1000, Poisson: 0.4, Expansion: 145e-6, Density: 1.14,
			StrainLimit: 0.015, Service: 80, Deflection: 150, Strength: 40, Moisture: 0.015,
			Source: "modulus 1 GPa, Poisson 0.4: Crawford, example 2.7 (moulded nylon); expansion 114 to 175e-6 (middle), growth by moisture 0.5 to 1.5 % (upper end): " +
				"Faust et al., Polymers 2021, 13, 3637 (printed, unfilled); " + heat + strain + "strength, density from memory",
		},
	}
}
