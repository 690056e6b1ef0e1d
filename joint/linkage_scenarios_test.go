package joint

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pintle/check"
	"pintle/fit"
)

// figure reads one of the figures with some of its lines changed.
func figure(t *testing.T, name string, changes ...string) (*Result, error) {
	t.Helper()
	data, err := os.ReadFile("../testdata/" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%s has no %q to change", name, changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	file, err := Read(name+".toml", []byte(text))
	if err != nil {
		return nil, err
	}
	return Design(file, Options{Tool: "pintle test"})
}

// plain holds the results of figures as they stand; tests only read them.
var plain = map[string]*Result{}

func mustFigure(t *testing.T, name string, changes ...string) *Result {
	t.Helper()
	if r := plain[name]; r != nil && len(changes) == 0 {
		return r
	}
	r, err := figure(t, name, changes...)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if len(changes) == 0 {
		plain[name] = r
	}
	return r
}

// By hand: pins and pivot give 0.1 mm each, the card's slip, along a lever of 30 mm
// at 54.63 deg, seen 160 mm out, and the pivot's 0.1 mm besides. The rod's middle
// stands 3.6 mm of hub, 5.6 of arm, 0.5 of washer and half of 6 above the servo's
// body, whose stall puts 76.45 N into the rod.
func TestLinkagePlayAndTilt(t *testing.T) {
	r := mustFigure(t, "heron")
	want := map[string]float64{"tip-play": 160*3*0.1/(30*math.Sin(54.6304*math.Pi/180)) + 0.1, "horn-tilt": 76.45 * 12.7 / 1000}
	for _, f := range r.Report.Findings {
		if figure, ok := want[f.Check]; ok {
			delete(want, f.Check)
			if math.Abs(f.Value-figure) > 2e-4 {
				t.Errorf("%s %v, want %v", f.Check, f.Value, figure)
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not judged: %v", want)
	}
	for _, f := range mustFigure(t, "baker").Report.Findings { // its lever grips the shaft
		if f.Check == "tip-play" && strings.Contains(f.Detail, "pivot") {
			t.Errorf("a clamp has play: %s", f.Detail)
		}
	}
}

// Figures calculated independently of this code, with half a unit of the last
// digit allowed.
func TestLinkageFigures(t *testing.T) {
	for _, test := range []struct {
		figure, design, symbol string
		want, unit             float64
	}{
		{"heron", "linkage.nod", "lever_swing_deg", 56.2, 0.1},
		{"heron", "linkage.nod", "lever_from_deg", 62.55, 0.01},
		{"heron", "linkage.nod", "lever_to_deg", 118.7, 0.1},
		{"heron", "linkage.nod", "ratio_neutral", 0.667, 0.001},
		{"heron", "linkage.nod", "ratio_min", 0.493, 0.001},
		{"heron", "linkage.nod", "mu_min_deg", 54.6, 0.1},
		{"heron", "drive.nod", "gravity_torque", 0.168, 0.001},
		{"baker", "linkage.knead", "lever_swing_deg", 45.3, 0.1},
		{"baker", "linkage.knead", "mu_min_deg", 56.7, 0.1},
		{"baker", "linkage.knead", "holding_torque", 0.217, 0.001},
		{"baker", "drive.knead", "gravity_torque", 0.324, 0.001},
		{"baker", "linkage.knead", "rod_cut", 71.02 - 18 + 13, 0.001},
		{"mayor", "linkage.jaw", "lever_swing_deg", 29.4, 0.1},
		{"mayor", "linkage.jaw", "mu_min_deg", 64.9, 0.1},
		{"ferrywoman", "linkage.row", "lever_swing_deg", 60, 0.1},
		{"ferrywoman", "linkage.row", "mu_min_deg", 57.1, 0.1},
	} {
		got, ok := mustFigure(t, test.figure).Report.Designs[test.design][test.symbol].(float64)
		if !ok || math.Abs(got-test.want) > test.unit/2*1.001 {
			t.Errorf("%s: %s %s = %v, want %v", test.figure, test.design, test.symbol, got, test.want)
		}
	}
	// An axis whose posture is not known meets its worst: 0.168 N·m at the neck,
	// 0.124 N·m at the servo.
	worst := mustFigure(t, "heron", "elevation = -12.5", "overhead = false").Report.Designs["linkage.nod"]["holding_torque"].(float64)
	if math.Abs(worst-0.124) > 0.0005 {
		t.Errorf("heron: %v N·m held at the servo, want 0.124", worst)
	}
}

// Every figure builds; its parts are those that its makers print.
func TestLinkageFiguresBuild(t *testing.T) {
	for name, want := range map[string][]string{
		"heron":      {"nod-horn", "nod-bar", "nod-lever", "nod-bracket"},
		"baker":      {"knead-horn", "knead-lever", "knead-bracket"},          // the rod is cut
		"mayor":      {"jaw-bar", "jaw-lever", "jaw-bracket", "voice-grille"}, // the rod turns in the servo's own horn
		"ferrywoman": {"row-horn", "row-bar", "row-lever"},
	} {
		r := mustFigure(t, name)
		if failed := r.Failed(); len(failed) > 0 {
			t.Errorf("%s fails %v", name, failed)
		}
		var parts []string
		for _, p := range r.Report.Parts {
			parts = append(parts, p.Name)
		}
		if !slices.Equal(parts, want) {
			t.Errorf("%s: parts %v, want %v", name, parts, want)
		}
	}
}

// What must be refused is refused at the line to blame, with a sentence that
// says what and where, and what cures it.
func TestLinkageFiguresRefused(t *testing.T) {
	for _, test := range []struct {
		name, figure string
		changes      []string
		says         []string
	}{
		{"rod too short to close", "heron", []string{"length = 90.55", "length = 60"}, []string{"heron.toml:45:", "linkage.nod.rod", "cannot be assembled with the horn at", "deg"}},
		{"crank cannot turn fully", "ferrywoman", []string{"rod = 73.67", "rod = 60"}, []string{"linkage.row", "deg"}},
		{"a positional servo for full turns", "ferrywoman", []string{
			"[load.oar]", "[servo.oar]\nstall_torque = 1\nspeed = 300\npoints = [[1000, -45], [2000, 45]]\n\n[load.oar]",
			"turning = true ", "servo = \"oar\"\nturning = true ",
		}, []string{"linkage.row.servo", "positional", "full turn"}},
		{"pin in the horn's own arm", "mayor", []string{"horn = 12 ", "horn = 13 "}, []string{"linkage.jaw.horn 13 mm", "own horn", "15.5"}},
		{"pivot in the servo", "heron", []string{"frame = 90", "frame = { distance = 90, servo_turn = 0 }", "length = 90.55", "length = 40", "frame = { distance = 90,", "frame = { distance = 38,"}, []string{"linkage.nod.frame.distance", "tab hole"}},
		{"unknown key", "heron", []string{"neutral = 90", "neutrel = 90"}, []string{"neutrel", "not a known key"}},
		{"unknown hub", "heron", []string{"lever = { length = 30,", "lever = { length = 30, hub = \"bering\","}, []string{"bering", "is not known"}},
		{"no such servo", "heron", []string{"servo = \"neck\"", "servo = \"nick\""}, []string{"there is no [servo.nick]"}},
		{"zero", "heron", []string{"horn = 20 ", "horn = 0 "}, []string{"linkage.nod.horn 0 mm"}},
		{"rod ends meet", "baker", []string{"length = 71.02", "length = 17"}, []string{"linkage.knead"}},
	} {
		_, err := figure(t, test.figure, test.changes...)
		var placed *InputError
		if !errors.As(err, &placed) || placed.Remedy == "" {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		for _, word := range test.says {
			if !strings.Contains(err.Error(), word) {
				t.Errorf("%s: %q does not say %q", test.name, err, word)
			}
		}
	}
}

// The variants that fail a check: which, and what the finding tells.
func TestLinkageFiguresFail(t *testing.T) {
	for _, test := range []struct {
		name, figure string
		changes      []string
		check, part  string
	}{
		{"PLA behind a window of 50 °C", "baker", []string{"material = \"PETG\" ", "material = \"PLA\" "}, "heat", "knead-lever"},
		{"a servo too weak", "heron", []string{"9.4kgf.cm", "2kgf.cm"}, "servo-torque", ""},
		{"more swing than there is", "heron", []string{"swing = 45", "swing = 60"}, "swing-covered", ""},
		{"a thread that does not hold", "baker", []string{"depth = 9 }, {", "depth = 4 }, {"}, "thread-engagement", "knead-rod"},
		{"near a dead point", "heron", []string{"[1000, -45]", "[1000, -72]", "[2000, 45]", "[2000, 72]", "horn = 20", "horn = 29"}, "transmission-angle", ""},
	} {
		r, err := figure(t, test.figure, test.changes...)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		found := false
		for _, f := range r.Failed() {
			if f.Check == test.check && f.Part == test.part {
				found = true
				if f.Remedy == "" {
					t.Errorf("%s: no remedy", test.name)
				}
			}
		}
		if !found {
			t.Errorf("%s: %s does not fail; %v does", test.name, test.check, r.Failed())
		}
	}
}

// The grille of the mayor's voice: 40.3 % open at a pitch of 4.5, which is a
// caution below 50 %; 51.0 % at 4.0, which passes.
func TestMayorGrille(t *testing.T) {
	for pitch, want := range map[string]check.Verdict{"pitch = 4.0": check.Pass, "pitch = 4.5": check.Caution} {
		r := mustFigure(t, "mayor", "pitch = 4.0", pitch)
		if f := findingOf(t, r, "voice-grille", "grille-open-area"); f.Verdict != want {
			t.Errorf("%s: %v is %s, want %s", pitch, f.Value, f.Verdict, want)
		}
	}
}

// What the linkage's parts are made for: the bar's holes let the screws turn, the
// eyes hold their thread, all through the printer card.
func TestLinkageFits(t *testing.T) {
	m3, _ := fit.ScrewNamed("M3")
	want := map[string]float64{
		"nod-bar hub, turns on M3":              3.1,
		"nod-bar arm eye, turns on M3":          3.1,
		"nod-lever arm eye, M3 cuts its thread": m3.Pilot,
		"nod-horn arm eye, M3 cuts its thread":  m3.Pilot,
		"nod-lever hub, turns on M4":            4.1,
	}
	for _, f := range mustFigure(t, "heron").Report.Fits {
		if w, ok := want[f.Part+" "+f.Feature]; ok {
			if math.Abs(f.Wanted-w) > 1e-9 || math.Abs(f.Drawn-w-0.18) > 1e-9 {
				t.Errorf("%s %s: wanted %v, drawn %v; want %v, drawn 0.18 larger", f.Part, f.Feature, f.Wanted, f.Drawn, w)
			}
			delete(want, f.Part+" "+f.Feature)
		}
	}
	if len(want) > 0 {
		t.Errorf("no fits %v", want)
	}
}

// Placed, the eyes of rod, horn and lever stand over each other at every station:
// the pins fit. The rod is as long as its pins are apart.
func TestLinkageStandsTogether(t *testing.T) {
	r := mustFigure(t, "heron")
	at := map[string]func(x, y, station float64) (float64, float64){}
	for _, p := range r.Report.Placed {
		for _, m := range r.Report.Motions {
			if m.Name != p.MovesWith || m.Joint != p.Joint {
				continue
			}
			at[p.Part] = func(x, y, station float64) (float64, float64) {
				if p.Flip {
					y = -y
				}
				sin, cos := math.Sincos(p.TurnDeg * math.Pi / 180)
				x, y = x*cos-y*sin+p.X, x*sin+y*cos+p.Y
				for _, s := range m.At {
					if s[0] == station {
						sin, cos = math.Sincos(s[3] * math.Pi / 180)
						return x*cos - y*sin + s[1], x*sin + y*cos + s[2]
					}
				}
				t.Fatalf("no station %v", station)
				return 0, 0
			}
		}
	}
	stations := r.Report.Motions[0].At
	if len(stations) < 30 {
		t.Fatalf("%d stations", len(stations))
	}
	for _, s := range stations {
		hx, hy := at["nod-horn"](20, 0, s[0])
		bx, by := at["nod-bar"](0, 0, s[0])
		ex, ey := at["nod-bar"](90.55, 0, s[0])
		lx, ly := at["nod-lever"](30, 0, s[0])
		if math.Hypot(hx-bx, hy-by) > 1e-6 || math.Hypot(lx-ex, ly-ey) > 1e-6 {
			t.Fatalf("horn at %v deg: pins at (%.4f, %.4f) and (%.4f, %.4f), eyes at (%.4f, %.4f) and (%.4f, %.4f)", s[0], hx, hy, lx, ly, bx, by, ex, ey)
		}
	}
}

// The stack of the heron, by hand from the measured servo: the disc lies 11 + 3.6
// over the plate, its arm is 5.6 thick, so horn and lever end at 20.2; a washer
// of M3 is 0.5, the post ends a washer of M4 (0.8) under a lever of 6.
func TestLinkageStack(t *testing.T) {
	r := mustFigure(t, "heron")
	for _, p := range r.Report.Placed {
		want := map[string]float64{"nod-horn": 20.2, "nod-bar": 20.7, "nod-lever": 14.2, "nod-bracket": -5}
		if math.Abs(p.Z-want[p.Part]) > 1e-9 {
			t.Errorf("%s stands at %v, want %v", p.Part, p.Z, want[p.Part])
		}
	}
	for _, p := range r.Report.Parts {
		if p.Name == "nod-bracket" && math.Abs(p.SizeMM[2]-(5+13.4)) > 1e-3 {
			t.Errorf("plate and post are %v mm high, want 18.4", p.SizeMM[2])
		}
	}
	text := strings.Join(r.Report.Assembly, "\n")
	for _, words := range []string{"4 screws M2 through the arm's floor", "M4 x 25 into the post", "M3 x 16 through the bar"} {
		if !strings.Contains(text, words) {
			t.Errorf("the assembly does not say %q:\n%s", words, text)
		}
	}
	codes := ""
	for _, c := range r.Report.Cautions {
		codes += c.Code + " "
	}
	if codes != "C1 C3 C4 C9 C10 C15 " {
		t.Errorf("cautions %s", codes)
	}
}

// The table from joint to pulse of the heron covers the wanted swing of 45 deg
// about its middle, within the measured 1000 to 2000 µs, and rises or falls all
// along.
func TestLinkagePulses(t *testing.T) {
	r := mustFigure(t, "heron")
	rows := tableOf(t, r, "nod-pulses.csv")
	if strings.Join(rows[0], ",") != "joint_deg,lever_deg,horn_deg,pulse_us" || len(rows) < 10 {
		t.Fatalf("%d rows, headings %v", len(rows), rows[0])
	}
	var joint, pulse []float64
	for _, row := range rows[1:] {
		joint, pulse = append(joint, figureIn(t, row[0])), append(pulse, figureIn(t, row[3]))
	}
	last := len(joint) - 1
	if math.Abs(joint[last]-joint[0]-45) > 1e-3 || math.Abs(joint[last]+joint[0]) > 1e-3 {
		t.Errorf("from %v to %v deg", joint[0], joint[last])
	}
	for i := 1; i <= last; i++ {
		if joint[i] <= joint[i-1] || (pulse[i] > pulse[i-1]) != (pulse[1] > pulse[0]) || pulse[i] < 1000 || pulse[i] > 2000 {
			t.Errorf("row %d: %v deg, %v µs", i, joint[i], pulse[i])
		}
	}
}

// The rod to cut stands in the table of parts: 71.02 less two ends of 9 mm and
// twice 6.5 mm screwed on.
func TestLinkageCutList(t *testing.T) {
	for _, row := range tableOf(t, mustFigure(t, "baker"), "parts.csv") {
		if row[0] == "knead-rod" {
			if row[2] != "threaded rod M3" || row[4] != "66.02" || row[5] != "3" {
				t.Errorf("%v", row)
			}
			return
		}
	}
	t.Error("no rod in the table of parts")
}

// The revision on a mechanism's drawing changes with what it shows, the rod's
// length, and not with what it leaves to others, the bar's thickness.
func TestMechanismRevision(t *testing.T) {
	revision := func(r *Result) string {
		for _, f := range r.Files {
			if f.Name != "nod-mechanism.svg" {
				continue
			}
			var text bytes.Buffer
			if err := f.Write(&text); err != nil {
				t.Fatal(err)
			}
			if found := regexp.MustCompile(`>Revision</text>\s*<text[^>]*>([0-9A-F]{6})<`).FindStringSubmatch(text.String()); found != nil {
				return found[1]
			}
		}
		t.Fatal("no revision")
		return ""
	}
	was := revision(mustFigure(t, "heron"))
	if is := revision(mustFigure(t, "heron", "length = 90.55", "length = 90.8")); is == was {
		t.Errorf("another rod, the same revision %s", is)
	}
	if is := revision(mustFigure(t, "heron", "thickness = 6", "thickness = 6.5")); is != was {
		t.Errorf("a thicker bar changes the revision from %s to %s", was, is)
	}
}

// The remedy against a bar that bows, followed, passes.
func TestLinkageBarRemedy(t *testing.T) {
	f := findingOf(t, mustFigure(t, "heron", "thickness = 6", "thickness = 5"), "", "rod-buckling")
	want := "rod = { length = 90.55, thickness = 5.4 }, or a shorter rod, or a longer horn"
	if f.Verdict != check.Caution || f.Remedy != want {
		t.Fatalf("%s: %s", f.Verdict, f.Remedy)
	}
	if f := findingOf(t, mustFigure(t, "heron", "thickness = 6", "thickness = 5.4"), "", "rod-buckling"); f.Verdict != check.Pass {
		t.Errorf("followed: %v %s", f.Value, f.Verdict)
	}
}

func tableOf(t *testing.T, r *Result, name string) [][]string {
	t.Helper()
	for _, f := range r.Files {
		if f.Name != name {
			continue
		}
		var text bytes.Buffer
		if err := f.Write(&text); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&text).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return rows
	}
	t.Fatalf("no file %s", name)
	return nil
}

func figureIn(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
