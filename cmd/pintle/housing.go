package main

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"pintle/joint"
	"pintle/quantity"
)

// housingFlags are what the housing command is told.
type housingFlags struct {
	name, material string
	ring           joint.Housing
	bearing        joint.Bearing
	second         joint.Bearing
	rod            joint.Rod
	load           joint.Load
	place          joint.Place
	design         designFlags
	output         outputFlags
}

func (env *environment) newHousingCommand() *cobra.Command {
	h := housingFlags{name: "housing", material: "PETG", ring: joint.Housing{Fit: "press"}, load: joint.Load{Axis: "vertical"}}
	cmd := &cobra.Command{
		Use:   "housing --bearing 608 --out DIR",
		Short: "Design a printed ring around a bearing from flags",
		Long: "A ring around one bearing, and what goes with it: cap, pressing disc, the rod that turns in it.\n" +
			"With --mass it says whether the load keeps the bearing together, upright and in its seat.\n\n" +
			"  pintle housing --bearing 608 --mount flange --out ring\n" +
			"  pintle housing --bearing 30203 --mass 1.9kg --axis inverted --overhead --out no     fails, and says why\n" +
			"  pintle housing --bearing 6201 --outside 31.97 --fit slip --retention cap --rod h6 --out capped",
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			flags := cmd.Flags()
			if err := needFlags(cmd, "bearing", "out"); err != nil {
				return err
			}
			if err := fasten(&h.ring, flags); err != nil {
				return err
			}
			if err := h.turns(flags); err != nil {
				return err
			}
			return env.build(h.file(flags), h.design, h.output, flags)
		},
	}
	h.add(cmd.Flags())
	return cmd
}

func (h *housingFlags) add(flags *pflag.FlagSet) {
	flags.Var(&bearingValue{&h.bearing}, "bearing", "designation, or bore x outside x width in mm (or with units)")
	addMeasured(flags, &h.bearing)
	addSeat(flags, &h.ring)
	addMount(flags, &h.ring)
	h.addRod(flags)
	h.addLoad(flags)
	flags.StringVar(&h.material, "material", h.material, "`NAME` of the plastic of the ring")
	quantityVar(flags, &h.place.Hottest, quantity.Temperature, "hottest", "highest temperature of the place, in °C")
	quantityVar(flags, &h.place.Coldest, quantity.Temperature, "coldest", "lowest temperature of the place, in °C")
	flags.Var(&nameValue{&h.name}, "name", "first word of the file names")
	h.design.add(flags)
	h.output.add(flags)
}

