package joint

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pintle/check"
	"pintle/export"
	"pintle/fit"
	"pintle/geom"
)

// spareShare is the share of small screws and nuts to have in the drawer, at
// least one of each (common practice, no source).
const spareShare = 0.25

// shopping lists what to print, cut and buy, with spares.
func (b *builder) shopping() []export.Supply {
	var list []export.Supply
	for _, body := range b.printed() {
		list = append(list, b.making(body))
	}
	bought := buying{}
	for _, name := range sorted(b.turnings) {
		bought.add(b.bought(b.turnings[name])...)
	}
	for _, name := range sorted(b.racks) {
		bought.add(boughtForRack(name, b.racks[name])...)
	}
	for _, name := range sorted(b.linkages) {
		bought.add(boughtLinkage(b.linkages[name])...)
	}
	for _, name := range sorted(b.file.Bearings) {
		if n := b.bearingCount(name); n > 0 {
			bearing, _, err := b.bearingNamed(name)
			if err == nil {
				size := fmt.Sprintf("%s x %s x %s mm", check.Number(bearing.Bore), check.Number(bearing.Outside), check.Number(bearing.Width))
				bought.add(export.Supply{How: export.Buy, Name: "bearing " + bearing.Name(), Count: n, Spare: 1, For: "bearing." + name + ", " + size})
			}
		}
	}
	for _, name := range sorted(b.file.Servos) {
		bought.add(export.Supply{How: export.Buy, Name: "servo " + name + " with its horn", Count: 1, Spare: 1, For: "servo." + name})
	}
	for _, name := range sorted(b.file.Grilles) {
		if s := b.file.Grilles[name].Screws; s.Count > 0 {
			bought.add(screws(s.Size+" screw, as long as the plate "+check.Number(b.file.Grilles[name].Thickness)+" mm plus what it goes into", s.Count, "grille."+name))
		}
	}
	return append(list, bought...)
}

// buying is a list in which equal things are counted together.
type buying []export.Supply

func (l *buying) add(supplies ...export.Supply) {
	for _, s := range supplies {
		found := false
		for i := range *l {
			if old := &(*l)[i]; old.Name == s.Name {
				old.Count, old.Spare, found = old.Count+s.Count, max(old.Spare, s.Spare), true
				if !slices.Contains(strings.Split(old.For, "; "), s.For) {
					old.For += "; " + s.For
				}
			}
		}
		if !found {
			*l = append(*l, s)
		}
	}
}

// making is the line of one printed or cut part.
func (b *builder) making(body body) export.Supply {
	entry := b.entry(body)
	s := export.Supply{
		How: export.Print, Name: entry.Name, Count: entry.Count, Material: entry.Material, MassG: entry.MassG,
		Orientation: entry.Orientation, BeadsAcross: entry.BeadsAcross, For: body.design,
	}
	if strings.HasSuffix(entry.Name, "-pinion") {
		s.Spare, s.Wears = 1, true
	}
	if body.cut != nil {
		s.How = export.Cut
	}
	return s
}

// A layer with more outlines than this is a grille, whose webs have a check of
// their own.
const mostWebLoops = 40

// deepestMark is what letters are sunk at most, mm: between them stand no walls.
const deepestMark = 1.0

// beadsAcross returns how many whole beads fit across the thinnest wall of the
// part's layers between two outlines; 0 where there is none.
func (b *builder) beadsAcross(body body) int {
	web, largest, fewest := math.Inf(1), 0.0, math.MaxInt
	for _, l := range body.part.Layers() {
		largest, fewest = max(largest, l.Bottom.Area()), min(fewest, len(l.Bottom.Loops()))
	}
	for _, l := range body.part.Layers() {
		raised := l.Bottom.Area() < largest/10
		sunk := float64(l.Z1-l.Z0) < deepestMark*geom.PerMM && len(l.Bottom.Loops()) > fewest+1
		if n := len(l.Bottom.Loops()); l.Loft || raised || sunk || n < 2 || n > mostWebLoops {
			continue
		}
		if gap, ok := l.Bottom.LeastWeb(); ok {
			web = min(web, gap.Width)
		}
	}
	if math.IsInf(web, 1) {
		return 0
	}
	return int(web/b.card.BeadWidth + 0.02)
}

