package gear

import (
	"math"
	"slices"

	"pintle/fit"
	"pintle/geom"
)

// arms returns the number of arms of the horn: 0 for a disc or an unknown kind.
func (h HornPocket) arms() int {
	n := map[string]int{"arm": 1, "double-arm": 2, "cross": 4}[h.Kind]
	if n > 0 && h.Arms > 0 {
		return h.Arms
	}
	return n
}

// reach returns the quantity that says how far out the horn goes.
func (h HornPocket) reach() (field string, size float64) {
	if h.arms() > 0 {
		return "horn arm", h.Arm
	}
	return "horn diameter", h.Diameter
}

// armPocket is a round at the hub, larger than the hub hole below it, and a
// tapering arm with a rounded end for each arm of the horn.
func (s *structure) armPocket(h HornPocket, hub fit.Fit) pocket {
	over := s.card.Hole(s.part, "horn pocket over the arms", 2*h.Arm+s.card.Slip())
	foot := s.card.Hole(s.part, "horn arm width at the hub", h.WidthAtHub+s.card.Slip())
	tip := s.card.Hole(s.part, "horn arm width at the tip", h.WidthAtTip+s.card.Slip())
	s.fits = append(s.fits, over, foot, tip)
	n := h.arms()
	round := math.Max(hub.Drawn/2+0.1, foot.Drawn/2*1.02)
	if n > 2 {
		round = math.Max(round, foot.Drawn/2/math.Sin(math.Pi/float64(n))*1.02) // arms meet within the round
	}
	end := over.Drawn/2 - tip.Drawn/2
	width := func(at float64) float64 {
		if at > end {
			return over.Drawn/2 - at
		}
		share := math.Max((at-round)/(end-round), 0)
		return (foot.Drawn + (tip.Drawn-foot.Drawn)*share) / 2
	}
	return pocket{
		outline: star(n, round, end, foot.Drawn/2, tip.Drawn/2), wanted: math.Max(over.Wanted, 2*round),
		drawn: math.Max(over.Drawn, 2*round), hub: 2 * round, halfWidth: width,
	}
}

// star returns n arms around a round as a hole: half widths at round and end,
// the end rounded about the radius end.
func star(n int, round, end, foot, tip float64) geom.Contour {
	leave := math.Asin(foot / round)
	var curves []geom.Curve
	for k := range n {
		turn := -2 * math.Pi * float64(k) / float64(n)
		next := turn - 2*math.Pi/float64(n)
		axis := geom.Polar(end, turn)
		curves = append(curves,
			geom.Line{A: geom.Polar(round, turn+leave), B: axis.Add(geom.Polar(tip, turn+math.Pi/2))},
			geom.Arc{Centre: axis, Radius: tip, From: turn + math.Pi/2, To: turn - math.Pi/2},
			geom.Line{A: axis.Add(geom.Polar(tip, turn-math.Pi/2)), B: geom.Polar(round, turn-leave)},
			geom.Arc{Radius: round, From: turn - leave, To: next + leave},
		)
	}
	return geom.NewContour(curves, geom.ChordFit)
}

// spacedHoles returns the holes of an arm that can be used together, the
// outermost first: two beads between them and beside the hub hole.
func (s *structure) spacedHoles(at []float64, f, hub fit.Fit) []float64 {
	sorted := slices.Clone(at)
	slices.Sort(sorted)
	slices.Reverse(sorted)
	web := 2 * s.card.BeadWidth
	var used []float64
	for _, r := range sorted {
		clear := r-hub.Wanted/2-f.Wanted/2 >= web
		if n := len(used); clear && (n == 0 || used[n-1]-r-f.Wanted >= web) {
			used = append(used, r)
		}
	}
	return used
}
