package bearing

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A Cap is a printed ring, Name-cap, that lies on the outer ring's face. Its
// screws go through it into pilot holes in the housing's wall, from the mouth
// down, and cut their own thread there.
type Cap struct {
	Screw     fit.Screw
	Count     int     // 2 to 24; the first on the x axis
	Thickness float64 // mm; 0 for 3, or the screw's diameter
}

const (
	bossEdge   = 1.25 // screw diameters from the pilot's centre to the wall's faces (moulded bosses of 2.5 d, makers' guides)
	threadGrip = 2.5  // screw diameters of pilot hole, where the ring is high enough (common practice, no source)
	proud      = 0.2  // mm that the ring stands out of its seat under a cap: 0.1 to 0.3 (common practice, no source)
)

func (c *Cap) validate(b Bearing) error {
	if c == nil {
		return nil
	}
	if b.Kind == ThrustBall {
		return &check.FieldError{
			Field: "cap", Text: "asked for", Reason: "would cover a thrust bearing's balls and shaft washer",
			Remedy: "leave it out: the load holds a housing washer in its seat",
		}
	}
	if err := validateScrews("cap", c.Screw, c.Count); err != nil {
		return err
	}
	return check.InRange("cap thickness", c.Thickness, "mm", 0, 50, "3 mm is usual")
}

// Front returns the limits in mm of an opening in front of the outer ring or cup:
// from lo on it clears what turns, and up to hi it leaves 1 mm of the ring's flat
// face under the cap. lo may be larger than hi on a thin ring.
//
// Tapered: the maker's Db_min, else the cup's inner diameter at its front face
// plus 0.5 mm. Otherwise as behind the ring.
func Front(b Bearing) (lo, hi float64) {
	hi = b.Outside - 2*(1+b.RMin)
	switch {
	case b.Abutment.DbHousingMin > 0:
		return b.Abutment.DbHousingMin, hi
	case b.Kind == Tapered:
		return b.RingInner() + b.SeatWidth()*b.E/1.5 + 0.5, hi
	}
	lo, _ = HousingShoulder(b)
	return lo, hi
}

// front returns the opening that cap and pressing disc get.
func (b Bearing) front() float64 {
	lo, hi := Front(b)
	if b.Kind == Tapered || lo >= hi {
		return lo
	}
	return (lo + hi) / 2
}

// placeCap sizes pilot holes and the cap's holes.
func (h *Housing) placeCap() error {
	c := h.spec.Cap
	if c == nil {
		return nil
	}
	card, part := h.spec.Card, h.spec.Name+"-cap"
	h.pilot = card.Hole(h.partName(), "pilot hole of the cap", c.Screw.Pilot)
	h.capHole = card.Hole(part, "screw hole", c.Screw.Clearance)
	h.capOpening = card.Hole(part, "opening", h.spec.Bearing.front())
	room := h.wall/2 - h.pilot.Drawn/2 - max(h.leadWidth, h.mouthBreak())
	if room < card.BeadWidth {
		need := 2 * (h.pilot.Drawn/2 + card.BeadWidth + h.leadWanted())
		return &check.FieldError{
			Field: "wall", Value: h.wall, Unit: "mm", Reason: "is too thin for the pilot holes of the cap's screws",
			Remedy: fmt.Sprintf("use %s mm or more, or smaller screws", ceil(h.spec.wholeBeads(max(need, h.spec.wallWanted())), 0.001)),
		}
	}
	if least := card.BedChamfer() + card.LayerThickness; c.Thickness < least {
		return &check.FieldError{
			Field: "cap thickness", Value: c.Thickness, Unit: "mm", Reason: "leaves nothing above the bed-side chamfer",
			Remedy: fmt.Sprintf("use %s mm or more", ceil(max(2, least), 0.1)),
		}
	}
	return h.headsApart("cap", c.Screw, c.Count, h.CapBoltCircle())
}

// CapBoltCircle returns the diameter in mm of the cap's screws: the middle of the
// wall; 0 without a cap.
func (h *Housing) CapBoltCircle() float64 {
	if h.spec.Cap == nil {
		return 0
	}
	return h.seat.Drawn + h.wall
}

