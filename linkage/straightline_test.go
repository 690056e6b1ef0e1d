package linkage_test

import (
	"math"
	"testing"

	"pintle/geom"
	"pintle/linkage"
)

type straightFile struct {
	Hoeken []struct {
		Range, Start, L1, L3, Dx float64
		DyPercent                float64 `json:"dy_pct_of_dx"`
	} `json:"hoeken_table"`
	Classic struct {
		Run       float64   `json:"run_180"`
		Deviation float64   `json:"dev_180"`
		At180     float64   `json:"y_at_180"`
		At90      float64   `json:"y_at_90"`
		Mu        []float64 `json:"mu_extremes"`
	} `json:"hoeken_classic_1_2_2.5"`
	Chebyshev struct {
		Deviation float64 `json:"dev"`
	} `json:"chebyshev_4_5_2"`
	Watt []struct {
		Arm, Coupler, Run, Dev float64
		Swing                  float64 `json:"swing_deg"`
	}
}

// path returns the extent in x and y of a point on the rod's line, at a share of
// the rod beyond the horn's pin, over some angles of the horn.
func path(t *testing.T, f linkage.FourBar, fromDeg, toDeg, share, turn float64) (width, height float64) {
	t.Helper()
	lo, hi := geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	const steps = 3600
	for i := range steps + 1 {
		p, ok := f.At((fromDeg + (toDeg-fromDeg)*float64(i)/steps) * deg)
		if !ok {
			t.Fatalf("%v does not close", f)
		}
		q := p.HornPin.Add(p.LeverPin.Sub(p.HornPin).Scale(share)).Rotate(turn)
		lo = geom.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = geom.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return hi.X - lo.X, hi.Y - lo.Y
}

// Link ratios of nine optimised linkages after Norton, Design of Machinery (from
// memory), with run and straightness recomputed by an independent program.
func TestHoekenOptimised(t *testing.T) {
	var file straightFile
	reference(t, "linkage-straightline.json", &file)
	if len(file.Hoeken) != 9 {
		t.Fatalf("found %d rows", len(file.Hoeken))
	}
	for _, row := range file.Hoeken {
		f := linkage.FourBar{Horn: 1, Rod: row.L3, Lever: row.L3, Frame: row.L1}
		run, off := path(t, f, row.Start, row.Start+row.Range, 2, 0)
		if math.Abs(run-row.Dx) > 1e-6 {
			t.Errorf("range %v: run %v, want %v", row.Range, run, row.Dx)
		}
		if got := 100 * off / run; math.Abs(got-row.DyPercent) > 1e-4*(row.DyPercent+0.01) {
			t.Errorf("range %v: straightness %v %%, want %v", row.Range, got, row.DyPercent)
		}
	}
}

// Crank 1, ground 2, rod and rocker 2.5: over 90 to 270 deg the point at twice the
// rod runs 4 long at a height of 4. The Chebyshev linkage 4, 5, 2 is its cognate:
// the same run and the same 0.0097537 of height (Sangwin, Edinburgh). Its middle
// stands exactly 4 high at x = 0, 2 and 4, by triangles of 3, 4 and 5.
func TestHoekenClassicAndChebyshev(t *testing.T) {
	var file straightFile
	reference(t, "linkage-straightline.json", &file)
	classic := linkage.FourBar{Horn: 1, Rod: 2.5, Lever: 2.5, Frame: 2}
	run, off := path(t, classic, 90, 270, 2, 0)
	if math.Abs(run-4) > 1e-9 || math.Abs(off-file.Classic.Deviation) > 1e-7 {
		t.Errorf("run %v, deviation %v, want 4, %v", run, off, file.Classic.Deviation)
	}
	for angle, height := range map[float64]float64{90: file.Classic.At90, 180: file.Classic.At180} {
		p, _ := classic.At(angle * deg)
		if y := 2*p.LeverPin.Y - p.HornPin.Y; math.Abs(y-height) > 1e-12 {
			t.Errorf("height %v at %v deg, want %v", y, angle, height)
		}
	}
	lo, hi := classic.TransmissionRange()
	if math.Abs(lo/deg-file.Classic.Mu[0]) > 1e-9 || math.Abs(hi/deg-file.Classic.Mu[1]) > 1e-9 {
		t.Errorf("transmission angle %v to %v, want %v", lo/deg, hi/deg, file.Classic.Mu)
	}
	chebyshev := linkage.FourBar{Horn: 5, Rod: 2, Lever: 5, Frame: 4, Crossed: true}
	// The horn stands at (0, 5) with the middle at x = 0, at (3, 4) with it at 2,
	// and at (4, 3) with it at 4: there rod and lever lie in one line.
	last := math.Atan2(3, 4)
	_, height := path(t, chebyshev, last/deg+1e-9, 90, 0.5, 0)
	if math.Abs(height-file.Chebyshev.Deviation) > 1e-6 {
		t.Errorf("the middle rises %v, want %v", height, file.Chebyshev.Deviation)
	}
	for angle, x := range map[float64]float64{math.Pi / 2: 0, math.Atan2(4, 3): 2, last + 1e-12: 4} {
		p, _ := chebyshev.At(angle)
		if m := p.HornPin.Add(p.LeverPin).Scale(0.5); m.Sub(geom.Point{X: x, Y: 4}).Len() > 1e-5 {
			t.Errorf("the middle stands at %v, want %v, 4", m, x)
		}
	}
}

// Watt's linkage: the middle of the coupler runs nearly straight while one arm
// swings 20 deg to both sides of level. The file's deviation is twice the
// farthest from the middle.
func TestWatt(t *testing.T) {
	var file straightFile
	reference(t, "linkage-straightline.json", &file)
	if len(file.Watt) != 3 {
		t.Fatalf("found %d rows", len(file.Watt))
	}
	for _, row := range file.Watt {
		// Arm level to the right, coupler up, arm level to the right again.
		frame := geom.Point{X: 2 * row.Arm, Y: row.Coupler}
		f := linkage.FourBar{Horn: row.Arm, Rod: row.Coupler, Lever: row.Arm, Frame: frame.Len()}
		level := -frame.Angle() / deg
		if p, ok := f.At(level * deg); !ok || p.HornPin.Rotate(frame.Angle()).Sub(geom.Point{X: row.Arm}).Len() > 1e-9 {
			t.Fatalf("%+v: the arm is not level", row)
		}
		_, run := path(t, f, level-row.Swing, level+row.Swing, 0.5, frame.Angle())
		end, _ := f.At((level - row.Swing) * deg)
		off := 2 * math.Abs(end.HornPin.Add(end.LeverPin).Scale(0.5).Rotate(frame.Angle()).X-row.Arm)
		if math.Abs(run-row.Run) > 1e-6*row.Run || math.Abs(off-row.Dev) > 1e-9 {
			t.Errorf("%+v: run %v, deviation %v", row, run, off)
		}
	}
}

// Peaucellier's inversor: arms 5, rhombus 3, driving circle of radius 2 through
// the pole: the output keeps x = (l² - r²)/(2 k) = 4 exactly.
func TestPeaucellier(t *testing.T) {
	at := geom.Point{X: 2}.Add(geom.Polar(2, 30*deg))
	// A and B stand square to O-P; Q beyond them on the same line.
	u := at.Scale(1 / at.Len())
	along := (at.Len()*at.Len() + 25 - 9) / (2 * at.Len())
	side := math.Sqrt(25 - along*along)
	a, b := u.Scale(along).Add(geom.Point{X: -u.Y, Y: u.X}.Scale(side)), u.Scale(along).Sub(geom.Point{X: -u.Y, Y: u.X}.Scale(side))
	q := a.Add(b).Sub(at)
	m := mechanism(t, linkage.MechanismSpec{
		Points: []linkage.Pin{
			fixed("O", 0, 0), fixed("C", 2, 0), pinAt("P", at.X, at.Y), pinAt("A", a.X, a.Y), pinAt("B", b.X, b.Y), pinAt("Q", q.X, q.Y),
		},
		Bars: []linkage.BarSpec{
			{From: "C", To: "P", Length: 2},
			{From: "O", To: "A", Length: 5},
			{From: "O", To: "B", Length: 5},
			{From: "A", To: "P", Length: 3},
			{From: "B", To: "P", Length: 3},
			{From: "A", To: "Q", Length: 3},
			{From: "B", To: "Q", Length: 3},
		},
		Drive: linkage.DriveSpec{Centre: "C", Pin: "P", Start: 30},
	})
	if count, rank := m.Mobility(); count != 1 || rank != 1 {
		t.Errorf("mobility %d, %d", count, rank)
	}
	postures, limit, err := m.Follow(-30, 61)
	if err != nil || limit != nil {
		t.Fatal(limit, err)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range postures {
		// At 0 deg output and input coincide, which costs some digits.
		if math.Abs(p.Points[5].X-4) > 1e-9 {
			t.Fatalf("at %v deg the output stands at x = %v", p.Drive, p.Points[5].X)
		}
		lo, hi = min(lo, p.Points[5].Y), max(hi, p.Points[5].Y)
	}
	if hi-lo < 1 {
		t.Errorf("the output moves only %v", hi-lo)
	}
}
