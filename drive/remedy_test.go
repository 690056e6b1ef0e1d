package drive_test

import (
	"math/rand/v2"
	"regexp"
	"testing"

	"pintle/check"
	"pintle/drive"
)

var cure = regexp.MustCompile(`(ratio|time|swing|stall torque|servo speed|servo travel) (?:<=|>=) ([0-9.]+)`)

// follow makes the change that a remedy names.
func follow(s drive.Spec, name string, value float64) drive.Spec {
	switch name {
	case "ratio":
		s.Ratio = value
	case "time":
		s.Motion.Time = value
	case "swing":
		s.Motion.SwingDeg = value
	case "stall torque":
		s.Servo.StallTorque = value
	case "servo speed":
		s.Servo.SpeedDegPerS = value
	case "servo travel":
		s.Servo.Points = points(-value/2, value/2)
	}
	return s
}

// Whatever the drive, following any number that a remedy names makes that check
// pass and none of the others worse.
func TestRemediesCure(t *testing.T) {
	const seed, cases = 3, 150
	rnd := rand.New(rand.NewPCG(seed, seed))
	order := map[check.Verdict]int{check.Pass: 0, check.Caution: 1, check.Fail: 2}
	followed := map[string]int{}
	for i := range cases {
		s := randomSpec(rnd)
		before := size(t, s).Findings()
		for k, f := range before {
			for _, m := range cure.FindAllStringSubmatch(f.Remedy, -1) {
				followed[m[1]]++
				after := size(t, follow(s, m[1], number(t, m[2]))).Findings()
				if after[k].Verdict != check.Pass {
					t.Errorf("seed %d, case %d: %s %.4g, then %s %s: %.4g %s", seed, i, f.Check, f.Value, m[1], m[2], after[k].Value, after[k].Verdict)
				}
				for j := range after {
					if order[after[j].Verdict] > order[before[j].Verdict] {
						t.Errorf("seed %d, case %d: %s of %s makes %s worse", seed, i, m[1], m[2], after[j].Check)
					}
				}
			}
			if (f.Verdict == check.Pass) != (f.Remedy == "") {
				t.Errorf("seed %d, case %d: %s is %s with remedy %q", seed, i, f.Check, f.Verdict, f.Remedy)
			}
		}
	}
	for _, name := range []string{"ratio", "time", "swing", "stall torque", "servo speed", "servo travel"} {
		if followed[name] < 5 {
			t.Errorf("only %d remedies named a %s", followed[name], name)
		}
	}
}

func randomSpec(rnd *rand.Rand) drive.Spec {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	laws, axes := drive.Laws(), []drive.Axis{drive.Vertical, drive.Horizontal, drive.Inverted}
	travel := between(60, 270)
	s := drive.Spec{
		Servo: drive.Servo{StallTorque: between(0.1, 3), SpeedDegPerS: between(150, 700), Points: points(0, travel/2, travel)},
		Load: drive.Load{
			Mass: between(0, 2), Offset: between(0, 150), Axis: axes[rnd.IntN(3)],
			PostureKnown: rnd.IntN(2) == 0, MiddleDeg: between(-90, 90), BearingFriction: between(0, 0.01),
		},
		Motion: drive.Motion{SwingDeg: between(10, 180), Time: between(0.05, 4), Law: laws[rnd.IntN(len(laws))], Hold: rnd.IntN(2) == 0},
		Ratio:  between(0.3, 5), Efficiency: between(0.5, 1),
	}
	s.Load.Inertia = drive.Point(s.Load.Mass, s.Load.Offset) + between(0, 0.02)
	return s
}

// The remedy of a servo that is too weak for its load, worked by hand: 1 kg at
// 100 mm needs 0.981/(2 x 0.9) = 0.545 N·m; 25 % of stall asks for 2.18 N·m.
func TestRemedyByHand(t *testing.T) {
	s := figures()["heron"]
	s.Load.Mass, s.Load.Offset, s.Ratio, s.Motion.Time = 1, 100, 2, 1000
	for _, f := range size(t, s).Findings() {
		if f.Check != "servo-held-torque" {
			continue
		}
		got := map[string]string{}
		for _, m := range cure.FindAllStringSubmatch(f.Remedy, -1) {
			got[m[1]] = m[2]
		}
		if got["stall torque"] != "2.18" {
			t.Errorf("remedy %q", f.Remedy)
		}
		return
	}
	t.Error("no finding on the held torque")
}
