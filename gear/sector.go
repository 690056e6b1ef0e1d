package gear

import (
	"fmt"
	"math"

	"pintle/check"
	"pintle/geom"
)

// sectorHub is the diameter of a sector's round body in root diameters where
// none is given (design choice).
const sectorHub = 0.6

// kept returns how many teeth of gear i are made: all, or an odd number for a
// sector, so that the middle one stands on +x.
func (s PairSpec) kept(i int) int {
	if n := s.body(i).Sector; n > 0 {
		return n + 1 - n%2
	}
	return abs(s.Teeth[i])
}

// leastKept is the fewest teeth of a sector (design choice).
const leastKept = 5

// mostKept returns the most teeth that a sector of gear i may have: with more the
// whole gear is no trouble.
func (s PairSpec) mostKept(i int) int { return int(0.8 * float64(abs(s.Teeth[i]))) }

func abs(n int) int { return max(n, -n) }

// validateSector refuses sectors that leave no body.
func (s PairSpec) validateSector(i int) error {
	b := s.body(i)
	if b.Sector == 0 && b.SectorHub == 0 {
		return nil
	}
	part := s.partName(i)
	if s.Teeth[i] < 0 {
		return &check.FieldError{Field: "teeth of the sector of " + part, Value: float64(b.Sector), Reason: "is not made of an internal gear", Remedy: "leave the sector out"}
	}
	if err := check.InRange("teeth of the sector of "+part, float64(b.Sector), "", leastKept, float64(s.mostKept(i)), "leave the sector out for a whole gear"); err != nil {
		return err
	}
	return check.InRange("hub of the sector of "+part, b.SectorHub, "mm", 0, s.mostSectorHub(i), "leave it out: it is then 0.6 of the root diameter")
}

// mostSectorHub returns the largest round body in mm that the sector of gear i
// may have (design choice).
func (s PairSpec) mostSectorHub(i int) float64 {
	return 0.95 * s.Module * (float64(s.Teeth[i]) - 2*s.Rack.dedendum())
}

// sectorCurves returns a sector of an odd number of teeth around +x on a round
// body of the diameter hub, as wide as the pitches of its teeth and by aside mm
// more along either of its straight sides.
func (t tooth) sectorCurves(kept int, hub, aside, stray float64) []geom.Curve {
	half, n := t.half(stray), (kept-1)/2
	pitch, root := 2*math.Pi/float64(t.z), t.along/t.r
	last := pitch*float64(n) + root // where the last tooth's fillet ends
	end := pitch * float64(kept) / 2
	if (pitch-2*root)*t.rf <= curveError {
		end = last
	}
	side := func(r float64) float64 { return end + math.Asin(aside/r) }
	curves := []geom.Curve{geom.Line{A: geom.Polar(hub/2, -side(hub/2)), B: geom.Polar(t.rf, -side(t.rf))}}
	arc := (side(t.rf)-last)*t.rf > curveError
	if arc {
		curves = append(curves, geom.Arc{Radius: t.rf, From: -side(t.rf), To: -last})
	}
	for k := -n; k <= n; k++ {
		curves = t.appendTooth(curves, half, pitch*float64(k))
	}
	if end > last {
		curves = curves[:len(curves)-1] // the root arc to a tooth that is not there
	}
	if arc {
		curves = append(curves, geom.Arc{Radius: t.rf, From: last, To: side(t.rf)})
	}
	return append(curves, geom.Line{A: geom.Polar(t.rf, side(t.rf)), B: geom.Polar(hub/2, side(hub/2))},
		geom.Arc{Radius: hub / 2, From: side(hub / 2), To: 2*math.Pi - side(hub/2)})
}

// hubDiameter returns the diameter of a sector's round body.
func (b Body) hubDiameter(root float64) float64 {
	if b.SectorHub > 0 {
		return b.SectorHub
	}
	return sectorHub * root
}

// saySectorTeeth tells whether a sector has the teeth that its swing needs.
func (p *Pair) saySectorTeeth(i int) (check.Finding, bool) { return p.sayKept(i, p.contact.ratio()) }

// sayKept is saySectorTeeth for a contact ratio.
func (p *Pair) sayKept(i int, ratio float64) (check.Finding, bool) {
	kept := p.spec.kept(i)
	if p.spec.body(i).Sector == 0 {
		return check.Finding{}, false
	}
	f := rule("sector").Say(check.Note, float64(kept), "", "give the motion, so that the teeth of the sector can be counted")
	if p.spec.Loading.Swing > 0 {
		need := p.sectorNeed(ratio)
		f = rule("sector").Judge(float64(kept), check.Limit{Caution: check.None, Fail: float64(need)}, fmt.Sprintf("teeth of the sector >= %d", need))
	}
	f.Part = p.spec.partName(i)
	return f, true
}

// sectorNeed returns the teeth that a sector needs for the swing: those that pass,
// those in contact at either end, and one to spare.
func (p *Pair) sectorNeed(ratio float64) int {
	return int(math.Ceil(float64(p.contact.t[1].z)*p.spec.Loading.Swing/(2*math.Pi)+ratio-1e-9)) + 1
}
