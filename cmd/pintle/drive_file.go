package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
	"pintle/quantity"
)

// made turns the flags into a joint. Servo, load and motion are either known
// together or left out together.
func (d *driveFlags) made(cmd *cobra.Command) (*joint.File, error) {
	given := cmd.Flags().Changed
	if given("travel") && given("points") {
		return nil, usage("--travel and --points say the same", "keep --points: it is more exact")
	}
	if given("solid") && given("inertia") {
		return nil, usage("--solid and --inertia say the same", "give one of them")
	}
	driven := slices.ContainsFunc([]string{"servo-torque", "servo-speed", "travel", "points", "mass", "swing", "time"}, given)
	if driven {
		if !given("points") && !given("travel") {
			return nil, usage("the servo's travel is not said", "turn the servo from end to end, read the angle and give it: --travel 180")
		}
		if err := needFlags(cmd, "servo-torque", "servo-speed", "mass", "swing", "time"); err != nil {
			return nil, err
		}
	} else if !given("ratio") && !given("centre-distance") {
		return nil, usage("nothing says what the pair is for", "give servo, load and motion (pintle drive --help), or --ratio")
	}
	if given("travel") {
		d.servo.Points = [][2]float64{{500, 0}, {2500, d.travel}}
	}
	d.servo.Body[0], d.servo.Body[1] = d.body[0], d.body[1]
	if !given("backlash") {
		d.gears.Backlash = usualBacklash
	}
	file := &joint.File{Title: driveName, Printer: d.printer, Gears: map[string]joint.Gears{}}
	if driven {
		d.gears.Servo, d.gears.Load, d.gears.Motion = driveName, driveName, driveName
		file.Servos = map[string]joint.Servo{driveName: d.servo}
		file.Loads = map[string]joint.Load{driveName: d.load}
		file.Motions = map[string]joint.Motion{driveName: d.motion}
	}
	d.sit(file, given)
	file.Gears[driveName] = d.gears
	markDrive(file, cmd.Flags())
	return file, nil
}

// sit gives pinion and wheel what they sit on.
func (d *driveFlags) sit(file *joint.File, given func(string) bool) {
	if given("horn") {
		// Thickness and hub of a usual disc horn: only its diameter sizes the pinion.
		d.servo.Horn = joint.Horn{Kind: "disc", Diameter: d.horn, Thickness: 2.5, HubDiameter: min(9, d.horn/2)}
		d.gears.Pinion.Hub, d.gears.Servo = "horn", driveName
		if file.Servos == nil {
			file.Servos = map[string]joint.Servo{}
		}
		file.Servos[driveName] = d.servo
	}
	if given("bearing") {
		file.Bearings = map[string]joint.Bearing{driveName: d.bearing}
		d.gears.Wheel.Hub, d.gears.Wheel.Bearing = "journal", driveName
	}
	if given("bolt-circle") {
		d.gears.Wheel.ScrewCount = 4
	}
}

// markDrive notes which flag gave which value, for messages.
func markDrive(file *joint.File, flags *pflag.FlagSet) {
	for table, keys := range map[string]map[string][]string{
		"servo." + driveName: {
			"servo-torque": {"stall_torque"}, "servo-speed": {"speed"}, "travel": {"points"}, "points": {"points"},
			"servo-voltage": {"voltage"}, "supply-voltage": {"supply"}, "dead-band": {"dead_band"}, "servo-play": {"play"},
			"servo-body": {"body"}, "shaft-from-end": {"shaft_from_end"}, "horn": {"horn.diameter"},
		},
		"load." + driveName: {
			"mass": {"mass"}, "offset": {"centre_of_gravity.offset"}, "solid": {"inertia"}, "inertia": {"inertia"},
			"axis": {"axis"}, "elevation": {"elevation"}, "friction": {"friction"}, "extra-torque": {"extra_torque"}, "cable-torque": {"cable_torque"},
		},
		"motion." + driveName:  {"swing": {"swing"}, "time": {"time"}, "law": {"law"}, "cycles": {"cycles_per_day"}},
		"bearing." + driveName: {"bearing": {"designation", "bore", "outside", "overall"}},
		"gears." + driveName: {
			"clear": {"clear"}, "bolt-circle": {"wheel.bolt_circle"}, "screw": {"wheel.screw_size"}, "largest-wheel": {"largest_wheel"},
			"centre-distance": {"centre_distance"}, "ratio": {"ratio"}, "ratio-tolerance": {"ratio_tolerance"}, "module": {"module"},
			"backlash": {"backlash"}, "face-width": {"face_width"}, "lost-motion": {"lost_motion.limit"},
		},
		"printer": {"bead-width": {"bead_width"}, "material": {"material"}},
	} {
		markFlags(file, flags, table, keys)
	}
}

