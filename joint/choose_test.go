package joint

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pintle/check"
	"pintle/drive"
)

// A file that leaves module, teeth and shift open builds; the report says why the
// pair was chosen and how to keep it, and the file with these lines typed in
// builds the very same pair.
func TestChosenPairIsPinned(t *testing.T) {
	for _, open := range []string{"", "ratio = 1.2\n", "module = 2\n", "teeth = [30, 34]\n", "centre_distance = 52\n", "ratio = 1.1\nlargest_wheel = 60\n"} {
		r := build(t, pairLines, open)
		f := findingOf(t, r, "", "pair-choice")
		_, pin, ok := strings.Cut(f.Remedy, "type: ")
		if f.Verdict != check.Note || !ok || f.Detail == "" {
			t.Fatalf("%q: %+v", open, f)
		}
		if failed := r.Failed(); len(failed) > 0 {
			t.Errorf("%q: chosen %s, and fails %v", open, pin, failed)
		}
		keep := strings.ReplaceAll(pin, ", shift", "\nshift")
		keep = strings.ReplaceAll(keep, ", teeth", "\nteeth") + "\n"
		if strings.HasPrefix(open, "centre") {
			keep += open
		}
		pinned := build(t, pairLines, keep)
		if a, b := r.Report.Designs["gears.lamp"], pinned.Report.Designs["gears.lamp"]; !reflect.DeepEqual(a, b) {
			t.Errorf("%q: pinned with %q the pair is another: %v, %v", open, keep, a["a_w"], b["a_w"])
		}
		if again := build(t, pairLines, open); !reflect.DeepEqual(again.Report, r.Report) {
			t.Errorf("%q: two builds differ", open)
		}
		search := r.Report.Designs["search.lamp"]
		if search["chosen"] == nil || len(search["candidates"].([]Candidate)) == 0 {
			t.Errorf("%q: the report keeps %v", open, search)
		}
	}
}

// The joint around the pair is looked at too: where the servo would break into
// the ring's recess, the axes move apart.
func TestChosenPairFitsTheJoint(t *testing.T) {
	r := build(t, pairLines, "", "bolt_circle = 36, ", "bolt_circle = 36, ", "[housing.lamp]\n", "[housing.lamp]\nwall = 9\n")
	if failed := r.Failed(); len(failed) > 0 {
		t.Errorf("fails %+v", failed)
	}
	if bridge := findingOf(t, r, "", "plate-bridge"); bridge.Verdict == check.Fail {
		t.Errorf("bridge %g", bridge.Value)
	}
}

// Where no pair does what is asked, the build fails with one finding that names
// the smallest change; followed, the joint has a pair.
func TestNoPairIsAFinding(t *testing.T) {
	changes := []string{"swing = 130", "swing = 150", pairLines, "ratio = 1.3\n"}
	r := build(t, changes...)
	failed := r.Failed()
	if len(failed) != 1 || failed[0].Check != "pair-choice" || len(r.Files) != 1 && len(r.Report.Parts) > 0 {
		t.Fatalf("failed %+v, %d parts", failed, len(r.Report.Parts))
	}
	if !strings.HasPrefix(failed[0].Remedy, "ratio <= 1.21, or ") {
		t.Errorf("remedy %q", failed[0].Remedy)
	}
	for _, cure := range strings.Split(failed[0].Remedy, ", or ") {
		name, value, ok := strings.Cut(strings.ReplaceAll(cure, "<=", ">="), " >= ")
		value, _, _ = strings.Cut(value, " ")
		var follow []string
		switch name {
		case "ratio":
			follow = []string{"swing = 130", "swing = 150", pairLines, "ratio = " + value + "\n"}
		case "swing":
			follow = []string{"swing = 130", "swing = " + value, pairLines, "ratio = 1.3\n"}
		case "servo travel":
			var travel float64
			if _, err := fmt.Sscan(value, &travel); err != nil {
				t.Fatal(err)
			}
			follow = append(changes, "[[500, -90], [1500, 0], [2500, 90]]", fmt.Sprintf("[[500, %g], [1500, 0], [2500, %g]]", -travel/2, travel/2))
		default:
			t.Errorf("the remedy names %q", cure)
			continue
		}
		if !ok {
			t.Errorf("no number in %q", cure)
		}
		if f := findingOf(t, build(t, follow...), "", "pair-choice"); f.Verdict != check.Note {
			t.Errorf("%s opens nothing: %s", cure, f.Detail)
		}
	}
}

