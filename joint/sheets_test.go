package joint_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pintle/check"
	"pintle/export"
	"pintle/joint"
)

func postMistress(t *testing.T, changes ...string) *joint.Result {
	t.Helper()
	return designed(t, "post-mistress.toml", changes...)
}

// designed builds a file of testdata with places changed, old before new.
func designed(t *testing.T, name string, changes ...string) *joint.Result {
	t.Helper()
	text, err := os.ReadFile("../testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	changed := string(text)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(changed, changes[i]) {
			t.Fatalf("the file has no %q", changes[i])
		}
		changed = strings.Replace(changed, changes[i], changes[i+1], 1)
	}
	file, err := joint.Read(name, []byte(changed))
	if err != nil {
		t.Fatal(err)
	}
	result, err := joint.Design(file, joint.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

func fileNamed(t *testing.T, result *joint.Result, name string) []byte {
	t.Helper()
	for _, f := range result.Files {
		if f.Name == name {
			var out bytes.Buffer
			if err := f.Write(&out); err != nil {
				t.Fatal(err)
			}
			return out.Bytes()
		}
	}
	t.Fatalf("no %s", name)
	return nil
}

// A cutPath is one closed path of a cut file and the group it is in.
type cutPath struct {
	group, colour string
	pieces        [][4]float64
}

// readCut reads a cut file as a cutter would: any text, picture, fill, transform
// or open path is a fault.
func readCut(t *testing.T, file []byte) (width float64, paths []cutPath) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(file))
	var group, colour string
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return width, paths
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if text, isText := token.(xml.CharData); isText && strings.TrimSpace(string(text)) != "" {
			t.Errorf("text %q in a cut file", text)
		}
		if !ok {
			continue
		}
		attrs := map[string]string{}
		for _, a := range e.Attr {
			attrs[a.Name.Local] = a.Value
		}
		if attrs["transform"] != "" {
			t.Errorf("a transform in a cut file: %v", attrs)
		}
		switch e.Name.Local {
		case "svg":
			if !strings.HasSuffix(attrs["width"], "mm") || !strings.HasSuffix(attrs["viewBox"], strings.TrimSuffix(attrs["width"], "mm")+" "+strings.TrimSuffix(attrs["height"], "mm")) {
				t.Errorf("not at true size: %v", attrs)
			}
		case "g":
			group, colour = attrs["id"], attrs["stroke"]
			if attrs["fill"] != "none" {
				t.Errorf("filled: %v", attrs)
			}
		case "path":
			data := attrs["d"]
			if strings.Count(data, "M") != 1 || !strings.HasSuffix(strings.TrimSpace(data), "Z") {
				t.Errorf("not one closed path: %.40s ...", data)
			}
			pieces := pathPieces(t, data)
			first, last := pieces[0], pieces[len(pieces)-1]
			if gap := math.Hypot(last[2]-first[0], last[3]-first[1]); gap > 1e-3 {
				t.Errorf("a path ends %.4f mm from its start", gap)
			}
			paths = append(paths, cutPath{group: group, colour: colour, pieces: pieces})
		default:
			t.Errorf("a %s in a cut file", e.Name.Local)
		}
	}
}

