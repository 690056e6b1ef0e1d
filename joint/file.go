package joint

import (
	"math"

	"pintle/check"
	"pintle/fit"
)

// Format is the first line of every joint file this version reads.
const Format = "pintle-joint/1"

// DefaultPressureAngleDeg is used where a gear pair names none: the basic rack
// of ISO 53 has 20 degrees.
const DefaultPressureAngleDeg = 20

// A File is one joint as its builder described it. All values are as read:
// mm, degrees, kg, N·m, s and °C. A value that was not given is zero, or the
// default that its comment names; Has tells the two apart.
type File struct {
	Path   string `json:"-"` // as given by the caller, or "" for a joint made from flags
	Format string `json:"format,omitzero"`
	Title  string `json:"title,omitzero"`

	Printer   Printer                 `json:"printer,omitzero"`
	Place     Place                   `json:"place,omitzero"`
	Materials map[string]fit.Material `json:"material,omitzero"`
	Bearings  map[string]Bearing      `json:"bearing,omitzero"`
	Servos    map[string]Servo        `json:"servo,omitzero"`
	Loads     map[string]Load         `json:"load,omitzero"`
	Motions   map[string]Motion       `json:"motion,omitzero"`
	Gears     map[string]Gears        `json:"gears,omitzero"`
	Racks     map[string]RackDrive    `json:"rack,omitzero"`
	Housings  map[string]Housing      `json:"housing,omitzero"`
	Plates    map[string]Plate        `json:"plate,omitzero"`
	Linkages  map[string]Linkage      `json:"linkage,omitzero"`
	Grilles   map[string]Grille       `json:"grille,omitzero"`
	Panels    map[string]Panel        `json:"panel,omitzero"`
	Supply    Supply                  `json:"supply,omitzero"`
	Wires     map[string]Wire         `json:"wire,omitzero"`
	Coupon    *Coupon                 `json:"coupon,omitempty"`
	Sheet     Stock                   `json:"sheet,omitzero"`
	Drawing   Papers                  `json:"drawing,omitzero"`
	Keeper    Keeper                  `json:"keeper,omitzero"`
	Measured  map[string]Features     `json:"measured,omitzero"` // by printed part
	Limits    check.Limits            `json:"-"`
	Accept    map[string]string       `json:"accept,omitzero"` // "check" or "check@design" to reason

	Mechanisms map[string]Mechanism `json:"mechanism,omitzero"`

	source source
}

// Features are what a caliper read on bores and outsides of one printed part, in
// mm by the feature's name, the first print first.
type Features map[string][]float64

// A Printer says what is known of the printer.
type Printer struct {
	Card             string     `json:"card,omitzero"`               // name of a card file; when set, the measurements below are not
	Material         string     `json:"material,omitzero"`           // default of all parts
	BeadWidth        float64    `json:"bead_width,omitzero"`         // mm
	LayerThickness   float64    `json:"layer_thickness,omitzero"`    // mm
	Bore             fit.Error  `json:"bore_error,omitzero"`         // on the diameter; Sigma is fit.TypedSigma unless given
	Outside          fit.Error  `json:"outside_error,omitzero"`      // on the diameter; Sigma is fit.TypedSigma unless given
	FirstLayerGrowth float64    `json:"first_layer_growth,omitzero"` // mm per side
	Bed              [2]float64 `json:"bed,omitzero"`
	Nozzle           float64    `json:"nozzle,omitzero"`      // mm, that the parts are printed with
	Orientation      string     `json:"orientation,omitzero"` // one of fit.Orientations, of the axes of bores and pegs
}

// A Place says where the figure stands.
type Place struct {
	Hottest float64 `json:"hottest,omitzero"` // °C, the highest temperature the parts reach
	Coldest float64 `json:"coldest,omitzero"` // °C, the lowest
}

// A Bearing is a designation of the table, with measured sizes in mm that
// override it, or measured sizes alone.
type Bearing struct {
	Designation string  `json:"designation,omitzero"`
	Bore        float64 `json:"bore,omitzero"`
	Outside     float64 `json:"outside,omitzero"`
	Overall     float64 `json:"overall,omitzero"`     // width over all
	ConeWidth   float64 `json:"cone_width,omitzero"`  // tapered bearings: inner ring
	CupWidth    float64 `json:"cup_width,omitzero"`   // tapered bearings: outer ring; thrust ball bearings: thickness of the housing washer
	WasherBore  float64 `json:"washer_bore,omitzero"` // thrust ball bearings: bore of the housing washer, the larger of the two
}

