package joint

import "math"

// A Horn is the servo horn a pinion is screwed to; all sizes mm.
type Horn struct {
	Kind        string  `json:"kind,omitzero"`     // one of HornKinds
	Diameter    float64 `json:"diameter,omitzero"` // of a disc, or of the circle that arms sweep
	Thickness   float64 `json:"thickness,omitzero"`
	HubDiameter float64 `json:"hub_diameter,omitzero"`
	HubHeight   float64 `json:"hub_height,omitzero"`
	Holes       int     `json:"holes,omitzero"`
	HoleCircle  float64 `json:"hole_circle,omitzero"` // diameter
	Hole        float64 `json:"hole,omitzero"`        // diameter

	Arm        float64   `json:"arm,omitzero"`          // from the shaft's axis to the end of an arm
	WidthAtHub float64   `json:"width_at_hub,omitzero"` // of an arm
	WidthAtTip float64   `json:"width_at_tip,omitzero"` // of an arm, at the centre of its rounded end
	Arms       int       `json:"arms,omitzero"`         // zero for what the kind says
	HolesAt    []float64 `json:"holes_at,omitzero"`     // of each arm, from the shaft's axis

	AtNeutralDeg  float64 `json:"at_neutral,omitzero"` // where an arm or hole stands at the neutral pulse, as put on
	WantedDeg     float64 `json:"wanted,omitzero"`     // where it should stand
	TriedOnSpline bool    `json:"-"`                   // at_neutral was given
}

// Gears is a pinion on a servo and a wheel on the turning part.
type Gears struct {
	Servo  string `json:"servo,omitzero"`  // names of tables, or ""
	Load   string `json:"load,omitzero"`   // names of tables, or ""
	Motion string `json:"motion,omitzero"` // names of tables, or ""

	Module           float64 `json:"module,omitzero"`          // mm; zero where it is to be chosen
	Teeth            [2]int  `json:"teeth,omitzero"`           // pinion, wheel; zero where it is to be chosen
	Ratio            float64 `json:"ratio,omitzero"`           // wheel to pinion, zero where not given
	RatioTolerance   float64 `json:"ratio_tolerance,omitzero"` // share, of a pair that is to be chosen; DefaultRatioTolerance unless given
	LargestWheel     float64 `json:"largest_wheel,omitzero"`   // mm, tip diameter of a wheel that is to be chosen
	Clear            float64 `json:"clear,omitzero"`           // mm, diameter around the wheel's axis that the servo's body keeps out of
	Shift            Shift   `json:"shift,omitzero"`
	CentreDistance   float64 `json:"centre_distance,omitzero"` // mm, zero where it follows from the rest
	Backlash         float64 `json:"backlash,omitzero"`        // mm, circumferential at the working pitch circle
	FaceWidth        float64 `json:"face_width,omitzero"`      // mm
	PressureAngleDeg float64 `json:"pressure_angle,omitzero"`  // DefaultPressureAngleDeg unless given
	Material         string  `json:"material,omitzero"`        // of both, or ""

	Rack            Rack        `json:"rack,omitzero"`              // profile A unless given
	TipAlteration   float64     `json:"tip_alteration,omitzero"`    // in modules; what keeps the clearance unless given
	CentreTolerance float64     `json:"centre_tolerance,omitzero"`  // mm either way, zero for the default
	LostMotion      LostMotion  `json:"lost_motion,omitzero"`       // where it matters and how much is too much
	Temperature     Temperature `json:"temperature,omitzero"`       // what the pair lives in
	Measured        []Measured  `json:"measured,omitzero"`          // of earlier prints, the first print first
	ServiceFactor   float64     `json:"service_factor,omitzero"`    // zero for the default
	Allowable       [2]float64  `json:"allowable_bending,omitzero"` // MPa, pinion and wheel; zero for a share of the strength

	Pinion Gear `json:"pinion,omitzero"`
	Wheel  Gear `json:"wheel,omitzero"`
}

// A Shift is a pair of profile shift coefficients or a way to choose them.
type Shift struct {
	Rule string     `json:"rule,omitzero"` // "choose", "balanced", or "" for the numbers
	X    [2]float64 `json:"x,omitzero"`    // pinion, wheel
}

// The rules a Shift may name.
const (
	ShiftChoose   = "choose"   // the smallest shift free of undercut
	ShiftBalanced = "balanced" // equal specific sliding
)

