package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/export"
	"pintle/joint"
	"pintle/quantity"
)

// driveName names the tables of a joint that is made from flags.
const driveName = "drive"

func (env *environment) newDriveCommand() *cobra.Command {
	var asked driveFlags
	var design designFlags
	var gears string
	count := joint.DefaultListed
	cmd := &cobra.Command{
		Use:   "drive [FILE]",
		Short: "Find gear pairs for a servo, a load and a motion",
		Long: "Find gear pairs for a servo, a load and a motion, from a joint file or from flags:\n\n" +
			"  pintle drive hare.toml\n" +
			"  pintle drive --servo-torque 20kgf.cm --servo-speed \"0.17 s/60deg\" --travel 180 \\\n" +
			"               --mass 1.9 --solid disc:90 --swing 130 --time 4 --bearing 30203\n" +
			"  pintle drive --ratio 1.5 --largest-wheel 60\n\n" +
			"Every pair listed passes all checks of gears and drive. The first have the fewest\n" +
			"cautions, then the best sum of five grades: torque, travel, lost motion, size, strength.",
		Args: atMost(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			file, name, err := asked.file(cmd, args, gears)
			if err != nil {
				return err
			}
			if count < 1 || count > 100 {
				return usage(fmt.Sprintf("--list %d: must be from 1 to 100", count), "leave it out, or use 8")
			}
			options, err := design.options(file, cmd.Flags())
			if err != nil {
				return err
			}
			found, err := joint.FindPairs(file, name, options, count)
			if err != nil {
				return err
			}
			if design.json {
				if err := export.WriteValue(&env.out, found); err != nil {
					return err
				}
			} else {
				printSearch(&env.out, found, asked.next(file, name, cmd.Flags()))
			}
			if len(found.Candidates) == 0 {
				for _, line := range noPair(found) {
					env.talk.say(line)
				}
				return errFailed
			}
			return nil
		},
	}
	flags := cmd.Flags()
	asked.add(flags)
	flags.StringVar(&gears, "gears", "", "`NAME` of the gears table, where the file has several")
	flags.IntVar(&count, "list", count, "how many pairs to list at most")
	design.add(flags)
	return cmd
}

// driveFlags describe a joint without a file.
type driveFlags struct {
	servo   joint.Servo
	travel  float64
	load    joint.Load
	motion  joint.Motion
	gears   joint.Gears
	bearing joint.Bearing
	horn    float64
	body    [2]float64
	printer joint.Printer
}