// bearingCount returns how many bearings of a table the joint holds.
func (b *builder) bearingCount(name string) int {
	n := 0
	for _, h := range b.file.Housings {
		if h.Bearing == name {
			n++
		}
		if h.SecondBearing == name {
			n++
		}
	}
	for _, g := range b.file.Gears {
		for _, on := range []Gear{g.Pinion, g.Wheel} {
			if on.Hub == "bearing" && on.Bearing == name {
				n++
			}
		}
	}
	for _, l := range b.file.Linkages {
		if l.Lever.Hub == "bearing" && l.Lever.Bearing == name {
			n++
		}
	}
	return n
}

// screws is a line of screws or nuts with spares.
func screws(name string, count int, what string) export.Supply {
	return export.Supply{How: export.Buy, Name: name, Count: count, Spare: int(math.Ceil(spareShare * float64(count))), For: what}
}

// sized names a screw with its length; one that no usual length fits is said so.
func sized(s fit.Screw, length float64) string {
	if length == 0 {
		return s.Size + " screw, longer than 60 mm"
	}
	return fmt.Sprintf("%s x %s cap screw", s.Size, check.Number(length))
}

// bought lists the screws and nuts of one joint, their lengths from the stack
// rounded up to a usual one.
func (b *builder) bought(t *turning) []export.Supply {
	var list buying
	if t.plate != nil {
		s := t.plate.spec
		list.add(screws(sized(s.bolt, t.ringScrewLength()), len(s.bolts), "ring to plate"), screws(s.bolt.Size+" nut", len(s.bolts), "ring to plate"))
		tab := t.plate.tabScrew
		holes := len(t.plate.tabHoles())
		list.add(screws(sized(tab, t.tabScrewLength()), holes, "servo to plate"), screws(tab.Size+" nut", holes, "servo to plate"))
		list.add(screws(s.corner.Size+" screw, as long as the plate "+check.Number(s.thickness)+" mm plus what it goes into", 4, "corners of the plate"))
	}
	if t.ring != nil {
		if c := t.ring.Spec().Cap; c != nil {
			length := longest(t.ring.CapThickness() + 2.5*c.Screw.Diameter)
			list.add(screws(sized(c.Screw, length), c.Count, "cap to ring"))
		}
	}
	if j, ok := t.hornJoint(); ok {
		list.add(screws(sized(j.screw.Screw, j.length), t.servo.Horn.Holes, "pinion to horn"))
		if !j.screw.Cuts {
			list.add(screws(j.screw.Size+" nut", t.servo.Horn.Holes, "pinion to horn"))
		}
	}
	spec := t.pair.Spec()
	list.add(hubSupplies(t.name+"-pinion", t.name+"-pinion", spec.Pinion)...)
	list.add(hubSupplies(t.name+"-wheel", "table to wheel", spec.Wheel)...)
	if r := spec.Wheel.Retain; r != nil {
		list.add(retainers(r.Kind, r.Screw)...)
	}
	if w := t.table.Wheel; w.BoltCircle > 0 && (w.ScrewKind == "" || w.ScrewKind == fit.SelfCutting) {
		list.add(screws(fmt.Sprintf("%s self-cutting screw, %s to %s mm longer than the table is thick", w.ScrewSize, check.Number(w.Spacer+0.6*t.table.FaceWidth), check.Number(w.Spacer+t.table.FaceWidth)), w.ScrewCount, "table to wheel"))
	}
	return list
}

// retainers lists what holds a wheel on its bearing.
func retainers(kind string, s fit.Screw) []export.Supply {
	washer := screws("washer that bears on the inner ring only", 1, "wheel to bearing")
	switch kind {
	case "nut":
		return []export.Supply{washer, screws(s.Size+" rod or screw through wheel and bearing", 1, "wheel to bearing"), screws(s.Size+" nut", 1, "wheel to bearing"), screws(s.Size+" locking nut", 1, "wheel to bearing")}
	case "screw":
		return []export.Supply{washer, screws(s.Size+" self-cutting screw", 1, "wheel to bearing")}
	}
	return []export.Supply{washer, screws(s.Size+" self-cutting screw", 3, "wheel to bearing")}
}

// ringScrewLength returns the length in mm of the screws between ring and plate.
func (t *turning) ringScrewLength() float64 {
	return screwFor(t.plate.spec.bolt, t.ring.FlangeThickness()+t.plate.spec.thickness-recessDepth)
}

// tabScrewLength returns the length in mm of the screws between servo and plate.
func (t *turning) tabScrewLength() float64 {
	return screwFor(t.plate.tabScrew, t.servo.Tabs.Thickness+t.plate.spec.thickness)
}
