package fit

// A Screw holds what parts need to know of one metric screw with coarse
// thread, its cap head and its nut, in mm.
type Screw struct {
	Size         string  // "M3"
	Diameter     float64 // of the thread
	Clearance    float64 // hole the screw passes freely: ISO 273, medium series
	Pilot        float64 // hole in plastic that the screw cuts its own thread in
	HeadDiameter float64 // cap head, largest, plain: ISO 4762 dk
	HeadHeight   float64 // cap head, largest: ISO 4762 k
	NutAcross    float64 // across the flats, largest: ISO 4032 s
	NutHeight    float64 // largest: ISO 4032 m
}

// Screws returns the known screws in ascending order.
//
// Clearance: table of ISO 273 medium as printed by a fastener page. Heads:
// ISO 4762 as printed by two or three fastener pages (M2.5: one). Nuts: EN ISO
// 4032:2001 as printed by two tables. Pilot: middle of d - 2 s 0.6134 P for a
// thread engagement s of 75 to 80 %, the start values of two guides for screws
// in plastic, computed. All rows with their sources: testdata/ref/fit-screws.csv.
func Screws() []Screw {
	return []Screw{
		{"M2", 2, 2.4, 1.62, 3.8, 2, 4, 1.6},
		{"M2.5", 2.5, 2.9, 2.075, 4.5, 2.5, 5, 2},
		{"M3", 3, 3.4, 2.525, 5.5, 3, 5.5, 2.4},
		{"M4", 4, 4.5, 3.335, 7, 4, 7, 3.2},
		{"M5", 5, 5.5, 4.235, 8.5, 5, 8, 4.7},
		{"M6", 6, 6.6, 5.05, 10, 6, 10, 5.2},
		{"M8", 8, 9, 6.81, 13, 8, 13, 6.8},
	}
}

// ScrewNamed returns the screw of a size such as "M3".
func ScrewNamed(size string) (Screw, bool) {
	for _, s := range Screws() {
		if s.Size == size {
			return s, true
		}
	}
	return Screw{}, false
}

// LargestThrough returns the largest screw whose thread passes a hole of the
// diameter in mm, and false where even the smallest does not.
func LargestThrough(hole float64) (Screw, bool) {
	var largest Screw
	for _, s := range Screws() {
		if s.Diameter <= hole {
			largest = s
		}
	}
	return largest, largest.Size != ""
}