// Every kind of wish that stands in the way is named with a change that opens the
// search; a little less does not.
func TestObstaclesOpen(t *testing.T) {
	seen := map[string]bool{}
	for _, changes := range [][]string{
		{"face_width = 10", "face_width = 10\nlargest_wheel = 40"},
		{"face_width = 10", "face_width = 10\ncentre_distance = 20"},
		{"face_width = 10", "face_width = 10\nratio = 1.5"},
		{`"20kgf.cm"`, `"600kgf.cm"`},
		{"time = 4.0", "time = 0.3"},
		{"backlash = 0.2 ", "backlash = 0.01 "},
		{"face_width = 10", "face_width = 10\nmodule = 0.4"},
	} {
		w := wishFrom(t, changes...)
		w.modules = w.modules[:1]
		s := w.search(3)
		if len(s.Candidates) > 0 || len(s.Obstacles) == 0 {
			t.Errorf("%v: %d pairs, %d obstacles", changes, len(s.Candidates), len(s.Obstacles))
			continue
		}
		for _, o := range s.Obstacles {
			seen[o.Wish] = true
			for _, l := range w.loosenings() {
				if l.wish != o.Wish || (o.To > o.From) != (l.reach > 1) && l.steps == nil {
					continue
				}
				open, near := *w, *w
				if err := l.with(&open, o.To); err != nil || open.any() == nil {
					t.Errorf("%v: %s opens nothing, %v", changes, o.Text, err)
				}
				if l.steps == nil {
					if err := l.with(&near, o.From*(1+0.9*(o.To/o.From-1))); err == nil && near.any() != nil && o.Wish != "ratio" && o.Wish != "centre distance" {
						t.Errorf("%v: %s is not the smallest change", changes, o.Text)
					}
				}
			}
		}
	}
	for _, wish := range []string{"largest wheel", "centre distance", "ratio", "stall torque", "time", "backlash", "module", "swing", "face width"} {
		if !seen[wish] {
			t.Errorf("%s is never in the way", wish)
		}
	}
}

// A ratio that one stage does not reach is met by two: the ratio is the product,
// the torque and the lost motion follow from both, each pair passes.
func TestTrains(t *testing.T) {
	w := wishFrom(t, "swing = 130", "swing = 9", "face_width = 10", "face_width = 10\nratio = 12\nlargest_wheel = 100", "time = 4.0", "time = 8", `"20kgf.cm"`, `"4kgf.cm"`)
	s := w.search(3)
	if len(s.Candidates) > 0 || len(s.Trains) == 0 {
		t.Fatalf("%d pairs, %d trains", len(s.Candidates), len(s.Trains))
	}
	for _, train := range s.Trains {
		one, two := train.Stages[0], train.Stages[1]
		i1, i2 := float64(one.Teeth[1])/float64(one.Teeth[0]), float64(two.Teeth[1])/float64(two.Teeth[0])
		if r := i1 * i2; r != train.Ratio || r < 12*0.99 || r > 12*1.01 || two.Tip[1] > 100 {
			t.Errorf("%v %v: ratio %g, tip %g", one.Teeth, two.Teeth, train.Ratio, two.Tip[1])
		}
		d, err := drive.Size(func() drive.Spec {
			spec := w.drive
			spec.Ratio, spec.Efficiency = train.Ratio, 0.81
			return spec
		}())
		if err != nil {
			t.Fatal(err)
		}
		if got := d.PeakShare(); got != train.PeakShare {
			t.Errorf("peak %g, sized %g", train.PeakShare, got)
		}
		// j/r at each wheel, the first divided by the second ratio (derived).
		const deg = 57.29577951308232
		lost := deg * (0.2/(one.CentreDistance*i1/(1+i1))/i2 + 0.2/(two.CentreDistance*i2/(1+i2)))
		if diff := lost - train.LostMotion; diff > 1e-6 || diff < -1e-6 {
			t.Errorf("lost motion %g deg, by hand %g", train.LostMotion, lost)
		}
	}
}

// What a search cannot choose is refused at its place.
func TestSearchRefuses(t *testing.T) {
	for _, test := range []struct{ lines, want string }{
		{"shift = \"balanced\"\n", "gears.lamp.shift"},
		{"ratio = 140\n", "gears.lamp.ratio"},
		{"ratio = -2\n", "gears.lamp.ratio"},
		{"ratio = 2\nratio_tolerance = 3\n", "gears.lamp.ratio_tolerance"},
		{"largest_wheel = -5\n", "gears.lamp.largest_wheel"},
		{"clear = -1\n", "gears.lamp.clear"},
		{"module = 900\n", "gears.lamp.module"},
		{"measured = { W1 = 16 }\n", "gears.lamp.measured"},
		{"module = 0\n", "gears.lamp.module"},
	} {
		_, err := Design(read(t, pairLines, test.lines), Options{})
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v", test.lines, err)
		}
	}
}
