package fit

// The kinds of screw hole. A self-cutting hole is the pilot hole of a screw that
// cuts its own thread in plastic; a nut lies in a hexagonal pocket.
const (
	SelfCutting = "self-cutting"
	Clearance   = "clearance"
	Insert      = "insert" // heat-set
	Counterbore = "counterbore"
	Countersink = "countersink"
	Nut         = "nut"
)

// ScrewHoles lists the kinds of screw hole.
func ScrewHoles() []string {
	return []string{SelfCutting, Clearance, Insert, Counterbore, Countersink, Nut}
}

// A ScrewHole is what one screw needs of the part it goes into or through: a
// bore and, at one end of it, a wider recess. All sizes mm, as the print should
// measure.
type ScrewHole struct {
	Kind   string
	Bore   float64 // diameter
	Recess float64 // largest diameter of the recess, across the flats of a nut's; 0 for none
	Depth  float64 // of the recess, or of an insert's hole; 0 for through
}

// insertPlay is how much deeper than the insert its hole is, mm: for the plastic
// that it pushes ahead (common practice, no source).
const insertPlay = 0.5

// headPlay is the room on the diameter round a screw's head, mm (common
// practice, no source).
const headPlay = 0.3

// Hole returns the hole of a kind for a screw, and false for a kind that is not
// known or an insert that is not made in that size. A recess has a layer of room
// above head or nut.
//
// Heads: ISO 4762 with knurled edge; countersinks ISO 10642 and, below M3, ISO
// 7046-2, at the theoretical diameter that takes both. Inserts differ by maker:
// these are first values. Rows with their sources: testdata/ref/fit-holes.csv.
func (s Screw) Hole(kind string, slip, layer float64) (ScrewHole, bool) {
	h := ScrewHole{Kind: kind, Bore: s.Clearance}
	row, ok := recesses[s.Size]
	switch kind {
	case SelfCutting:
		h.Bore = s.Pilot
	case Clearance:
	case Insert:
		if row.insert == 0 {
			return h, false
		}
		h.Bore, h.Depth = row.insert, row.insertLength+insertPlay
	case Counterbore:
		h.Recess, h.Depth = row.knurled+headPlay, s.HeadHeight+layer
	case Countersink:
		h.Recess, h.Depth = row.countersink, (row.countersink-s.Clearance)/2
	case Nut:
		h.Recess, h.Depth = s.NutAcross+slip, s.NutHeight+layer
	default:
		return h, false
	}
	return h, ok
}

type recess struct{ knurled, countersink, insert, insertLength float64 }

// recesses holds by size what Screw does not: ISO 4762 dk with knurled head,
// theoretical diameter of a countersunk head, hole and longest usual length of a
// heat-set insert.
var recesses = map[string]recess{
	"M2":   {3.98, 4.4, 3.2, 4},
	"M2.5": {4.68, 5.5, 3.8, 5.7},
	"M3":   {5.68, 6.72, 4, 5.7},
	"M4":   {7.22, 8.96, 5.6, 8.1},
	"M5":   {8.72, 11.2, 6.4, 9.5},
	"M6":   {10.22, 13.44, 8, 12.7},
	"M8":   {13.27, 17.92, 0, 0},
}

// A Key is a parallel key with the seats that shaft and hub give it, in mm.
type Key struct {
	Over, To      float64 // diameters of the shaft it is for: over, up to
	Width, Height float64
	Shaft, Hub    float64 // depth of the seat in the shaft, in the hub
	HubMost       float64 // largest depth in the hub
}

// KeyFor returns the parallel key of a shaft of the diameter after ISO 773, DIN
// 6885-1, and false outside 6 to 30 mm. A shaft of 6 mm takes the first row.
// Rows with their sources: testdata/ref/fit-keys.csv.
func KeyFor(shaft float64) (Key, bool) {
	for _, k := range []Key{
		{6, 8, 2, 2, 1.2, 1, 1.1},
		{8, 10, 3, 3, 1.8, 1.4, 1.5},
		{10, 12, 4, 4, 2.5, 1.8, 1.9},
		{12, 17, 5, 5, 3, 2.3, 2.4},
		{17, 22, 6, 6, 3.5, 2.8, 2.9},
		{22, 30, 8, 7, 4, 3.3, 3.5},
	} {
		if (shaft > k.Over || shaft == 6 && k.Over == 6) && shaft <= k.To {
			return k, true
		}
	}
	return Key{}, false
}
