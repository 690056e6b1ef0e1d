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

// A pocket is the plan of a horn pocket. Its size is the diameter of the circle
// that holds it, as wanted and as drawn.
type pocket struct {
	outline       geom.Contour
	wanted, drawn float64
	hub           float64                  // drawn diameter of the round at its centre
	halfWidth     func(at float64) float64 // drawn, of the pocket along an arm or radius
}

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
	hub := s.card.Hole(s.part, "horn hub hole", h.HubDiameter+HubRoom)
	p, err := s.pocketFor(h, hub)
	if err != nil {
		return err
	}
	s.fits = append(s.fits, hub)
	s.around = math.Max(s.around, p.drawn)
	s.holes = append(s.holes, hole{s.floor, s.height, p.outline})
	field, size := h.reach()
	if s.floor < s.face {
		if err := s.inRoot(field, size, p.wanted, p.drawn, s.moreTeeth); err != nil {
			return err
		}
	}
	if h.StandOff > 0 {
		if err := s.addBoss(h, p); err != nil {
			return err
		}
	}
	s.addHole(hub, geom.Point{}, 0, s.floor, geom.ChordFlank)
	if h.Holes > 0 || len(h.HolesAt) > 0 {
		return s.addHornScrews(h, p, hub)
	}
	return s.inRoot("horn hub diameter", h.HubDiameter, hub.Wanted, hub.Drawn, s.moreTeeth)
}

// pocketFor returns the plan of the pocket, its fits noted.
func (s *structure) pocketFor(h HornPocket, hub fit.Fit) (pocket, error) {
	if h.arms() > 0 {
		return s.armPocket(h, hub), nil
	}
	f := s.card.Hole(s.part, "horn pocket", h.Diameter+s.card.Slip())
	s.fits = append(s.fits, f)
	if s.thin((f.Drawn - hub.Drawn) / 2) {
		return pocket{}, s.refuse("horn hub diameter", h.HubDiameter, "mm", "leaves the disc nothing to rest on", "measure disc and hub again")
	}
	across := func(at float64) float64 { return f.Drawn/2 - at }
	return pocket{geom.Bore(geom.Point{}, f.Drawn, geom.ChordFit), f.Wanted, f.Drawn, f.Drawn, across}, nil
}

func (s *structure) validateHorn(h HornPocket) error {
	type quantity struct {
		field         string
		value, lo, hi float64
	}
	list := []quantity{
		{"horn thickness", h.Thickness, 0.2, 100},
		{"horn stand-off", h.StandOff, 0, 100},
	}
	switch {
	case h.Kind == "disc":
		list = append(list, quantity{"horn diameter", h.Diameter, 2, geom.Extent}, quantity{"horn hub diameter", h.HubDiameter, 1, h.Diameter})
	case h.arms() > 0:
		list = append(list, quantity{"horn arm", h.Arm, 2, geom.Extent / 2}, quantity{"horn hub diameter", h.HubDiameter, 1, 1.8 * h.Arm},
			quantity{"horn arm width at the hub", h.WidthAtHub, 1, h.Arm}, quantity{"horn arm width at the tip", h.WidthAtTip, 0.8, h.WidthAtHub})
		for _, at := range h.HolesAt {
			list = append(list, quantity{"horn holes_at", at, 0.5, h.Arm})
		}
	default:
		kind := h.Kind
		if kind == "" {
			kind = "not given"
		}
		return &check.FieldError{
			Field: "kind of horn of " + s.part, Text: kind, Reason: "is not known",
			Remedy: `use "disc", "cross", "double-arm" or "arm"`,
		}
	}
	for _, q := range list {
		if err := check.InRange(q.field+" of "+s.part, q.value, "mm", q.lo, q.hi, "measure the servo's horn"); err != nil {
			return err
		}
	}
	if h.StandOff > 0 && h.StandOff < 0.05 {
		return s.refuse("horn stand-off", h.StandOff, "mm", "is less than a layer", "use 0, or at least one layer")
	}
	if err := check.InRange("horn arms of "+s.part, float64(h.Arms), "", 0, 8, "count the arms of the horn"); err != nil {
		return err
	}
	return check.InRange("horn holes of "+s.part, float64(h.Holes), "", 0, 24, "count the screw holes of the horn that you will use")
}

// addBoss stands the pocket's rim above the teeth. It stays inside the root
// circle so that it clears the mate's tips and shares no edge with the teeth.
func (s *structure) addBoss(h HornPocket, p pocket) error {
	bead := s.card.BeadWidth
	wanted := math.Min(p.wanted+2*bossWall*bead, s.root-2*bead)
	f := s.card.Peg(s.part, "horn boss", wanted)
	f.Drawn = math.Min(f.Drawn, s.drawn-bead)
	f.Expected = f.Drawn + s.card.Outside.At(f.Drawn)
	s.fits = append(s.fits, f)
	wall := (wanted - p.wanted) / 2
	s.margins = append(s.margins, margin{"hub-wall", wall, "boss around the horn pocket", s.moreTeeth})
	if s.thin((f.Drawn - p.drawn) / 2) {
		field, size := h.reach()
		return s.refuse(field, size, "mm", "leaves no wall for the boss inside the root diameter "+check.Number(s.root)+" mm", s.moreTeeth(bossWall*bead-wall))
	}
	s.solids = append(s.solids, solid{s.face, s.height, geom.Peg(geom.Point{}, f.Drawn, geom.ChordFlank)})
	return nil
}

