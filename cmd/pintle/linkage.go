package main

import (
	"github.com/spf13/cobra"

	"pintle/joint"
	"pintle/quantity"
)

func (env *environment) newLinkageCommand() *cobra.Command {
	name := "linkage"
	material := "PETG"
	link := joint.Linkage{
		Kind: joint.LinkageKinds()[0], NeutralDeg: 90,
		Rod: joint.LinkRod{Kind: "bar"}, Lever: joint.LinkLever{Hub: "pin"}, Frame: joint.LinkFrame{ServoTurnDeg: 180},
	}
	var swing float64
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "linkage --horn MM --rod MM --lever MM --frame MM --from DEG --to DEG --out DIR",
		Short: "Design a four-bar of horn, pushrod and lever from flags",
		Long: "Design a four-bar of horn, pushrod and lever from flags. Lengths are from pin to pin, the\n" +
			"frame is from the servo's shaft to the lever's axis, angles are the horn's from the frame:\n\n" +
			"  pintle linkage --horn 20 --rod 90.55 --lever 30 --frame 90 --from 45 --to 135 --out nod\n" +
			"  pintle linkage --horn 15 --rod 90 --lever 30 --frame 90 --turning --out row     a motor's crank\n\n" +
			"pintle new NAME --kind lever starts a file with servo, load and motion to check, too.",
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			flags := cmd.Flags()
			if err := needFlags(cmd, "horn", "rod", "lever", "frame"); err != nil {
				return err
			}
			switch {
			case link.Turning && (flags.Changed("from") || flags.Changed("to")):
				return usage("--turning goes round and round: it has no --from and --to", "leave them out, or leave --turning out")
			case !link.Turning:
				if err := needFlags(cmd, "from", "to"); err != nil {
					return err
				}
			}
			if err := needFlags(cmd, "out"); err != nil {
				return err
			}
			file := &joint.File{
				Title:    name,
				Printer:  joint.Printer{Material: material},
				Linkages: map[string]joint.Linkage{},
			}
			if flags.Changed("swing") {
				link.Motion = name
				file.Motions = map[string]joint.Motion{name: {Swing: swing, Law: joint.Laws()[0]}}
				markFlags(file, flags, "motion."+name, map[string][]string{"swing": {"swing"}})
			}
			file.Linkages[name] = link
			markFlags(file, flags, "linkage."+name, linkageKeys())
			file.Mark("printer.material", "--material")
			return env.build(file, design, output, flags)
		},
	}
	flags := cmd.Flags()
	quantityVar(flags, &link.Horn.Length, quantity.Length, "horn", "servo's shaft to the rod's pin, in mm")
	quantityVar(flags, &link.Rod.Length, quantity.Length, "rod", "length of the pushrod from pin to pin, in mm")
	quantityVar(flags, &link.Lever.Length, quantity.Length, "lever", "joint's axis to the rod's pin, in mm")
	quantityVar(flags, &link.Frame.Distance, quantity.Length, "frame", "servo's shaft to the joint's axis, in mm")
	quantityVar(flags, &link.FromDeg, quantity.Angle, "from", "angle of the horn at one end, from the line between the two axes, in deg")
	quantityVar(flags, &link.ToDeg, quantity.Angle, "to", "angle of the horn at the other end, in deg")
	quantityVar(flags, &swing, quantity.Angle, "swing", "swing wanted of the lever, in deg")
	flags.BoolVar(&link.Crossed, "crossed", false, "put horn and lever on different sides of the rod")
	flags.BoolVar(&link.Turning, "turning", false, "let a gear motor turn the horn round and round")
	quantityVar(flags, &link.Offset, quantity.Length, "offset", "between the planes of the rod's two ends, in mm")
	flags.StringVar(&link.Pin, "pin", "M3", "`SIZE` of the screws that the rod turns on")
	flags.StringVar(&link.Frame.Pivot, "pivot", "M4", "`SIZE` of the screw that the lever turns on")
	quantityVar(flags, &link.Lever.Second.Length, quantity.Length, "second", "length of the second arm of a bell crank, in mm")
	quantityVar(flags, &link.Lever.Second.AngleDeg, quantity.Angle, "second-angle", "of a bell crank's second arm from its first, in deg")
	quantityVar(flags, &link.Horn.Bore, quantity.Length, "horn-bore", "diameter of a motor's shaft, to have a crank printed that clamps on it, in mm")
	flags.StringVar(&material, "material", material, "`NAME` of the plastic of all parts")
	flags.Var(&nameValue{&name}, "name", "first word of the file names")
	design.add(flags)
	output.add(flags)
	return cmd
}

// linkageKeys are the keys of a linkage's table that its flags stand for.
func linkageKeys() map[string][]string {
	return map[string][]string{
		"horn": {"horn.length"}, "rod": {"rod.length"}, "lever": {"lever.length"}, "frame": {"frame.distance"},
		"from": {"from"}, "to": {"to"}, "crossed": {"crossed"}, "turning": {"turning"}, "offset": {"offset"},
		"pin": {"pin"}, "pivot": {"frame.pivot"},
		"second": {"lever.second.length"}, "second-angle": {"lever.second.angle"}, "horn-bore": {"horn.bore"},
	}
}