// file writes the flags down as a joint file would.
func (h *housingFlags) file(flags *pflag.FlagSet) *joint.File {
	ring := h.ring
	ring.Bearing = h.name
	file := &joint.File{
		Title:    h.name,
		Printer:  joint.Printer{Material: h.material},
		Place:    h.place,
		Bearings: map[string]joint.Bearing{h.name: h.bearing},
	}
	if flags.Changed("mass") {
		file.Loads = map[string]joint.Load{h.name: h.load}
		ring.Load = h.name
	}
	if flags.Changed("second-bearing") {
		ring.SecondBearing = h.name + "-second"
		file.Bearings[ring.SecondBearing] = h.second
	}
	if flags.Changed("rod") {
		ring.Rod = &h.rod
	}
	file.Housings = map[string]joint.Housing{h.name: ring}
	markFlags(file, flags, "housing."+h.name, housingKeys())
	markFlags(file, flags, "bearing."+h.name, map[string][]string{
		"bore": {"bore"}, "outside": {"outside"}, "width": {"overall"}, "cone-width": {"cone_width"}, "cup-width": {"cup_width"}, "washer-bore": {"washer_bore"},
	})
	markFlags(file, flags, "load."+h.name, loadKeys())
	markFlags(file, flags, "place", map[string][]string{"hottest": {"hottest"}, "coldest": {"coldest"}})
	markBearing(file, h.name, "--bearing", h.bearing)
	markBearing(file, ring.SecondBearing, "--second-bearing", h.second)
	file.Mark("printer.material", "--material")
	return file
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
	quantityVar(flags, &ring.CornerRelief.Depth, quantity.Length, "relief-depth", "of that groove along the axis, in mm")
	flags.IntVar(&ring.KnockOut.Count, "knock-out", 0, "`NUMBER` of slots to push the bearing out through; 0 for none")
	quantityVar(flags, &ring.KnockOut.Width, quantity.Length, "knock-out-width", "of such a slot, or the diameter of a round hole, in mm")
	flags.BoolVar(&ring.KnockOut.Round, "knock-out-round", false, "push the bearing out through round holes instead of slots")
	flags.IntVar(&ring.InspectionSlots, "inspection-slots", 0, "`NUMBER` of slots that show whether the bearing sits")
	flags.IntVar(&ring.Ribs.Count, "ribs", 0, "`NUMBER` of ribs of a crush-ribs seat")
	quantityVar(flags, &ring.Ribs.Height, quantity.Length, "rib-height", "of such a rib out of the bore, in mm")
	flags.Var(&lengthsValue{&ring.MeasuredSeat}, "measured-seat", "what the seats of earlier prints measured, the first print first, in mm")
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
			return goesWith(f.flag, strings.TrimSpace(f.needs+" "+f.kind))
		}
	}
	if err := belongTo(flags, "relief", "relief-depth"); err != nil {
		return err
	}
	if err := belongTo(flags, "knock-out", "knock-out-width", "knock-out-round"); err != nil {
		return err
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
	if !flags.Changed("ribs") && !flags.Changed("rib-height") {
		ring.Ribs = nil
	}
	return nil
}

// belongTo refuses flags that say nothing without another one.
func belongTo(flags *pflag.FlagSet, needs string, names ...string) error {
	for _, name := range names {
		if flags.Changed(name) && !flags.Changed(needs) {
			return goesWith(name, needs)
		}
	}
	return nil
}

func goesWith(flag, needs string) error {
	return usage("--"+flag+": goes with --"+needs, "give that too, or leave this out")
}

// housingKeys are the keys of a housing's table that its flags stand for.
func housingKeys() map[string][]string {
	return map[string][]string{
		"fit": {"fit"}, "wall": {"wall"}, "interference": {"interference"},
		"shoulder-thickness": {"shoulder_thickness"}, "shoulder-hole": {"shoulder_hole"}, "bore-depth": {"bore_depth"},
		"relief": {"corner_relief.width"}, "relief-depth": {"corner_relief.depth"}, "inspection-slots": {"inspection_slots"},
		"knock-out": {"knock_out.count"}, "knock-out-width": {"knock_out.width"}, "knock-out-round": {"knock_out.round"},
		"ribs": {"ribs.count"}, "rib-height": {"ribs.height"}, "pressing-disc": {"pressing_disc"}, "measured-seat": {"measured"},
		"rod": {"rod.class"}, "rod-slides": {"rod.slides"}, "rod-shoulder": {"rod.shoulder"},
		"rod-flat": {"rod.flat"}, "rod-flat-length": {"rod.flat_length"}, "rod-torque": {"rod.torque"},
		"mass": {"load"}, "second-bearing": {"second_bearing"}, "span": {"span"}, "face-to-face": {"face_to_face"}, "running": {"running"}, "rpm": {"rpm"},
		"mount": {"mount.kind"}, "mount-screw": {"mount.screw_size"}, "mount-screws": {"mount.screw_count"},
		"mount-thickness": {"mount.thickness"}, "clamp-nut": {"mount.nut"}, "clamp-slit": {"mount.slit"},
		"retention": {"retention.kind"}, "lip-height": {"retention.height"},
		"cap-screw": {"retention.screw_size"}, "cap-screws": {"retention.screw_count"}, "cap-thickness": {"retention.thickness"},
	}
}
