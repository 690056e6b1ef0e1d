package joint_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pintle/drawing"
	"pintle/joint"
)

// drawings designs a joint and returns its drawings by name.
func drawings(t *testing.T, text string) map[string][]byte {
	t.Helper()
	file, err := joint.Read("x.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	result, err := joint.Design(file, joint.Options{})
	if err != nil {
		t.Fatal(err)
	}
	sheets := map[string][]byte{}
	for _, f := range result.Files {
		if !strings.HasSuffix(f.Name, "-drawing.svg") {
			continue
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		sheets[f.Name] = out.Bytes()
	}
	if len(sheets) == 0 {
		t.Fatal("no drawings")
	}
	return sheets
}

func lighthouse(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../testdata/lighthouse.toml")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The sheets of the lighthouse, read back from their files.
func TestLighthouseDrawings(t *testing.T) {
	sheets := drawings(t, lighthouse(t))
	if len(sheets) != 7 || sheets["lamp-joint-drawing.svg"] == nil {
		t.Errorf("%d drawings, want those of six parts and of the joint", len(sheets))
	}
	for name, file := range sheets {
		examine(t, name, file)
	}
	again := drawings(t, lighthouse(t))
	for name, file := range sheets {
		if !bytes.Equal(file, again[name]) {
			t.Errorf("%s is not the same twice", name)
		}
	}
}

// The assembly shows every placed part and every bought one under its item
// number, and says what must be set: the centre distance of the scenario, 48 mm.
func TestAssemblyDrawing(t *testing.T) {
	sheet := examine(t, "joint", drawings(t, lighthouse(t))["lamp-joint-drawing.svg"])
	count := map[string]int{}
	all := ""
	for _, text := range sheet.texts {
		count[text.words]++
		all += text.words + " "
	}
	for _, item := range []string{"1", "2", "3", "4", "5", "6", "7", "8"} {
		if count[item] < 2 { // once in the list, once in a circle
			t.Errorf("item %s stands %d times", item, count[item])
		}
	}
	for _, want := range []string{"48 ±0.1", "Bearing 30203", "Servo lamp", "M3 x 12 cap screw", "M4 x 14 cap screw", "A-A"} {
		if count[want] == 0 {
			t.Errorf("%q stands nowhere", want)
		}
	}
	for _, want := range []string{"cup's back", "strip of paper", "Press slowly"} {
		if !strings.Contains(all, want) {
			t.Errorf("the order of assembly does not say %q", want)
		}
	}
}

// The revision changes with what changes a part, and with nothing else: a wider
// face changes pinion and wheel, and leaves the grille as it was.
func TestRevision(t *testing.T) {
	revision := func(file []byte) string {
		for i, text := range readDrawing(t, file).texts {
			if text.words == "Revision" {
				return readDrawing(t, file).texts[i+1].words
			}
		}
		t.Fatal("no revision")
		return ""
	}
	before := drawings(t, lighthouse(t))
	after := drawings(t, strings.Replace(lighthouse(t), "face_width = 10", "face_width = 11", 1))
	for name, changes := range map[string]bool{
		"lamp-pinion-drawing.svg": true, "lamp-wheel-drawing.svg": true, "lamp-joint-drawing.svg": true,
		"voice-grille-drawing.svg": false, "lamp-spacer-drawing.svg": false,
	} {
		was, is := revision(before[name]), revision(after[name])
		if (was != is) != changes || len(was) != 6 {
			t.Errorf("%s: revision %s, then %s", name, was, is)
		}
	}
}

// Every fit that another part goes into or onto stands on its part's drawing with
// the size wanted and twice the card's uncertainty either way; the card of the
// lighthouse is typed in with 0.05 mm.
func TestTolerancedSizesAreTheFits(t *testing.T) {
	file, err := joint.Read("x.toml", []byte(lighthouse(t)))
	if err != nil {
		t.Fatal(err)
	}
	result, err := joint.Design(file, joint.Options{})
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, f := range result.Report.Fits {
		switch f.Feature {
		case "seat", "journal", "horn pocket", "tip circle", "recess for the ring":
		default:
			continue
		}
		checked++
		want := "Ø" + drawing.Figure(f.Wanted) + " ±" + drawing.Figure(2*f.Sigma)
		found := false
		for _, text := range readDrawing(t, fileNamed(t, result, f.Part+"-drawing.svg")).texts {
			found = found || text.words == want
		}
		if !found {
			t.Errorf("%s, %s: %s stands nowhere on its drawing", f.Part, f.Feature, want)
		}
	}
	if checked < 6 {
		t.Errorf("only %d fits checked", checked)
	}
}

// Teeth are drawn where the file asks for them, and the sizes stay those of the
// finished gear: a tip circle of 45 mm, not the 44.92 mm drawn for the printer.
func TestTrueTeeth(t *testing.T) {
	file := drawings(t, strings.Replace(lighthouse(t), "[gears.lamp]", "[drawing]\nteeth = true\n[gears.lamp]", 1))["lamp-pinion-drawing.svg"]
	with, without := examine(t, "with teeth", file), readDrawing(t, drawings(t, lighthouse(t))["lamp-pinion-drawing.svg"])
	if len(with.pieces) < len(without.pieces)+28*8 { // each tooth has two flanks, two fillets, a tip
		t.Errorf("%d pieces of line with teeth, %d without", len(with.pieces), len(without.pieces))
	}
	words := ""
	for _, text := range with.texts {
		words += text.words + "\n"
	}
	if !strings.Contains(words, "Ø45 ±0.1\n") || strings.Contains(words, "44.92") {
		t.Errorf("the sizes on the sheet: %s", words)
	}
}

// Every sheet of every joint file that comes with the tool.
func TestDrawingsOfEveryDemo(t *testing.T) {
	files, err := filepath.Glob("../testdata/*.toml")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d joint files, %v", len(files), err)
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		file, err := joint.Read(path, data)
		if err != nil {
			t.Fatal(err)
		}
		result, err := joint.Design(file, joint.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range result.Files {
			sheet := strings.HasSuffix(f.Name, "-drawing.svg") || strings.HasSuffix(f.Name, "-mechanism.svg") || f.Name == "keeper.svg"
			if sheet {
				examine(t, filepath.Base(path)+": "+f.Name, fileNamed(t, result, f.Name))
			}
		}
	}
}

// A pinion of 27.5 mm with its set screw and D-bore has room on the smaller sheet,
// notes and tooth data and all (A4 upright: ISO 216).
func TestSmallPinionOnA4(t *testing.T) {
	data, err := os.ReadFile("../testdata/carousel.toml")
	if err != nil {
		t.Fatal(err)
	}
	sheet := readDrawing(t, drawings(t, string(data))["turntable-pinion-drawing.svg"])
	if sheet.width != 210 {
		t.Errorf("the sheet is %g mm wide", sheet.width)
	}
}

// The screws of the order of assembly are pointed at on the assembly drawing by
// their item numbers, larger than those in the list.
func TestAssemblyPointsAtItsScrews(t *testing.T) {
	texts := readDrawing(t, drawings(t, lighthouse(t))["lamp-joint-drawing.svg"]).texts
	for _, screw := range []string{"M3 x 12 cap screw", "M2 x 14 cap screw", "M3 self-cutting screw"} {
		i := slices.IndexFunc(texts, func(r readText) bool { return strings.HasPrefix(r.words, screw) })
		if i < 2 {
			t.Errorf("%s is no item", screw)
			continue
		}
		item := texts[i-2]
		if !slices.ContainsFunc(texts, func(r readText) bool { return r.words == item.words && r.size > 1.2*item.size }) {
			t.Errorf("nothing points at item %s, %s", item.words, screw)
		}
	}
}
