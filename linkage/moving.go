package linkage

import (
	"fmt"
	"math"

	"pintle/drawing"
	"pintle/drive"
)

// Pictures that move faster than this are slowed down: a flicker of more than
// three changes a second can harm (WCAG 2.2, criterion 2.3.1; from memory).
const leastSeconds = 1.0

// frames is the number of places of a moving picture after the first.
const frames = 48

// Moving returns the mechanism in motion over the wanted swing, in the time and
// by the law of its motion: in true time, or slowed down to a second for one way.
// Without a motion it takes two seconds, by the cosine law.
func (s *Stroke) Moving() drawing.Moving {
	m := drawing.Moving{Title: "Linkage in motion", Seconds: 2, Turning: s.spec.Turning}
	law, speed := drive.Cosine, ""
	if own := s.spec.Motion; own != nil {
		law, m.Seconds, speed = own.Law, own.Time, ", in true time"
	}
	if s.spec.Turning && s.spec.Motor != nil {
		m.Seconds, speed = 60/s.spec.Motor.RPM, ", in true time"
	}
	if m.Seconds < leastSeconds {
		speed = fmt.Sprintf(", slowed down %s times", decimal(leastSeconds/m.Seconds, 1))
		m.Seconds = leastSeconds
	}
	m.Caption = fmt.Sprintf("horn %s to %s deg, lever %s to %s deg%s",
		decimal(s.used.HornFromDeg, 1), decimal(s.used.HornToDeg, 1), decimal(s.used.LeverFromDeg, 1), decimal(s.used.LeverToDeg, 1), speed)
	rest := s.neutral()
	for _, on := range moving {
		shape := s.shape(on)
		bar := drawing.MovingBar{Name: string(on), Shape: drawing.Stroke{Curves: shape.outline(), Closed: true}, Rest: s.place(on, rest)}
		for i := range frames + 1 {
			bar.Places = append(bar.Places, s.place(on, s.at(law, float64(i)/frames)))
		}
		unwind(bar.Places)
		m.Bars = append(m.Bars, bar)
	}
	pins := s.pins(rest)
	m.Pivots, m.Pins = pins[:2], pins[2:]
	for _, path := range s.paths() {
		m.Still = append(m.Still, drawing.Stroke{Kind: drawing.Centre, Curves: path})
	}
	for _, horn := range []float64{s.used.HornFromDeg, s.used.HornToDeg} {
		end, _ := s.At(horn)
		for _, on := range moving {
			m.Still = append(m.Still, drawing.Stroke{Kind: drawing.Adjacent, Curves: s.placed(on, end).outline(), Closed: true})
		}
	}
	return m
}

// at returns the station at a share of the time of a move: the lever follows the
// law, or the horn where the lever does not turn one way.
func (s *Stroke) at(law drive.Law, share float64) Station {
	place, _, _ := law.At(share)
	if s.spec.Turning {
		place = share
	}
	horn := s.used.HornFromDeg + place*(s.used.HornToDeg-s.used.HornFromDeg)
	if own, ok := s.HornFor(s.used.LeverFromDeg + place*(s.used.LeverToDeg-s.used.LeverFromDeg)); ok {
		horn = own
	}
	st, _ := s.At(horn)
	return st
}

func (s *Stroke) place(on Member, st Station) drawing.Place {
	origin, x := s.frameOf(on, st)
	return drawing.Place{X: origin.X, Y: origin.Y, Turn: x.Angle()}
}

// unwind takes the jumps of whole turns out of places.
func unwind(places []drawing.Place) {
	for i := 1; i < len(places); i++ {
		before := places[i-1].Turn
		places[i].Turn = before + math.Remainder(places[i].Turn-before, 2*math.Pi)
	}
}

// A Plot is a quantity followed through the stroke.
type Plot struct {
	Title string
	X     string // what the axes show, with units
	Y     string
	At    [][2]float64
}

// Plots returns the lever's angle, the transmission angle and, with a load, the
// torque at the servo over the angle of the horn.
func (s *Stroke) Plots() []Plot {
	const horn = "horn, deg from the line of the axes"
	list := []Plot{
		{Title: "angle of the lever", X: horn, Y: "lever, deg"},
		{Title: "transmission angle", X: horn, Y: "mu, deg"},
	}
	if s.spec.Load != nil {
		list = append(list, Plot{Title: "torque at the servo that holds the load", X: horn, Y: "N·m"})
	}
	torques := s.MotorTorques()
	if torques != nil {
		list[2].Title = "torque at the motor"
	}
	for i, st := range s.stations {
		list[0].At = append(list[0].At, [2]float64{st.HornDeg, st.LeverDeg})
		list[1].At = append(list[1].At, [2]float64{st.HornDeg, st.TransmissionDeg})
		switch {
		case torques != nil:
			list[2].At = append(list[2].At, [2]float64{st.HornDeg, torques[i]})
		case s.spec.Load != nil:
			list[2].At = append(list[2].At, [2]float64{st.HornDeg, s.HoldingTorque(st)})
		}
	}
	return list
}
