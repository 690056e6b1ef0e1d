package main

import (
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
	"pintle/quantity"
)

func (env *environment) newHousingCommand() *cobra.Command {
	name := "housing"
	material := "PETG"
	screws := joint.Mount{ScrewCount: 4}
	ring := joint.Housing{Fit: "press"}
	var bearing joint.Bearing
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "housing --bearing 608 --out DIR",
		Short: "Design a printed ring around a bearing from flags",
		Args:  exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := needFlags(cmd, "bearing", "out"); err != nil {
				return err
			}
			if screws.ScrewSize != "" {
				ring.Mount = screws
				ring.Mount.Kind = "flange"
			}
			ring.Bearing = name
			file := &joint.File{
				Title:    name,
				Printer:  joint.Printer{Material: material},
				Bearings: map[string]joint.Bearing{name: bearing},
				Housings: map[string]joint.Housing{name: ring},
			}
			markFlags(file, cmd.Flags(), "housing."+name, map[string][]string{
				"fit": {"fit"}, "wall": {"wall"}, "interference": {"interference"},
				"flange-screw": {"mount.screw_size"}, "screw-count": {"mount.screw_count"},
			})
			markBearing(file, name, bearing)
			file.Mark("printer.material", "--material")
			return env.build(file, design, output, cmd.Flags())
		},
	}
	flags := cmd.Flags()
	flags.Var(&bearingValue{&bearing}, "bearing", "designation, or bore x outside x width in mm (or with units)")
	flags.Var(&wordValue{&ring.Fit, joint.Fits(), joint.IsToleranceClass}, "fit", "kind of seat, or the ISO class of a machined bore such as N7")
	quantityVar(flags, &ring.Wall, quantity.Length, "wall", "wall around the seat, in mm")
	quantityVar(flags, &ring.Interference, quantity.Length, "interference", "of the seat, in mm on the diameter")
	flags.StringVar(&screws.ScrewSize, "flange-screw", "", "`SIZE` of the screws of a flange, such as M3; without it the ring has no flange")
	flags.IntVar(&screws.ScrewCount, "screw-count", screws.ScrewCount, "`NUMBER` of screws of the flange")
	flags.StringVar(&material, "material", material, "`NAME` of the plastic of the ring")
	flags.Var(&nameValue{&name}, "name", "first word of the file names")
	design.add(flags)
	output.add(flags)
	return cmd
}

// needFlags refuses a command line that lacks one of the flags.
func needFlags(cmd *cobra.Command, names ...string) error {
	for _, name := range names {
		if f := cmd.Flags().Lookup(name); !f.Changed {
			return usage(cmd.Name()+" needs --"+name, "give it: "+plainUsage(f))
		}
	}
	return nil
}

// markFlags tells the file which flag gave which value.
func markFlags(file *joint.File, flags *pflag.FlagSet, table string, keys map[string][]string) {
	for name, paths := range keys {
		if f := flags.Lookup(name); f.Changed || f.DefValue != "" {
			for _, path := range paths {
				file.Mark(table+"."+path, "--"+name)
			}
		}
	}
}

func markBearing(file *joint.File, name string, b joint.Bearing) {
	keys := []string{"bore", "outside", "overall"}
	if b.Designation != "" {
		keys = []string{"designation"}
	}
	for _, key := range keys {
		file.Mark("bearing."+name+"."+key, "--bearing")
	}
}
