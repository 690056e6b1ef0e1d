package main

import (
	"github.com/spf13/pflag"

	"pintle/joint"
	"pintle/quantity"
)

// addMeasured adds the flags of sizes that were measured on the bearing in hand.
func addMeasured(flags *pflag.FlagSet, b *joint.Bearing) {
	for _, q := range []struct {
		name string
		to   *float64
		help string
	}{
		{"bore", &b.Bore, "measured bore of the bearing that --bearing names, in mm"},
		{"outside", &b.Outside, "measured outside diameter of that bearing, in mm"},
		{"width", &b.Overall, "measured width of that bearing over all, in mm"},
		{"cone-width", &b.ConeWidth, "measured width of a tapered bearing's cone, in mm"},
		{"cup-width", &b.CupWidth, "measured width of a cup or housing washer, in mm"},
		{"washer-bore", &b.WasherBore, "measured bore of a thrust bearing's housing washer, in mm"},
	} {
		quantityVar(flags, q.to, quantity.Length, q.name, q.help)
	}
}

// addRod adds the flags of the rod that turns in the bearing.
func (h *housingFlags) addRod(flags *pflag.FlagSet) {
	r := &h.rod
	flags.StringVar(&r.Class, "rod", "", "ISO `CLASS` of the rod that turns in the bearing, such as h6, or g6 to slide along it")
	flags.BoolVar(&r.Slides, "rod-slides", false, "the bearing must slide along the rod to be set")
	quantityVar(flags, &r.Shoulder, quantity.Length, "rod-shoulder", "diameter of the shoulder or collar on the rod, in mm")
	quantityVar(flags, &r.Flat, quantity.Length, "rod-flat", "depth of a flat for a printed part, in mm")
	quantityVar(flags, &r.FlatLength, quantity.Length, "rod-flat-length", "length that the part sits on the flat, in mm")
	quantityVar(flags, &r.Torque, quantity.Torque, "rod-torque", "torque that the flat carries, in N·m")
}

// addLoad adds the flags of what the bearing carries.
func (h *housingFlags) addLoad(flags *pflag.FlagSet) {
	l, ring := &h.load, &h.ring
	quantityVar(flags, &l.Mass, quantity.Mass, "mass", "that turns on the bearing, in kg")
	flags.Var(&wordValue{&l.Axis, joint.Axes(), nil}, "axis", "how the axis stands; inverted: upright with the load hanging below")
	quantityVar(flags, &l.CentreOfGravity.Height, quantity.Length, "height", "of the centre of gravity along the axis from the bearing, in mm")
	quantityVar(flags, &l.CentreOfGravity.Offset, quantity.Length, "offset", "of the centre of gravity from the axis, in mm")
	flags.BoolVar(&l.Overhead, "overhead", false, "it hangs or stands above people")
	quantityVar(flags, &ring.RPM, quantity.Number, "rpm", "speed in rpm (turns per minute), where it turns all the time")
	flags.Var(&wordValue{&ring.Running, joint.Runnings(), nil}, "running", "how the load comes on; without it normal")
	flags.Var(&bearingValue{&h.second}, "second-bearing", "other bearing on the same axis, as --bearing")
	quantityVar(flags, &ring.Span, quantity.Length, "span", "between the shoulders that back the two outer rings, in mm")
	flags.BoolVar(&ring.FaceToFace, "face-to-face", false, "those shoulders lie outside the two bearings, not between them")
}

// turns refuses flags of a rod or a load that was not given.
func (h *housingFlags) turns(flags *pflag.FlagSet) error {
	for _, group := range []struct {
		needs string
		names []string
	}{
		{"rod", []string{"rod-slides", "rod-shoulder", "rod-flat", "rod-flat-length", "rod-torque"}},
		{"rod-flat", []string{"rod-flat-length", "rod-torque"}},
		{"rod-flat-length", []string{"rod-flat"}},
		{"mass", []string{"axis", "height", "offset", "overhead", "rpm", "running", "second-bearing"}},
		{"second-bearing", []string{"span", "face-to-face"}},
		{"span", []string{"second-bearing"}},
	} {
		if err := belongTo(flags, group.needs, group.names...); err != nil {
			return err
		}
	}
	return nil
}

// loadKeys are the keys of a load's table that flags stand for.
func loadKeys() map[string][]string {
	return map[string][]string{
		"mass": {"mass"}, "axis": {"axis"}, "height": {"centre_of_gravity.height"}, "offset": {"centre_of_gravity.offset"}, "overhead": {"overhead"},
	}
}
