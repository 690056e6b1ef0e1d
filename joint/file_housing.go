package joint

// A Housing is a printed ring around a bearing. Lengths are mm; zero where a
// size is to be chosen.
type Housing struct {
	Bearing      string  `json:"bearing,omitzero"`      // name of a table
	Fit          string  `json:"fit,omitzero"`          // one of Fits, or an ISO class of the bore such as "N7"; "press" unless given, "slip" in a clamp
	Interference float64 `json:"interference,omitzero"` // on the diameter: of the seat, or of the tips of crush ribs
	Wall         float64 `json:"wall,omitzero"`
	Mount        Mount   `json:"mount,omitzero"`
	Material     string  `json:"material,omitzero"`

	ShoulderThickness float64       `json:"shoulder_thickness,omitzero"` // under the outer ring; a joint with a servo sets it itself
	ShoulderHole      float64       `json:"shoulder_hole,omitzero"`      // behind the outer ring
	BoreDepth         float64       `json:"bore_depth,omitzero"`         // of a tube longer than the bearing, from mouth to shoulder: only the ring's width is at fit size
	Ribs              *Ribs         `json:"ribs,omitzero"`               // of fit = "crush-ribs"
	KnockOut          *KnockOut     `json:"knock_out,omitzero"`          // nil: added where nothing shows to push the bearing out by
	InspectionSlots   int           `json:"inspection_slots,omitzero"`   // slots of the shoulder that show whether the ring sits
	CornerRelief      *CornerRelief `json:"corner_relief,omitzero"`      // nil: added where the bearing's chamfer is too small for a printed corner
	Retention         Retention     `json:"retention,omitzero"`
	MeasuredSeat      []float64     `json:"measured_seat,omitzero"` // of earlier prints, the first print first
	PressingDisc      bool          `json:"pressing_disc,omitzero"` // makes NAME-pressing-disc too

	Rod *Rod `json:"rod,omitzero"` // that turns in the bearing

	Load          string  `json:"load,omitzero"`           // name of a table; of a ring under a wheel the gears name it
	RPM           float64 `json:"rpm,omitzero"`            // turns per minute; from the motion of a wheel
	SecondBearing string  `json:"second_bearing,omitzero"` // name of a table: the other bearing on the same axis
	Span          float64 `json:"span,omitzero"`           // between the shoulders that back the two outer rings
	FaceToFace    bool    `json:"face_to_face,omitzero"`   // those shoulders lie outside the two bearings, not between them
	Running       string  `json:"running,omitzero"`        // one of Runnings; "normal" unless given
}

// A Mount is how a housing is fastened.
type Mount struct {
	Kind       string  `json:"kind,omitzero"` // one of Mounts, or "" for none
	ScrewSize  string  `json:"screw_size,omitzero"`
	ScrewCount int     `json:"screw_count,omitzero"`
	Thickness  float64 `json:"thickness,omitzero"` // mm, of a clamp's ears
	Nut        bool    `json:"nut,omitzero"`       // a clamp: in a slot for a nut, else the screw cuts its thread
	Slit       float64 `json:"slit,omitzero"`      // mm, of a clamp
}

// A Rod turns in the bearing of a housing.
type Rod struct {
	Class      string  `json:"class,omitzero"`       // ISO class such as "h6"; chosen unless given
	Slides     bool    `json:"slides,omitzero"`      // the ring slides along it to be set
	Shoulder   float64 `json:"shoulder,omitzero"`    // mm, diameter of the shoulder or collar behind the ring
	Flat       float64 `json:"flat,omitzero"`        // mm, depth of a D-flat
	FlatLength float64 `json:"flat_length,omitzero"` // mm that a part sits on the flat
	Torque     float64 `json:"torque,omitzero"`      // N·m that the flat carries
}

// Ribs are the thin ribs of a crush-ribs seat.
type Ribs struct {
	Count  int     `json:"count,omitzero"`
	Height float64 `json:"height,omitzero"` // mm out of the bore
}

// KnockOut are slots or round holes for pushing the bearing out; Count 0 leaves
// them out.
type KnockOut struct {
	Count int     `json:"count"`
	Width float64 `json:"width,omitzero"` // mm, of a slot; of a round hole its diameter
	Round bool    `json:"round,omitzero"` // holes under the ring's face instead of slots
}

// A CornerRelief is a groove at the foot of the seat; Width 0 leaves it out.
type CornerRelief struct {
	Width float64 `json:"width"`          // mm, on the radius
	Depth float64 `json:"depth,omitzero"` // mm, along the axis
}

// A Retention holds the bearing in its seat: a lip it snaps past, or a screwed
// cap, the part NAME-cap.
type Retention struct {
	Kind       string  `json:"kind,omitzero"`        // one of Retentions, or "" for none
	Height     float64 `json:"height,omitzero"`      // mm per side, of a lip
	ScrewSize  string  `json:"screw_size,omitzero"`  // of a cap
	ScrewCount int     `json:"screw_count,omitzero"` // of a cap
	Thickness  float64 `json:"thickness,omitzero"`   // mm, of a cap
}
