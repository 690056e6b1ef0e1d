package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
	"pintle/quantity"
)

// Starting values in mm for a pair from flags: common practice, no source.
const (
	usualBacklash  = 0.2
	usualFaceWidth = 10.0
)

func (env *environment) newGearsCommand() *cobra.Command {
	name := "gears"
	material := "PETG"
	pair := joint.Gears{FaceWidth: usualFaceWidth, PressureAngleDeg: joint.DefaultPressureAngleDeg}
	var travel float64
	var body bodyFlags
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "gears --module MM --teeth Z1,Z2 --out DIR",
		Short: "Design a pair of involute spur gears, or pinion and rack, from flags",
		Long: "Design a pair of involute spur gears, or pinion and rack, from flags:\n\n" +
			"  pintle gears --module 1.5 --teeth 18,45 --out pair\n" +
			"  pintle gears --module 1.5 --teeth 18,45 --shaft 5,8 --set-screw M3 --out pair\n" +
			"  pintle gears --module 1.5 --teeth 20,-60 --shift 0.1,-0.1 --tip-alteration -0.2 --out ring\n" +
			"  pintle gears --module 1.5 --teeth 20 --rack 60 --out lift     a rack that moves 60 mm\n\n" +
			"pintle drive finds module and teeth for a servo, a load and a motion.",
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needFlags(cmd, "module", "teeth", "out"); err != nil {
				return err
			}
			if !cmd.Flags().Changed("backlash") {
				pair.Backlash = usualBacklash
			}
			pair.Pinion, pair.Wheel = body.gear(0), body.gear(1)
			file := &joint.File{Title: name, Printer: joint.Printer{Material: material}}
			at := "gears." + name
			switch {
			case travel > 0:
				if err := onlyPinion(cmd.Flags(), pair); err != nil {
					return err
				}
				at, file.Racks = "rack."+name, map[string]joint.RackDrive{name: joint.OnRack(pair, travel)}
			case pair.Teeth[1] == 0:
				return usage("--teeth names the pinion only", "write Z1,Z2, or --rack with the travel of a toothed rack")
			default:
				file.Gears = map[string]joint.Gears{name: pair}
			}
			markFlags(file, cmd.Flags(), at, bodyKeys())
			markFlags(file, cmd.Flags(), at, map[string][]string{
				"module": {"module"}, "teeth": {"teeth"}, "shift": {"shift"},
				"pressure-angle": {"pressure_angle"}, "centre-distance": {"centre_distance"},
				"backlash": {"backlash"}, "face-width": {"face_width"}, "tip-alteration": {"tip_alteration"},
				"rack": {"travel"},
			})
			file.Mark("printer.material", "--material")
			return env.build(file, design, output, cmd.Flags())
		},
	}
	flags := cmd.Flags()
	quantityVar(flags, &pair.Module, quantity.Length, "module", "reference diameter per tooth, in mm")
	flags.Var(&teethValue{&pair.Teeth}, "teeth", "numbers of teeth of pinion and wheel, the wheel's negative for an internal gear; of the pinion alone with --rack")
	quantityVar(flags, &travel, quantity.Length, "rack", "a toothed rack in place of the wheel, that moves so far from end to end, in mm")
	flags.Var(&shiftValue{&pair.Shift}, "shift", "profile shift coefficients, or the rule to choose them")
	quantityVar(flags, &pair.PressureAngleDeg, quantity.Angle, "pressure-angle", "pressure angle of the basic rack, in deg")
	quantityVar(flags, &pair.CentreDistance, quantity.Length, "centre-distance", "working centre distance, in mm")
	quantityVar(flags, &pair.TipAlteration, quantity.Number, "tip-alteration", "how far both tips stand out, in modules, negative for shorter teeth; without it what keeps the clearance")
	quantityVar(flags, &pair.Backlash, quantity.Length, "backlash", "circumferential backlash at the working pitch circle, in mm; without it what ran free on the coupon, or 0.2")
	quantityVar(flags, &pair.FaceWidth, quantity.Length, "face-width", "face width, in mm")
	body.add(flags)
	flags.StringVar(&material, "material", material, "`NAME` of the plastic of both gears")
	flags.Var(&nameValue{&name}, "name", "first word of the file names")
	design.add(flags)
	output.add(flags)
	return cmd
}

// onlyPinion refuses flags that mean a wheel.
func onlyPinion(flags *pflag.FlagSet, pair joint.Gears) error {
	for _, q := range []struct {
		wrong        bool
		flag, remedy string
	}{
		{pair.Teeth[1] != 0, "--teeth", "give the pinion's number of teeth only"},
		{pair.Shift.X[1] != 0 || pair.Shift.Rule == joint.ShiftBalanced, "--shift", "write X1,0 or choose"},
		{flags.Changed("centre-distance"), "--centre-distance", "leave it out: the axis stands where the pinion rolls on the rack's reference line"},
		{flags.Changed("tip-alteration"), "--tip-alteration", "leave it out"},
	} {
		if q.wrong {
			return usage(q.flag+": means a wheel, and --rack takes its place", q.remedy)
		}
	}
	return nil
}

// A teethValue is a flag that holds one number of teeth or two.
type teethValue struct{ to *[2]int }

func (v *teethValue) Set(text string) error {
	list, err := quantity.List(text, quantity.Count)
	if err != nil {
		return err
	}
	if len(list) > 2 {
		return usage(fmt.Sprintf("%q: must be one number or two", text), "write "+v.Type()+", or Z1 with --rack")
	}
	*v.to = [2]int{}
	copy(v.to[:], list)
	return nil
}

func (v *teethValue) Type() string   { return "Z1,Z2" }
func (v *teethValue) String() string { return "" }