func (d *driveFlags) add(flags *pflag.FlagSet) {
	d.load.Axis, d.motion.Law, d.printer.Material = "vertical", "cosine", "PETG"
	d.gears = joint.Gears{FaceWidth: usualFaceWidth, PressureAngleDeg: joint.DefaultPressureAngleDeg}
	quantityVar(flags, &d.servo.StallTorque, quantity.Torque, "servo-torque", "stall torque of the servo, in N·m")
	quantityVar(flags, &d.servo.SpeedDeg, quantity.Speed, "servo-speed", `speed without load, in deg/s, or as leaflets print it: "0.17 s/60deg"`)
	quantityVar(flags, &d.servo.Voltage, quantity.Number, "servo-voltage", "voltage at which torque and speed hold, in V")
	quantityVar(flags, &d.servo.Supply, quantity.Number, "supply-voltage", "voltage the servo runs on, in V")
	quantityVar(flags, &d.travel, quantity.Angle, "travel", "measured travel of the servo from end to end, in deg")
	flags.Var(&pointsValue{&d.servo.Points}, "points", "measured pulses in µs and angles in deg, in place of --travel")
	quantityVar(flags, &d.servo.DeadBand, quantity.Number, "dead-band", "dead band of the servo, in µs; with --travel over pulses of 500 to 2500 µs")
	quantityVar(flags, &d.servo.Play, quantity.Angle, "servo-play", "free play of the servo's shaft, in deg")
	flags.Var(&pairValue[float64]{&d.body, quantity.Length.Parse, "LENGTH,WIDTH"}, "servo-body", "size of the servo's body, in mm, for --clear")
	quantityVar(flags, &d.servo.ShaftFromEnd, quantity.Length, "shaft-from-end", "from the body's nearer end to the shaft's axis, in mm, for --clear")
	quantityVar(flags, &d.horn, quantity.Length, "horn", "diameter of the disc horn that the pinion takes, in mm")
	quantityVar(flags, &d.load.Mass, quantity.Mass, "mass", "of everything that turns, in kg")
	quantityVar(flags, &d.load.CentreOfGravity.Offset, quantity.Length, "offset", "of the centre of gravity from the axis, in mm")
	flags.Var(&solidValue{&d.load.Inertia}, "solid", "shape to compute the moment of inertia from, sizes in mm")
	quantityVar(flags, &d.load.Inertia.Value, quantity.Number, "inertia", "moment of inertia about the axis, in kg·m², in place of --solid")
	flags.Var(&wordValue{to: &d.load.Axis, words: joint.Axes()}, "axis", "how the joint's axis stands")
	quantityVar(flags, &d.load.ElevationDeg, quantity.Angle, "elevation", "of the centre of gravity above the axis at mid-swing, in deg, where the axis is horizontal; without it the worst")
	quantityVar(flags, &d.load.Friction.Value, quantity.Torque, "friction", "torque at the joint beside that of --bearing, in N·m")
	quantityVar(flags, &d.load.ExtraTorque, quantity.Torque, "extra-torque", "torque at the joint that is always against the motion, in N·m")
	quantityVar(flags, &d.load.CableTorque, quantity.Torque, "cable-torque", "torque at the joint that pulls one way, in N·m; negative where it helps to lift")
	quantityVar(flags, &d.motion.Swing, quantity.Angle, "swing", "of the joint from end to end, in deg")
	quantityVar(flags, &d.motion.Time, quantity.Time, "time", "for one swing, in s")
	flags.Var(&wordValue{to: &d.motion.Law, words: joint.Laws()}, "law", "of the motion from rest to rest")
	flags.BoolVar(&d.motion.Hold, "hold", false, "the joint is held under power between swings")
	quantityVar(flags, &d.motion.CyclesPerDay, quantity.Number, "cycles", "how often the joint moves, in swings there and back a day")
	flags.Var(&bearingValue{&d.bearing}, "bearing", "bearing that the wheel's journal runs in: designation or sizes in mm")
	quantityVar(flags, &d.gears.Clear, quantity.Length, "clear", "diameter around the wheel's axis that the servo's body keeps out of, in mm")
	quantityVar(flags, &d.gears.Wheel.BoltCircle, quantity.Length, "bolt-circle", "of the screws in the wheel, in mm")
	flags.StringVar(&d.gears.Wheel.ScrewSize, "screw", "", "`SIZE` of the four screws on --bolt-circle; without it M3")
	quantityVar(flags, &d.gears.LargestWheel, quantity.Length, "largest-wheel", "largest tip diameter of the wheel, in mm")
	quantityVar(flags, &d.gears.CentreDistance, quantity.Length, "centre-distance", "wanted between the axes, in mm")
	quantityVar(flags, &d.gears.Ratio, quantity.Number, "ratio", "in turns of the pinion for one of the wheel; below 1 a step-up; without it any")
	quantityVar(flags, &d.gears.RatioTolerance, quantity.Number, "ratio-tolerance", "how far the ratio may be off, in shares of it; without it 0.01")
	quantityVar(flags, &d.gears.Module, quantity.Length, "module", "to keep to, in mm; without it the standard ones from 2.5 bead widths up")
	quantityVar(flags, &d.gears.Backlash, quantity.Length, "backlash", "at the working pitch circle, in mm; without it what ran free on the coupon, or 0.2")
	quantityVar(flags, &d.gears.FaceWidth, quantity.Length, "face-width", "in mm")
	quantityVar(flags, &d.gears.LostMotion.LimitDeg, quantity.Angle, "lost-motion", "largest lost motion of the joint, in deg")
	quantityVar(flags, &d.printer.BeadWidth, quantity.Length, "bead-width", "of the printer, in mm; without it 0.45")
	flags.StringVar(&d.printer.Material, "material", d.printer.Material, "`NAME` of the plastic of both gears")
}

// ofFile are the flags that a search in a file takes.
func ofFile(name string) bool {
	switch name {
	case "gears", "list", "json", "printer", "accept", "chord-error", "help":
		return true
	}
	return false
}

// file reads the joint file, or makes one from the flags.
func (d *driveFlags) file(cmd *cobra.Command, args []string, gears string) (*joint.File, string, error) {
	if len(args) == 1 {
		var wrong string
		cmd.Flags().Visit(func(f *pflag.Flag) {
			if !ofFile(f.Name) {
				wrong = f.Name
			}
		})
		if wrong != "" {
			return nil, "", usage("--"+wrong+" and a joint file say two things", "write it into the file, or leave the file out")
		}
		file, err := readJoint(args[0])
		if err != nil {
			return nil, "", err
		}
		name, err := oneOf(file, gears)
		return file, name, err
	}
	if gears != "" {
		return nil, "", usage("--gears names a table of no file", "name the joint file too, or leave it out")
	}
	file, err := d.made(cmd)
	return file, driveName, err
}

// oneOf returns the gears table that is meant.
func oneOf(file *joint.File, gears string) (string, error) {
	names := file.GearsNames()
	switch {
	case len(names) == 0:
		return "", usage("the file has no gears table", "add [gears.NAME] with servo, load, motion and face_width; module and teeth can be left out")
	case gears == "" && len(names) == 1:
		return names[0], nil
	case gears == "":
		return "", usage("the file has several gears tables: "+strings.Join(names, ", "), "name one: --gears "+names[0])
	}
	if _, ok := file.Gears[gears]; ok {
		return gears, nil
	}
	return "", usage(fmt.Sprintf("--gears %q: there is no such table", gears), "the file has "+strings.Join(names, ", "))
}
