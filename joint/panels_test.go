package joint

import (
	"math"
	"strings"
	"testing"

	"pintle/check"
)

const panelHead = "format = \"pintle-joint/1\"\n[printer]\nmaterial = \"PETG\"\n[panel.crest]\nthickness = 3\n"

func panel(t *testing.T, lines string, svg string) (*Result, error) {
	t.Helper()
	file, err := Read("crest.toml", []byte(panelHead+lines))
	if err != nil {
		t.Fatal(err)
	}
	return Design(file, Options{Outlines: map[string][]byte{"crest": []byte(svg)}})
}

// A rectangle of 90 x 60 mm with a square hole of 20 mm, once as a path and once
// as a file in inches: area 90 x 60 - 20 x 20, height 3, less the bed chamfer.
func TestPanel(t *testing.T) {
	const page = `<svg xmlns="http://www.w3.org/2000/svg" width="3.543307in" height="2.362205in" viewBox="0 0 90 60"><path d="M0 0H90V60H0Z M10 10h20v20h-20z"/></svg>`
	for name, lines := range map[string]string{"path": "path = \"M0 0H90V60H0Z M10 10h20v20h-20z\"", "file": "svg = \"crest.svg\""} {
		t.Run(name, func(t *testing.T) {
			result, err := panel(t, lines, page)
			if err != nil {
				t.Fatal(err)
			}
			p := result.Report.Parts[0]
			if p.Name != "crest-panel" || math.Abs(p.SizeMM[0]-90) > 2e-3 || math.Abs(p.SizeMM[1]-60) > 2e-3 || p.SizeMM[2] != 3 {
				t.Errorf("%s is %v", p.Name, p.SizeMM)
			}
			const around = 2 * (90 + 60 + 20 + 20)
			want := (90*60-20*20)*3.0 - around*0.4*0.4/2
			if math.Abs(p.VolumeMM3-want) > 2 {
				t.Errorf("volume %.2f, want %.2f", p.VolumeMM3, want)
			}
			if f := result.Failed(); len(f) > 0 {
				t.Errorf("%+v", f)
			}
		})
	}
}

// Bad outlines are refused with their place; a thin bar fails.
func TestPanelRefuses(t *testing.T) {
	for lines, want := range map[string]string{
		"path = \"M0 0H90V60H0Z M10 X\"":               "crest.toml:6:8: panel.crest.path: ",
		"path = \"M0 0H90V60H0Z M80 10h20v20h-20z\"":   "cross",
		"svg = \"crest.svg\"":                          "crest.svg: ",
		"path = \"M0 0H90V60H0Z\"\nmaterial = \"PLA\"": "",
	} {
		_, err := panel(t, lines, "<svg><path d='M0 0 L'/></svg>")
		switch {
		case want == "" && err != nil:
			t.Errorf("%s: %v", lines, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
			t.Errorf("%s: %v, want %q in it", lines, err, want)
		}
	}
	result, err := panel(t, "path = \"M0 0H90V60H0Z M0.7 10h20v20h-20z\"", "")
	if err != nil {
		t.Fatal(err)
	}
	if f := result.Failed(); len(f) != 1 || f[0].Check != "panel-web" || f[0].Verdict != check.Fail {
		t.Errorf("a bar of 0.7 mm: %+v", f)
	}
}
