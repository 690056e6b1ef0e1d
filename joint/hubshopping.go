package joint

import (
	"fmt"

	"pintle/check"
	"pintle/export"
	"pintle/fit"
	"pintle/gear"
)

// hubSupplies lists what holds a gear on its shaft and what is screwed to it:
// set screws, inserts, clamp screws, the rod, bolts that are no self-cutting
// ones, which hold what bolted names.
func hubSupplies(part, bolted string, body gear.Body) []export.Supply {
	var list buying
	if s := body.SetScrew; s != nil {
		n := max(s.Count, 1)
		list.add(screws(s.Screw.Size+" set screw", n, part))
		list.add(threadsFor(s.Holds, fit.Nut, s.Screw, n, part)...)
	}
	if c := body.Clamp; c != nil {
		list.add(screws(c.Screw.Size+" cap screw across the clamp's slit", 1, part), screws(c.Screw.Size+" nut", 1, part))
	}
	if s := body.Shaft; s != nil {
		list.add(export.Supply{How: export.Buy, Name: rodWords(*s), Count: 1, For: part})
	}
	if c := body.Bolts; c != nil && c.Kind != "" && c.Kind != fit.SelfCutting {
		list.add(screws(c.Screw.Size+" screw, as long as "+part+" is thick plus what it goes into", c.Count, bolted))
		list.add(threadsFor(c.Kind, "", c.Screw, c.Count, bolted)...)
	}
	return list
}

// rodWords names the rod or shaft that a bore is made for.
func rodWords(s gear.Shaft) string {
	rod := fmt.Sprintf("rod of %s mm", check.Number(s.Size))
	switch s.Kind {
	case "d-bore":
		return rod + " with a flat"
	case "keyway":
		return fmt.Sprintf("shaft of %s mm with its key", check.Number(s.Size))
	case "hex", "square":
		return s.Kind + " " + rod + " across flats"
	}
	return rod
}

// threadsFor lists what a screw turns in: a nut or an insert, nothing where it
// cuts its own thread or passes.
func threadsFor(kind, otherwise string, s fit.Screw, count int, part string) []export.Supply {
	if kind == "" {
		kind = otherwise
	}
	switch kind {
	case fit.Nut:
		return []export.Supply{screws(s.Size+" nut", count, part)}
	case fit.Insert:
		return []export.Supply{screws(s.Size+" heat-set insert", count, part)}
	}
	return nil
}

// boughtForRack lists the screws of a toothed rack and what its pinion takes.
func boughtForRack(name string, d *gear.RackDrive) []export.Supply {
	var list buying
	s := d.Spec()
	if s.Screws > 0 {
		list.add(screws(s.Screw.Size+" screw through the rack, as long as it is wide plus what it goes into", s.Screws, name+"-rack"))
	}
	list.add(hubSupplies(name+"-pinion", name+"-pinion", s.Pair.Pinion)...)
	return list
}