// pilotDepth returns the depth in mm of the pilot holes; 1 mm of floor stays.
func (h *Housing) pilotDepth() float64 {
	return math.Min(threadGrip*h.spec.Cap.Screw.Diameter, h.Height()-1)
}

// CapHeight returns the height in mm of the cap's underside above the ring's, 0
// without a cap: it lies on the bearing, 0.2 mm clear of the mouth until its
// screws are tight. CapThickness is its thickness in mm.
func (h *Housing) CapHeight() float64 {
	if h.spec.Cap == nil {
		return 0
	}
	return h.Height() + proud
}

// CapThickness returns the thickness in mm of the cap, 0 without one.
func (h *Housing) CapThickness() float64 {
	if h.spec.Cap == nil {
		return 0
	}
	return h.spec.Cap.Thickness
}

// CapOpening returns the wanted diameter in mm of the cap's opening, 0 without a
// cap.
func (h *Housing) CapOpening() float64 { return h.capOpening.Wanted }

// capHoles returns one hole per screw of the cap.
func (h *Housing) capHoles(diameter float64) []geom.Contour {
	var holes []geom.Contour
	for i := range h.spec.Cap.Count {
		at := geom.Polar(h.CapBoltCircle()/2, 2*math.Pi*float64(i)/float64(h.spec.Cap.Count))
		holes = append(holes, geom.Bore(at, diameter, geom.ChordPlain))
	}
	return holes
}

func (h *Housing) capPart() (geom.Part, error) {
	chamfer := h.spec.Card.BedChamfer()
	holes := append([]geom.Contour{geom.Peg(geom.Point{}, h.OutsideDiameter(), geom.ChordPlain)}, h.capHoles(h.capHole.Drawn)...)
	holes = append(holes, geom.Bore(geom.Point{}, h.capOpening.Drawn, geom.ChordPlain))
	chamfer = math.Min(chamfer, (h.wall/2-h.capHole.Drawn/2-h.spec.Card.BeadWidth)/2)
	var body profile
	if chamfer >= h.spec.Card.LayerThickness {
		body.add(chamfer, relieved(holes, chamfer), holes)
	}
	body.add(h.spec.Cap.Thickness, holes, nil)
	return geom.NewPart(h.spec.Name+"-cap", slabs(body)...)
}

// relieved returns circles with d mm less material: pegs smaller, bores larger.
func relieved(circles []geom.Contour, d float64) []geom.Contour {
	all := make([]geom.Contour, len(circles))
	for i, c := range circles {
		grow := 2 * d
		if i == 0 {
			grow = -grow
		}
		all[i] = c.Resize(c.Diameter() + grow)
	}
	return all
}

func (h *Housing) capFits() []fit.Fit {
	if h.spec.Cap == nil {
		return nil
	}
	return []fit.Fit{h.pilot, h.capHole, h.capOpening}
}

func (h *Housing) capFindings() []check.Finding {
	c := h.spec.Cap
	if c == nil {
		return nil
	}
	b := h.spec.Bearing
	lo, _ := Front(b)
	land := h.judge(capLandRule, (b.Outside-h.capOpening.Wanted)/2-b.RMin, check.Limit{Caution: 1, Fail: 0.4}, func(check.Limit) string {
		return fmt.Sprintf("the opening must clear %s mm: hold the ring by a lip, or by a load that presses into the seat", check.Number(lo))
	})
	edge := h.judge(bossRule, h.wall/2/c.Screw.Diameter, bossRule.Limit, func(l check.Limit) string {
		return fmt.Sprintf("wall >= %s mm, or a smaller screw", ceil(h.spec.wholeBeads(2*strict(check.AtLeast, l)*c.Screw.Diameter), 0.001))
	})
	grip := h.judge(threadRule, h.pilotDepth()/c.Screw.Diameter, threadRule.Limit, func(l check.Limit) string {
		more := strict(check.AtLeast, l)*c.Screw.Diameter + 1 - h.seatDepth
		return fmt.Sprintf("shoulder thickness >= %s mm, or a smaller screw", ceil(more, 0.1))
	})
	land.Part = h.spec.Name + "-cap"
	return []check.Finding{land, edge, grip}
}
