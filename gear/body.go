package gear

import "pintle/fit"

// A Body says what a gear's teeth sit on. A gear has at most one of Horn,
// Journal and Bore.
type Body struct {
	Horn    *HornPocket
	Journal *Journal
	Bore    float64     // plain round bore through the gear, mm; 0 for none
	Bolts   *BoltCircle // pilot holes through the teeth's height
}

// A HornPocket holds the servo's own horn. The sizes are those of the horn, as
// measured. The bed face is the one away from the servo.
type HornPocket struct {
	Kind        string  // "disc"
	Diameter    float64 // of the disc, mm
	Thickness   float64 // of the disc, mm: the depth of the pocket
	HubDiameter float64 // mm; the hole for it is HubRoom larger
	Holes       int     // screw holes in the horn that are used; 0 for none
	HoleCircle  float64 // mm
	Hole        float64 // diameter of the horn's screw holes, mm
	StandOff    float64 // how far a round boss carries the pocket's rim above the teeth, mm
}

// HubRoom is the room on the diameter between the horn's hub and its hole, mm
// (common practice, no source).
const HubRoom = 0.5

// A Journal is a peg that turns in, or carries, a bearing ring. The bed face is
// the one away from the bearing, which carries the table.
type Journal struct {
	Bore             float64 // of the ring it goes into, mm
	Length           float64 // mm, with the lead-in
	ShoulderDiameter float64 // mm; 0 for no shoulder
	ShoulderHeight   float64 // mm
	Hollow           float64 // bore through the gear and its journal, mm; 0 for solid
}

// A BoltCircle is a circle of pilot holes in which screws cut their own thread.
type BoltCircle struct {
	Diameter float64 // of the circle through the centres, mm
	Screw    fit.Screw
	Count    int
}
