package linkage

import (
	"math"

	"pintle/check"
	"pintle/fit"
	"pintle/geom"
)

// A wall is material between two surfaces of the finished link, in mm, and what
// to change where there is too little.
type wall struct {
	value float64
	where string
	fix   func(lack float64) string
}

// top returns the height of an eye or hub with its boss.
func (s LinkSpec) top(boss float64) float64 { return s.Thickness + boss }

// addEye makes the hole, and the boss, of an arm's eye.
func (l *Link) addEye(body *layers, i int) error {
	a := l.spec.Arms[i]
	name := l.spec.armName(i)
	at := geom.Polar(a.Length, a.Angle)
	f := l.spec.Card.Hole(l.spec.Name, name+" eye, "+a.Eye.What, a.Eye.Hole)
	l.fits, l.eyes = append(l.fits, f, l.spec.Card.Peg(l.spec.Name, name+" eye, outside", a.Eye.Diameter)), append(l.eyes, f)
	body.open(0, l.spec.top(a.Eye.Boss), geom.Bore(at, f.Drawn, geom.ChordFit))
	l.addBoss(body, at, a.Eye.Diameter, a.Eye.Boss)
	l.walls = append(l.walls, wall{(a.Eye.Diameter - a.Eye.Hole) / 2, name + " eye", func(lack float64) string {
		return name + " eye diameter >= " + upTo(a.Eye.Diameter+2*lack) + " mm"
	}})
	if inner := l.spec.Hub.reach(); inner > 0 {
		l.walls = append(l.walls, wall{a.Length - (a.Eye.Hole+inner)/2, "between hub and " + name + " eye", func(lack float64) string {
			return name + " length >= " + upTo(a.Length+lack) + " mm, or smaller holes"
		}})
	}
	for j, b := range l.spec.Arms[:i] {
		apart := at.Sub(geom.Polar(b.Length, b.Angle)).Len() - (a.Eye.Hole+b.Eye.Hole)/2
		l.walls = append(l.walls, wall{apart, "between the eyes of " + l.spec.armName(j) + " and " + name, func(float64) string {
			return "spread the arms, or make one longer"
		}})
	}
	return nil
}

// addBoss stands a round on the link's top, back from the outline below.
func (l *Link) addBoss(body *layers, at geom.Point, diameter, height float64) {
	if height <= 0 {
		return
	}
	d := l.spec.Card.Outside.Draw(diameter) - 2*bossStep
	body.add(l.spec.Thickness, l.spec.top(height), geom.Peg(at, d, geom.ChordPlain))
}

// bossesApart refuses a boss that would stand over another eye, or over the hub.
func (l *Link) bossesApart() error {
	type round struct {
		at             geom.Point
		diameter, boss float64
	}
	rounds := []round{{geom.Point{}, l.hub, l.spec.Hub.Boss}}
	for i, a := range l.spec.Arms {
		eye := round{geom.Polar(a.Length, a.Angle), a.Eye.Diameter, a.Eye.Boss}
		for _, r := range rounds {
			least := (eye.diameter + r.diameter) / 2
			if apart := eye.at.Sub(r.at).Len(); apart < least && eye.boss+r.boss > 0 {
				return l.refuse(l.spec.armName(i)+" length", a.Length, "brings its eye under a boss", l.spec.armName(i)+" length >= "+upTo(a.Length+least-apart)+" mm, or leave the boss out")
			}
		}
		rounds = append(rounds, eye)
	}
	return nil
}

// reach returns the wanted diameter of the largest round hole about the hub's
// axis; the openings of other designs are judged as they are drawn.
func (h Hub) reach() float64 {
	d := h.Hole
	if h.Bolts != nil {
		d = math.Max(d, h.Bolts.Diameter+h.Bolts.Screw.Pilot)
	}
	return d
}

// addHub makes what the hub holds: bore, boss, openings of other designs, bolt
// holes.
func (l *Link) addHub(body *layers) error {
	h, s := l.spec.Hub, l.spec
	height := s.top(h.Boss)
	if h.Clamp != nil && h.Boss > 0 {
		return l.refuse("hub boss", h.Boss, "does not go with a clamp", "make the link thicker, without a boss")
	}
	l.addBoss(body, geom.Point{}, l.hub, h.Boss)
	l.fits = append(l.fits, s.Card.Peg(s.Name, "hub, outside", l.hub))
	if h.Hole > 0 {
		f := s.Card.Hole(s.Name, "hub, "+h.What, h.Hole)
		l.fits, l.bore = append(l.fits, f), f
		if h.Clamp == nil { // a clamp's slit opens the bore: it is cut with it
			body.open(0, height, geom.Bore(geom.Point{}, f.Drawn, geom.ChordFit))
		}
	}
	for _, o := range h.Openings {
		switch {
		case o.Z0 < 0 || o.Z1 > height+1e-9:
			return l.refuse("hub thickness", height, "is less than what its opening needs", "hub thickness >= "+upTo(o.Z1)+" mm: give the hub a boss")
		case len(o.Top.Points) > 0:
			body.openSloping(o.Z0, o.Z1, o.Bottom, o.Top)
		default:
			body.open(o.Z0, o.Z1, o.Bottom)
		}
	}
	inner := h.reach()
	if inner > 0 {
		l.walls = append(l.walls, wall{(l.hub - inner) / 2, "hub", func(lack float64) string {
			return "hub diameter >= " + upTo(l.hub+2*lack) + " mm"
		}})
	}
	return l.addBolts(body, height)
}

