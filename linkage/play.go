package linkage

import (
	"fmt"
	"math"
	"strings"

	"pintle/check"
)

// A Play is one share of the free movement of the joint.
type Play struct {
	From     string  // "horn pin", "lever pin", "pivot", "servo" or "dead band"
	JointDeg float64 // at the joint
	Tip      float64 // mm at the tip
}

// Plays returns the shares of the free movement at a station, end to end. Play
// along the rod turns the lever by play/(c sin mu), and so does that of the pivot,
// which also moves the tip as it is; what the servo has is multiplied by the
// velocity ratio.
func (s *Stroke) Plays(st Station) []Play {
	var list []Play
	add := func(from string, rad float64) {
		if rad > 0 {
			list = append(list, Play{from, rad / deg, rad * s.spec.TipRadius})
		}
	}
	for _, e := range s.ends() {
		add(e.name+" pin", e.pin.Play/(s.flat.Lever*math.Sin(st.TransmissionDeg*deg)))
	}
	if servo := s.spec.Servo; servo != nil {
		add("servo", servo.PlayDeg*deg*math.Abs(st.Ratio))
		add("dead band", math.Abs(servo.DeadBandDeg())*deg*math.Abs(st.Ratio))
	}
	if p := s.spec.PivotPlay; p > 0 {
		rad := p / (s.flat.Lever * math.Sin(st.TransmissionDeg*deg))
		list = append(list, Play{"pivot", rad / deg, p + rad*s.spec.TipRadius})
	}
	return list
}

// TotalPlay adds the shares up, in deg at the joint and mm at the tip.
func TotalPlay(list []Play) (jointDeg, tip float64) {
	for _, p := range list {
		jointDeg, tip = jointDeg+p.JointDeg, tip+p.Tip
	}
	return jointDeg, tip
}

// worstPlay returns the station at which the free movement is largest.
func (s *Stroke) worstPlay() Station {
	rod, servo := s.spec.PivotPlay/s.flat.Lever, 0.0
	for _, e := range s.ends() {
		rod += e.pin.Play / s.flat.Lever
	}
	if own := s.spec.Servo; own != nil {
		servo = (own.PlayDeg + math.Abs(own.DeadBandDeg())) * deg
	}
	return s.worst(func(st Station) float64 {
		return -rod/math.Sin(st.TransmissionDeg*deg) - servo*math.Abs(st.Ratio)
	})
}

var rulePlay = check.Rule{
	Name: "tip-play", Unit: "mm",
	Meaning: "How far the tip of what the joint carries can be moved to and fro with the servo holding still: all plays added up, where that is worst.",
	Formula: "R ((play of both pins and of the pivot)/(c sin mu) + (servo play + dead band) x velocity ratio) + play of the pivot",
	Source:  "geometry; a limit where [limits] gives one",
	Change:  "lengthen horn and lever alike, take pins without play, or preload the joint with a light spring",
	Sense:   check.AtMost, Limit: check.Limit{Caution: check.None, Fail: check.None},
}

// judgePlay tells the play at the tip, where anything that has play is given.
func (s *Stroke) judgePlay() []check.Finding {
	at := s.worstPlay()
	shares := s.Plays(at)
	if len(shares) == 0 {
		return nil
	}
	jointDeg, tip := TotalPlay(shares)
	var parts []string
	for _, p := range shares {
		parts = append(parts, fmt.Sprintf("%s %.2f mm", p.From, p.Tip))
	}
	f := s.judged(rulePlay, tip, fmt.Sprintf("%.2f deg at the joint; at the tip: %s; %s", jointDeg, strings.Join(parts, ", "), s.where(at)))
	return []check.Finding{f}
}
