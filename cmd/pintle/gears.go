package main

import (
	"github.com/spf13/cobra"

	"pintle/joint"
	"pintle/quantity"
)

func (env *environment) newGearsCommand() *cobra.Command {
	name := "gears"
	material := "PETG"
	// Backlash and face width are starting values: common practice, no source.
	const usualBacklash = 0.2
	pair := joint.Gears{FaceWidth: 10, PressureAngleDeg: joint.DefaultPressureAngleDeg}
	var body bodyFlags
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "gears --module MM --teeth Z1,Z2 --out DIR",
		Short: "Design a pair of involute spur gears from flags",
		Args:  exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needFlags(cmd, "module", "teeth", "out"); err != nil {
				return err
			}
			if !cmd.Flags().Changed("backlash") {
				pair.Backlash = usualBacklash
			}
			pair.Pinion, pair.Wheel = body.gear(0), body.gear(1)
			file := &joint.File{
				Title:   name,
				Printer: joint.Printer{Material: material},
				Gears:   map[string]joint.Gears{name: pair},
			}
			markFlags(file, cmd.Flags(), "gears."+name, bodyKeys())
			markFlags(file, cmd.Flags(), "gears."+name, map[string][]string{
				"module": {"module"}, "teeth": {"teeth"}, "shift": {"shift"},
				"pressure-angle": {"pressure_angle"}, "centre-distance": {"centre_distance"},
				"backlash": {"backlash"}, "face-width": {"face_width"},
			})
			file.Mark("printer.material", "--material")
			return env.build(file, design, output, cmd.Flags())
		},
	}
	flags := cmd.Flags()
	quantityVar(flags, &pair.Module, quantity.Length, "module", "reference diameter per tooth, in mm")
	flags.Var(&pairValue[int]{&pair.Teeth, quantity.Count, "Z1,Z2"}, "teeth", "numbers of teeth of pinion and wheel")
	flags.Var(&shiftValue{&pair.Shift}, "shift", "profile shift coefficients, or the rule to choose them")
	quantityVar(flags, &pair.PressureAngleDeg, quantity.Angle, "pressure-angle", "pressure angle of the basic rack, in deg")
	quantityVar(flags, &pair.CentreDistance, quantity.Length, "centre-distance", "working centre distance, in mm")
	quantityVar(flags, &pair.Backlash, quantity.Length, "backlash", "circumferential backlash at the working pitch circle, in mm; without it what ran free on the coupon, or 0.2")
	quantityVar(flags, &pair.FaceWidth, quantity.Length, "face-width", "face width, in mm")
	body.add(flags)
	flags.StringVar(&material, "material", material, "`NAME` of the plastic of both gears")
	flags.Var(&nameValue{&name}, "name", "first word of the file names")
	design.add(flags)
	output.add(flags)
	return cmd
}
