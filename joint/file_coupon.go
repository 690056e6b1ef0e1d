package joint

// A Coupon is a set of pieces that show what the printer does. What is left out
// comes from the rest of the file, or is the usual.
type Coupon struct {
	Bearing string `json:"bearing,omitzero"` // names of tables; the only one unless given
	Servo   string `json:"servo,omitzero"`

	Bore float64 `json:"bore,omitzero"` // mm, that the pegs are for; the bearing's unless given
	Wall float64 `json:"wall,omitzero"` // mm, of the rings; that of the housing unless given

	Rings     Steps     `json:"rings,omitzero"`    // round the bearing's outside diameter, mm
	Pegs      Steps     `json:"pegs,omitzero"`     // round the bore, mm
	Backlash  Steps     `json:"backlash,omitzero"` // mm
	Webs      Steps     `json:"webs,omitzero"`     // mm
	Slots     Steps     `json:"slots,omitzero"`    // mm, of the kerf pieces round the sheet's thickness
	Pockets   []float64 `json:"pockets,omitzero"`  // mm, clearances of the horn's pockets
	Holes     []float64 `json:"holes,omitzero"`    // mm
	CrossHole float64   `json:"cross_hole,omitzero"`

	Module           float64 `json:"module,omitzero"` // mm; that of the gears unless given
	Teeth            [2]int  `json:"teeth,omitzero"`
	PressureAngleDeg float64 `json:"pressure_angle,omitzero"`

	SheetMaterial  string  `json:"sheet_material,omitzero"`  // that is cut by laser; that of [sheet] unless given
	SheetThickness float64 `json:"sheet_thickness,omitzero"` // mm, measured; that of [sheet] unless given, 0 for no kerf pieces

	Only     []string `json:"only,omitzero"`      // names of pieces
	CardName string   `json:"card_name,omitzero"` // of the card that the readings will make
	Material string   `json:"material,omitzero"`
	Nozzle   float64  `json:"nozzle,omitzero"` // mm; the printer's unless given
}

// Steps are values from one to another, both included, in mm.
type Steps struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
	Step float64 `json:"step"`
}
