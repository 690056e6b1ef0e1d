package joint

// A SetScrew presses on the shaft through the hub of a gear.
type SetScrew struct {
	ScrewSize string `json:"screw_size,omitzero"` // "" for none
	Holds     string `json:"holds,omitzero"`      // one of SetHolders, "nut" unless given
	Count     int    `json:"count,omitzero"`
}

// A Clamp is the screw and slit of hub = "clamp".
type Clamp struct {
	ScrewSize string  `json:"screw_size,omitzero"` // "M3" unless given
	Slit      float64 `json:"slit,omitzero"`       // mm, zero for a chosen one
}

// Lighten is what is taken out between hub and rim of a gear; zero sizes are
// chosen.
type Lighten struct {
	Kind   string  `json:"kind,omitzero"` // one of gear.Lightenings, or "" for nothing
	Count  int     `json:"count,omitzero"`
	Rim    float64 `json:"rim,omitzero"`    // mm left under the roots
	Hub    float64 `json:"hub,omitzero"`    // mm, diameter left around the axis
	Width  float64 `json:"width,omitzero"`  // mm, of a spoke or diameter of a hole
	Web    float64 `json:"web,omitzero"`    // mm thick
	Fillet float64 `json:"fillet,omitzero"` // mm
}

// A Mark is what a gear says of itself.
type Mark struct {
	Style  string  `json:"style,omitzero"`  // one of MarkStyles, or "" for no mark
	Text   string  `json:"text,omitzero"`   // name, module and number of teeth unless given
	Sector bool    `json:"sector,omitzero"` // notches at the first and last tooth that work
	Height float64 `json:"height,omitzero"` // mm, cap height; zero for what fits
}
