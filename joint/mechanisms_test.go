package joint

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pintle/check"
)

// The classic straight-line linkage of ratios 1, 2, 2.5 with a crank of 10: over
// half a turn the far end runs 40 long and strays 0.097537 (paulscott.info,
// recomputed in linkage-straightline.json).
func TestMechanismFigure(t *testing.T) {
	r := mustFigure(t, "swan")
	v := r.Report.Designs["mechanism.glide"]
	for name, want := range map[string]float64{"travel_x_Q": 40, "travel_y_Q": 0.097537} {
		if got := v[name].(float64); math.Abs(got-want) > 1e-4 {
			t.Errorf("%s = %v, want %v", name, got, want)
		}
	}
	if v["mobility_by_count"] != 1 || v["mobility_by_rank"] != 1 {
		t.Errorf("mobility %v, %v", v["mobility_by_count"], v["mobility_by_rank"])
	}
	if len(r.Report.Curves) != 2 || len(r.Report.Curves[0].At) != 181 {
		t.Errorf("%d curves", len(r.Report.Curves))
	}
	written := false
	for _, f := range r.Files {
		written = written || f.Name == "glide-moving.svg"
	}
	if !written {
		t.Error("the motion is not written")
	}
	told := false
	for _, f := range r.Report.Findings {
		told = told || f.Design == "mechanism.glide" && f.Check == "not-checked" && strings.Contains(f.Detail, "torque, forces and collisions")
	}
	if !told {
		t.Error("what is not checked is not said")
	}
}

// Who asks for a slider-crank among the linkages is shown the way to mechanisms.
func TestLinkageKindShowsMechanisms(t *testing.T) {
	_, err := figure(t, "heron", "tip = 160", "kind = \"slider-crank\" #")
	var field *InputError
	if !errors.As(err, &field) || !strings.Contains(field.Remedy, "[mechanism.NAME]") {
		t.Errorf("%#v", err)
	}
}

// A mechanism that locks on its way fails with the position and the links that
// line up, and passes where its remedy ends it; mistakes in the table are blamed
// on the table.
func TestMechanismFaults(t *testing.T) {
	lock := []string{
		"O = [0, 0], P = [20, 0], A = [0, 10], B = [20, 25], Q = [40, 40]", "O = [0, 0], P = [90, 0], A = [45, 0], B = [68, 33]",
		`["O-A", "P-B"]          # lengths as sketched`, "[\"O-A\", \"P-B\", \"A-B\"]\nlengths = { \"P-B\" = 50, \"A-B\" = 40 }",
		`plates = ["A-B-Q"]             # rod and its far end in one piece`, "",
		"from = 90", "from = 0", "to = 270", "to = 90", `follow = ["Q"]`, "",
	}
	r := mustFigure(t, "swan", lock...)
	var dead check.Finding
	for _, f := range r.Report.Findings {
		if f.Check == "dead-point-margin" {
			dead = f
		}
	}
	// cos = 1/4 (by hand): 75.522 deg.
	if dead.Verdict != check.Fail || !strings.Contains(dead.Detail, "75.522") || !strings.Contains(dead.Detail, "P-B and A-B in one line") {
		t.Errorf("%+v", dead)
	}
	end, ok := strings.CutPrefix(dead.Remedy, "end the drive at ")
	if !ok {
		t.Fatalf("remedy %q", dead.Remedy)
	}
	cured := append([]string(nil), lock...)
	cured[9] = "to = " + end
	for _, f := range mustFigure(t, "swan", cured...).Report.Findings {
		if f.Check == "dead-point-margin" && f.Verdict != check.Pass {
			t.Errorf("ended at %s: %+v", end, f)
		}
	}
	for _, test := range []struct{ from, to, want string }{
		{`crank = "O-A"`, `crank = "A-B"`, "mechanism.glide"},
		{`plates = ["A-B-Q"]`, `plates = ["A-B-Z"]`, "mechanism.glide"},
		{`"P-B"]`, `"P-B", "A-P"]`, "degrees of freedom"},
		{`to = 270`, "to = 270\nlengths = { \"A-Z\" = 3 }", "not among bars"},
		{`fixed = ["O", "P"]`, "", "fixed"},
		{`A = [0, 10]`, `A = [0, nan]`, "finite"},
	} {
		_, err := figure(t, "swan", test.from, test.to)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v", test.to, err)
		}
	}
}

// With its pins named the swan's links are printed: the rod with its three eyes
// in line is a bar with an arm to either side.
func TestMechanismPrints(t *testing.T) {
	r := mustFigure(t, "swan", "follow = [\"Q\"]", "follow = [\"Q\"]\npin = \"M2\"\n[printer]\nmaterial = \"PETG\"")
	want := map[string]float64{"glide-o-a": 10 + 6, "glide-p-b": 25 + 6, "glide-a-b-q": 50 + 6}
	for _, p := range r.Report.Parts {
		// The eyes are three times M2 in diameter, less chords of the outline.
		if math.Abs(max(p.SizeMM[0], p.SizeMM[1])-want[p.Name]) > 0.1 {
			t.Errorf("%s is %v mm long, want %v", p.Name, p.SizeMM, want[p.Name])
		}
		delete(want, p.Name)
	}
	if len(want) > 0 || len(r.Failed()) > 0 {
		t.Errorf("not printed %v; failed %v", want, r.Failed())
	}
	if _, err := figure(t, "swan", "follow = [\"Q\"]", "pin = \"M9\"\n[printer]\nmaterial = \"PETG\""); err == nil || !strings.Contains(err.Error(), "M9") {
		t.Errorf("an unknown screw: %v", err)
	}
}
