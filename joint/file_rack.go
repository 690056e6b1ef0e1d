package joint

// A RackDrive is a pinion on a servo and a straight toothed rack that it moves.
type RackDrive struct {
	Servo string `json:"servo,omitzero"` // name of a table, or ""

	Module           float64 `json:"module,omitzero"`           // mm
	Teeth            int     `json:"teeth,omitzero"`            // of the pinion
	Shift            Shift   `json:"shift,omitzero"`            // of the pinion: the first number, or ShiftChoose
	Backlash         float64 `json:"backlash,omitzero"`         // mm, circumferential at the reference circle
	FaceWidth        float64 `json:"face_width,omitzero"`       // mm
	PressureAngleDeg float64 `json:"pressure_angle,omitzero"`   // DefaultPressureAngleDeg unless given
	Material         string  `json:"material,omitzero"`         // of both, or ""
	BasicRack        Rack    `json:"basic_rack,omitzero"`       // profile A unless given
	CentreTolerance  float64 `json:"centre_tolerance,omitzero"` // mm either way, of the axis from the rack; zero for the default

	Travel float64 `json:"travel,omitzero"` // mm of the rack, from end to end
	Time   float64 `json:"time,omitzero"`   // s, for one travel
	Law    string  `json:"law,omitzero"`    // one of Laws; "cosine" unless given
	Hold   bool    `json:"hold,omitzero"`   // an end is held under load
	Mass   float64 `json:"mass,omitzero"`   // kg that moves with the rack
	Force  float64 `json:"force,omitzero"`  // N along the rack, against the motion: weight that is lifted, friction

	Height       float64 `json:"height,omitzero"` // mm of the rack's body below its roots, zero for a chosen one
	ScrewSize    string  `json:"screw_size,omitzero"`
	ScrewCount   int     `json:"screw_count,omitzero"`   // along the rack; zero for none
	RackMaterial string  `json:"rack_material,omitzero"` // where it is not that of both

	Measured      []Measured `json:"measured,omitzero"`          // of earlier prints of the pinion
	ServiceFactor float64    `json:"service_factor,omitzero"`    // zero for the default
	Allowable     [2]float64 `json:"allowable_bending,omitzero"` // MPa, pinion and rack; zero for a share of the strength
	Pinion        Gear       `json:"pinion,omitzero"`
}

// pair returns the pinion and what it shares with the rack as a gears table,
// whose wheel stands for the rack.
func (r RackDrive) pair() Gears {
	return Gears{
		Servo: r.Servo, Module: r.Module, Teeth: [2]int{r.Teeth, r.Teeth}, Shift: r.Shift, Backlash: r.Backlash,
		FaceWidth: r.FaceWidth, PressureAngleDeg: r.PressureAngleDeg, Material: r.Material, Rack: r.BasicRack,
		CentreTolerance: r.CentreTolerance, Measured: r.Measured, ServiceFactor: r.ServiceFactor, Allowable: r.Allowable,
		Pinion: r.Pinion, Wheel: Gear{Material: r.RackMaterial},
	}
}

// OnRack returns a pair with a rack of the travel in mm in the wheel's place.
func OnRack(g Gears, travel float64) RackDrive {
	return RackDrive{
		Servo: g.Servo, Module: g.Module, Teeth: g.Teeth[0], Shift: g.Shift, Backlash: g.Backlash,
		FaceWidth: g.FaceWidth, PressureAngleDeg: g.PressureAngleDeg, Material: g.Material, Pinion: g.Pinion,
		Travel: travel, Law: "cosine",
	}
}
