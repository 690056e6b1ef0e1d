package joint

import (
	"strings"

	"pintle/fit"
	"pintle/geom"
	"pintle/linkage"
)

// addMechanismLinks prints the bars and plates of a mechanism whose pins are
// named.
func (b *builder) addMechanismLinks(name string, table Mechanism) error {
	if table.Pin == "" {
		return nil
	}
	l := &linked{name: name}
	design := "mechanism." + name
	pin, err := b.screw(design, table.Pin, "M3")
	if err != nil {
		return err
	}
	l.pins = [2]fit.Screw{pin, pin}
	if l.material, err = b.material(design, table.Material); err != nil {
		return err
	}
	for _, points := range append(append([]string{}, table.Bars...), table.Plates...) {
		link, err := b.mechanismLink(l, strings.Split(points, "-"), table)
		if err != nil {
			return b.file.Blame(design, err)
		}
		b.find(design, link.Findings()...)
		b.report.Fits = append(b.report.Fits, link.Fits()...)
		b.addBody(design, link.Part(), l.material, sheetNotes{}.detailed(link, link.Part().Name()))
	}
	return nil
}

// mechanismLink draws one bar or plate: a round at one of its points, an arm to
// each other. Where arms would lie over each other, as from the end of three
// points in line, another point is the round.
func (b *builder) mechanismLink(l *linked, points []string, table Mechanism) (link *linkage.Link, err error) {
	eye := b.eye(l, 0, true)
	at := func(name string) geom.Point { return geom.Point{X: table.Points[name][0], Y: table.Points[name][1]} }
	for i, hub := range points {
		spec := linkage.LinkSpec{
			Name: l.name + "-" + strings.ToLower(strings.Join(points, "-")), Mark: strings.Join(points, "-"), Thickness: barThickness,
			Hub: linkage.Hub{Diameter: eye.Diameter, Hole: eye.Hole, What: eye.What}, Card: b.card, Limits: b.file.Limits,
		}
		var first float64
		for j, other := range points {
			if j == i {
				continue
			}
			way := at(other).Sub(at(hub))
			if len(spec.Arms) == 0 {
				first = way.Angle()
			}
			arm := linkage.Arm{Length: way.Len(), Angle: way.Angle() - first, Width: min(linkWidth, eye.Diameter), Eye: eye}
			if given := table.Lengths[strings.Join(points, "-")]; given > 0 {
				arm.Length = given
			}
			spec.Arms = append(spec.Arms, arm)
		}
		var tried error
		if link, tried = linkage.NewLink(spec); tried == nil {
			return link, nil
		}
		if err == nil {
			err = tried
		}
	}
	return nil, err
}
