package joint

import (
	"slices"

	"pintle/check"
	"pintle/export"
)

// A servoUse is what one design asks of a servo. Whatever drives something hands
// one to builder.useServo: the power sheet, the channel list and the look at the
// start-up are made from them.
type servoUse struct {
	servo    string     // name of its table
	by       string     // design, such as "gears.neck"
	share    float64    // highest share of the stall torque while it moves; 1 where nobody knows
	angleDeg [3]float64 // low end, middle and high end of its own travel that are used, in its measured angles
	joint    [3]float64 // the same of what it moves, in unit
	unit     string     // "deg" or "mm"
}

// swing returns the use of a servo that turns a joint through a swing about the
// middle of its measured travel, by a ratio of its angle to the joint's.
func (s Servo) swing(servo, by string, swingDeg, ratio, share float64) servoUse {
	lo, hi := s.measured().Range()
	middle, half := (lo+hi)/2, swingDeg/2
	if swingDeg == 0 { // not said: all of it
		half = (hi - lo) / 2 / ratio
	}
	u := servoUse{servo: servo, by: by, share: share, unit: "deg", joint: [3]float64{-half, 0, half}}
	for i, at := range u.joint {
		u.angleDeg[i] = min(max(middle+at*ratio, lo), hi)
	}
	return u
}

// useServo records what a design asks of a servo.
func (b *builder) useServo(u servoUse) { b.uses = append(b.uses, u) }

// addChannels reports pulse limits and currents of every servo, in the order of
// their channels. Servos without a channel get the lowest free ones, by name.
func (b *builder) addChannels() error {
	channels, err := b.channels()
	if err != nil {
		return err
	}
	for _, name := range sorted(channels) {
		s := b.file.Servos[name]
		if len(s.Points) == 0 { // known by its horn only
			continue
		}
		if err := s.measured().Validate(); err != nil {
			return b.file.Blame("servo."+name, err)
		}
		line := export.Channel{Channel: channels[name], Servo: name, StallCurrent: s.StallCurrent}
		uses := b.usesOf(name)
		if len(uses) == 0 {
			uses = []servoUse{s.swing(name, "", 0, 1, 1)}
		}
		u := uses[0]
		line.Moves, line.Unit = u.by, u.unit
		for i := range 3 {
			line.ServoDeg[i], line.Joint[i] = u.angleDeg[i], u.joint[i]
			line.Pulse[i], _ = s.measured().Pulse(u.angleDeg[i])
		}
		b.report.Channels = append(b.report.Channels, line)
	}
	slices.SortFunc(b.report.Channels, func(a, b export.Channel) int { return a.Channel - b.Channel })
	return nil
}

// channels gives every servo a channel.
func (b *builder) channels() (map[string]int, error) {
	channels, taken := map[string]int{}, map[int]string{}
	for _, name := range sorted(b.file.Servos) {
		if c := b.file.Servos[name].Channel; c != nil {
			if other, ok := taken[*c]; ok {
				return nil, b.file.Blame("servo."+name, &check.FieldError{
					Field: "channel", Value: float64(*c), Reason: "is that of servo " + other + ", too", Remedy: "give each servo a channel of its own",
				})
			}
			channels[name], taken[*c] = *c, name
		}
	}
	next := 0
	for _, name := range sorted(b.file.Servos) {
		if _, ok := channels[name]; ok {
			continue
		}
		for taken[next] != "" {
			next++
		}
		channels[name], taken[next] = next, name
	}
	return channels, nil
}

func (b *builder) usesOf(servo string) []servoUse {
	var uses []servoUse
	for _, u := range b.uses {
		if u.servo == servo {
			uses = append(uses, u)
		}
	}
	return uses
}

// useForLinkage records what a linkage asks of its servo: the pulses of its own
// table from joint to pulse.
func (b *builder) useForLinkage(l *linked) {
	if l.table.Servo == "" || l.table.Turning {
		return
	}
	use := l.servo.swing(l.table.Servo, l.design(), 0, 1, 1)
	if table, ok := l.stroke.Pulses(); ok {
		low, high := table.Rows[0], table.Rows[len(table.Rows)-1]
		use.joint = [3]float64{low.JointDeg, 0, high.JointDeg}
		for i, pulse := range []float64{low.PulseMicroseconds, table.At(0), high.PulseMicroseconds} {
			use.angleDeg[i] = l.servo.angleAt(pulse)
		}
	}
	if d := l.stroke.Drive(); d != nil {
		use.share = d.PeakShare()
	}
	b.useServo(use)
}

// angleAt returns the angle in degrees at a pulse, on straight lines between the
// measured points.
func (s Servo) angleAt(pulse float64) float64 {
	i := 1
	for i < len(s.Points)-1 && s.Points[i][0] < pulse {
		i++
	}
	a, b := s.Points[i-1], s.Points[i]
	return a[1] + (pulse-a[0])/(b[0]-a[0])*(b[1]-a[1])
}