// A Servo is what its builder measured.
type Servo struct {
	StallTorque  float64      `json:"stall_torque,omitzero"` // N·m
	SpeedDeg     float64      `json:"speed,omitzero"`        // deg/s without load
	Points       [][2]float64 `json:"points,omitzero"`       // pulse in µs, angle in deg; pulses rise
	SplineTeeth  int          `json:"spline_teeth,omitzero"`
	Body         [3]float64   `json:"body,omitzero"` // mm: length, width, height
	Tabs         Tabs         `json:"tabs,omitzero"`
	ShaftFromEnd float64      `json:"shaft_from_end,omitzero"` // mm from the body's nearer end to the shaft's axis
	Horn         Horn         `json:"horn,omitzero"`
	Voltage      float64      `json:"voltage,omitzero"`       // V at which torque and speed hold
	Supply       float64      `json:"supply,omitzero"`        // V it runs on
	StallCurrent float64      `json:"stall_current,omitzero"` // A at the voltage it runs on
	IdleCurrent  float64      `json:"idle_current,omitzero"`  // A, moving without load
	Channel      *int         `json:"channel,omitempty"`      // of the controller
	DeadBand     float64      `json:"dead_band,omitzero"`     // µs
	Play         float64      `json:"play,omitzero"`          // deg, free play of the shaft
}

// Tabs are a servo's mounting tabs; all sizes mm.
type Tabs struct {
	Length    float64    `json:"length,omitzero"` // over both tabs
	Thickness float64    `json:"thickness,omitzero"`
	BelowTop  float64    `json:"below_top,omitzero"` // underside of the tabs below the top of the body
	Holes     [2]float64 `json:"holes,omitzero"`     // spacing along and across
	Diameter  float64    `json:"diameter,omitzero"`  // of the holes
}

// A Load is what the joint turns.
type Load struct {
	Mass            float64         `json:"mass,omitzero"` // kg
	Inertia         Inertia         `json:"inertia,omitzero"`
	CentreOfGravity CentreOfGravity `json:"centre_of_gravity,omitzero"`
	Axis            string          `json:"axis,omitzero"`         // one of Axes; "vertical" unless given
	ElevationDeg    float64         `json:"elevation,omitzero"`    // horizontal axes: of the centre of gravity at mid-swing
	Overhead        bool            `json:"overhead,omitzero"`     // it hangs or stands above people
	Friction        Friction        `json:"friction,omitzero"`     // at the joint, beside that of the wheel's bearing
	ExtraTorque     float64         `json:"extra_torque,omitzero"` // N·m at the joint, always against the motion
	CableTorque     float64         `json:"cable_torque,omitzero"` // N·m at the joint, one way: positive adds to the weight, negative helps to lift
	Table           LoadTable       `json:"table,omitzero"`        // what of it is screwed onto the wheel
}

// A LoadTable is the round plate by which a load lies on its wheel, in mm; the
// zero value is one that nobody measured.
type LoadTable struct {
	Diameter  float64 `json:"diameter,omitzero"`
	Thickness float64 `json:"thickness,omitzero"`
}

// A Friction is a torque, or a kind of bearing to estimate it from.
type Friction struct {
	Value   float64 `json:"value,omitzero"`   // N·m, where Bearing is empty
	Bearing string  `json:"bearing,omitzero"` // one of FrictionBearings
	Bore    float64 `json:"bore,omitzero"`    // mm, of bearing or bush
}

// An Inertia is a number, or a solid to compute it from.
type Inertia struct {
	Value  float64 `json:"value,omitzero"`  // kg·m², where Solid is empty
	Solid  string  `json:"solid,omitzero"`  // one of Solids
	Radius float64 `json:"radius,omitzero"` // mm: disc, point
	Length float64 `json:"length,omitzero"` // mm: rod, box
	Width  float64 `json:"width,omitzero"`  // mm: box
}

// A CentreOfGravity is measured from the bearing, in mm.
type CentreOfGravity struct {
	Height float64 `json:"height,omitzero"` // along the axis
	Offset float64 `json:"offset,omitzero"` // square to the axis
}

// A Motion is the movement wanted of the joint.
type Motion struct {
	Swing float64 `json:"swing,omitzero"` // deg, from end to end
	Time  float64 `json:"time,omitzero"`  // s, for one swing
	Law   string  `json:"law,omitzero"`   // one of Laws; "cosine" unless given
	Hold  bool    `json:"hold,omitzero"`  // an end position is held under load

	Rest         float64 `json:"rest,omitzero"`           // deg from mid-swing, counted as the servo counts, where the joint lies with the power off
	CyclesPerDay float64 `json:"cycles_per_day,omitzero"` // there and back
	Strikes      bool    `json:"strikes,omitzero"`        // the load hits something at the end of its swing
}

