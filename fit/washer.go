package fit

// A Washer is a plain washer for one screw, in mm.
type Washer struct{ Inner, Outer, Thickness float64 }

// Washer returns the plain washer of the screw: ISO 7089 as printed by two
// fastener pages; M2 and M2.5 from memory. Rows: testdata/ref/fit-washers.csv.
func (s Screw) Washer() Washer {
	return map[string]Washer{
		"M2": {2.2, 5, 0.3}, "M2.5": {2.7, 6, 0.5}, "M3": {3.2, 7, 0.5}, "M4": {4.3, 9, 0.8},
		"M5": {5.3, 10, 1}, "M6": {6.4, 12, 1.6}, "M8": {8.4, 16, 1.6},
	}[s.Size]
}
