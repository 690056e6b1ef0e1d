package drive

import "pintle/check"

// Copper as wires are made of it: resistivity in Ω·mm²/m at 20 °C, and its rise
// per kelvin. IEC 60028, international standard of resistance for annealed
// copper: 1/58 Ω·mm²/m and 0.00393 1/K (from memory).
const (
	CopperResistivity = 1.0 / 58
	copperRise        = 0.00393
)

// A Wire carries current to servos and back: two conductors of one length.
type Wire struct {
	Length     float64 // one way, mm
	Section    float64 // of one conductor, mm²; 0 where Resistance says it
	Resistance float64 // of one conductor, Ω/m at 20 °C, as its maker gives it; 0 where Section says it
}

// Loop returns the resistance in Ω of both conductors at a temperature in °C.
func (w Wire) Loop(celsius float64) float64 {
	perMetre := w.Resistance
	if perMetre == 0 {
		perMetre = CopperResistivity / w.Section
	}
	return 2 * w.Length / 1000 * perMetre * (1 + copperRise*(celsius-20))
}

// Drop returns the voltage in V that a current in A loses on the way out and back.
func (w Wire) Drop(current, celsius float64) float64 { return current * w.Loop(celsius) }

// SectionFor returns the section in mm² of a copper conductor with which a
// current in A loses no more than a voltage in V.
func (w Wire) SectionFor(current, loss, celsius float64) float64 {
	one := Wire{Length: w.Length, Section: 1}
	return one.Drop(current, celsius) / loss
}

// Validate returns an error for a wire that no current can be worked out for.
func (w Wire) Validate() error {
	if err := check.InRange("length of the wire", w.Length, "mm", 1, 1e6, "measure it from the supply to the servo, one way; \"1.5m\" is understood"); err != nil {
		return err
	}
	if w.Section == 0 && w.Resistance == 0 || w.Section != 0 && w.Resistance != 0 {
		return &check.FieldError{
			Field: "wire", Text: "section and resistance", Reason: "needs one of the two",
			Remedy: "give section in mm² as printed on the wire, or resistance in ohm per metre as its maker gives it",
		}
	}
	if w.Section != 0 {
		return check.InRange("section of the wire", w.Section, "mm²", 0.01, 100, "read it on the wire's jacket: 0.75 mm² or so")
	}
	return check.InRange("resistance of the wire", w.Resistance, "Ω/m", 1e-5, 10, "one conductor of 0.75 mm² copper has 0.023 Ω/m")
}

// Current returns what a servo draws in A that gives a share of its stall torque
// while it moves: on the straight line of a direct-current motor, from the
// current it draws without load to that at stall.
func Current(share, stall, idle float64) float64 {
	return idle + (stall-idle)*min(max(share, 0), 1)
}