// next returns what to type once the first pair of a search is to be kept.
func (d *driveFlags) next(file *joint.File, name string, flags *pflag.FlagSet) func(c joint.Candidate) []string {
	if file.Path != "" {
		return func(c joint.Candidate) []string {
			lines := []string{"to keep the first, type into [gears." + name + "] of " + file.Path + ":"}
			for line := range strings.Lines(c.Pin) {
				lines = append(lines, "    "+strings.TrimSpace(line))
			}
			return append(lines, "then: pintle build "+file.Path+" --out DIR")
		}
	}
	return func(c joint.Candidate) []string {
		text := fmt.Sprintf("pintle gears --module %s --teeth %d,%d", trimmed(c.Module), c.Teeth[0], c.Teeth[1])
		if c.Shift != [2]float64{} {
			text += " --shift choose"
		}
		flags.Visit(func(f *pflag.Flag) {
			switch f.Name {
			case "backlash", "face-width", "centre-distance", "material", "printer":
				text += " --" + f.Name + " " + f.Value.String()
			}
		})
		return []string{
			"the teeth of the first alone: " + text + " --out DIR",
			"the whole joint: pintle new NAME, then type its module and teeth into [gears.NAME]",
		}
	}
}

func trimmed(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// A pointsValue is a flag that holds pulses and angles, as 500:-90,1500:0,2500:90.
type pointsValue struct{ to *[][2]float64 }

func (v *pointsValue) Set(text string) error {
	var points [][2]float64
	for part := range strings.SplitSeq(text, ",") {
		pulse, angle, ok := strings.Cut(part, ":")
		if !ok {
			return usage(strconv.Quote(part)+": must be a pulse and an angle", "write "+v.Type())
		}
		p, err := quantity.Number.Parse(strings.TrimSuffix(strings.TrimSuffix(pulse, "us"), "µs"))
		if err != nil {
			return err
		}
		a, err := quantity.Angle.Parse(angle)
		if err != nil {
			return err
		}
		points = append(points, [2]float64{p, a})
	}
	*v.to = points
	return nil
}

func (v *pointsValue) Type() string   { return "500:-90,1500:0,2500:90" }
func (v *pointsValue) String() string { return "" }

// A solidValue is a flag that holds a solid and its sizes, as disc:90.
type solidValue struct{ to *joint.Inertia }

func (v *solidValue) Set(text string) error {
	solid, sizes, _ := strings.Cut(text, ":")
	if !slices.Contains(joint.Solids(), solid) {
		return usage(strconv.Quote(text)+": must begin with one of "+strings.Join(joint.Solids(), ", "), "write "+v.Type())
	}
	var values []float64
	for part := range strings.SplitSeq(sizes, "x") {
		size, err := quantity.Length.Parse(part)
		if err != nil {
			return err
		}
		values = append(values, size)
	}
	inertia := joint.Inertia{Solid: solid}
	wanted := 1
	switch solid {
	case "rod":
		inertia.Length = values[0]
	case "box":
		wanted = 2
		if len(values) == wanted {
			inertia.Length, inertia.Width = values[0], values[1]
		}
	default:
		inertia.Radius = values[0]
	}
	if len(values) != wanted {
		return usage(strconv.Quote(text)+": has the wrong number of sizes", "write "+v.Type())
	}
	*v.to = inertia
	return nil
}

func (v *solidValue) Type() string   { return "disc:R|rod:L|box:LxW|point:R" }
func (v *solidValue) String() string { return "" }