// The figures of the scenario, worked out by hand for it: a kerf of 0.20 makes a
// tip circle of 106 be drawn as 106.20 and a bore of 8 as 7.80; a 68, W6 33.785,
// contact ratio 1.636.
func TestPostMistressIsCut(t *testing.T) {
	result := postMistress(t)
	if failed := result.Failed(); len(failed) > 0 {
		t.Fatalf("failed: %v", failed)
	}
	values := result.Report.Designs["gears.stamp"]
	for key, want := range map[string]float64{"a_w": 68, "W2": 33.785, "W1": 9.215, "epsilon_alpha": 1.636} {
		if got := values[key].(float64); math.Abs(got-want) > 6e-4 {
			t.Errorf("%s %.4f, want %.3f", key, got, want)
		}
	}
	for _, f := range result.Report.Findings {
		if f.Check == "undercut" && f.Part == "stamp-pinion" && (f.Verdict != check.Note || f.Remedy != "x1 >= 0.006") {
			t.Errorf("17 teeth: %s, %q, want a note", f.Verdict, f.Remedy)
		}
	}
	_, paths := readCut(t, fileNamed(t, result, "stamp-wheel-cut.svg"))
	if len(paths) != 2 || paths[0].group != "inside" || paths[1].group != "outside" {
		t.Fatalf("%d paths: holes must come first", len(paths))
	}
	lo, hi := [2]float64{1e9, 1e9}, [2]float64{}
	for _, p := range paths[0].pieces {
		for k := range 2 {
			lo[k], hi[k] = min(lo[k], p[k]), max(hi[k], p[k])
		}
	}
	x, y := (lo[0]+hi[0])/2, (lo[1]+hi[1])/2 // the bore's middle
	for i, want := range []float64{7.8, 106.2} {
		far := 0.0
		for _, p := range paths[i].pieces {
			far = max(far, math.Hypot(p[0]-x, p[1]-y))
		}
		if math.Abs(2*far-want) > 2e-3 {
			t.Errorf("the path %s is %.4f mm across, want %.2f", paths[i].group, 2*far, want)
		}
		if paths[i].colour != "#000000" {
			t.Errorf("colour %s, want black unless given", paths[i].colour)
		}
	}
	part := result.Report.Parts[slices.IndexFunc(result.Report.Parts, func(p export.Part) bool { return p.Name == "stamp-wheel" })]
	if part.Material != "birch plywood" || part.Count != 100 || !slices.Contains(part.Files, "stamp-wheel-cut.svg") {
		t.Errorf("entry %+v", part)
	}
	if sheet := result.Report.Designs["sheet"]; sheet["thickness"] != 2.87 || sheet["kerf"] != 0.2 || sheet["kerf_applied"] != true {
		t.Errorf("the report's sheet: %v", sheet)
	}
	if !slices.ContainsFunc(result.Report.Cautions, func(c check.CautionText) bool { return c.Code == "C14" }) {
		t.Error("caution C14 is missing")
	}
}

// extent returns the width and height of a path by its vertices.
func (p cutPath) extent() (x, y float64) {
	lo, hi := [2]float64{1e9, 1e9}, [2]float64{-1e9, -1e9}
	for _, q := range p.pieces {
		for k := range 2 {
			lo[k], hi[k] = min(lo[k], q[k]), max(hi[k], q[k])
		}
	}
	return hi[0] - lo[0], hi[1] - lo[1]
}

// The moon's rack from sheet, by hand: 16 pitches of 1.5 pi are 75.398 long, body 7
// and teeth of 2.25 modules 10.375 high; a kerf of 0.2 adds as much to both and
// takes it off M3's 3.4. The printer's errors play no part.
func TestRackIsCut(t *testing.T) {
	result := designed(t, "puppet-moon.toml", "[place]", "[sheet]\nmaterial = \"acrylic\"\nthickness = 9\nkerf = 0.2\nparts = [\"moon-rack\"]\n\n[place]")
	_, paths := readCut(t, fileNamed(t, result, "moon-rack-cut.svg"))
	if len(paths) != 4 {
		t.Fatalf("%d paths, want three holes and the outline", len(paths))
	}
	for i, want := range [][2]float64{{3.2, 3.2}, {3.2, 3.2}, {3.2, 3.2}, {16*1.5*math.Pi + 0.2, 10.575}} {
		x, y := paths[i].extent()
		if i < 3 {
			y = want[1] // a circle's two arcs end on its axis
		}
		if math.Abs(x-want[0]) > 2e-3 || math.Abs(y-want[1]) > 2e-3 {
			t.Errorf("path %d is %.4f x %.4f mm, want %.4f x %.4f", i, x, y, want[0], want[1])
		}
	}
	text := examine(t, "rack", fileNamed(t, result, "moon-rack-drawing.svg")).texts
	for _, want := range []string{"Rack data", "ISO 53 A", "10.375 ±0.1", "moon-pinion, z 30"} {
		if !slices.ContainsFunc(text, func(p readText) bool { return p.words == want }) {
			t.Errorf("%q stands nowhere on the sheet", want)
		}
	}
}

// A sector of the letter stamper's wheel from sheet: its tips stand half a kerf
// beyond 53 mm, its round body half a kerf beyond the 30 mm asked for.
func TestSectorIsCut(t *testing.T) {
	result := postMistress(t, `wheel = { hub = "round", bore = 8 }`, `wheel = { hub = "round", bore = 8, sector = 13, sector_hub = 60 }`)
	_, paths := readCut(t, fileNamed(t, result, "stamp-wheel-cut.svg"))
	if len(paths) != 2 {
		t.Fatalf("%d paths", len(paths))
	}
	hole := paths[0].pieces[0]
	x := hole[0] - 3.9 // the bore's arcs start on its axis
	near, far := math.Inf(1), 0.0
	for _, p := range paths[1].pieces {
		r := math.Hypot(p[0]-x, p[1]-hole[1])
		near, far = min(near, r), max(far, r)
	}
	if math.Abs(far-53.1) > 2e-3 || math.Abs(near-30.1) > 2e-3 {
		t.Errorf("the sector reaches from %.4f to %.4f mm, want 30.1 to 53.1", near, far)
	}
}

