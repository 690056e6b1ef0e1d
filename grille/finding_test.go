package grille

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pintle/check"
)

// follow applies one remedy to a spec; false for advice without a number.
func follow(s Spec, remedy string) (Spec, bool) {
	var a, b float64
	screws := Screws{}
	if s.Screws != nil {
		screws = *s.Screws
	}
	scans := func(format string, v ...any) bool {
		n, err := fmt.Sscanf(remedy, format, v...)
		return err == nil && n == len(v)
	}
	switch {
	case scans("hole >= %f mm with pitch %f mm", &a, &b):
		s.Hole, s.Pitch = a, b
	case scans("hole <= %f mm and hazard depth >= %f mm", &a, &b):
		s.Hole, s.HazardDepth = a, b
	case scans("hole <= %f mm", &a):
		s.Hole = a
	case scans("pitch along >= %f mm", &a):
		s.PitchAlong = a
	case scans("pitch >= %f mm", &a), scans("pitch <= %f mm", &a):
		s.Pitch = a
	case scans("margin >= %f mm", &a):
		s.Margin = a
	case scans("thickness <= %f mm", &a):
		s.Thickness = a
	case scans("hazard depth >= %f mm", &a):
		s.HazardDepth = a
	case scans("screw circle <= %f mm", &a), scans("screw circle >= %f mm", &a):
		screws.Circle = a
		s.Screws = &screws
	case scans("screw inset >= %f mm", &a):
		screws.Inset = a
		s.Screws = &screws
	default:
		return s, false
	}
	return s, true
}

// Every remedy that names a number cures the check that gave it. Parts joined
// by commas go together, "or" starts another way.
func TestRemediesCure(t *testing.T) {
	const seed, cases = 2, 1500
	rnd := rand.New(rand.NewPCG(seed, seed))
	cured := map[string]int{}
	for i := range cases {
		spec := randomSpec(rnd)
		spec.ChordError = 0.02
		g, err := New(spec)
		if err != nil {
			continue
		}
		for _, f := range g.Findings() {
			if f.Verdict == check.Pass {
				continue
			}
			if f.Remedy == "" {
				t.Errorf("seed %d, case %d: %s has no remedy", seed, i, f.Check)
			}
			for _, way := range strings.Split(f.Remedy, ", or ") {
				next, known := spec, false
				for _, step := range strings.Split(way, ", ") {
					var ok bool
					next, ok = follow(next, step)
					known = known || ok
				}
				if !known {
					continue
				}
				after, err := New(next)
				if noRoom(err) { // a small outline may have no room for the cure
					continue
				}
				if err != nil {
					t.Errorf("seed %d, case %d: %s: %q followed: %v (%+v)", seed, i, f.Check, way, err, spec)
					continue
				}
				if got := verdictOf(t, after.Findings(), f.Check); got.Verdict != check.Pass {
					t.Errorf("seed %d, case %d: %s: %q followed gives %s %v (%+v)", seed, i, f.Check, way, got.Verdict, got.Value, spec)
				}
				cured[f.Check]++
			}
		}
	}
	for _, r := range Rules() {
		if cured[r.Name] < 5 {
			t.Errorf("only %d remedies of %s were followed", cured[r.Name], r.Name)
		}
	}
}

// noRoom recognises the refusals of an outline that is too small.
func noRoom(err error) bool {
	var field *check.FieldError
	return errors.As(err, &field) && field.Field == "hole" && strings.Contains(field.Reason, "not one whole hole")
}

// Bars below two beads fail, below two beads and 0.1 mm they are cautioned
// (common practice, no source); a bead of 0.4 puts the limits at 0.8 and 0.9.
func TestWebVerdicts(t *testing.T) {
	for _, test := range []struct {
		name          string
		pitch, margin float64
		want          check.Verdict
		remedy        string
	}{
		{"thin between holes", 3.79, 3, check.Fail, "pitch >= 3.9 mm"},
		{"two beads", 3.8, 3, check.Caution, "pitch >= 3.9 mm"},
		{"sound", 3.9, 3, check.Pass, ""},
		{"both", 3.5, 0.7, check.Fail, "pitch >= 3.9 mm, margin >= 0.9 mm"},
	} {
		g := mustNew(t, Spec{
			// the holes at the edge reach the margin closely: 9 holes in a row
			Outline: Outline{Kind: Rectangle, Length: 8*test.pitch + 3 + 2*test.margin, Width: 40}, Pattern: RoundInline,
			Hole: 3, Pitch: test.pitch, Margin: test.margin, Thickness: 2, Card: card(),
		})
		if f := verdictOf(t, g.Findings(), "grille-web"); f.Verdict != test.want || f.Remedy != test.remedy {
			t.Errorf("%s: %s, remedy %q, want %s, %q", test.name, f.Verdict, f.Remedy, test.want, test.remedy)
		}
	}
}