// A Plate carries a housing and a servo at the pair's centre distance.
type Plate struct {
	Housing      string  `json:"housing,omitzero"`     // names of tables
	Gears        string  `json:"gears,omitzero"`       // names of tables
	Thickness    float64 `json:"thickness,omitzero"`   // mm
	ServoTurnDeg float64 `json:"servo_turn,omitzero"`  // of the servo's long side
	ServoSlots   float64 `json:"servo_slots,omitzero"` // mm either way along the line of centres, to set the mesh; 0 for round holes
	Stops        float64 `json:"stops,omitzero"`       // deg beyond the swing at either end at which printed stops meet; 0 for none
	ScrewSize    string  `json:"screw_size,omitzero"`  // of the corner holes, or "" for M4
	Material     string  `json:"material,omitzero"`
}

// A Grille is a panel with holes that lets sound pass; all sizes mm.
type Grille struct {
	Outline     Outline `json:"outline,omitzero"`
	Pattern     string  `json:"pattern,omitzero"`      // one of grille.Patterns
	Hole        float64 `json:"hole,omitzero"`         // width across a hole
	SlotLength  float64 `json:"slot_length,omitzero"`  // over both round ends; the pattern slot only
	Pitch       float64 `json:"pitch,omitzero"`        // centre to centre
	PitchAlong  float64 `json:"pitch_along,omitzero"`  // of slots that stand end to end; zero where it is to be chosen
	Thickness   float64 `json:"thickness,omitzero"`    // of the plate
	Margin      float64 `json:"margin,omitzero"`       // of solid rim; zero where it is to be chosen
	HazardDepth float64 `json:"hazard_depth,omitzero"` // from the face to what must not be touched; zero for nothing
	OpenTarget  float64 `json:"open_target,omitzero"`  // open area wanted, a share; grille.DefaultOpenTarget unless given
	Material    string  `json:"material,omitzero"`
	Screws      Screws  `json:"screws,omitzero"`
}

// An Outline is the rim of a grille.
type Outline struct {
	Kind         string  `json:"kind,omitzero"`          // one of Outlines
	Diameter     float64 `json:"diameter,omitzero"`      // of a disc
	Length       float64 `json:"length,omitzero"`        // of a rectangle, along x
	Width        float64 `json:"width,omitzero"`         // of a rectangle, along y
	CornerRadius float64 `json:"corner_radius,omitzero"` // of a rectangle
}

// Screws hold a grille: on a circle near the rim of a disc, in the corners and
// along the sides of a rectangle. The zero value is none.
type Screws struct {
	Size   string  `json:"size,omitzero"`
	Count  int     `json:"count,omitzero"`
	Circle float64 `json:"circle,omitzero"` // mm, diameter; a disc only, zero where Inset says it
	Inset  float64 `json:"inset,omitzero"`  // mm, edge to centre; zero where it is to be chosen
}

// Has says whether the builder gave the value at path, such as
// "gears.lamp.module" or "printer.bore_error".
func (f *File) Has(path string) bool { return f.source.has(path) }

// GearsNames returns the names of the gears tables in order.
func (f *File) GearsNames() []string { return sorted(f.Gears) }

// Mark records that origin, such as "--module", gave the value at path: for a
// joint that is made from flags instead of a file.
func (f *File) Mark(path, origin string) { f.source.mark(path, Position{Origin: origin}) }

// Locate returns the line and column, both from 1, of a key's value in a table
// such as "gears.lamp"; of the table's header where the key is not given; zeros
// where neither is in the file. An empty key asks for the header.
func (f *File) Locate(table, key string) (line, column int) {
	p, _ := f.source.find(table, key)
	return p.Line, p.Column
}

// Inputs returns what the builder gave, defaults filled in, in the form the
// report shows: tables and keys named as in the file.
func (f *File) Inputs() any {
	limits := map[string]map[string]any{}
	for name, limit := range f.Limits {
		limits[name] = map[string]any{"caution": shown(limit.Caution), "fail": shown(limit.Fail)}
	}
	return struct {
		*File
		Limits map[string]map[string]any `json:"limits,omitempty"`
	}{f, limits}
}

// shown returns a limit as the file gives it; JSON has no NaN.
func shown(limit float64) any {
	if math.IsNaN(limit) {
		return "none"
	}
	return limit
}
