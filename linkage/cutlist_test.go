package linkage

import (
	"errors"
	"math"
	"testing"

	"pintle/check"
)

func m3Rod(t *testing.T) RodSpec {
	end := RodEnd{ToThread: 9, Depth: 9}
	return RodSpec{Name: "nod-rod", Length: 90.55, Thread: screw(t, "M3"), Ends: [2]RodEnd{end, end}}
}

// Worked by hand with cut = L - g1 - g2 + E1 + E2 and adjustment ±(Emax - 1.5 d):
// M3 holds from 4.5 mm on and stays 0.5 mm off the bottom of 9 mm, so it is
// screwed on to the middle, 6.5 mm, and both ends together set 4 mm either way.
func TestCutRod(t *testing.T) {
	r, err := NewCutRod(m3Rod(t))
	if err != nil {
		t.Fatal(err)
	}
	shorter, longer := r.Adjustment()
	for _, q := range []struct {
		what      string
		got, want float64
	}{
		{"cut", r.Cut(), 90.55 - 18 + 13},
		{"engagement", r.Engagement()[1], 6.5},
		{"shorter", shorter, 4},
		{"longer", longer, 4},
	} {
		if math.Abs(q.got-q.want) > 1e-9 {
			t.Errorf("%s %v, want %v", q.what, q.got, q.want)
		}
	}
	for _, f := range r.Findings() {
		if f.Verdict != check.Pass {
			t.Errorf("%s: %v %s", f.Check, f.Value, f.Verdict)
		}
	}
}

// A shallow hole fails, a deep one given too much rod bottoms; either remedy,
// followed, passes.
func TestCutRodRemedies(t *testing.T) {
	verdict := func(s RodSpec, name string) check.Verdict {
		r, err := NewCutRod(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Findings() {
			if f.Check == name {
				return f.Verdict
			}
		}
		return ""
	}
	s := m3Rod(t)
	s.Ends[1].Depth = 4.5
	if v := verdict(s, "thread-engagement"); v != check.Fail {
		t.Errorf("4.5 mm deep: %s", v)
	}
	s.Ends[1].Depth = 5
	if v := verdict(s, "thread-engagement"); v != check.Pass {
		t.Errorf("5 mm deep: %s", v)
	}
	if v := verdict(s, "rod-adjustment"); v != check.Pass {
		t.Errorf("one end sets: %s", v)
	}
	s.Ends[0].Depth = 5
	if v := verdict(s, "rod-adjustment"); v != check.Caution {
		t.Errorf("nothing sets: %s", v)
	}
	s = m3Rod(t)
	s.Ends[0].Engagement = 8.8
	if v := verdict(s, "thread-depth"); v != check.Fail {
		t.Errorf("8.8 of 9 mm: %s", v)
	}
	s.Ends[0].Engagement = 8.5
	if v := verdict(s, "thread-depth"); v != check.Pass {
		t.Errorf("8.5 of 9 mm: %s", v)
	}
}

func TestCutRodRefusals(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(*RodSpec)
		field string
	}{
		{"no room", func(s *RodSpec) { s.Length = 17 }, "length of nod-rod"},
		{"NaN", func(s *RodSpec) { s.Length = math.NaN() }, "length of nod-rod"},
		{"no hole", func(s *RodSpec) { s.Ends[0].Depth = 0 }, "thread depth of end 1 of nod-rod"},
		{"negative", func(s *RodSpec) { s.Ends[1].ToThread = -1 }, "distance from ball to thread of end 2 of nod-rod"},
		{"past the hole", func(s *RodSpec) { s.Ends[1].Engagement = 10 }, "thread engagement of end 2 of nod-rod"},
	} {
		s := m3Rod(t)
		test.spoil(&s)
		_, err := NewCutRod(s)
		var field *check.FieldError
		if !errors.As(err, &field) || field.Field != test.field || field.Remedy == "" {
			t.Errorf("%s: %v", test.name, err)
		}
	}
}