// A bar that is drawn thinner than one bead fails though it should measure two:
// 3.9 - 3.5 with a bore error of half a millimetre.
func TestDrawnWeb(t *testing.T) {
	spec := Spec{
		Outline: Outline{Kind: Disc, Diameter: 50}, Pattern: RoundStaggered, Hole: 3, Pitch: 3.9, Thickness: 2, Card: card(),
	}
	spec.Card.Bore.Offset = -0.51
	g := mustNew(t, spec)
	if f := verdictOf(t, g.Findings(), "grille-web-drawn"); f.Verdict != check.Fail || math.Abs(f.Value-0.39) > 1e-9 || f.Remedy != "pitch >= 3.91 mm" {
		t.Errorf("%s %v, remedy %q", f.Verdict, f.Value, f.Remedy)
	}
	if f := verdictOf(t, g.Findings(), "grille-web"); f.Verdict != check.Pass {
		t.Errorf("grille-web is %s", f.Verdict)
	}
}

func TestUsersLimitsCount(t *testing.T) {
	spec := Spec{
		Outline: Outline{Kind: Disc, Diameter: 50}, Pattern: RoundStaggered, Hole: 3, Pitch: 4, Thickness: 2, Card: card(),
		Limits: check.Limits{"grille-web": {Caution: 1.5, Fail: check.None}, "grille-open-area": {Caution: 0.3, Fail: check.None}},
	}
	f := mustNew(t, spec).Findings()
	if web := verdictOf(t, f, "grille-web"); web.Verdict != check.Caution || web.Remedy != "pitch >= 4.5 mm" {
		t.Errorf("web %s, %q", web.Verdict, web.Remedy)
	}
	if open := verdictOf(t, f, "grille-open-area"); open.Verdict != check.Pass {
		t.Errorf("open area %s", open.Verdict)
	}
}

// Deep holes are only noted.
func TestDeepHolesAreNoted(t *testing.T) {
	g := mustNew(t, Spec{
		Outline: Outline{Kind: Disc, Diameter: 50}, Pattern: Square, Hole: 3, Pitch: 4, Thickness: 3.5, Card: card(),
	})
	if f := verdictOf(t, g.Findings(), "hole-to-thickness"); f.Verdict != check.Note || f.Remedy != "thickness <= 3 mm" {
		t.Errorf("%s, %q", f.Verdict, f.Remedy)
	}
}

// The reach of a finger against testdata/ref/perforation-reach.csv: at the
// distance of a row its widest opening passes, a little less fails.
func TestReach(t *testing.T) {
	for _, row := range rows(t, "perforation-reach.csv") {
		for column, pattern := range map[int]string{1: RoundInline, 2: Slot} {
			opening, depth := number(t, row[0]), number(t, row[column])
			spec := Spec{
				Outline: Outline{Kind: Disc, Diameter: 120}, Pattern: pattern, Hole: opening, SlotLength: slotOnly(pattern, 30),
				Pitch: opening + 2, Thickness: 2, HazardDepth: depth, Card: card(),
			}
			for _, test := range []struct {
				closer float64
				want   check.Verdict
			}{{0, check.Pass}, {0.1, check.Fail}} {
				spec.HazardDepth = depth - test.closer
				f := verdictOf(t, mustNew(t, spec).Findings(), "grille-reach")
				if f.Verdict != test.want || !strings.Contains(f.Detail, "children") {
					t.Errorf("%s of %g mm at %g mm: %s (%s), want %s", pattern, opening, spec.HazardDepth, f.Verdict, f.Detail, test.want)
				}
			}
			// A wider hole at this distance is sent back to the opening of the row.
			spec.Hole, spec.Pitch, spec.HazardDepth = opening+1, opening+3, depth
			f := verdictOf(t, mustNew(t, spec).Findings(), "grille-reach")
			if want := fmt.Sprintf("hole <= %g mm", opening); !strings.HasSuffix(f.Remedy, want) {
				t.Errorf("%s of %g mm at %g mm: remedy %q, want %q", pattern, spec.Hole, depth, f.Remedy, want)
			}
		}
	}
}

// Wider openings than the table knows always fail; a hexagon counts as the
// circle around it: 3.8 x 2/sqrt(3) = 4.39 mm needs 5 mm, not 2.
func TestReachBeyondTable(t *testing.T) {
	for _, test := range []struct {
		pattern     string
		hole, depth float64
		want        check.Verdict
	}{
		{RoundInline, 12.5, 1000, check.Fail},
		{Hexagon, 3.8, 4, check.Fail},
		{Hexagon, 3.8, 5, check.Pass},
		{Square, 3.8, 4, check.Pass},
	} {
		g := mustNew(t, Spec{
			Outline: Outline{Kind: Disc, Diameter: 120}, Pattern: test.pattern, Hole: test.hole, Pitch: test.hole + 2,
			Thickness: 2, HazardDepth: test.depth, Card: card(),
		})
		if f := verdictOf(t, g.Findings(), "grille-reach"); f.Verdict != test.want {
			t.Errorf("%s of %g mm at %g mm: %s, want %s", test.pattern, test.hole, test.depth, f.Verdict, test.want)
		}
	}
}
