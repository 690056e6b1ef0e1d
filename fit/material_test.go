package fit_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// Service limits and HDT against the lower ends of testdata/ref/fit-materials.json
// (maker sheets collected in the FDM Polymers technical reference, appendix A.1).
func TestHeatLimits(t *testing.T) {
	var ref struct {
		Heat []struct {
			Mat     string
			HDT     [2]float64 `json:"HDT_045"`
			Service float64
		}
	}
	if err := json.Unmarshal(reference(t, "fit-materials.json"), &ref); err != nil {
		t.Fatal(err)
	}
	names := map[string]string{"PLA": "PLA", "PETG": "PETG", "ABS": "ABS", "PA6 dry": "PA"}
	checked := 0
	for _, row := range ref.Heat {
		m, ok := fit.MaterialNamed(names[row.Mat])
		if !ok {
			continue
		}
		checked++
		if m.Service != row.Service || m.Deflection != row.HDT[0] {
			t.Errorf("%s: service %v, HDT %v, want %v, %v", m.Name, m.Service, m.Deflection, row.Service, row.HDT[0])
		}
	}
	if checked != len(fit.Materials()) {
		t.Errorf("%d of %d materials have a reference row", checked, len(fit.Materials()))
	}
}

// Moduli: middle of the printed ranges (additive.tools), ABS from MDPI Processes
// 13(9) 2733, nylon from Crawford, example 2.7. Strain limits: common practice,
// no source. PLA's heat limit of 45 °C is HDT 55 less 10 K, below its service
// limit of 50.
func TestMaterials(t *testing.T) {
	for _, test := range []struct {
		name                   string
		modulus, strain, limit float64
	}{
		{"PLA", (3000 + 4000) / 2, 0.005, 45},
		{"PETG", (2000 + 3000) / 2, 0.008, 60},
		{"ABS", 2100, 0.008, 80},
		{"PA", 1000, 0.015, 80},
	} {
		m, ok := fit.MaterialNamed(test.name)
		if !ok {
			t.Errorf("%s is not known", test.name)
			continue
		}
		if m.Modulus != test.modulus || m.StrainLimit != test.strain || m.HeatLimit() != test.limit {
			t.Errorf("%s: modulus %v, strain limit %v, heat limit %v, want %v, %v, %v",
				test.name, m.Modulus, m.StrainLimit, m.HeatLimit(), test.modulus, test.strain, test.limit)
		}
		if err := m.Validate(); err != nil {
			t.Errorf("%s: %v", test.name, err)
		}
		for _, word := range []string{"from memory", "no source"} {
			if !strings.Contains(m.Source, word) {
				t.Errorf("%s: the source does not say what is %q", test.name, word)
			}
		}
	}
}

func TestMaterialValidate(t *testing.T) {
	good, _ := fit.MaterialNamed("PLA")
	for _, test := range []struct {
		name  string
		spoil func(*fit.Material)
		field string
	}{
		{"no name", func(m *fit.Material) { m.Name = "" }, "material"},
		{"modulus in GPa", func(m *fit.Material) { m.Modulus = 0 }, "PLA modulus"},
		{"strain limit in percent", func(m *fit.Material) { m.StrainLimit = 0.5 }, "PLA strain limit"},
		{"not a number", func(m *fit.Material) { m.Expansion = math.NaN() }, "PLA expansion"},
		{"density in kg/m³", func(m *fit.Material) { m.Density = 1240 }, "PLA density"},
	} {
		m := good
		test.spoil(&m)
		var wrong *check.FieldError
		if err := m.Validate(); !errors.As(err, &wrong) || wrong.Field != test.field {
			t.Errorf("%s: %v, want an error about %s", test.name, err, test.field)
		}
	}
}
