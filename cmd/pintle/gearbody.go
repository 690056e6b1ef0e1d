package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"pintle/gear"
	"pintle/joint"
	"pintle/quantity"
)

// bodyFlags are the flags that say what the teeth of a pair sit on; a joint file
// can say more.
type bodyFlags struct {
	hubs            [2]string
	bores, shafts   [2]float64
	setScrew        string
	lighten, mark   string
	topChamfer      float64
	fits            string
	lengths, widths [2]float64
}

// hubWords are the hubs that need no servo and no bearing.
func hubWords() []string {
	return slices.DeleteFunc(joint.Hubs(), func(hub string) bool { return slices.Contains([]string{"horn", "journal", "bearing"}, hub) })
}

func (b *bodyFlags) add(flags *pflag.FlagSet) {
	hub := func(word string) (string, error) {
		if slices.Contains(hubWords(), word) {
			return word, nil
		}
		return "", usage(fmt.Sprintf("%q is not a hub", word), "use one of "+strings.Join(hubWords(), ", ")+"; horns, journals and bearings stand in a joint file")
	}
	flags.Var(&pairValue[string]{&b.hubs, hub, "HUB1,HUB2"}, "hub", "how pinion and wheel sit on their shafts: "+strings.Join(hubWords(), ", "))
	flags.Var(&pairValue[float64]{&b.bores, quantity.Length.Parse, "D1,D2"}, "bore", "diameters of the bores of pinion and wheel as wanted, in mm")
	flags.Var(&pairValue[float64]{&b.shafts, quantity.Length.Parse, "D1,D2"}, "shaft", "the rods of pinion and wheel as measured, in mm: diameter, or across the flats; the clearance is added")
	flags.Var(&wordValue{to: &b.fits, words: gear.ShaftFits()}, "fit", "how both sit on their shafts: slip, turning or press")
	flags.StringVar(&b.setScrew, "set-screw", "", "`SIZE` of a set screw with a nut in the hub of each gear on a shaft, such as M3")
	flags.Var(&pairValue[float64]{&b.widths, quantity.Length.Parse, "D1,D2"}, "hub-diameter", "of cylinders beyond the faces, in mm; without it what the screws need")
	flags.Var(&pairValue[float64]{&b.lengths, quantity.Length.Parse, "L1,L2"}, "hub-length", "of these cylinders, in mm")
	flags.Var(&wordValue{to: &b.lighten, words: gear.Lightenings()}, "lighten", "what is taken out of the wheel between hub and rim: spokes, holes or web")
	flags.Var(&wordValue{to: &b.mark, words: joint.MarkStyles()}, "mark", "letters on both gears: sunk or raised")
	quantityVar(flags, &b.topChamfer, quantity.Length, "top-chamfer", "on teeth and holes at the face away from the bed, in mm")
}

// gear returns what the flags say of one gear.
func (b *bodyFlags) gear(i int) joint.Gear {
	g := joint.Gear{
		Hub: b.hubs[i], Bore: b.bores[i], Shaft: b.shafts[i], Fit: b.fits,
		HubDiameter: b.widths[i], HubLength: b.lengths[i], TopChamfer: b.topChamfer, Mark: joint.Mark{Style: b.mark},
	}
	if b.takesScrew(i) || !b.takesScrew(1-i) { // where neither does, both are refused
		g.SetScrew.ScrewSize = b.setScrew
	}
	if i == 1 {
		g.Lighten.Kind = b.lighten
	}
	return g
}

// takesScrew says whether a set screw can hold gear i on its shaft.
func (b *bodyFlags) takesScrew(i int) bool {
	return b.hubs[i] != "clamp" && (b.shafts[i] > 0 || b.shafts == [2]float64{})
}

// bodyKeys are the keys of a joint file that the flags stand for.
func bodyKeys() map[string][]string {
	return map[string][]string{
		"hub": {"pinion.hub", "wheel.hub"}, "bore": {"pinion.bore", "wheel.bore"}, "shaft": {"pinion.shaft", "wheel.shaft"},
		"fit": {"pinion.fit", "wheel.fit"}, "set-screw": {"pinion.set_screw", "wheel.set_screw"},
		"hub-diameter": {"pinion.hub_diameter", "wheel.hub_diameter"}, "hub-length": {"pinion.hub_length", "wheel.hub_length"},
		"lighten": {"wheel.lighten"}, "mark": {"pinion.mark", "wheel.mark"}, "top-chamfer": {"pinion.top_chamfer", "wheel.top_chamfer"},
	}
}
