package joint_test

import (
	"math"
	"strings"
	"testing"

	"pintle/check"
)

// The gear figures of the bell-striker, worked out by hand for it: a 45, contact
// ratio 1.635, W5 of 40 teeth 20.673, W3 of 20 teeth 11.397, lost motion 0.2 mm on
// 15 mm = 0.764 deg; 50 deg take the small gear through 2.8 of its teeth. It is
// told to be re-indexed or made a sector: 2.8 + 1.6 teeth and one to spare.
func TestBellStrikerGears(t *testing.T) {
	r := designed(t, "bell-striker.toml")
	v := r.Report.Designs["gears.strike"]
	for key, want := range map[string]float64{"a_w": 45, "epsilon_alpha": 1.635, "W1": 20.673, "W2": 11.397, "lost_motion_deg": 0.764} {
		if got := v[key].(float64); math.Abs(got-want) > 6e-4 {
			t.Errorf("%s = %.4f, want %.3f", key, got, want)
		}
	}
	if v["k1"] != 5 || v["k2"] != 3 {
		t.Errorf("spans over %v and %v teeth, want 5 and 3", v["k1"], v["k2"])
	}
	seen := map[string]check.Finding{}
	for _, f := range r.Report.Findings {
		seen[f.Check+" "+f.Part] = f
		if f.Design == "gears.strike" && f.Verdict == check.Fail {
			t.Errorf("%s %s fails at %g", f.Part, f.Check, f.Value)
		}
	}
	sector := seen["working-sector strike-wheel"]
	if sector.Value != 3 || sector.Verdict != check.Note || !strings.Contains(sector.Remedy, "move the gear on by 3 teeth") || !strings.Contains(sector.Remedy, "a sector of 6 teeth") {
		t.Errorf("working sector: %s %g, %q", sector.Verdict, sector.Value, sector.Remedy)
	}

	// Followed, with the sector's teeth rounded up to an odd number, nothing is lost.
	r = designed(t, "bell-striker.toml", `wheel = { hub = "round", bore = 6 }`, `wheel = { hub = "round", bore = 6, sector = 6 }`)
	for _, f := range r.Report.Findings {
		if f.Check == "sector" && (f.Verdict != check.Pass || f.Value != 7) {
			t.Errorf("a sector of 6 teeth: %s at %g, %q", f.Verdict, f.Value, f.Remedy)
		}
		if f.Design == "gears.strike" && f.Verdict == check.Fail {
			t.Errorf("as a sector %s %s fails at %g", f.Part, f.Check, f.Value)
		}
	}
}
