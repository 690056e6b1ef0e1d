package gear

import "pintle/fit"

// A Body says what a gear's teeth sit on. A gear has at most one of Horn,
// Journal, Shaft, Seat and Bore.
type Body struct {
	Horn      *HornPocket
	Journal   *Journal
	Bore      float64     // plain round bore through the gear, mm; 0 for none
	Bolts     *BoltCircle // pilot holes through the teeth's height
	Sector    int         // teeth of a part-turn gear, rounded up to an odd number; 0 for a whole gear
	SectorHub float64     // diameter of a sector's round body, mm; 0 for a chosen one
	Rim       float64     // of an internal gear, around its roots, mm; 0 for a chosen one
	Retain    *Retain     // what holds a journal's ring on the gear; nil for nothing

	Shaft      *Shaft    // bore for a rod as measured
	Hub        *Hub      // cylinder around the shaft; nil for none, or for what its screws need
	SetScrew   *SetScrew // through the hub
	Clamp      *Clamp    // of the hub
	Seat       *Seat     // for a bearing that the gear turns on
	Lighten    *Lighten  // spokes, holes and web between hub and rim; nil for a solid gear
	Mark       *Mark     // letters on the gear; nil for none
	TopChamfer float64   // on teeth and holes at the face away from the bed, mm; 0 for none
}

// A HornPocket holds the servo's own horn. The sizes are those of the horn, as
// measured. The bed face is the one away from the servo.
type HornPocket struct {
	Kind        string  // "disc", or by its arms "arm", "double-arm", "cross"
	Diameter    float64 // of a disc, mm
	Thickness   float64 // of disc or arms, mm: the depth of the pocket
	HubDiameter float64 // mm; the hole for it is HubRoom larger
	Holes       int     // screw holes in a disc that are used; 0 for none
	HoleCircle  float64 // of a disc, mm
	Hole        float64 // diameter of the horn's screw holes, mm
	Sunk        bool    // the screws' heads lie in counterbores of the bed face
	StandOff    float64 // how far a round boss carries the pocket's rim above the teeth, mm

	Arm        float64   // from the shaft's axis to the end of an arm, mm
	WidthAtHub float64   // of an arm where it leaves the hub, mm
	WidthAtTip float64   // of an arm at the centre of its rounded end, mm
	Arms       int       // 0 for what the kind says: 1, 2 or 4, evenly spaced
	HolesAt    []float64 // screw holes of each arm, from the shaft's axis, mm

	SplineTeeth int     // of the servo's shaft; 0 where not known
	AtNeutral   float64 // rad, where the first arm or hole stands at the servo's neutral pulse, as it was put on
	Wanted      float64 // rad, where it should stand
	Tried       bool    // AtNeutral was measured
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

// A Retain is how a wheel is held in its bearing.
//
// "nut": a screw or threaded rod passes the hollow; its nut lies in a hexagonal
// pocket in the bed face, under the table, and a washer clamps the ring at the
// journal's end. "screw": one screw in the axis cuts its thread into the end of
// a solid journal. "screws": three screws into the wall of a hollow journal hold
// a washer, so that wires can pass.
type Retain struct {
	Kind  string
	Screw fit.Screw
}

// A BoltCircle is a circle of screw holes. Recesses for heads and nuts lie in
// the face away from the bed.
type BoltCircle struct {
	Diameter float64 // of the circle through the centres, mm
	Screw    fit.Screw
	Count    int
	Kind     string // one of fit.ScrewHoles; "" for pilot holes in which screws cut their thread
}
