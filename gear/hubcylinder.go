package gear

import (
	"math"

	"pintle/check"
	"pintle/drawing"
	"pintle/geom"
)

// A Hub is a cylinder around the shaft that stands beyond the face of the teeth,
// away from the bed.
type Hub struct {
	Diameter float64 // mm; 0 for what bore and screws need
	Length   float64 // mm beyond the face; 0 for what the screws need
}

// hubWall is the wall around a bore in beads where none is given (common
// practice, no source: four beads bear pressing on and a set screw).
const hubWall = 4

// hubEdge is the chamfer at the end of a hub, mm (common practice, no source).
const hubEdge = 0.4

// A hubPlan is what the screws in a hub need of it, mm.
type hubPlan struct {
	diameter, length float64 // least ones
	axis             float64 // of the screws above the face
	why              string
	cut              func() // makes them once the hub stands
}

// addHub makes the cylinder around the shaft with the screws in it.
func (s *structure) addHub(x Shaft, bore boreShape) error {
	if s.spec.Hub == nil && s.spec.SetScrew == nil && s.spec.Clamp == nil {
		return nil
	}
	h := Hub{}
	if s.spec.Hub != nil {
		h = *s.spec.Hub
	}
	for field, v := range map[string]float64{"hub diameter": h.Diameter, "hub length": h.Length} {
		if err := check.InRange(field+" of "+s.part, v, "mm", 0, geom.Extent, "leave it out: it is then what bore and screws need"); err != nil {
			return err
		}
	}
	plan, err := s.planScrews(x, bore)
	if err != nil {
		return err
	}
	if h.Diameter == 0 {
		h.Diameter = math.Max(ceilTo(plan.diameter), bore.wanted+2*hubWall*s.card.BeadWidth)
	}
	if h.Length == 0 {
		h.Length = ceilTo(plan.length)
	}
	switch {
	case h.Diameter < plan.diameter:
		return s.refuse("hub diameter", h.Diameter, "mm", "leaves no room for "+plan.why, "hub diameter >= "+check.Number(ceilTo(plan.diameter))+" mm")
	case h.Length < plan.length:
		return s.refuse("hub length", h.Length, "mm", "leaves no room for "+plan.why, "hub length >= "+check.Number(ceilTo(plan.length))+" mm")
	case h.Length <= 0:
		return s.refuse("hub diameter", h.Diameter, "mm", "has no length", "give the hub's length too, or leave its diameter out")
	case h.Length < 2*s.card.LayerThickness+hubEdge:
		return s.refuse("hub length", h.Length, "mm", "is no hub", "hub length >= "+check.Number(ceilTo(2*s.card.LayerThickness+hubEdge))+" mm, or leave the hub out")
	}
	f := s.fitted(s.card.Peg(s.part, "hub", h.Diameter))
	wall := (h.Diameter - bore.wanted) / 2
	s.margins = append(s.margins, margin{"hub-wall", wall, "hub around the bore", atLeast("hub diameter", h.Diameter, 2)})
	switch {
	case s.thin((f.Drawn - bore.drawn) / 2):
		return s.refuse("hub diameter", h.Diameter, "mm", "leaves no wall around the bore", "hub diameter >= "+check.Number(ceilTo(bore.wanted+2*hubWall*s.card.BeadWidth))+" mm")
	case s.thin((s.drawn - f.Drawn) / 2):
		return s.refuse("hub diameter", h.Diameter, "mm", "is not inside the root diameter "+check.Number(s.root)+" mm", s.moreTeeth((h.Diameter-s.root)/2+s.card.BeadWidth))
	}
	s.height = s.face + h.Length
	s.solids = append(s.solids, solid{s.face, s.height, geom.Peg(geom.Point{}, f.Drawn, geom.ChordFlank)})
	s.hubDrawn = f.Drawn
	s.values["hub_diameter"], s.values["hub_length"] = h.Diameter, h.Length
	s.dims = append(s.dims, drawing.Turned(f.Drawn, s.height).Measuring(h.Diameter).Saying("hub"), drawing.Heights(f.Drawn/2, s.face, s.height).Saying("hub"))
	s.lead = math.Min(hubEdge, wall/4)
	if plan.cut != nil {
		plan.cut()
	}
	return nil
}

// planScrews returns what the screws in the hub need of it.
func (s *structure) planScrews(x Shaft, bore boreShape) (hubPlan, error) {
	switch {
	case s.spec.SetScrew != nil && s.spec.Clamp != nil:
		return hubPlan{}, &check.FieldError{Field: "hub of " + s.part, Text: "set screw and clamp", Reason: "is held twice", Remedy: "use a set screw or a clamp"}
	case s.spec.SetScrew != nil:
		return s.planSet(*s.spec.SetScrew, x, bore)
	case s.spec.Clamp != nil:
		return s.planClamp(*s.spec.Clamp, x, bore)
	}
	return hubPlan{}, nil
}
