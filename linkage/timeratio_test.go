package linkage_test

import (
	"math"
	"testing"

	"pintle/linkage"
)

// With a² + d² = b² + c² both swings take equal times (closed form); that is the
// ferry-woman's linkage. Elsewhere the extremes of the lever, looked for along the
// turn, say how long each takes.
func TestTimeRatio(t *testing.T) {
	equal := ferrywoman().FourBar
	equal.Rod = math.Sqrt(18*18 + 80*80 - 36*36)
	if got, ok := equal.TimeRatio(); !ok || math.Abs(got-1) > 1e-9 {
		t.Errorf("ratio %v, want 1", got)
	}
	if got := stroke(t, ferrywoman()).Values()["time_ratio"].(float64); math.Abs(got-1) > 1e-3 {
		t.Errorf("the ferry-woman's strokes differ by %v", got)
	}
	for _, crossed := range []bool{false, true} {
		f := linkage.FourBar{Horn: 20, Rod: 60, Lever: 50, Frame: 70, Crossed: crossed}
		var turns []float64
		last, _ := f.At(0)
		const step = 0.01
		for angle := step; angle <= 360+step/2; angle += step {
			p, _ := f.At(angle * deg)
			if p.Ratio*last.Ratio < 0 {
				turns = append(turns, angle-step*p.Ratio/(p.Ratio-last.Ratio))
			}
			last = p
		}
		arc := turns[1] - turns[0]
		want := max(arc, 360-arc) / min(arc, 360-arc)
		if got, ok := f.TimeRatio(); !ok || len(turns) != 2 || math.Abs(got-want) > 1e-6 {
			t.Errorf("crossed %v: ratio %v, want %v", crossed, got, want)
		}
	}
	if _, ok := (linkage.FourBar{Horn: 45, Rod: 40, Lever: 50, Frame: 90}).TimeRatio(); ok {
		t.Error("a horn that locks has a time ratio")
	}
}
