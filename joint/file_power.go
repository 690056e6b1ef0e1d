package joint

// A Supply is what feeds the servos, as its label states it. The zero value is
// one that nobody has chosen yet.
type Supply struct {
	Voltage float64 `json:"voltage,omitzero"`      // V
	Current float64 `json:"current,omitzero"`      // A, for as long as one likes
	Peak    float64 `json:"peak_current,omitzero"` // A, for a moment; Current unless given
	Fuse    float64 `json:"fuse,omitzero"`         // A, rating of the fuse between supply and servos
}

// A Wire runs from the supply to servos and back.
type Wire struct {
	Servos     []string `json:"servos,omitzero"`     // names of tables; all unless given
	Length     float64  `json:"length,omitzero"`     // mm, one way
	Section    float64  `json:"section,omitzero"`    // mm² of one copper conductor
	Resistance float64  `json:"resistance,omitzero"` // Ω/m of one conductor, in place of the section
	Current    float64  `json:"current,omitzero"`    // A that its maker rates it for
}