// addBolts makes the holes in which the screws of what the link carries cut
// their thread.
func (l *Link) addBolts(body *layers, height float64) error {
	b, h := l.spec.Hub.Bolts, l.spec.Hub
	if b == nil {
		return nil
	}
	if err := check.InRange("bolt count of "+l.spec.Name, float64(b.Count), "", 1, 60, "use 2 to 4 screws"); err != nil {
		return err
	}
	f := l.spec.Card.Hole(l.spec.Name, b.Screw.Size+" pilot hole", b.Screw.Pilot)
	l.fits = append(l.fits, f)
	h.Bolts = nil
	l.walls = append(l.walls, wall{(b.Diameter - b.Screw.Pilot - h.reach()) / 2, "between bolt holes and bore", func(lack float64) string {
		return "bolt circle >= " + upTo(b.Diameter+2*lack) + " mm"
	}})
	if b.Count > 1 {
		chord := math.Sin(math.Pi / float64(b.Count))
		l.walls = append(l.walls, wall{b.Diameter*chord - b.Screw.Pilot, "between bolt holes", func(lack float64) string {
			return "bolt circle >= " + upTo(b.Diameter+lack/chord) + " mm, or fewer screws"
		}})
	}
	for k := range b.Count {
		at := geom.Polar(b.Diameter/2, 2*math.Pi*float64(k)/float64(b.Count))
		body.open(0, height, geom.Bore(at, f.Drawn, geom.ChordPlain))
	}
	return nil
}

// judgeOpenings adds the least web between what other designs drew into the hub
// and the link's own outline and eyes, and refuses an opening that breaks out.
// Webs between openings are those designs' business.
func (l *Link) judgeOpenings(outline geom.Contour) error {
	more := func(lack float64) string { return "hub diameter >= " + upTo(l.hub+2*lack) + " mm, or a wider arm" }
	for _, o := range l.spec.Hub.Openings {
		region, err := geom.RegionOf([]geom.Contour{outline, o.Bottom})
		web, ok := geom.Gap{}, false
		if err == nil {
			web, ok = region.LeastWeb()
		}
		if !ok {
			return l.refuse("hub diameter", l.hub, "is too small for what opens in it: the outlines meet", more(4*l.spec.Card.BeadWidth))
		}
		printed := (l.spec.Card.Outside.At(l.hub) - l.spec.Card.Bore.At(l.hub)) / 2 // what both surfaces come out nearer
		l.walls = append(l.walls, wall{web.Width + printed, "around the opening of the hub", more})
		for i, a := range l.spec.Arms {
			at := geom.Polar(a.Length, a.Angle)
			nearest := math.Inf(1)
			for _, p := range o.Bottom.Points {
				nearest = min(nearest, p.Sub(at).Len())
			}
			l.walls = append(l.walls, wall{nearest - a.Eye.Hole/2, "between the hub's opening and " + l.spec.armName(i) + " eye", func(lack float64) string {
				return l.spec.armName(i) + " length >= " + upTo(a.Length+lack) + " mm"
			}})
		}
	}
	return nil
}

// judgeable refuses what leaves less than half a bead anywhere: no layer can be
// printed there, and its holes may meet.
func (l *Link) judgeable() error {
	if err := l.bossesApart(); err != nil {
		return err
	}
	for _, w := range l.walls {
		slack := math.Abs(l.spec.Card.Bore.At(5)) // holes are drawn larger than wanted by about as much
		if least := l.spec.Card.BeadWidth/2 + slack; w.value < least {
			return l.refuse("wall", math.Round(w.value*1000)/1000, "leaves nothing to print: "+w.where, w.fix(2*l.spec.Card.BeadWidth-w.value))
		}
	}
	return nil
}

// upTo prints a length rounded up to 0.01 mm.
func upTo(v float64) string { return check.Number(math.Ceil(v*100-1e-6) / 100) }

// Running returns the hole in mm in which a pin or screw of the diameter turns.
func Running(diameter float64, card fit.Card) float64 { return diameter + card.Slip() }
