package joint

// A Linkage is horn, pushrod and lever between a servo and the part it moves. All
// sizes are mm, from axis to axis.
type Linkage struct {
	Kind   string `json:"kind,omitzero"`   // one of LinkageKinds; "four-bar" unless given
	Servo  string `json:"servo,omitzero"`  // names of tables, or ""
	Load   string `json:"load,omitzero"`   // names of tables, or ""
	Motion string `json:"motion,omitzero"` // names of tables, or ""

	Horn  LinkHorn  `json:"horn,omitzero"`
	Rod   LinkRod   `json:"rod,omitzero"`
	Lever LinkLever `json:"lever,omitzero"`
	Frame LinkFrame `json:"frame,omitzero"`

	NeutralDeg float64 `json:"neutral,omitzero"`    // of the horn at the servo's angle 0, from the line through the two axes; 90 unless given
	FromDeg    float64 `json:"from,omitzero"`       // of the horn; the servo's measured range unless given
	ToDeg      float64 `json:"to,omitzero"`         // of the horn; the servo's measured range unless given
	Crossed    bool    `json:"crossed,omitzero"`    // lever and horn on different sides of the rod
	Clockwise  bool    `json:"clockwise,omitzero"`  // the horn turns clockwise as the servo's angle grows
	Sinks      bool    `json:"sinks,omitzero"`      // the load sinks as the lever's angle grows
	Turning    bool    `json:"turning,omitzero"`    // a gear motor turns the horn round and round
	Motor      Motor   `json:"motor,omitzero"`      // of a horn that is turning
	Tip        float64 `json:"tip,omitzero"`        // from the lever's axis to where play matters, zero where nobody asks
	Offset     float64 `json:"offset,omitzero"`     // between the planes of the rod's two ends
	Efficiency float64 `json:"efficiency,omitzero"` // share, zero for the usual one

	Pin      string `json:"pin,omitzero"` // size of the screws that the rod turns on; M3 unless given
	Material string `json:"material,omitzero"`
}

// A Motor is a continuous gear motor; both values at its output shaft.
type Motor struct {
	StallTorque float64 `json:"stall_torque,omitzero"` // N·m
	RPM         float64 `json:"rpm,omitzero"`          // turns in a minute under the load
}

// A LinkHorn is the arm on the servo: the servo's own horn where one of its holes
// has the length, a printed arm that takes the horn up, or a printed crank that
// clamps on a motor's shaft.
type LinkHorn struct {
	Length    float64 `json:"length,omitzero"`
	Bore      float64 `json:"bore,omitzero"`      // of a crank: the shaft's diameter
	Thickness float64 `json:"thickness,omitzero"` // zero where it is to be chosen
	Width     float64 `json:"width,omitzero"`     // zero where it is to be chosen
}

// A LinkRod is the pushrod: a printed bar, or a threaded rod to be cut.
type LinkRod struct {
	Length    float64   `json:"length,omitzero"`
	Kind      string    `json:"kind,omitzero"`      // one of RodKinds; "bar" unless given
	Thickness float64   `json:"thickness,omitzero"` // of a bar, zero where it is to be chosen
	Width     float64   `json:"width,omitzero"`     // of a bar, zero where it is to be chosen
	Thread    string    `json:"thread,omitzero"`    // of a threaded rod; M3 unless given
	Ends      []LinkEnd `json:"ends,omitzero"`      // of a threaded rod: horn's end, lever's end
}

// A LinkEnd is a rod end as measured.
type LinkEnd struct {
	ToThread   float64 `json:"to_thread,omitzero"` // from the ball's centre to where the rod goes in
	Depth      float64 `json:"depth,omitzero"`     // of the threaded hole
	Engagement float64 `json:"engagement,omitzero"`
	BallLimit  float64 `json:"ball_limit,omitzero"` // deg that the ball turns out of square, zero for a clevis or where not measured
	Play       float64 `json:"play,omitzero"`       // of ball or pin, along the rod
}

// A LinkLever is the printed lever on the part that moves.
type LinkLever struct {
	Length     float64    `json:"length,omitzero"`
	Hub        string     `json:"hub,omitzero"`         // one of LeverHubs; "pin" unless given
	Bore       float64    `json:"bore,omitzero"`        // of a clamp: the shaft's diameter
	Bearing    string     `json:"bearing,omitzero"`     // name of a table: the bearing in the hub
	Diameter   float64    `json:"diameter,omitzero"`    // of the hub, zero where it is to be chosen
	Thickness  float64    `json:"thickness,omitzero"`   // zero where it is to be chosen
	Width      float64    `json:"width,omitzero"`       // zero where it is to be chosen
	BoltCircle float64    `json:"bolt_circle,omitzero"` // of the screws that carry the load; zero for none
	ScrewSize  string     `json:"screw_size,omitzero"`
	ScrewCount int        `json:"screw_count,omitzero"`
	ClampScrew string     `json:"clamp_screw,omitzero"` // M3 unless given
	Second     LinkSecond `json:"second,omitzero"`      // makes the lever a bell crank
}

// A LinkSecond is the other arm of a bell crank.
type LinkSecond struct {
	Length   float64 `json:"length,omitzero"`
	AngleDeg float64 `json:"angle,omitzero"` // from the first arm, anticlockwise
}

// A LinkFrame is what keeps the servo's axis and the lever's apart: a printed
// bracket where the servo's body was measured.
type LinkFrame struct {
	Distance     float64  `json:"distance,omitzero"`
	Thickness    float64  `json:"thickness,omitzero"`  // of the bracket, 5 unless given
	ServoTurnDeg float64  `json:"servo_turn,omitzero"` // of the servo's long side from the line to the lever; 180 unless given
	Pivot        string   `json:"pivot,omitzero"`      // size of the screw the lever turns on; M4 unless given
	ScrewSize    string   `json:"screw_size,omitzero"` // of the corner holes; M4 unless given
	Foot         LinkFoot `json:"foot,omitzero"`       // stands the bracket on a base
}

// A LinkFoot is a wall of the bracket that is screwed to a base.
type LinkFoot struct {
	ScrewSize  string  `json:"screw_size,omitzero"` // M4 unless given
	ScrewCount int     `json:"screw_count,omitzero"`
	Height     float64 `json:"height,omitzero"` // zero where it is to be chosen
}

// LinkageKinds are the mechanisms that a file may name.
func LinkageKinds() []string { return []string{"four-bar"} }

// RodKinds are what a pushrod may be.
func RodKinds() []string { return []string{"bar", "threaded"} }

// LeverHubs are the ways a lever sits on what carries it: it turns on a screw,
// grips a shaft, or holds a bearing.
func LeverHubs() []string { return []string{"pin", "clamp", "bearing"} }
