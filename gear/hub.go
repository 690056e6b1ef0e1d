package gear

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// bossWall is the wall around a horn pocket in beads (common practice, no
// source: four beads stand up to pressing and pulling by hand).
const bossWall = 4

// addHorn makes the pocket for the servo's own horn: hub hole and screw holes
// through the floor, the pocket open at the top, and a boss where it stands off.
func (s *structure) addHorn(h HornPocket) error {
	if err := s.validateHorn(h); err != nil {
		return err
	}
	s.height = s.face + h.StandOff
	s.floor = s.height - h.Thickness
	if math.Abs(s.floor-s.face) < 0.01 {
		s.floor = s.face // a step no printer shows
	}
	if least := s.card.BedChamfer() + 2*s.card.LayerThickness; s.floor < least {
		return s.refuse("horn thickness", h.Thickness, "mm", "leaves no floor under the pocket",
			"face width >= "+check.Number(ceilTo(s.face+least-s.floor))+" mm")
	}
	pocket := s.card.Hole(s.part, "horn pocket", h.Diameter+fit.SlipClearance)
	s.fits = append(s.fits, pocket)
	s.addHole(pocket, geom.Point{}, s.floor, s.height, geom.ChordFit)
	if s.floor < s.face {
		if err := s.inRoot("horn diameter", h.Diameter, pocket.Wanted, pocket.Drawn, s.moreTeeth); err != nil {
			return err
		}
	}
	if h.StandOff > 0 {
		if err := s.addBoss(h, pocket); err != nil {
			return err
		}
	}
	hub := s.card.Hole(s.part, "horn hub hole", h.HubDiameter+HubRoom)
	s.fits = append(s.fits, hub)
	s.addHole(hub, geom.Point{}, 0, s.floor, geom.ChordFlank)
	if s.thin((pocket.Drawn - hub.Drawn) / 2) {
		return s.refuse("horn hub diameter", h.HubDiameter, "mm", "leaves the disc nothing to rest on", "measure disc and hub again")
	}
	if h.Holes > 0 {
		return s.addHornScrews(h, pocket, hub)
	}
	return s.inRoot("horn hub diameter", h.HubDiameter, hub.Wanted, hub.Drawn, s.moreTeeth)
}

func (s *structure) validateHorn(h HornPocket) error {
	if h.Kind != "disc" {
		kind := h.Kind
		if kind == "" {
			kind = "not given"
		}
		return &check.FieldError{
			Field: "kind of horn of " + s.part, Text: kind, Reason: "is not made yet",
			Remedy: `use a round horn: "disc"`,
		}
	}
	for _, q := range []struct {
		field         string
		value, lo, hi float64
	}{
		{"horn diameter", h.Diameter, 2, geom.Extent},
		{"horn thickness", h.Thickness, 0.2, 100},
		{"horn hub diameter", h.HubDiameter, 1, h.Diameter},
		{"horn stand-off", h.StandOff, 0, 100},
	} {
		if err := check.InRange(q.field+" of "+s.part, q.value, "mm", q.lo, q.hi, "measure the servo's horn"); err != nil {
			return err
		}
	}
	if h.StandOff > 0 && h.StandOff < 0.05 {
		return s.refuse("horn stand-off", h.StandOff, "mm", "is less than a layer", "use 0, or at least one layer")
	}
	return check.InRange("horn holes of "+s.part, float64(h.Holes), "", 0, 24, "count the screw holes of the horn that you will use")
}

// addBoss stands the pocket's rim above the teeth. It stays inside the root
// circle so that it clears the mate's tips and shares no edge with the teeth.
func (s *structure) addBoss(h HornPocket, pocket fit.Fit) error {
	bead := s.card.BeadWidth
	wanted := math.Min(pocket.Wanted+2*bossWall*bead, s.root-2*bead)
	f := s.card.Peg(s.part, "horn boss", wanted)
	f.Drawn = math.Min(f.Drawn, s.drawn-bead)
	f.Expected = f.Drawn + s.card.Outside.At(f.Drawn)
	s.fits = append(s.fits, f)
	wall := (wanted - pocket.Wanted) / 2
	s.margins = append(s.margins, margin{"hub-wall", wall, "boss around the horn pocket", s.moreTeeth})
	if s.thin((f.Drawn - pocket.Drawn) / 2) {
		return s.refuse("horn diameter", h.Diameter, "mm", "leaves no wall for the boss inside the root diameter "+check.Number(s.root)+" mm", s.moreTeeth(bossWall*bead-wall))
	}
	s.solids = append(s.solids, solid{s.face, s.height, geom.Peg(geom.Point{}, f.Drawn, geom.ChordFlank)})
	return nil
}

