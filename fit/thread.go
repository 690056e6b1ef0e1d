package fit

// Pitch returns the pitch in mm of the screw's coarse thread (ISO 261, as printed
// by two pages; rows: testdata/ref/fit-pitches.csv), 0 for a size not known.
func (s Screw) Pitch() float64 {
	return map[string]float64{"M2": 0.4, "M2.5": 0.45, "M3": 0.5, "M4": 0.7, "M5": 0.8, "M6": 1, "M8": 1.25}[s.Size]
}
