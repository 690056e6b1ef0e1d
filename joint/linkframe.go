package joint

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
	"pintle/geom"
	"pintle/linkage"
)

// addBracket makes the plate that holds the servo, and the lever's post where the
// lever turns on a screw.
func (b *builder) addBracket(l *linked) error {
	if !l.bracketed() {
		return nil
	}
	t, s := l.table.Frame, l.servo
	spec := linkage.BracketSpec{
		Name: l.name + "-bracket", Turn: t.ServoTurnDeg * math.Pi / 180, Thickness: chosen(t.Thickness, bracketThickness),
		Body: linkage.ServoBody{
			Length: s.Body[0], Width: s.Body[1], Tabs: s.Tabs.Length, Holes: s.Tabs.Holes, Hole: s.Tabs.Diameter, ShaftFromEnd: s.ShaftFromEnd,
		},
		Card: b.card, Limits: b.file.Limits,
	}
	var err error
	if spec.Corner, err = b.linkScrew(l, "bracket screw", t.ScrewSize, "M4"); err != nil {
		return err
	}
	if t.Foot.ScrewCount > 0 {
		screw, err := b.linkScrew(l, "foot screw", t.Foot.ScrewSize, "M4")
		if err != nil {
			return err
		}
		spec.Foot = &linkage.Foot{Height: t.Foot.Height, Screw: screw, Count: t.Foot.ScrewCount}
	}
	pivot := linkage.Pivot{Distance: t.Distance, Screw: l.pivot, Height: l.levels.post, Diameter: eyeDiameters * l.pivot.Diameter}
	if !l.posted() { // the shaft passes freely: the figure carries it
		pivot.Hole = linkage.Running(max(l.table.Lever.Bore, b.file.Bearings[l.table.Lever.Bearing].Bore, l.pivot.Diameter), b.card)
	}
	spec.Pivot = &pivot
	bracket, err := linkage.NewBracket(spec)
	if err != nil {
		return err
	}
	l.bracket = bracket
	b.find(l.design(), bracket.Findings()...)
	b.report.Fits = append(b.report.Fits, bracket.Fits()...)
	for key, value := range bracket.Values() {
		b.report.Designs[l.design()][key] = value
	}
	b.addBody(l.design(), bracket.Part(), l.material, sheetNotes{}.detailed(bracket, bracket.Part().Name()))
	return nil
}

// The names of a linkage's motions.
const (
	withHorn  = "horn"
	withRod   = "rod"
	withLever = "lever"
)

// linkStep is the widest step of the horn between two stations of a linkage in
// the report, in degrees: between them the rod turns about its pole.
const linkStep = 2.5

// arrangement puts the linkage together: the servo's shaft at the origin, the
// lever's axis on the x axis, all of it with the horn in the middle of its
// travel.
func (l *linked) arrangement() *arrangement {
	s := l.stroke.Spec()
	a := &arrangement{name: l.name, design: l.design()}
	n := 2*int(math.Ceil((s.ToDeg-s.FromDeg)/2/linkStep)) + 1
	a.stroke = newStroke("horn", evenStations(s.FromDeg, s.ToDeg, n))
	middle, _ := l.stroke.At((s.FromDeg + s.ToDeg) / 2)
	axis := l.axis()
	var horn, rod, lever []geom.Motion
	for _, deg := range a.stroke.stations {
		at, ok := l.stroke.At(deg)
		if !ok {
			panic("joint: a linkage does not close within its stroke")
		}
		turn := func(now, then float64) float64 { return (now - then) * math.Pi / 180 }
		horn = append(horn, geom.TurnAbout(geom.Point{}, turn(at.HornDeg, middle.HornDeg)))
		lever = append(lever, geom.TurnAbout(axis, turn(at.LeverDeg, middle.LeverDeg)))
		swung := turn(at.RodDeg, middle.RodDeg)
		rod = append(rod, geom.Motion{Turn: swung, Shift: at.HornPin.Sub(middle.HornPin.Rotate(swung))})
	}
	a.moves(withHorn, horn)
	a.moves(withRod, rod)
	a.moves(withLever, lever)
	l.placeParts(a, middle)
	l.standServo(a, middle)
	l.standScrews(a, middle)
	return a
}

// assembly lists how the linkage goes together.
func (l *linked) assembly() []string {
	var lines []string
	say := func(format string, args ...any) { lines = append(lines, l.name+": "+fmt.Sprintf(format, args...)) }
	v, t := l.levels, l.table
	if l.bracket != nil {
		screw := l.bracket.TabScrew()
		say("servo from above into the bracket's window, 4 screws %s x %s that cut their thread", screw.Size, check.Number(l.tabScrewLength()))
	}
	if l.seat.made && l.seat.Screws > 0 {
		say("the servo's horn into the arm's pocket, %d screws %s through the arm's floor into the horn's holes", l.seat.Screws, l.seat.Screw.Size)
	}
	if l.posted() {
		say("lever onto its post with a washer under and over it: %s x %s into the post, tightened until the lever just turns freely", l.pivot.Size, check.Number(l.pivotLength()))
	}
	for end, word := range []string{"horn", "lever"} {
		pin := l.pins[end]
		between := v.washer[end]
		count := l.washersBetween(end)
		washers := fmt.Sprintf("%d washers", count)
		if count == 1 {
			washers = "a washer"
		}
		if l.rod != nil {
			say("rod end onto the %s with %s (%s mm) between", word, washers, check.Number(between))
			continue
		}
		say("bar onto the %s: %s x %s through the bar with a washer under its head, %s (%s mm) between, its thread in the %s's eye and a nut behind", word, pin.Size,
			check.Number(l.pinLength(end)), washers, check.Number(between), word)
	}
	if l.rod != nil {
		shorter, longer := l.rod.Adjustment()
		e := l.rod.Engagement()
		say("cut the threaded rod to %.1f mm and screw the ends on %.1f and %.1f mm, until the balls are %.2f mm apart; it can still be set %.1f mm shorter and %.1f mm longer", l.rod.Cut(), e[0], e[1], t.Rod.Length, shorter, longer)
	}
	for _, line := range l.stroke.Assembly() {
		if l.bar != nil && strings.HasPrefix(line, "Set the rod") {
			continue // a printed bar is as long as it is
		}
		if l.bar != nil {
			line = strings.TrimSuffix(line, "; turn the rod's ends until it does.")
		}
		say("%s", strings.ToLower(line[:1])+strings.TrimSuffix(line[1:], "."))
	}
	return lines
}
