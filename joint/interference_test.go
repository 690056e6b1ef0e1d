package joint

import (
	"bytes"
	"encoding/binary"
	"math"
	"slices"
	"strings"
	"testing"

	"pintle/check"
	"pintle/export"
	"pintle/geom"
)

// crank is an arrangement with a bar on a crank that turns by the angles about
// the origin, and a post.
func crank(anglesDeg []float64, arm float64, post geom.Point, postDiameter float64) *arrangement {
	a := &arrangement{name: "crank", design: "plate.crank", stroke: newStroke("crank", anglesDeg)}
	var turns []geom.Motion
	for _, deg := range anglesDeg {
		turns = append(turns, geom.TurnAbout(geom.Point{}, deg*math.Pi/180))
	}
	a.moves("arm", turns)
	a.stand(piece{name: "arm", z0: 0, z1: 4}, "arm", geom.Rectangle(geom.Point{X: arm / 2}, arm, 6, 0, 0, geom.ChordFit))
	a.stand(piece{name: "post", z0: -2, z1: 10}, "", geom.Peg(post, postDiameter, geom.ChordFit))
	return a
}

// Closed forms: an arm of 40 x 6 mm that turns about its foot, and round posts
// beside its way. The nearest place may lie between two stations.
func TestPassageOfAnArm(t *testing.T) {
	polar := func(r, deg float64) geom.Point { return geom.Polar(r, deg*math.Pi/180) }
	corner := math.Hypot(40, 3)
	for _, test := range []struct {
		name       string
		angles     []float64
		post       geom.Point
		width, deg float64 // NaN: at more than one
	}{
		{"a post beyond the arm's reach, between two stations", evenStations(-90, 90, 3), polar(46, 40), 46 - 2 - corner, math.NaN()},
		{"a post that the arm stops before", evenStations(-90, 30, 13), polar(30, 48), 30*math.Sin(math.Pi/10) - 3 - 2, 30},
		{"a post that the arm runs through between two stations: lowered by 6, the post reaches from -2 to 10", []float64{-90, 90}, polar(30, 7), -6, math.NaN()},
		{"a post behind the arm's foot", evenStations(10, 20, 2), geom.Point{X: -5}, 5*math.Cos(math.Pi/9) - 2, 20},
	} {
		t.Run(test.name, func(t *testing.T) {
			a := crank(test.angles, 40, test.post, 4)
			found := a.passages(nil)
			if len(found) != 1 {
				t.Fatalf("%d passages", len(found))
			}
			p := found[0]
			if tol := passageShare*math.Abs(test.width) + passageWidth; math.Abs(p.width-test.width) > tol {
				t.Errorf("%.4f mm at %g deg, want %.4f", p.width, p.station, test.width)
			}
			if !math.IsNaN(test.deg) && math.Abs(p.station-test.deg) > 0.1 {
				t.Errorf("at %g deg, want %g", p.station, test.deg)
			}
		})
	}
}

// A bar that no axis guides: the coupler of a parallel crank keeps its direction
// while all of it runs on circles of the crank's radius. A post inside the circle
// of its lower edge keeps the closed form's distance at the lowest place, which
// lies between two stations.
func TestPassageOfACoupler(t *testing.T) {
	const r = 20.0
	angles := evenStations(-150, -30, 4) // lowest at -90
	a := &arrangement{name: "pair of cranks", stroke: newStroke("crank", angles)}
	var shifts []geom.Motion
	for _, deg := range angles {
		shifts = append(shifts, geom.Motion{Shift: geom.Polar(r, deg*math.Pi/180)})
	}
	a.moves("coupler", shifts)
	a.stand(piece{name: "coupler", z0: 5, z1: 8}, "coupler", geom.Rectangle(geom.Point{X: 30}, 70, 8, 0, 0, geom.ChordFit))
	a.stand(piece{name: "post", z0: 0, z1: 6}, "", geom.Peg(geom.Point{X: 30, Y: -28}, 4, geom.ChordFit))
	p := a.passages(nil)[0]
	// Between stations a shift is straight: the chord of 40 deg from -110 to -70
	// lies r (1 - cos 20 deg) above the circle's lowest point.
	want := 28 - 2 - 4 - r*math.Cos(20*math.Pi/180)
	if math.Abs(p.width-want) > 0.02*want || p.at[2] != 5.5 {
		t.Errorf("%.4f mm at %v, want %.4f and z 5.5", p.width, p.at, want)
	}
}

