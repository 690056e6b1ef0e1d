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
	ring := joint.Housing{Fit: "press"}
	var bearing joint.Bearing
	var place joint.Place
	var design designFlags
	var output outputFlags
	cmd := &cobra.Command{
		Use:   "housing --bearing 608 --out DIR",
		Short: "Design a printed ring around a bearing from flags",
		Args:  exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			flags := cmd.Flags()
			if err := needFlags(cmd, "bearing", "out"); err != nil {
				return err
			}
			if err := fasten(&ring, flags); err != nil {
				return err
			}
			ring.Bearing = name
			file := &joint.File{
				Title:    name,
				Printer:  joint.Printer{Material: material},
				Place:    place,
				Bearings: map[string]joint.Bearing{name: bearing},
				Housings: map[string]joint.Housing{name: ring},
			}
			markFlags(file, flags, "housing."+name, housingKeys())
			markFlags(file, flags, "bearing."+name, map[string][]string{"cup-width": {"cup_width"}, "washer-bore": {"washer_bore"}})
			markFlags(file, flags, "place", map[string][]string{"hottest": {"hottest"}, "coldest": {"coldest"}})
			markBearing(file, name, bearing)
			file.Mark("printer.material", "--material")
			return env.build(file, design, output, flags)
		},
	}
	flags := cmd.Flags()
	flags.Var(&bearingValue{&bearing}, "bearing", "designation, or bore x outside x width in mm (or with units)")
	quantityVar(flags, &bearing.CupWidth, quantity.Length, "cup-width", "measured width of a cup or housing washer, in mm")
	quantityVar(flags, &bearing.WasherBore, quantity.Length, "washer-bore", "measured bore of a thrust bearing's housing washer, in mm")
	addSeat(flags, &ring)
	addMount(flags, &ring)
	flags.StringVar(&material, "material", material, "`NAME` of the plastic of the ring")
	quantityVar(flags, &place.Hottest, quantity.Temperature, "hottest", "highest temperature of the place, in °C")
	quantityVar(flags, &place.Coldest, quantity.Temperature, "coldest", "lowest temperature of the place, in °C")
	flags.Var(&nameValue{&name}, "name", "first word of the file names")
	design.add(flags)
	output.add(flags)
	return cmd
}

// addSeat adds the flags of the seat and the tube round it.
func addSeat(flags *pflag.FlagSet, ring *joint.Housing) {
	flags.Var(&wordValue{&ring.Fit, joint.Fits(), joint.IsToleranceClass}, "fit", "kind of seat, or the ISO class of a machined bore such as N7")
	quantityVar(flags, &ring.Interference, quantity.Length, "interference", "of the seat, in mm on the diameter")
	quantityVar(flags, &ring.Wall, quantity.Length, "wall", "wall around the seat, in mm")
	quantityVar(flags, &ring.ShoulderThickness, quantity.Length, "shoulder-thickness", "of the shoulder under the outer ring, in mm")
	quantityVar(flags, &ring.ShoulderHole, quantity.Length, "shoulder-hole", "diameter of the hole behind the outer ring, in mm")
	quantityVar(flags, &ring.BoreDepth, quantity.Length, "bore-depth", "of a tube longer than the bearing, in mm from mouth to shoulder")
	ring.CornerRelief, ring.KnockOut, ring.Ribs = &joint.CornerRelief{}, &joint.KnockOut{}, &joint.Ribs{}
	quantityVar(flags, &ring.CornerRelief.Width, quantity.Length, "relief", "width of the groove at the foot of the seat, in mm; 0 for none")
	flags.IntVar(&ring.KnockOut.Count, "knock-out", 0, "`NUMBER` of slots to push the bearing out through; 0 for none")
	flags.IntVar(&ring.InspectionSlots, "inspection-slots", 0, "`NUMBER` of slots that show whether the bearing sits")
	flags.IntVar(&ring.Ribs.Count, "ribs", 0, "`NUMBER` of ribs of a crush-ribs seat")
	flags.BoolVar(&ring.PressingDisc, "pressing-disc", false, "make a disc to press the bearing in with, too")
}

