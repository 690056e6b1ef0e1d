package gear

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

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
	j, err := s.hollowed(j)
	if err != nil {
		return err
	}
	peg := s.card.Peg(s.part, "journal", j.Bore-fit.JournalClearance)
	s.fits = append(s.fits, peg)
	s.foot = s.face
	if err = s.addShoulder(j, peg); err != nil {
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
		s.margins = append(s.margins, margin{"journal-wall", wall, "journal around its hollow", fix})
		drawn := (peg.Drawn - bore.Drawn) / 2
		if s.thin(drawn) {
			return s.refuse("hollow of the journal", j.Hollow, "mm", "leaves the journal no wall", fix(4*s.card.BeadWidth-wall))
		}
		s.lead = math.Min(s.lead, drawn/3)
	}
	s.solids = append(s.solids, solid{s.foot, s.height, geom.Peg(geom.Point{}, peg.Drawn, geom.ChordFit)})
	return s.addRetain(j, peg)
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
