package linkage_test

import (
	"math"
	"strings"
	"testing"

	"pintle/check"
	"pintle/linkage"
)

// 45/40/50/90 locks at cos = 1/4, 75.522488 deg: driven to 72 it is 3.52 deg from
// it, which fails; to the remedy's end, it passes. Going backwards it mirrors.
func TestCourseMargin(t *testing.T) {
	f := linkage.FourBar{Horn: 45, Rod: 40, Lever: 50, Frame: 90}
	for _, way := range []float64{1, -1} {
		f.Crossed = way < 0
		m := fourBarMechanism(t, f, 10*way)
		for to, want := range map[float64]check.Verdict{72: check.Fail, 70.52: check.Pass, 90: check.Fail, 40: check.Pass} {
			c, err := linkage.NewCourse(m, way*to, 91, nil)
			if err != nil {
				t.Fatal(err)
			}
			dead := c.Findings()[0]
			if dead.Check != "dead-point-margin" || dead.Verdict != want {
				t.Errorf("to %v: %+v", way*to, dead)
			}
			if to == 40 {
				continue
			}
			if math.Abs(dead.Value-(75.522488-to)) > 1e-5 || !strings.Contains(dead.Detail, "A-B and O4-B in one line") {
				t.Errorf("to %v: margin %v, %s", way*to, dead.Value, dead.Detail)
			}
			if want == check.Fail && dead.Remedy != map[float64]string{1: "end the drive at 70.52", -1: "end the drive at -70.52"}[way] {
				t.Errorf("to %v: %s", way*to, dead.Remedy)
			}
		}
	}
}

// The moving picture of a mechanism keeps each bar's length and starts and ends
// with the course.
func TestCourseMoving(t *testing.T) {
	f := linkage.FourBar{Horn: 20, Rod: 60, Lever: 50, Frame: 70}
	c, err := linkage.NewCourse(fourBarMechanism(t, f, 0), 180, 0, nil)
	if err != nil {
		t.Fatal(err)
	}
	m := c.Moving()
	if len(m.Bars) != 3 || len(m.Pivots) != 2 || len(m.Still) != 2 {
		t.Fatalf("%d bars, %d pivots, %d ways", len(m.Bars), len(m.Pivots), len(m.Still))
	}
	horn := m.Bars[0]
	first, last := horn.Places[0], horn.Places[len(horn.Places)-1]
	if math.Abs(first.Turn) > 1e-12 || math.Abs(last.Turn-math.Pi) > 1e-12 {
		t.Errorf("the crank turns from %v to %v", first.Turn, last.Turn)
	}
	v := c.Values()
	if v["mobility_by_rank"] != 1 || math.Abs(v["travel_y_A"].(float64)-20) > 1e-9 || math.Abs(v["travel_x_A"].(float64)-40) > 1e-9 {
		t.Errorf("values %v", v)
	}
}