// A bar that turns about its middle is not round, though its corners lie on one
// circle: between two stations at which it lies along x its end sweeps past a
// post beside it (elementary: 3 mm are left between corner and post).
func TestPassageOfATurningBar(t *testing.T) {
	a := &arrangement{name: "bar", stroke: newStroke("bar", []float64{-90, 90})}
	a.moves("bar", []geom.Motion{{Turn: -math.Pi / 2}, {Turn: math.Pi / 2}})
	a.stand(piece{name: "bar", z0: 0, z1: 4}, "bar", geom.Rectangle(geom.Point{}, 6, 40, 0, 0, geom.ChordFit))
	a.stand(piece{name: "post", z0: 0, z1: 4}, "", geom.Peg(geom.Point{Y: math.Hypot(20, 3) + 3 + 2}, 4, geom.ChordFit))
	found := a.passages(nil)
	if len(found) != 1 || math.Abs(found[0].width-3) > passageShare*3+passageWidth {
		t.Errorf("%+v, want 3 mm", found)
	}
}

// Bodies one above the other keep their height apart; side by side and above,
// the hypotenuse (elementary).
func TestPassageAlongTheAxis(t *testing.T) {
	a := &arrangement{name: "stack", stroke: newStroke("wheel", []float64{0, 90})}
	disc := func(name string, x, z0, z1 float64) {
		a.stand(piece{name: name, z0: z0, z1: z1}, "", geom.Peg(geom.Point{X: x}, 10, geom.ChordFit))
	}
	disc("low", 0, 0, 2)
	disc("high", 4, 3.5, 5)
	disc("aside", 13, 4.5, 6)
	widths := map[string]float64{"low and high": 1.5, "low and aside": math.Hypot(3, 2.5)}
	for _, p := range a.passages(nil) {
		if want, ok := widths[p.a.name+" and "+p.b.name]; ok && math.Abs(p.width-want) > 0.01 {
			t.Errorf("%s and %s are %.4f mm apart, want %.4f", p.a.name, p.b.name, p.width, want)
		}
	}
}

// meshPoints reads the corners of the triangles in a part's STL file, and points
// between them no farther apart than a step.
func meshPoints(t *testing.T, result *Result, part string, step float64) [][3]float64 {
	t.Helper()
	i := slices.IndexFunc(result.Files, func(f OutputFile) bool { return f.Name == part+".stl" })
	if i < 0 {
		t.Fatalf("no mesh of %s", part)
	}
	var stl bytes.Buffer
	if err := result.Files[i].Write(&stl); err != nil {
		t.Fatal(err)
	}
	var points [][3]float64
	for data := stl.Bytes()[84:]; len(data) >= 50; data = data[50:] {
		var corner [3][3]float64
		for c := range 3 {
			for k := range 3 {
				corner[c][k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(data[12+12*c+4*k:])))
			}
		}
		for c := range 3 {
			p, q := corner[c], corner[(c+1)%3]
			if slices.Compare(p[:], q[:]) > 0 { // each edge once
				continue
			}
			n := int(math.Sqrt((q[0]-p[0])*(q[0]-p[0])+(q[1]-p[1])*(q[1]-p[1])+(q[2]-p[2])*(q[2]-p[2]))/step) + 1
			for k := range n {
				s := float64(k) / float64(n)
				points = append(points, [3]float64{p[0] + s*(q[0]-p[0]), p[1] + s*(q[1]-p[1]), p[2] + s*(q[2]-p[2])})
			}
		}
	}
	return points
}

// cloud places the points of a part's mesh as the report says it stands and moves
// at a station; it keeps those between two corners of a box.
func cloud(points [][3]float64, p export.Placed, at [4]float64, box [2][3]float64) [][3]float64 {
	turn := geom.Motion{Turn: p.TurnDeg * math.Pi / 180, Shift: geom.Point{X: p.X, Y: p.Y}}
	move := geom.Motion{Turn: at[3] * math.Pi / 180, Shift: geom.Point{X: at[1], Y: at[2]}}
	var placed [][3]float64
	for _, q := range points {
		side := 1.0
		if p.Flip {
			side = -1
		}
		moved := move.Move(turn.Move(geom.Point{X: q[0], Y: side * q[1]}))
		r := [3]float64{moved.X, moved.Y, p.Z + side*q[2]}
		inside := true
		for k := range 3 {
			inside = inside && box[0][k] <= r[k] && r[k] <= box[1][k]
		}
		if inside {
			placed = append(placed, r)
		}
	}
	return placed
}