// addHornScrews makes through holes for the largest screw that passes the horn.
func (s *structure) addHornScrews(h HornPocket, pocket, hub fit.Fit) error {
	screw, ok := fit.LargestThrough(h.Hole)
	if !ok {
		return s.refuse("horn hole", h.Hole, "mm", "passes no standard screw from "+fit.Screws()[0].Size+" up", "drill the horn's holes to 2.1 mm, or use 0 holes")
	}
	f := s.card.Hole(s.part, screw.Size+" screw hole", screw.Clearance)
	s.fits = append(s.fits, f)
	outside, inside := h.HoleCircle+f.Drawn, h.HoleCircle-f.Drawn
	apart := h.HoleCircle * math.Sin(math.Pi/float64(h.Holes))
	switch {
	case !(outside < pocket.Drawn):
		return s.refuse("horn hole circle", h.HoleCircle, "mm", "brings the screw holes out of the pocket", "measure the circle through the horn's holes again")
	case s.thin((inside - hub.Drawn) / 2):
		return s.refuse("horn hole circle", h.HoleCircle, "mm", "brings the screw holes into the hub hole", "use holes further out, or 0 holes")
	case h.Holes > 1 && s.thin(apart-f.Drawn):
		return s.refuse("horn holes", float64(h.Holes), "", "brings the screw holes into each other", "use every second hole")
	}
	s.margins = append(s.margins, margin{"hole-web", (h.HoleCircle - f.Wanted - hub.Wanted) / 2, "between horn screws and hub hole", atLeast("horn hole circle", h.HoleCircle, 2)})
	if h.Holes > 1 {
		s.margins = append(s.margins, margin{"hole-web", apart - f.Wanted, "between horn screws", func(float64) string { return "use every second hole of the horn" }})
	}
	for k := range h.Holes {
		centre := geom.Polar(h.HoleCircle/2, 2*math.Pi*float64(k)/float64(h.Holes))
		s.addHole(f, centre, 0, s.floor, geom.ChordFlank)
	}
	return s.inRoot("horn hole circle", h.HoleCircle, h.HoleCircle+f.Wanted, outside, s.moreTeeth)
}

// addJournal makes shoulder and journal, with a lead-in at the journal's end,
// and the bore through both.
func (s *structure) addJournal(j Journal) error {
	for _, q := range []struct {
		field         string
		value, lo, hi float64
		remedy        string
	}{
		{"bore of the journal's ring", j.Bore, 2, geom.Extent, "measure the bore of the bearing"},
		{"journal length", j.Length, 0.5, 500, "use the width of the bearing's ring"},
		{"shoulder diameter", j.ShoulderDiameter, 0, geom.Extent, "use the ring's shoulder, or 0 for none"},
		{"shoulder height", j.ShoulderHeight, 0, 500, "use 1 to 3 mm, or 0 for no shoulder"},
		{"hollow of the journal", j.Hollow, 0, geom.Extent, "use 0 for a solid journal"},
	} {
		if err := check.InRange(q.field+" of "+s.part, q.value, "mm", q.lo, q.hi, q.remedy); err != nil {
			return err
		}
	}
	peg := s.card.Peg(s.part, "journal", j.Bore-fit.JournalClearance)
	s.fits = append(s.fits, peg)
	s.foot = s.face
	if err := s.addShoulder(j, peg); err != nil {
		return err
	}
	s.height = s.foot + j.Length
	s.lead = math.Min(math.Min(0.5, j.Length/4), peg.Drawn/8)
	if s.thin((s.drawn - peg.Drawn) / 2) {
		return s.refuse("bore of the journal's ring", j.Bore, "mm", "makes a journal as large as the root diameter "+check.Number(s.root)+" mm", s.moreTeeth(2*s.card.BeadWidth-(s.root-peg.Wanted)/2))
	}
	if j.Hollow > 0 {
		bore := s.card.Hole(s.part, "hollow", j.Hollow)
		s.fits = append(s.fits, bore)
		s.addHole(bore, geom.Point{}, 0, s.height, geom.ChordFlank)
		wall := (peg.Wanted - bore.Wanted) / 2
		fix := atMost("hollow", j.Hollow, 2)
		s.margins = append(s.margins, margin{"hub-wall", wall, "journal around its hollow", fix})
		drawn := (peg.Drawn - bore.Drawn) / 2
		if s.thin(drawn) {
			return s.refuse("hollow of the journal", j.Hollow, "mm", "leaves the journal no wall", fix(4*s.card.BeadWidth-wall))
		}
		s.lead = math.Min(s.lead, drawn/3)
	}
	s.solids = append(s.solids, solid{s.foot, s.height, geom.Peg(geom.Point{}, peg.Drawn, geom.ChordFit)})
	return nil
}

func (s *structure) addShoulder(j Journal, peg fit.Fit) error {
	if j.ShoulderDiameter == 0 && j.ShoulderHeight == 0 {
		return nil
	}
	f := s.card.Peg(s.part, "shoulder", j.ShoulderDiameter)
	switch {
	case s.thin((f.Drawn - peg.Drawn) / 2):
		return s.refuse("shoulder diameter", j.ShoulderDiameter, "mm", "must be larger than the journal", "use the ring's shoulder diameter, or 0 for no shoulder")
	case s.thin((s.drawn - f.Drawn) / 2):
		return s.refuse("shoulder diameter", j.ShoulderDiameter, "mm", "must stay inside the root diameter "+check.Number(s.root)+" mm", "shoulder diameter <= "+check.Number(math.Floor(s.root-2*s.card.BeadWidth))+" mm")
	case j.ShoulderHeight < s.card.LayerThickness:
		return s.refuse("shoulder height", j.ShoulderHeight, "mm", "is less than a layer", "use 1 to 3 mm, or 0 for diameter and height")
	}
	s.fits = append(s.fits, f)
	s.foot += j.ShoulderHeight
	s.solids = append(s.solids, solid{s.face, s.foot, geom.Peg(geom.Point{}, f.Drawn, geom.ChordFlank)})
	return nil
}