// A Gear says how one gear of a pair sits on its shaft, horn or bearing.
type Gear struct {
	Hub        string  `json:"hub,omitzero"`         // one of Hubs, or ""
	Bore       float64 `json:"bore,omitzero"`        // mm
	Bearing    string  `json:"bearing,omitzero"`     // name of a table: the bearing a journal hub fits
	BoltCircle float64 `json:"bolt_circle,omitzero"` // mm, diameter
	ScrewSize  string  `json:"screw_size,omitzero"`  // e.g. "M3"
	ScrewCount int     `json:"screw_count,omitzero"`
	Material   string  `json:"material,omitzero"`
	Spacer     float64 `json:"spacer,omitzero"`     // mm, of a disc between wheel and what is screwed onto it
	Rim        float64 `json:"rim,omitzero"`        // mm, of an internal gear, around its roots
	Sector     int     `json:"sector,omitzero"`     // teeth of a part-turn gear, zero for a whole one
	SectorHub  float64 `json:"sector_hub,omitzero"` // mm, diameter of a sector's round body
	Retain     Retain  `json:"retain,omitzero"`     // what holds a journal in its bearing

	Shaft       float64  `json:"shaft,omitzero"`        // mm, of the rod as measured: diameter, or across the flats
	Fit         string   `json:"fit,omitzero"`          // one of gear.ShaftFits, or a seat's for hub "bearing"; "" for slip or press
	OverFlat    float64  `json:"over_flat,omitzero"`    // mm, over the flat of a D as measured; zero for a chosen depth
	HubDiameter float64  `json:"hub_diameter,omitzero"` // mm, of a cylinder beyond the face; zero for what its screws need
	HubLength   float64  `json:"hub_length,omitzero"`   // mm
	SetScrew    SetScrew `json:"set_screw,omitzero"`
	Clamp       Clamp    `json:"clamp,omitzero"`
	ScrewKind   string   `json:"screw_kind,omitzero"`  // of the bolt circle, one of fit.ScrewHoles, or "" for self-cutting
	HornScrews  string   `json:"horn_screws,omitzero"` // "counterbore" sinks their heads; "" or "clearance" leaves them on the gear
	Lighten     Lighten  `json:"lighten,omitzero"`
	Mark        Mark     `json:"mark,omitzero"`
	TopChamfer  float64  `json:"top_chamfer,omitzero"` // mm, on the face away from the bed
}

// A Retain is what holds a journal in its bearing.
type Retain struct {
	Kind      string `json:"kind,omitzero"`       // one of Retainers, or "" for nothing
	ScrewSize string `json:"screw_size,omitzero"` // "M6" unless given
}

// A Rack is a basic rack: the letter of a profile of ISO 53, or its sizes in
// modules.
type Rack struct {
	Profile      string  `json:"profile,omitzero"`       // one of gear.RackProfiles, or "" for the sizes
	Addendum     float64 `json:"addendum,omitzero"`      // haP*
	Clearance    float64 `json:"clearance,omitzero"`     // cP*
	FilletRadius float64 `json:"fillet_radius,omitzero"` // rhofP*
}

// A LostMotion says where lost motion matters and how much is too much.
type LostMotion struct {
	Radius   float64 `json:"radius,omitzero"`   // mm
	LimitDeg float64 `json:"limit,omitzero"`    // at the wheel
	LimitMM  float64 `json:"limit_mm,omitzero"` // at the radius; of the two limits one may be given
}

// limitDeg returns the limit at the wheel in deg, 0 for none.
func (l LostMotion) limitDeg() float64 {
	if l.LimitMM > 0 && l.Radius > 0 {
		return l.LimitMM / l.Radius * 180 / math.Pi
	}
	return l.LimitDeg
}

// A Temperature is what a pair lives in, in °C.
type Temperature struct {
	Made          float64 `json:"made,omitzero"` // 20 unless given
	Coldest       float64 `json:"coldest,omitzero"`
	Hottest       float64 `json:"hottest,omitzero"`
	BaseExpansion float64 `json:"base_expansion,omitzero"` // per K, of what holds the axes; the plate's plastic unless given
}

// Measured is what a caliper read on one print of both gears, in mm; zero where
// nothing was read.
type Measured struct {
	Span [2]float64 `json:"w,omitzero"`   // W1, W2
	Pins [2]float64 `json:"m,omitzero"`   // M1, M2
	Tip  [2]float64 `json:"tip,omitzero"` // tip1, tip2
}
