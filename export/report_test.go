package export_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"regexp"
	"strings"
	"testing"

	"pintle/check"
	"pintle/export"
	"pintle/fit"
)

// lampReport is a report with something in each of its lists.
func lampReport() export.Report {
	ratio := check.Rule{Name: "contact-ratio", Symbol: "epsilon_alpha", Source: check.CommonPractice, Limit: check.Limit{Caution: 1.2, Fail: 1.1}}
	travel := check.Rule{Name: "servo-travel", Unit: "deg", Source: check.CommonPractice, Limit: check.Limit{Caution: 5, Fail: 0}}
	share := check.Rule{Name: "servo-torque", Symbol: "T_peak/T_stall", Source: check.CommonPractice, Sense: check.AtMost, Limit: check.Limit{Caution: 0.4, Fail: 0.5}}
	findings := []check.Finding{
		ratio.Judge(1.665234567891234, ratio.Limit, ""),
		travel.Judge(3.1, travel.Limit, "ratio <= 1.24, or swing <= 125 deg"),
		share.Judge(0.62, share.Limit, "ratio >= 1.6"),
	}
	for i := range findings {
		findings[i].Design = "gears.lamp"
	}
	findings[2].Detail = "worst at 65.0 deg from mid-swing"
	first, _ := check.CautionOf("C2")
	card := fit.Card{Name: "petg04", Bore: fit.Error{Offset: -0.18, Sigma: 0.03}}
	guess := fit.Card{Name: "none", Bore: fit.FirstGuessBore}
	return export.Report{
		Tool: "pintle 0.1", Title: "Harbour lighthouse keeper: lamp <turn>", Findings: findings,
		Inputs: map[string]any{
			"gears": map[string]any{"lamp": map[string]any{"module": 1.5, "teeth": []int{28, 36}}},
			"servo": map[string]any{"lamp": map[string]any{"points": [][]float64{{500, -90}, {1500, 0}, {2500, 90}}}},
		},
		Designs: map[string]map[string]any{
			"housing.lamp": {"seat": 39.9}, "gears.lamp": {"m": 1.5, "a_w": 48.0, "ratio": 36.0 / 28, "d1": 42, "undercut": false},
		},
		Parts: []export.Part{
			{Name: "lamp-wheel", Design: "gears.lamp", Files: []string{"lamp-wheel.stl", "lamp-wheel-drawing.svg"}, SizeMM: [3]float64{57, 57, 18}, VolumeMM3: 23456.78, MassG: 29.1, Triangles: 4242, Closed: true, Material: "PETG", Count: 1, Orientation: "bed side down, not mirrored", BeadsAcross: 13},
			{Name: "lamp-ring", Design: "housing.lamp", Files: []string{"lamp-ring.stl"}, SizeMM: [3]float64{64, 64, 16.25}, VolumeMM3: 19000.5, MassG: 24.1, Triangles: 3000, Closed: true, Material: "PETG, black", Count: 2},
		},
		Fits:     []fit.Fit{card.Hole("lamp-ring", "seat", 39.9), guess.Hole("lamp-wheel", "screw hole", 3.4)},
		Placed:   []export.Placed{{Joint: "lamp", Part: "lamp-wheel", Z: 12, MovesWith: "lamp"}, {Joint: "lamp", Part: "lamp-ring", TurnDeg: 45, Flip: true}},
		Motions:  []export.Moving{{Joint: "lamp", Name: "lamp", Of: "wheel", At: [][4]float64{{-65, 0, 0, -65}, {65, 0, 0, 65}}}},
		Channels: []export.Channel{{Channel: 3, Servo: "lamp", Moves: "gears.lamp", Pulse: [3]float64{571.4, 1500, 2428.6}, ServoDeg: [3]float64{-83.57, 0, 83.57}, Joint: [3]float64{-65, 0, 65}, Unit: "deg", StallCurrent: 2.5}},
		Clearances: []export.Clearance{
			{Joint: "lamp", A: "wheel", B: "ring", Width: 4.25, X: 1, Y: 2, Z: 3, Moving: true},
			{Joint: "lamp", A: "pinion", B: "post", Width: 2, Moving: true, Of: "wheel", AtDeg: new(float64)},
		},
		Cautions: []export.Caution{first},
	}
}

