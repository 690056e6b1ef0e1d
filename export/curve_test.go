package export

import (
	"strings"
	"testing"
)

// A curve fills its field: the least value on the foot, the largest on top, the
// ends left and right; without height it runs in the middle.
func TestDrawCurve(t *testing.T) {
	c := drawCurve(Curve{Title: "gap", X: "turn, deg", Y: "gap, mm", At: [][2]float64{{0, 2}, {5, 1}, {10, 3}}})
	if want := "M78.00 110.00L349.00 190.00L620.00 30.00"; c.Path != want {
		t.Errorf("path %s, want %s", c.Path, want)
	}
	var words []string
	for _, l := range c.Labels {
		words = append(words, l.Text)
	}
	if got, want := strings.Join(words, "|"), "3|1|gap, mm|0|10|turn, deg"; got != want {
		t.Errorf("labels %s, want %s", got, want)
	}
	if flat := drawCurve(Curve{At: [][2]float64{{0, 1}, {1, 1}}}); flat.Path != "M78.00 110.00L620.00 110.00" {
		t.Errorf("a flat curve runs %s", flat.Path)
	}
	if none := drawCurve(Curve{}); none.Path != "" {
		t.Errorf("no points run %s", none.Path)
	}
}
