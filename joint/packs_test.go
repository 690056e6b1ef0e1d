package joint

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pintle/check"
)

// A standing is what a 3MF file says of one part: its bounding box where it
// stands, and the transform that put it there.
type standing struct {
	lo, hi    [3]float64
	transform [12]float64
}

// unpack reads the parts of a 3MF file of a build by name.
func unpack(t *testing.T, result *Result, name string) map[string]standing {
	t.Helper()
	i := slices.IndexFunc(result.Files, func(f OutputFile) bool { return f.Name == name })
	if i < 0 {
		t.Fatalf("no %s", name)
	}
	var data bytes.Buffer
	if err := result.Files[i].Write(&data); err != nil {
		t.Fatal(err)
	}
	archive, err := zip.NewReader(bytes.NewReader(data.Bytes()), int64(data.Len()))
	if err != nil {
		t.Fatal(err)
	}
	in, err := archive.Open("3D/3dmodel.model")
	if err != nil {
		t.Fatal(err)
	}
	var model struct {
		Objects []struct {
			ID       string `xml:"id,attr"`
			Name     string `xml:"name,attr"`
			Vertices []struct {
				X float64 `xml:"x,attr"`
				Y float64 `xml:"y,attr"`
				Z float64 `xml:"z,attr"`
			} `xml:"mesh>vertices>vertex"`
		} `xml:"resources>object"`
		Items []struct {
			Object    string `xml:"objectid,attr"`
			Transform string `xml:"transform,attr"`
		} `xml:"build>item"`
	}
	if err := xml.NewDecoder(in).Decode(&model); err != nil {
		t.Fatal(err)
	}
	all := map[string]standing{}
	for _, item := range model.Items {
		s := standing{lo: [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}, hi: [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}}
		m := &s.transform
		for k, word := range strings.Fields(item.Transform) {
			if _, err := fmt.Sscan(word, &m[k]); err != nil {
				t.Fatal(err)
			}
		}
		for _, object := range model.Objects {
			if object.ID != item.Object {
				continue
			}
			for _, v := range object.Vertices {
				for k := range 3 {
					at := v.X*m[k] + v.Y*m[3+k] + v.Z*m[6+k] + m[9+k]
					s.lo[k], s.hi[k] = min(s.lo[k], at), max(s.hi[k], at)
				}
			}
			all[object.Name] = s
		}
	}
	return all
}

// Every part lies on the bed, on its bed side, with room around it.
func TestBedPack(t *testing.T) {
	for _, test := range []struct {
		why     string
		changes []string
		several bool
	}{
		{"all on one bed", nil, false},
		{"on small beds", []string{"bed = [220, 220]", "bed = [130, 100]"}, true},
		{"turned", []string{"bed = [220, 220]", "bed = [100, 130]"}, true},
	} {
		t.Run(test.why, func(t *testing.T) {
			result := build(t, test.changes...)
			parts := unpack(t, result, "bed.3mf")
			if len(parts) != len(result.Report.Parts) {
				t.Errorf("%d parts, want %d", len(parts), len(result.Report.Parts))
			}
			const rounding = 1e-9
			for name, a := range parts {
				if math.Abs(a.lo[2]) > rounding || a.lo[0] < -rounding || a.lo[1] < -rounding {
					t.Errorf("%s stands from %v", name, a.lo)
				}
				for other, b := range parts {
					apart := max(a.lo[0]-b.hi[0], b.lo[0]-a.hi[0], a.lo[1]-b.hi[1], b.lo[1]-a.hi[1])
					if name != other && apart < bedGap-rounding {
						t.Errorf("%s and %s are %g mm apart", name, other, apart)
					}
				}
			}
			noted := slices.IndexFunc(result.Report.Findings, func(f check.Finding) bool {
				return f.Check == "beds" && f.Verdict == check.Note && f.Value > 1 && f.Detail != ""
			})
			if noted >= 0 != test.several {
				t.Errorf("several beds are noted: %v, want %v", noted >= 0, test.several)
			}
		})
	}
}

// The parts of the assembly stand where the report says: the plate's top is at
// z = 0, the wheel is above it and the pinion beside the wheel.
func TestJointPack(t *testing.T) {
	result := build(t)
	parts := unpack(t, result, "lamp-joint.3mf")
	if len(parts) != len(result.Report.Placed) || len(parts) < 4 {
		t.Fatalf("%d parts, %d placed", len(parts), len(result.Report.Placed))
	}
	for _, p := range result.Report.Placed {
		if got := parts[p.Part].transform; got != p.Transform() {
			t.Errorf("%s: %v, want %v", p.Part, got, p.Transform())
		}
	}
	const tol = 2e-4                                                      // two grid steps
	if top := parts["lamp-plate"].hi[2] - markRise; math.Abs(top) > tol { // below its letters
		t.Errorf("the plate's top is at %g", top)
	}
	wheel, pinion := parts["lamp-wheel"], parts["lamp-pinion"]
	if math.Abs(wheel.hi[2]-pinion.hi[2]) > tol {
		t.Errorf("wheel and pinion end at %g and %g", wheel.hi[2], pinion.hi[2])
	}
	if at := (pinion.lo[0] + pinion.hi[0]) / 2; math.Abs(at-48) > 0.1 {
		t.Errorf("the pinion's middle is at x = %g, want the working centre distance of 48", at)
	}
}
