package gear

import (
	"fmt"
	"slices"
	"strings"

	"pintle/geom"
)

// addBodies adds the sizes of both bodies to the report's values: mm, and grams
// for what lightening saves where the plastic is known.
func (p *Pair) addBodies(v map[string]any) {
	for i, g := range p.gears {
		n := fmt.Sprint(i + 1)
		for name, value := range g.body.values {
			v[name+n] = value
		}
		if g.body.saved > 0 {
			v["lightened_mm3_"+n] = g.body.saved
			v["mass_saved_g_"+n] = g.body.saved / 1000 * p.spec.Loading.Material[i].Density
		}
		if held, how := g.body.holds(pressureShare * p.spec.Loading.Material[i].Strength); how != "" && held > 0 {
			v["shaft_torque"+n] = held
		}
	}
}

// Assembly returns how what holds the gear on its shaft or bearing goes
// together, one sentence a line.
func (g *Gear) Assembly() []string { return g.body.steps }

// drawnAs returns the gear without the steps of its cross holes, or nil where it
// has none.
func (g *Gear) drawnAs() *geom.Part {
	plain := g.body
	plain.cuts = nil
	for _, c := range g.body.cuts {
		if slot, ok := c.(geom.Slot); ok {
			plain.cuts = append(plain.cuts, slot)
		}
	}
	if len(plain.cuts) == len(g.body.cuts) {
		return nil
	}
	part, err := plain.made(plain.slabs(g.drawn, plain.chamfer, plain.relief))
	if err != nil {
		return nil // it is then drawn as it is printed
	}
	return &part
}

// notes are the body's own lines on its drawing.
func (s *structure) notes() []string {
	notes := slices.Clone(s.noted)
	if s.topHoles > 0 {
		notes = append(notes, fmt.Sprintf("Edges of teeth %.2f, of holes %.2f × 45° on the face away from the bed", s.topTeeth, s.topHoles))
	}
	if len(s.marks) > 0 {
		notes = append(notes, "marked: "+strings.Join(s.marks, ", "))
	}
	return notes
}
