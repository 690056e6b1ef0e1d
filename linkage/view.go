package linkage

import (
	"fmt"
	"math"

	"pintle/drawing"
	"pintle/geom"
)

// barWidth is the width in mm at which bars are drawn.
const barWidth = 6.0

// neutral returns the station shown at rest: the neutral horn, or the middle of
// the stroke where that does not close or lies outside.
func (s *Stroke) neutral() Station {
	at := s.spec.NeutralDeg
	if at < s.spec.FromDeg || at > s.spec.ToDeg || s.spec.Turning {
		at = (s.spec.FromDeg + s.spec.ToDeg) / 2
	}
	st, _ := s.At(at)
	return st
}

// View returns the mechanism as a view at true size: wide at neutral, as end
// positions at both ends of the wanted swing, with the path of the middle of the
// rod, the arcs of the pins and the band that the bars sweep.
func (s *Stroke) View() drawing.View {
	v := drawing.View{Title: "Mechanism at neutral and at both ends"}
	for _, band := range s.Swept() {
		v.Strokes = append(v.Strokes, drawing.Stroke{Kind: drawing.Hidden, Curves: band, Closed: true})
	}
	from, _ := s.At(s.used.HornFromDeg)
	to, _ := s.At(s.used.HornToDeg)
	if !s.spec.Turning {
		for _, end := range []Station{from, to} {
			for _, on := range moving {
				v.Strokes = append(v.Strokes, drawing.Stroke{Kind: drawing.Adjacent, Curves: s.placed(on, end).outline(), Closed: true})
			}
		}
	}
	for _, path := range s.paths() {
		v.Strokes = append(v.Strokes, drawing.Stroke{Kind: drawing.Edge, Curves: path})
	}
	rest := s.neutral()
	for _, on := range moving {
		v.Strokes = append(v.Strokes, drawing.Stroke{Kind: drawing.Outline, Curves: s.placed(on, rest).outline(), Closed: true})
	}
	for _, pin := range s.pins(rest) {
		v.Strokes = append(v.Strokes, drawing.Stroke{Kind: drawing.Outline, Curves: []geom.Curve{geom.Arc{Centre: pin, Radius: barWidth / 4, To: 2 * math.Pi}}, Closed: true})
	}
	line := geom.Line{A: geom.Point{X: -2 * barWidth}, B: geom.Point{X: s.flat.Frame + 2*barWidth}}
	v.Strokes = append(v.Strokes, drawing.Stroke{Kind: drawing.Centre, Curves: []geom.Curve{line}})
	v.Dimensions = s.dimensions(rest)
	return v
}

// Sheet returns the drawing of the mechanism: its view, and the positions at
// neutral and at both ends of the wanted swing as a table. The title block is
// left to whoever knows the joint.
func (s *Stroke) Sheet() drawing.Sheet {
	t := drawing.Table{Title: "Positions", Columns: []string{"", "at one end", "neutral", "at the other end"}}
	from, _ := s.At(s.used.HornFromDeg)
	to, _ := s.At(s.used.HornToDeg)
	stations := []Station{from, s.neutral(), to}
	row := func(what string, value func(Station) string) {
		cells := []string{what}
		for _, st := range stations {
			cells = append(cells, value(st))
		}
		t.Row(cells...)
	}
	angle := func(of func(Station) float64) func(Station) string {
		return func(st Station) string { return fmt.Sprintf("%.1f°", of(st)) }
	}
	row("horn", angle(func(st Station) float64 { return st.HornDeg }))
	row("lever", angle(func(st Station) float64 { return st.LeverDeg }))
	row("transmission angle", angle(func(st Station) float64 { return st.TransmissionDeg }))
	if s.spec.Servo != nil {
		row("pulse", func(st Station) string {
			pulse, ok := s.spec.Servo.Pulse(s.spec.servoAt(st.HornDeg))
			if !ok {
				return "-"
			}
			return decimal(pulse, 0) + " µs"
		})
	}
	return drawing.Sheet{
		Views: []drawing.View{s.View()}, Tables: []drawing.Table{t},
		Notes: []string{
			"Angles are counted anticlockwise from the line through the two axes, servo on the left.",
			"Dash and two dots: both ends of the swing. Dashed: the band that the bars sweep. Thin: the ways of the pins and of the rod's middle.",
		},
	}
}

func (s *Stroke) pins(st Station) []geom.Point {
	return []geom.Point{{}, {X: s.flat.Frame}, st.HornPin, st.LeverPin}
}

// dimensions returns the four lengths.
func (s *Stroke) dimensions(st Station) []drawing.Dimension {
	rod := drawing.Between(st.HornPin, st.LeverPin).Measuring(s.spec.Rod)
	rod.Note = "pin to pin"
	return []drawing.Dimension{
		drawing.Between(geom.Point{}, geom.Point{X: s.flat.Frame}),
		drawing.Between(geom.Point{}, st.HornPin), rod,
		drawing.Between(geom.Point{X: s.flat.Frame}, st.LeverPin),
	}
}

// paths returns the way of the rod's middle and of both its ends over the wanted
// swing.
func (s *Stroke) paths() [][]geom.Curve {
	const steps = 48
	var list [3][]geom.Curve
	var before [3]geom.Point
	for i := range steps + 1 {
		st, _ := s.At(s.used.HornFromDeg + (s.used.HornToDeg-s.used.HornFromDeg)*float64(i)/steps)
		for k, p := range []geom.Point{st.HornPin, st.LeverPin, st.HornPin.Add(st.LeverPin).Scale(0.5)} {
			if i > 0 {
				list[k] = append(list[k], geom.Line{A: before[k], B: p})
			}
			before[k] = p
		}
	}
	return list[:]
}

// Swept returns the outline of all that horn, rod and lever pass over in the
// wanted swing, in mm, within about 0.5 mm; nothing where it cannot be united.
func (s *Stroke) Swept() [][]geom.Curve {
	const steps, chord = 24, 0.3
	all := make([]geom.Region, 0, 3*(steps+1))
	for i := range steps + 1 {
		st, _ := s.At(s.used.HornFromDeg + (s.used.HornToDeg-s.used.HornFromDeg)*float64(i)/steps)
		for _, on := range moving {
			r, err := geom.RegionOf([]geom.Contour{geom.NewContour(s.placed(on, st).outline(), chord)})
			if err != nil {
				return nil
			}
			all = append(all, r)
		}
	}
	for len(all) > 1 { // in pairs, so that regions stay small for long
		var next []geom.Region
		for i := 0; i < len(all); i += 2 {
			if i+1 == len(all) {
				next = append(next, all[i])
				continue
			}
			r, err := geom.Unite(all[i], all[i+1], 0.1)
			if err != nil {
				return nil
			}
			next = append(next, r)
		}
		all = next
	}
	var bands [][]geom.Curve
	for _, loop := range all[0].Loops() {
		var band []geom.Curve
		for i, v := range loop {
			band = append(band, geom.Line{A: v.Point(), B: loop[(i+1)%len(loop)].Point()})
		}
		bands = append(bands, band)
	}
	return bands
}