// leastDistance looks at points in cells as wide as the distance asked for.
func leastDistance(a, b [][3]float64, below float64) float64 {
	cell := func(p [3]float64) [3]int {
		return [3]int{int(math.Floor(p[0] / below)), int(math.Floor(p[1] / below)), int(math.Floor(p[2] / below))}
	}
	cells := map[[3]int][][3]float64{}
	for _, p := range a {
		cells[cell(p)] = append(cells[cell(p)], p)
	}
	best := below
	for _, q := range b {
		c := cell(q)
		for i := range 27 {
			for _, p := range cells[[3]int{c[0] + i%3 - 1, c[1] + i/3%3 - 1, c[2] + i/9 - 1}] {
				best = min(best, math.Sqrt((p[0]-q[0])*(p[0]-q[0])+(p[1]-q[1])*(p[1]-q[1])+(p[2]-q[2])*(p[2]-q[2])))
			}
		}
	}
	return best
}

// By another route: points all over the edges of the very triangles that are
// written, placed and moved by the report's numbers alone, are never nearer than
// the least clearance found, and come within the points' spacing of it.
func TestClearancesAgainstMeshes(t *testing.T) {
	result := build(t, "servo_turn = 90", "servo_turn = 90\nstops = 4")
	placed := map[string]export.Placed{}
	for _, p := range result.Report.Placed {
		placed[p.Part] = p
	}
	motions := map[string][][4]float64{"": make([][4]float64, 1)}
	for _, m := range result.Report.Motions {
		motions[m.Name] = m.At
	}
	clearance := map[string]float64{}
	for _, c := range result.Report.Clearances {
		clearance[c.A+" and "+c.B] = c.Width
		clearance[c.B+" and "+c.A] = c.Width
	}
	const step = 0.4
	for _, test := range []struct {
		a, b, of string
		box      [2][3]float64 // where to look
	}{
		{"lamp-pinion", "lamp-spacer", "pinion and spacer", [2][3]float64{{18, -10, 20}, {30, 10, 30}}},
		{"lamp-ring", "lamp-wheel", "wheel shoulder and end stops", [2][3]float64{{-40, -40, 13.2}, {40, 40, 15}}}, // the heights that lug and stops share
	} {
		want, ok := clearance[test.of]
		if !ok {
			t.Errorf("no clearance of %s in the report", test.of)
			continue
		}
		pa, pb := placed[test.a], placed[test.b]
		a, b := meshPoints(t, result, test.a, step), meshPoints(t, result, test.b, step)
		least := 6.0
		for _, i := range []int{0, 3, 7, 10, 14} {
			var atA, atB [4]float64
			if m := motions[pa.MovesWith]; len(m) > 1 {
				atA = m[i]
			}
			if m := motions[pb.MovesWith]; len(m) > 1 {
				atB = m[i]
			}
			least = min(least, leastDistance(cloud(a, pa, atA, test.box), cloud(b, pb, atB, test.box), least))
		}
		if least < want*(1-passageShare)-passageWidth || least > want+step {
			t.Errorf("%s: the meshes come within %.3f mm, the report says %.3f", test.of, least, want)
		}
	}
}

// A kit spoilt on purpose must fail, and no reason lets an overlap of moving
// bodies through.
func TestSpoiltKits(t *testing.T) {
	accept := []Accept{{"moving-overlap", "", "it will wear in"}, {"moving-clearance", "", "it will wear in"}}
	for _, test := range []struct {
		name  string
		spoil func(*arrangement)
		check string
		words []string
	}{
		{"a screw head under the wheel", func(a *arrangement) {
			a.stand(piece{name: "long screw", z0: 0, z1: 16.0}, "", geom.Peg(geom.Point{X: -26}, 5.5, geom.ChordPlain))
		}, "moving-clearance", []string{"long screw", "wheel"}},
		{"a screw head in the wheel", func(a *arrangement) {
			a.stand(piece{name: "long screw", z0: 0, z1: 17}, "", geom.Peg(geom.Point{X: -26}, 5.5, geom.ChordPlain))
		}, "moving-overlap", []string{"long screw", "wheel"}},
		{"a servo too tall", func(a *arrangement) {
			for i := range a.solids {
				if a.solids[i].name == "servo body" {
					a.solids[i].slices[0].z1 += 8
				}
			}
		}, "moving-overlap", []string{"servo body", "pinion"}},
		{"a swing into the stop", func(a *arrangement) {
			wide := newStroke("wheel", []float64{-70, 70})
			for name, m := range a.stroke.motions {
				wide.motions[name] = []geom.Motion{
					geom.Motion{}.Towards(m[0], 70.0/65), geom.Motion{}.Towards(m[len(m)-1], 70.0/65),
				}
			}
			a.stroke = wide
		}, "moving-overlap", []string{"wheel shoulder", "end stops", "70 deg"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			b := newBuilder(read(t, "servo_turn = 90", "servo_turn = 90\nstops = 4"), Options{Accept: accept})
			if err := b.run(); err != nil {
				t.Fatal(err)
			}
			test.spoil(b.arrangements[0])
			result, err := b.finish()
			if err != nil {
				t.Fatal(err)
			}
			var told []string
			for _, f := range result.Report.Findings {
				if f.Check != test.check || f.Verdict != check.Fail {
					continue
				}
				told = append(told, f.Detail)
				if accepted := f.Accepted != ""; accepted == (f.Check == "moving-overlap") {
					t.Errorf("%s accepted: %v", f.Check, accepted)
				}
			}
			if !slices.ContainsFunc(told, func(detail string) bool {
				return !slices.ContainsFunc(test.words, func(word string) bool { return !strings.Contains(detail, word) })
			}) {
				t.Errorf("%s says %q, want a finding with %q", test.check, told, test.words)
			}
		})
	}
}

