package joint

import (
	"cmp"
	"math"
	"slices"

	"pintle/geom"
)

// A passage is how near two solids of an arrangement come to each other through
// the stroke.
type passage struct {
	a, b    *solid
	width   float64    // mm; where they overlap, minus the height by which one must be raised to come free
	at      [3]float64 // mm, the place in the joint's frame
	station float64    // deg, where the stroke is then
	moving  bool       // they move against each other
	varies  bool       // and their distance changes
}

// clearEnough is a distance in mm beyond which nothing is said of two solids:
// several times what any limit asks for.
const clearEnough = 5.0

// passages returns how near all solids come that are not made to touch, the
// nearest first. Parts are printed parts by name; one that is missing, because a
// failed finding says why, is left out.
func (a *arrangement) passages(parts map[string]geom.Part) []passage {
	pairs := a.pairs(parts)
	near := make([]bool, len(pairs))
	parallel(len(pairs), func(i int) { near[i] = a.follow(&pairs[i]) })
	var found []passage
	for i, p := range pairs {
		if near[i] {
			found = append(found, p)
		}
	}
	slices.SortStableFunc(found, func(p, q passage) int { return cmp.Compare(p.width, q.width) })
	return found
}

// pairs returns all pairs of solids that are not made to touch.
func (a *arrangement) pairs(parts map[string]geom.Part) []passage {
	solids := a.all(parts)
	var pairs []passage
	for i := range solids {
		for j := range i {
			s, t := &solids[j], &solids[i]
			if meets(s.joined, t.joined) || s.part != "" && s.part == t.part {
				continue
			}
			pairs = append(pairs, passage{a: s, b: t, moving: s.moves != t.moves})
		}
	}
	return pairs
}

// all returns everything that takes up room.
func (a *arrangement) all(parts map[string]geom.Part) []solid {
	if a.cuts == nil {
		for _, p := range a.placed {
			if part, ok := parts[p.Part]; ok {
				a.cuts = append(a.cuts, p.cut(part)...)
			}
		}
	}
	return slices.Concat(a.solids, a.cuts)
}

// follow finds the least distance of two solids through the stroke, and tells
// whether they come near each other.
func (a *arrangement) follow(p *passage) bool {
	p.width = clearEnough
	var movesA, movesB []geom.Motion
	if p.moving {
		movesA, movesB = a.stroke.motions[p.a.moves], a.stroke.motions[p.b.moves]
	}
	near, raise, lower := false, 0.0, 0.0
	for _, s := range p.a.slices {
		for _, t := range p.b.slices {
			along := max(s.z0-t.z1, t.z0-s.z1)
			shared := along < -sliver
			along = max(along, 0)
			if along >= max(p.width, 0) && !shared {
				continue
			}
			within := math.Sqrt(max(p.width*p.width-along*along, 0))
			if p.width <= 0 { // an overlap is found: only others matter now
				within = passageWidth
			}
			path := pass{a: s, b: t, movesA: movesA, movesB: movesB}
			if !path.least(within, len(a.stroke.stations)) {
				continue
			}
			switch width := math.Hypot(along, path.best); {
			case shared && path.best == 0:
				raise, lower = max(raise, t.z1-s.z0), max(lower, s.z1-t.z0)
				if width = -min(raise, lower); width < p.width {
					near = a.keep(p, path, width)
				}
			case width < p.width:
				near = a.keep(p, path, width)
			}
		}
	}
	return near
}

// keep takes over what a pass of two slices found.
func (a *arrangement) keep(p *passage, path pass, width float64) bool {
	middle := path.bestA.Add(path.bestB).Scale(0.5)
	lo, hi := max(path.a.z0, path.b.z0), min(path.a.z1, path.b.z1)
	p.width, p.at = width, [3]float64{middle.X, middle.Y, (lo + hi) / 2}
	p.station, p.varies = a.stroke.at(path.at), path.varies
	return true
}

// at returns the degrees at a progress counted in stations.
func (s stroke) at(progress float64) float64 {
	i := min(int(progress), len(s.stations)-2)
	return s.stations[i] + (progress-float64(i))*(s.stations[i+1]-s.stations[i])
}