// addMount adds the flags of what holds the ring, and the bearing in it.
func addMount(flags *pflag.FlagSet, ring *joint.Housing) {
	m, r := &ring.Mount, &ring.Retention
	flags.Var(&wordValue{&m.Kind, joint.Mounts(), nil}, "mount", "how the ring is fastened; without it by nothing")
	flags.StringVar(&m.ScrewSize, "mount-screw", "", "`SIZE` of the screws of the mount, such as M3")
	flags.IntVar(&m.ScrewCount, "mount-screws", 0, "`NUMBER` of screws of flange or foot: 4 or 2 unless given")
	quantityVar(flags, &m.Thickness, quantity.Length, "mount-thickness", "of flange, foot or a clamp's ears, in mm")
	flags.BoolVar(&m.Nut, "clamp-nut", false, "give a clamp a slot for a nut; without it the screw cuts its thread")
	quantityVar(flags, &m.Slit, quantity.Length, "clamp-slit", "width of a clamp's slit, in mm")
	flags.Var(&wordValue{&r.Kind, joint.Retentions(), nil}, "retention", "what holds the bearing in its seat beside the fit")
	quantityVar(flags, &r.Height, quantity.Length, "lip-height", "of a lip, in mm per side")
	flags.StringVar(&r.ScrewSize, "cap-screw", "", "`SIZE` of the screws of a cap, such as M2.5")
	flags.IntVar(&r.ScrewCount, "cap-screws", 3, "`NUMBER` of screws of a cap")
	quantityVar(flags, &r.Thickness, quantity.Length, "cap-thickness", "of a cap, in mm")
}

// fasten drops what no flag asked for, and refuses flags of another mount or
// retention than the one asked for.
func fasten(ring *joint.Housing, flags *pflag.FlagSet) error {
	for _, f := range []struct {
		flag, needs, kind string
		have              string
	}{
		{"mount-screw", "mount", "", ring.Mount.Kind},
		{"mount-screws", "mount", "", ring.Mount.Kind},
		{"mount-thickness", "mount", "", ring.Mount.Kind},
		{"clamp-nut", "mount", "clamp", ring.Mount.Kind},
		{"clamp-slit", "mount", "clamp", ring.Mount.Kind},
		{"lip-height", "retention", "lip", ring.Retention.Kind},
		{"cap-screw", "retention", "cap", ring.Retention.Kind},
		{"cap-screws", "retention", "cap", ring.Retention.Kind},
		{"cap-thickness", "retention", "cap", ring.Retention.Kind},
	} {
		if flags.Changed(f.flag) && (f.have == "" || f.kind != "" && f.have != f.kind) {
			return usage("--"+f.flag+": goes with --"+f.needs+" "+f.kind, "give that too, or leave this out")
		}
	}
	switch ring.Mount.Kind {
	case "clamp":
		if !flags.Changed("fit") {
			ring.Fit = "slip"
		}
	case "flange", "foot":
		if !flags.Changed("mount-screws") {
			ring.Mount.ScrewCount = map[string]int{"flange": 4, "foot": 2}[ring.Mount.Kind]
		}
	}
	if ring.Retention.Kind != "cap" {
		ring.Retention.ScrewCount = 0
	}
	if !flags.Changed("relief") {
		ring.CornerRelief = nil
	}
	if !flags.Changed("knock-out") {
		ring.KnockOut = nil
	}
	if !flags.Changed("ribs") {
		ring.Ribs = nil
	}
	return nil
}

// housingKeys are the keys of a housing's table that its flags stand for.
func housingKeys() map[string][]string {
	return map[string][]string{
		"fit": {"fit"}, "wall": {"wall"}, "interference": {"interference"},
		"shoulder-thickness": {"shoulder_thickness"}, "shoulder-hole": {"shoulder_hole"}, "bore-depth": {"bore_depth"},
		"relief": {"corner_relief.width"}, "knock-out": {"knock_out.count"}, "inspection-slots": {"inspection_slots"},
		"ribs": {"ribs.count"}, "pressing-disc": {"pressing_disc"},
		"mount": {"mount.kind"}, "mount-screw": {"mount.screw_size"}, "mount-screws": {"mount.screw_count"},
		"mount-thickness": {"mount.thickness"}, "clamp-nut": {"mount.nut"}, "clamp-slit": {"mount.slit"},
		"retention": {"retention.kind"}, "lip-height": {"retention.height"},
		"cap-screw": {"retention.screw_size"}, "cap-screws": {"retention.screw_count"}, "cap-thickness": {"retention.thickness"},
	}
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