// The drawing of a cut gear: data table, title block from the file, no chamfer
// of a print, and the sheet's own faults.
func TestPostMistressDrawing(t *testing.T) {
	sheet := examine(t, "wheel", fileNamed(t, postMistress(t), "stamp-wheel-drawing.svg"))
	var words []string
	for _, text := range sheet.texts {
		words = append(words, text.words)
	}
	for _, want := range []string{"Gear data", "33.785 ±0.1", "68 ±0.1", "stamp-pinion, z 17", "Harbour Street School", "Class 7", "birch plywood, 2.87 mm measured", "ISO 2768-m", "Ø106 ±0.1", "Ø8 ±0.1", "2.87", "1:1"} {
		if !slices.Contains(words, want) {
			t.Errorf("%q stands nowhere on the sheet", want)
		}
	}
	for _, text := range words {
		if strings.Contains(text, "45°") {
			t.Errorf("a chamfer on a part cut from sheet: %q", text)
		}
	}
}

// PVC is refused by whatever name, sheets that only cut badly are a caution.
func TestSheetMaterial(t *testing.T) {
	for _, test := range []struct {
		material string
		want     check.Verdict
	}{
		{"PVC", check.Fail},
		{"foamed PVC 3 mm", check.Fail},
		{"white vinyl", check.Fail},
		{"polyvinyl chloride", check.Fail},
		{"polycarbonate", check.Caution},
		{"ABS", check.Caution},
		{"PC clear", check.Caution},
		{"acrylic", check.Pass},
		{"poplar plywood", check.Pass},
		{"absorbent card", check.Pass},
	} {
		result := postMistress(t, `material = "birch plywood"`, `material = "`+test.material+`"`)
		i := slices.IndexFunc(result.Report.Findings, func(f check.Finding) bool { return f.Check == "sheet-material" })
		if i < 0 || result.Report.Findings[i].Verdict != test.want {
			t.Errorf("%s: %+v, want %s", test.material, result.Report.Findings[i], test.want)
		}
	}
}

// Colours, a part that is not flat, a part that there is not, and a thickness
// that the design does not have.
func TestSheetKeys(t *testing.T) {
	result := postMistress(t, `kerf = 0.20`, "inside = \"#0000ff\"\noutside = \"#ff0000\"\nparts = [\"stamp-pinion\"]\nkerf = 0.20")
	_, paths := readCut(t, fileNamed(t, result, "stamp-pinion-cut.svg"))
	if paths[0].colour != "#0000ff" || paths[1].colour != "#ff0000" {
		t.Errorf("colours %s, %s", paths[0].colour, paths[1].colour)
	}
	for _, f := range result.Files {
		if f.Name == "stamp-wheel-cut.svg" {
			t.Error("a part that was not named is cut")
		}
	}
	other := postMistress(t, "face_width = 2.87", "face_width = 4")
	if !slices.ContainsFunc(other.Report.Findings, func(f check.Finding) bool {
		return f.Check == "sheet-thickness" && math.Abs(f.Value-1.13) < 1e-3
	}) {
		t.Error("a part 4 mm high from a sheet of 2.87 mm says nothing")
	}
	for _, test := range []struct{ why, from, to, want string }{
		{"no such part", `count = 100`, `parts = ["stamp-gear"]`, "is no part of this joint"},
		{"not a colour", `count = 100`, `inside = "red"`, "is not a colour"},
		{"a kerf of inches", `kerf = 0.20`, `kerf = 20`, "kerf"},
		{"a key misspelt", `kerf = 0.20`, "kerf = 0.20\nthicknes = 3", "thicknes"},
	} {
		text, err := os.ReadFile("../testdata/post-mistress.toml")
		if err != nil {
			t.Fatal(err)
		}
		file, err := joint.Read("x.toml", []byte(strings.Replace(string(text), test.from, test.to, 1)))
		if err == nil {
			_, err = joint.Design(file, joint.Options{})
		}
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want %q", test.why, err, test.want)
		}
	}
}