func jsonText(t *testing.T, r export.Report) string {
	t.Helper()
	var out bytes.Buffer
	if err := export.WriteJSON(&out, r); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// Keys stand in the order of the contract, top level first.
func TestJSONKeyOrder(t *testing.T) {
	text := jsonText(t, lampReport())
	at := -1
	for _, key := range []string{"schema", "tool", "title", "verdict", "inputs", "designs", "gears.lamp", "housing.lamp", "parts", "size_mm", "fits", "findings", "placed", "cautions"} {
		next := strings.Index(text, `"`+key+`":`)
		if next <= at {
			t.Errorf("%s at %d, after %d", key, next, at)
		}
		at = next
	}
}

// Ten significant digits: the values are worked by hand.
func TestJSONNumbers(t *testing.T) {
	for _, test := range []struct {
		value any
		want  string
	}{
		{36.0 / 28, "1.285714286"},
		{-2e-7 / 3, "-6.666666667e-8"},
		{1e21 / 3, "333333333300000000000"},
		{4e30 / 3, "1.333333333e+30"},
		{48.0, "48"},
		{math.Copysign(0, -1), "0"},
		{0.1 + 0.2, "0.3"},
		{57, "57"},
		{"0.12345678901234", `"0.12345678901234"`},
		{`a "12.345678901234" \`, `"a \"12.345678901234\" \\"`},
		{"<= 1 & é", `"<= 1 & é"`},
		{true, "true"},
	} {
		r := export.Report{Designs: map[string]map[string]any{"x": {"v": test.value}}}
		if text := jsonText(t, r); !strings.Contains(text, `"v": `+test.want+"\n") {
			t.Errorf("%v is written otherwise than %s:\n%s", test.value, test.want, text)
		}
	}
}

func TestJSONIsTheSameTwice(t *testing.T) {
	want := jsonText(t, lampReport())
	for range 20 {
		if got := jsonText(t, lampReport()); got != want {
			t.Fatal("equal reports are written differently")
		}
	}
	if regexp.MustCompile(`20\d\d-\d\d`).MatchString(want) {
		t.Error("the report is dated")
	}
}

func TestNotFiniteIsRefused(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for name, spoil := range map[string]func(*export.Report){
			"design":  func(r *export.Report) { r.Designs["gears.lamp"]["m"] = bad },
			"part":    func(r *export.Report) { r.Parts[0].SizeMM[1] = bad },
			"finding": func(r *export.Report) { r.Findings[0].Value = bad },
			"input":   func(r *export.Report) { r.Inputs = map[string]any{"x": bad} },
		} {
			r := lampReport()
			spoil(&r)
			var out bytes.Buffer
			if err := export.WriteJSON(&out, r); err == nil || out.Len() > 0 {
				t.Errorf("%g in a %s: WriteJSON gives %v, %d bytes", bad, name, err, out.Len())
			}
			if err := export.WriteHTML(&out, r, export.Figures{}); err == nil || out.Len() > 0 {
				t.Errorf("%g in a %s: WriteHTML gives %v, %d bytes", bad, name, err, out.Len())
			}
		}
	}
}

func TestVerdict(t *testing.T) {
	finding := func(v check.Verdict, accepted string) check.Finding {
		return check.Finding{Verdict: v, Accepted: accepted}
	}
	pass, note, caution, fail := finding(check.Pass, ""), finding(check.Note, ""), finding(check.Caution, ""), finding(check.Fail, "")
	accepted := finding(check.Fail, "only for show")
	for _, test := range []struct {
		findings []check.Finding
		want     check.Verdict
	}{
		{nil, check.Pass},
		{[]check.Finding{pass, note}, check.Pass},
		{[]check.Finding{caution, pass}, check.Caution},
		{[]check.Finding{accepted, pass}, check.Caution},
		{[]check.Finding{accepted, fail, caution}, check.Fail},
	} {
		if got := export.Verdict(test.findings); got != test.want {
			t.Errorf("%v gives %s, want %s", test.findings, got, test.want)
		}
		var out map[string]any
		if err := json.Unmarshal([]byte(jsonText(t, export.Report{Verdict: "pass", Findings: test.findings})), &out); err != nil || out["verdict"] != string(test.want) {
			t.Errorf("report says %v, want %s", out["verdict"], test.want)
		}
	}
}

// The table must read back as what was written, comma in a name and all
// (RFC 4180).
func TestPartsCSV(t *testing.T) {
	var out bytes.Buffer
	if err := export.WritePartsCSV(&out, lampReport().Parts); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"part|design|material|count|x_mm|y_mm|z_mm|volume_mm3|mass_g|beads_across|orientation|file",
		"lamp-wheel|gears.lamp|PETG|1|57|57|18|23456.78|29.1|13|bed side down, not mirrored|lamp-wheel.stl",
		"lamp-ring|housing.lamp|PETG, black|2|64|64|16.25|19000.5|24.1|||lamp-ring.stl",
	}
	if len(rows) != len(want) {
		t.Fatalf("%d rows", len(rows))
	}
	for i, row := range rows {
		if got := strings.Join(row, "|"); got != want[i] {
			t.Errorf("row %d: %s, want %s", i, got, want[i])
		}
	}
	if err := export.WritePartsCSV(&out, []export.Part{{MassG: math.NaN()}}); err == nil {
		t.Error("a mass that is no number was written")
	}
}
