package geom

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// Turning by quarters and mirroring keep the area to the last grid step, doubling
// makes it fourfold; layers that change places change ceilings into floors.
func TestPropertiesOfBoards(t *testing.T) {
	const seed = 11
	rnd := rand.New(rand.NewPCG(seed, seed))
	regions, swapped := 0, 0
	for i := range 4000 {
		loops, others := cells(rnd), cells(rnd)
		r, err := NewRegion(loops)
		if err != nil {
			continue
		}
		regions++
		for k, moved := range postures(loops)[:6] {
			m, err := NewRegion(moved)
			if err != nil || m.doubleArea() != r.doubleArea() || len(m.Triangles()) != len(r.Triangles()) {
				t.Fatalf("seed %d, case %d, posture %d: %v, area %d, want %d", seed, i, k, err, m.doubleArea(), r.doubleArea())
			}
		}
		double := make([]Loop, len(loops))
		for j, l := range loops {
			for _, v := range l {
				double[j] = append(double[j], Vertex{2 * v.X, 2 * v.Y})
			}
		}
		if d, err := NewRegion(double); err != nil || d.doubleArea() != 4*r.doubleArea() {
			t.Fatalf("seed %d, case %d: doubled, area %d of %d, %v", seed, i, d.doubleArea(), r.doubleArea(), err)
		}
		other, err := NewRegion(others)
		if err != nil {
			continue
		}
		up, down, err := Difference(r, other)
		up2, down2, err2 := Difference(other, r)
		if (err == nil) != (err2 == nil) {
			t.Fatalf("seed %d, case %d: %v one way, %v the other", seed, i, err, err2)
		}
		if err == nil {
			swapped++
			if up.doubleArea() != down2.doubleArea() || down.doubleArea() != up2.doubleArea() {
				t.Fatalf("seed %d, case %d: %d and %d, the other way %d and %d", seed, i, up.doubleArea(), down.doubleArea(), up2.doubleArea(), down2.doubleArea())
			}
			if d := r.doubleArea() - other.doubleArea(); d != up.doubleArea()-down.doubleArea() {
				t.Fatalf("seed %d, case %d: areas differ by %d, ceilings less floors by %d", seed, i, d, up.doubleArea()-down.doubleArea())
			}
		}
	}
	if regions < 500 || swapped < 50 {
		t.Errorf("only %d regions and %d differences", regions, swapped)
	}
}

// Grilles turned by any angle, as a whole and hole by hole, in one of four sizes.
func TestTrianglesOfRandomTurns(t *testing.T) {
	const seed = 12
	rnd := rand.New(rand.NewPCG(seed, seed))
	for i := range 200 {
		rows, sides, turn, hole := 1+rnd.IntN(8), 3+rnd.IntN(30), 7*rnd.Float64(), 7*rnd.Float64()
		r, err := NewRegion(grille(rows, sides, turn, hole))
		if err != nil {
			t.Fatalf("seed %d, case %d: %d rows of %d sides turned by %g and %g: %v", seed, i, rows, sides, turn, hole, err)
		}
		checkTriangles(t, r)
	}
}

// Whatever two regions stand on each other, there is an error or ceilings and
// floors whose areas differ as the regions do, and that are triangulated right.
func FuzzDifference(f *testing.F) {
	all := outlines(f)
	for i, o := range all {
		if p := all[(i+1)%len(all)]; reach(o.loops) < 127 && reach(p.loops) < 127 {
			f.Add(encode(o.loops), encode(p.loops))
		}
	}
	f.Fuzz(func(t *testing.T, a, b []byte) {
		below, errBelow := NewRegion(decode(a))
		above, errAbove := NewRegion(decode(b))
		if errBelow != nil || errAbove != nil {
			t.Skip("no regions")
		}
		ceilings, floors, err := Difference(below, above)
		if err != nil {
			return
		}
		if d := below.doubleArea() - above.doubleArea(); d != ceilings.doubleArea()-floors.doubleArea() {
			t.Errorf("areas differ by %d, ceilings %d, floors %d", d, ceilings.doubleArea(), floors.doubleArea())
		}
		checkTriangles(t, ceilings)
		checkTriangles(t, floors)
		for _, v := range slices.Concat(below.verts, above.verts) {
			if below.Contains(v) != above.Contains(v) && !ceilings.Contains(v) && !floors.Contains(v) {
				t.Errorf("%v lies in one layer only, but in no ceiling or floor", v)
			}
		}
	})
}
