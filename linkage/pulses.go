package linkage

import (
	"math"
	"slices"

	"pintle/check"
	"pintle/drive"
)

// A PulseRow is one row of the table from joint to pulse.
type PulseRow struct {
	JointDeg          float64 // from mid-swing, positive where the load rises
	LeverDeg          float64
	HornDeg           float64
	PulseMicroseconds float64
}

// A PulseTable turns an angle of the joint into a pulse, over the wanted swing.
// Between its rows it goes along a curve that keeps the direction.
type PulseTable struct {
	Rows  []PulseRow // by rising JointDeg; pulses strictly rise or strictly fall
	Error float64    // µs, the greatest deviation from the exact pulse, looked at between the rows
	curve monotone
}

// At returns the pulse in µs for an angle of the joint in deg from mid-swing; at
// most that of the nearer end of the table.
func (t *PulseTable) At(jointDeg float64) float64 { return t.curve.at(jointDeg) }

const (
	pulseStep  = 5.0 // deg of the horn between rows, at most (common practice, no source)
	pulseError = 0.5 // µs, less than a servo's step
)

// Pulses returns the table from joint to pulse, or false without a servo, where
// the lever does not turn one way, and where the swing reaches beyond the
// servo's measured points. Rows lie at most 5 deg of the horn apart, and nearer
// until the table strays less than 0.5 µs from the exact pulses.
func (s *Stroke) Pulses() (*PulseTable, bool) {
	servo := s.spec.Servo
	if servo == nil || !s.Monotone() {
		return nil, false
	}
	rows := int(math.Ceil((s.used.HornToDeg - s.used.HornFromDeg) / pulseStep))
	for {
		t, ok := s.pulses(rows)
		if !ok || t.Error < pulseError || rows > mostStations {
			return t, ok
		}
		rows *= 2
	}
}

// pulses makes the table with so many even steps of the horn, and a row at each
// measured point, where the slope may break.
func (s *Stroke) pulses(steps int) (*PulseTable, bool) {
	from, to := s.used.HornFromDeg, s.used.HornToDeg
	horns := make([]float64, 0, steps+len(s.spec.Servo.Points)+1)
	for i := range steps + 1 {
		horns = append(horns, from+(to-from)*float64(i)/float64(steps))
	}
	for _, p := range s.spec.Servo.Points {
		if h := s.spec.hornAt(p.AngleDeg); h > from && h < to {
			horns = append(horns, h)
		}
	}
	slices.Sort(horns)
	t := &PulseTable{}
	for i, h := range horns {
		if i > 0 && h-horns[i-1] < 1e-6 {
			continue
		}
		row, ok := s.pulseRow(h)
		if !ok {
			return nil, false
		}
		t.Rows = append(t.Rows, row)
	}
	if t.Rows[0].JointDeg > t.Rows[len(t.Rows)-1].JointDeg {
		slices.Reverse(t.Rows)
	}
	var x, y []float64
	for _, r := range t.Rows {
		x, y = append(x, r.JointDeg), append(y, r.PulseMicroseconds)
	}
	t.curve = newMonotone(x, y)
	for i := 1; i < len(t.Rows); i++ {
		for _, share := range []float64{0.25, 0.5, 0.75} {
			a, b := t.Rows[i-1].HornDeg, t.Rows[i].HornDeg
			exact, _ := s.pulseRow(a + share*(b-a))
			t.Error = max(t.Error, math.Abs(t.At(exact.JointDeg)-exact.PulseMicroseconds))
		}
	}
	return t, true
}

func (s *Stroke) pulseRow(hornDeg float64) (PulseRow, bool) {
	st, ok := s.At(hornDeg)
	if !ok {
		return PulseRow{}, false
	}
	// A stroke that ends at a measured point may pass it by a rounding.
	lo, hi := s.spec.Servo.Range()
	angle := s.spec.servoAt(hornDeg)
	if angle < lo-1e-9 || angle > hi+1e-9 {
		return PulseRow{}, false
	}
	pulse, ok := s.spec.Servo.Pulse(min(max(angle, lo), hi))
	return PulseRow{s.rises() * (st.LeverDeg - s.middleDeg()), st.LeverDeg, hornDeg, pulse}, ok
}

// JointStepDeg returns how far the joint turns for one µs of pulse where it
// turns farthest, in deg; 0 without a servo.
func (s *Stroke) JointStepDeg() float64 {
	if s.spec.Servo == nil {
		return 0
	}
	p := s.spec.Servo.Points
	perPulse := 0.0
	for i := 1; i < len(p); i++ {
		perPulse = max(perPulse, math.Abs((p[i].AngleDeg-p[i-1].AngleDeg)/(p[i].PulseMicroseconds-p[i-1].PulseMicroseconds)))
	}
	_, most := s.RatioRange()
	return perPulse * most
}

var ruleStep = check.Rule{
	Name: "joint-resolution", Unit: "deg",
	Meaning: "The smallest move of the joint: the servo's dead band, or without one a pulse step of 1 µs, times the largest velocity ratio.",
	Formula: "dead band x deg per µs x max(d lever/d horn)",
	Source:  "definition",
	Change:  "lengthen the lever or shorten the horn, or take a servo with a narrower dead band",
	Sense:   check.AtMost, Limit: check.Limit{Caution: check.None, Fail: check.None},
}

// judgeStep tells the joint's smallest move, where a servo is given.
func (s *Stroke) judgeStep() []check.Finding {
	step := s.JointStepDeg()
	if step == 0 {
		return nil
	}
	detail := "for a pulse step of 1 µs; the dead band is not given"
	if band := s.spec.Servo.DeadBand; band > 0 {
		step *= band
		detail = "for a dead band of " + check.Number(band) + " µs"
	}
	return []check.Finding{s.judged(ruleStep, step, detail)}
}

// judgeTravel judges the servo's travel left by the wanted swing, where no drive
// was sized that does.
func (s *Stroke) judgeTravel() []check.Finding {
	if s.spec.Servo == nil {
		return nil
	}
	lo, hi := s.spec.Servo.Range()
	a, b := s.spec.servoAt(s.used.HornFromDeg), s.spec.servoAt(s.used.HornToDeg)
	for _, r := range drive.Rules() {
		if r.Name == "servo-travel" {
			return []check.Finding{s.judged(r, min(min(a, b)-lo, hi-max(a, b)), "")}
		}
	}
	panic("linkage: the drive has no rule for travel")
}