// A HornScrew is what joins gear and horn, hole by hole.
type HornScrew struct {
	fit.Screw
	Cuts bool // its thread into the horn, whose hole it does not pass
}

// HornScrew returns the screw for the holes of the horn, and false for a gear
// that is not screwed to one.
func (g *Gear) HornScrew() (HornScrew, bool) {
	if g.HornScrews() == 0 {
		return HornScrew{}, false
	}
	return screwFor(g.body.spec.Horn.Hole)
}

// screwFor returns the largest screw that passes a hole of the horn, or the
// smallest that cuts its thread into it.
func screwFor(hole float64) (HornScrew, bool) {
	if screw, ok := fit.LargestThrough(hole); ok {
		return HornScrew{screw, false}, true
	}
	smallest := fit.Screws()[0]
	return HornScrew{smallest, true}, math.Abs(hole-smallest.Pilot) <= 0.15
}

// addHornScrews makes through holes for the horn's screws. Of the holes in an
// arm it takes the outermost and inwards as many as leave two beads between.
func (s *structure) addHornScrews(h HornPocket, p pocket, hub fit.Fit) error {
	screw, ok := screwFor(h.Hole)
	if !ok {
		return s.refuse("horn hole", h.Hole, "mm", "suits no standard screw from "+fit.Screws()[0].Size+" up", "drill the horn's holes to 2.1 mm, or use 0 holes")
	}
	f := s.card.Hole(s.part, screw.Size+" screw hole", screw.Clearance)
	s.fits = append(s.fits, f)
	head, err := s.hornHead(h, screw, f)
	if err != nil {
		return err
	}
	field, at, count := "horn hole circle", []float64{h.HoleCircle / 2}, h.Holes
	if h.arms() > 0 {
		field, count = "horn holes_at", h.arms()
		at = s.spacedHoles(h.HolesAt, head.fit, hub)
		if len(at) == 0 {
			return s.refuse(field, h.HolesAt[0], "mm", "brings the screw holes into the hub hole", "use holes further out, or none")
		}
	}
	s.hornHoles = at
	for i, r := range at {
		if err := s.hornCircle(h, f, head, hub, p, field, r, count); err != nil {
			return err
		}
		if i > 0 {
			s.margins = append(s.margins, margin{"hole-web", at[i-1] - r - head.fit.Wanted, "between the holes of an arm", func(float64) string { return "leave one hole out" }})
		}
	}
	s.hornSunk = head.depth
	return s.inRoot(field, 2*at[0], 2*at[0]+head.fit.Wanted, 2*at[0]+head.fit.Drawn, s.moreTeeth)
}

// A screwHead is the widest of a horn's screw holes: the hole itself, or the
// counterbore of its head and the depth of that in mm.
type screwHead struct {
	fit   fit.Fit
	depth float64
}

// hornHead returns where the head of a horn's screw lies. The floor under the
// pocket must hold it and two beads below it.
func (s *structure) hornHead(h HornPocket, screw HornScrew, through fit.Fit) (screwHead, error) {
	if !h.Sunk {
		return screwHead{fit: through}, nil
	}
	b, _ := screw.Hole(fit.Counterbore, s.card.Slip(), s.card.LayerThickness)
	if least := 2 * s.card.BeadWidth; s.floor < b.Depth+least {
		return screwHead{}, s.refuse("horn counterbore", b.Depth, "mm", "deep leaves no floor under the horn",
			"face width >= "+check.Number(ceilTo(s.face+b.Depth+least-s.floor))+" mm")
	}
	return screwHead{s.fitted(s.card.Hole(s.part, screw.Size+" counterbore", b.Recess)), b.Depth}, nil
}

// hornCircle makes the screw holes at one distance from the axis.
func (s *structure) hornCircle(h HornPocket, f fit.Fit, head screwHead, hub fit.Fit, p pocket, field string, r float64, count int) error {
	apart := 2 * r * math.Sin(math.Pi/float64(count))
	switch {
	case !(f.Drawn/2 < p.halfWidth(r)-0.01):
		return s.refuse(field, r, "mm", "brings the screw holes out of the pocket", "measure the place of the horn's holes again")
	case s.thin(r - f.Drawn/2 - hub.Drawn/2):
		return s.refuse(field, r, "mm", "brings the screw holes into the hub hole", "use holes further out, or 0 holes")
	case count > 1 && s.thin(apart-f.Drawn):
		return s.refuse("horn holes", float64(count), "", "brings the screw holes into each other", "use every second hole")
	case s.thin(r - head.fit.Drawn/2 - hub.Drawn/2), count > 1 && s.thin(apart-head.fit.Drawn):
		return s.refuse("horn counterbore", head.fit.Wanted, "mm", "runs into the hub hole or into the next one", "leave the heads on the gear, or use holes further out")
	}
	fix := atLeast("horn hole circle", 2*r, 2)
	if h.arms() > 0 {
		fix = func(float64) string { return "leave the innermost hole out" }
	}
	s.margins = append(s.margins, margin{"hole-web", r - head.fit.Wanted/2 - hub.Wanted/2, "between horn screws and hub hole", fix})
	if count > 1 {
		s.margins = append(s.margins, margin{"hole-web", apart - head.fit.Wanted, "between horn screws", func(float64) string { return "use every second hole of the horn" }})
	}
	for k := range count {
		at := geom.Polar(r, 2*math.Pi*float64(k)/float64(count))
		s.addHole(f, at, head.depth, s.floor, geom.ChordFlank)
		if head.depth > 0 {
			s.addHole(head.fit, at, 0, head.depth, geom.ChordFlank)
		}
	}
	return nil
}
