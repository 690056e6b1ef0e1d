package gear

import (
	"fmt"
	"math"
	"slices"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// keeperScrews is how many screws hold the washer on a hollow journal (common
// practice, no source).
const keeperScrews = 3

// leastBearing is the least width in mm of the ring on which a nut bears
// (common practice, no source).
const leastBearing = 1.0

// hollowed returns the journal with the hollow that its retainer needs.
func (s *structure) hollowed(j Journal) (Journal, error) {
	if s.spec.Retain == nil {
		return j, nil
	}
	screw := s.spec.Retain.Screw
	if err := check.Positive("retaining screw of "+s.part, screw.Diameter, "mm", "choose a screw, such as M6"); err != nil {
		return j, err
	}
	refuse := func(reason, remedy string) error {
		return s.refuse("hollow of the journal", j.Hollow, "mm", reason, remedy)
	}
	switch s.spec.Retain.Kind {
	case "nut":
		if j.Hollow == 0 {
			j.Hollow = screw.Clearance
		}
		switch most := screw.NutAcross - 2*leastBearing; {
		case j.Hollow < screw.Clearance:
			return j, refuse("does not pass "+screw.Size, "hollow >= "+check.Number(screw.Clearance)+" mm")
		case j.Hollow > most:
			return j, refuse(screw.Size+"'s nut finds nothing to bear on", "hollow <= "+check.Number(most)+" mm, or hold the ring with screws and a washer")
		}
	case "screw":
		if j.Hollow > 0 {
			return j, refuse("leaves no material for a screw in the axis", "use screws and a washer, or a nut")
		}
	case "screws":
		if j.Hollow == 0 {
			return j, refuse("is not there", "use one screw in the axis of a solid journal, or give a hollow")
		}
	default:
		return j, &check.FieldError{Field: "kind of retainer of " + s.part, Text: s.spec.Retain.Kind, Reason: "is not known", Remedy: `use "nut", "screw" or "screws"`}
	}
	return j, nil
}

// addRetain makes the nut pocket or the pilot holes of a journal's retainer.
func (s *structure) addRetain(j Journal, peg fit.Fit) error {
	r := s.spec.Retain
	if r == nil {
		return nil
	}
	screw := r.Screw
	if r.Kind == "nut" {
		return s.addNutPocket(screw)
	}
	f := s.card.Hole(s.part, screw.Size+" pilot hole in the journal", screw.Pilot)
	s.fits = append(s.fits, f)
	depth := math.Min(3*screw.Diameter, s.height-s.card.BedChamfer()-4*s.card.LayerThickness)
	fix := func(float64) string { return "use a smaller retaining screw" }
	if r.Kind == "screw" {
		s.margins = append(s.margins, margin{"journal-wall", (peg.Wanted - f.Wanted) / 2, "journal around its screw", fix})
		if s.thin((peg.Drawn - f.Drawn) / 2) {
			return s.refuse("retaining screw", screw.Diameter, "mm", "leaves the journal no wall", "use a smaller screw")
		}
		s.addHole(f, geom.Point{}, s.height-depth, s.height, geom.ChordFlank)
		s.lead = math.Min(s.lead, (peg.Drawn-f.Drawn)/6)
		return nil
	}
	wall := (peg.Wanted - j.Hollow) / 2
	beside := (wall - f.Wanted) / 2
	s.margins = append(s.margins, margin{"hole-web", beside, "beside the journal's screws", fix})
	if s.thin((wall - f.Drawn) / 2) {
		return s.refuse("retaining screw", screw.Diameter, "mm", "breaks through the journal's wall", "use a smaller screw or a smaller hollow")
	}
	for k := range keeperScrews {
		s.addHole(f, geom.Polar((peg.Wanted+j.Hollow)/4, 2*math.Pi*float64(k)/keeperScrews), s.height-depth, s.height, geom.ChordFlank)
	}
	s.lead = math.Min(s.lead, (wall-f.Drawn)/8)
	return nil
}

// addNutPocket makes the hexagonal pocket in the bed face.
func (s *structure) addNutPocket(screw fit.Screw) error {
	f := s.card.Hole(s.part, screw.Size+" nut across flats", screw.NutAcross+s.card.Slip())
	s.fits = append(s.fits, f)
	depth := screw.NutHeight + s.card.LayerThickness
	if least := depth + s.card.BedChamfer(); s.face < least {
		return s.refuse("retaining screw", screw.Diameter, "mm", "has a nut higher than the wheel", "face width >= "+check.Number(ceilTo(least))+" mm")
	}
	hollow := &s.holes[len(s.holes)-1]
	hollow.z0 = depth
	s.holes = append(s.holes, hole{0, depth, hexagon(geom.Point{}, f.Drawn, 0)})
	wanted := 2 * f.Wanted / math.Sqrt(3)
	return s.inRoot("retaining screw", screw.Diameter, wanted, 2*f.Drawn/math.Sqrt(3), s.moreTeeth)
}

// sayRetain tells what holds the wheel in its bearing.
func (p *Pair) sayRetain(i int) (check.Finding, bool) {
	j, r := p.gears[i].body.spec.Journal, p.gears[i].body.spec.Retain
	if j == nil {
		return check.Finding{}, false
	}
	f := rule("retain").Say(check.Pass, 0, "", "")
	f.Part = p.spec.partName(i)
	if r == nil {
		f.Verdict, f.Detail = check.Note, "only its weight keeps the wheel in the bearing"
		f.Remedy = "keep the joint upright, or use a bearing with a larger bore: this journal takes no screw"
		if fits, ok := p.retainer(i); ok {
			f.Remedy = fmt.Sprintf("hold it with retain = { kind = %q, screw_size = %q }", fits.Kind, fits.Screw.Size)
		}
		return f, true
	}
	f.Value, f.Detail = r.Screw.Diameter, r.text(*j)
	return f, true
}

// retainer returns what gear i may be held with: the largest screw with a nut,
// else in the axis, else in the wall, that makes no finding on its body worse.
func (p *Pair) retainer(i int) (Retain, bool) {
	before := map[string]check.Verdict{}
	for _, f := range p.judgeMargins(i) {
		before[f.Check] = f.Verdict
	}
	screws := fit.Screws()
	slices.Reverse(screws)
	for _, kind := range []string{"nut", "screw", "screws"} {
		for _, screw := range screws {
			r := Retain{Kind: kind, Screw: screw}
			if trial, err := p.heldBy(i, r); err == nil && !slices.ContainsFunc(trial.judgeMargins(i), func(f check.Finding) bool {
				return f.Verdict != check.Pass && f.Verdict != before[f.Check]
			}) {
				return r, true
			}
		}
	}
	return Retain{}, false
}

// heldBy returns the pair with another retainer on gear i; it is not proved.
func (p *Pair) heldBy(i int, r Retain) (*Pair, error) {
	trial := &Pair{solution: p.solution, gears: p.gears}
	b := p.spec.body(i)
	b.Retain = &r
	var err error
	trial.gears[i], err = p.bodied(i, b)
	return trial, err
}

// text says how the retainer goes together.
func (r Retain) text(j Journal) string {
	switch r.Kind {
	case "nut":
		return fmt.Sprintf("lay an %s nut into the pocket in the bed face, pass an %s screw or threaded rod through the journal, and clamp the ring with a washer wider than %s mm and a nut until the play is gone and the wheel still turns freely; no wires pass: lead them beside the joint, or hold the ring with three screws", r.Screw.Size, r.Screw.Size, check.Number(j.Bore))
	case "screw":
		return fmt.Sprintf("hold the ring with a washer wider than %s mm and one %s screw into the journal's end; the screw cuts its own thread, so turn it by hand; no wires pass: lead them beside the joint", check.Number(j.Bore), r.Screw.Size)
	}
	return fmt.Sprintf("hold the ring with a disc wider than %s mm and %d %s screws on a circle of %s mm into the journal's end; wires up to %s mm pass", check.Number(j.Bore), keeperScrews, r.Screw.Size, check.Number((j.Bore-fit.JournalClearance+j.Hollow)/2), check.Number(j.Hollow))
}