// The remedies are numbers: followed, they cure.
func TestClearanceRemedies(t *testing.T) {
	table := []string{"mass = 1.9", "mass = 1.9\ntable = { diameter = 180, thickness = 4 }"}
	for _, test := range []struct {
		name, check string
		changes     []string
		remedy      string
		followed    []string
	}{
		{
			"a table on the pinion's screws", "moving-overlap",
			append(table, ", spacer = 3", ""), "spacer = 3", table,
		},
		{
			"the servo across the ring", "standing-clearance",
			[]string{"servo_turn = 90", "servo_turn = 0"},
			"servo_turn = 90", nil,
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			found := false
			for _, f := range build(t, test.changes...).Report.Findings {
				found = found || f.Check == test.check && f.Verdict == check.Fail && strings.Contains(f.Remedy, test.remedy)
			}
			if !found {
				t.Errorf("no %s with the remedy %q", test.check, test.remedy)
			}
			for _, f := range build(t, test.followed...).Report.Findings {
				if (f.Check == test.check || f.Check == "moving-clearance") && f.Verdict != check.Pass {
					t.Errorf("followed, %s is %s: %s", f.Check, f.Verdict, f.Detail)
				}
			}
		})
	}
}

// A lever of 40 mm that comes down on a block closes the gap of a finger: at the
// last station of -2 deg its edge is 40 sin 2 deg from the level block, less half
// its width (elementary).
func TestCrushingGap(t *testing.T) {
	a := crank(evenStations(-2, 88, 10), 40, geom.Point{Y: 60}, 4)
	a.stand(piece{name: "block", z0: 0, z1: 4}, "", geom.Rectangle(geom.Point{X: 38, Y: -20}, 10, 20, 0, 0, geom.ChordFit))
	findings := a.crushing(nil, nil)
	if len(findings) != 2 { // the post above is passed at 88 deg
		t.Fatalf("%d gaps close: %+v", len(findings), findings)
	}
	block := findings[slices.IndexFunc(findings, func(f check.Finding) bool { return strings.Contains(f.Detail, "block") })]
	sin, cos := math.Sincos(2 * math.Pi / 180)
	want := 10 - 40*sin - 3*cos // of the lower corner of the arm's end
	if math.Abs(block.Value-want) > 0.01 || block.Verdict != check.Note || !strings.Contains(block.Detail, "crank at -2 deg") {
		t.Errorf("%s %.4f: %s; want %.4f", block.Verdict, block.Value, block.Detail, want)
	}
	for _, f := range build(t).Report.Findings {
		if f.Check == "crushing-gap" {
			t.Errorf("round wheels close no gap: %s", f.Detail)
		}
	}
}

// How far from round a slice is decides whether a turn of it can close a gap. A
// bar's corners lie on one circle, and it is not round; a tooth's flank runs
// nearly to the centre, and a gear is nearly round (elementary; tip 57, root
// 50.25 mm in the lighthouse).
func TestRough(t *testing.T) {
	bar := crank([]float64{0, 1}, 40, geom.Point{Y: 60}, 4).solids[0].slices[0]
	if want := math.Hypot(20, 3) - 3; math.Abs(bar.rough()-want) > 0.001 {
		t.Errorf("a bar of 40 x 6 mm is %.4f mm from round, want %.4f", bar.rough(), want)
	}
	b := newBuilder(read(t), Options{})
	if err := b.run(); err != nil {
		t.Fatal(err)
	}
	for _, s := range b.arrangements[0].all(b.drawnParts()) {
		if s.name != "wheel" {
			continue
		}
		for _, slice := range s.slices {
			if most := (57-50.25)/2 + 0.3; slice.rough() > most { // the bed's chamfer eats into the teeth
				t.Errorf("the wheel from %.2f to %.2f mm is %.4f mm from round, want %.4f at most", slice.z0, slice.z1, slice.rough(), most)
			}
		}
	}
}
