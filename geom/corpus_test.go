package geom

import (
	"bufio"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
)

// An outline of testdata/outlines.txt.
type outline struct {
	name, verdict string
	loops         []Loop
}

func outlines(t testing.TB) []outline {
	t.Helper()
	file, err := os.Open("testdata/outlines.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var all []outline
	for lines := bufio.NewScanner(file); lines.Scan(); {
		line := strings.TrimSpace(lines.Text())
		name, verdict, title := strings.Cut(line, ": ")
		switch {
		case line == "" || strings.HasPrefix(line, "#") || len(all) == 0 && !title:
			continue
		case title:
			all = append(all, outline{name: name, verdict: verdict})
			continue
		}
		var loop Loop
		words := strings.Fields(line)
		for i := 0; i+1 < len(words); i += 2 {
			x, errX := strconv.Atoi(words[i])
			y, errY := strconv.Atoi(words[i+1])
			if errX != nil || errY != nil {
				t.Fatalf("%s: %q", name, line)
			}
			loop = append(loop, Vertex{int32(x), int32(y)})
		}
		last := &all[len(all)-1]
		last.loops = append(last.loops, loop)
	}
	if len(all) < 30 {
		t.Fatalf("only %d outlines found", len(all))
	}
	return all
}

// postures turns loops by quarters, mirrors them (keeping outer loops
// anticlockwise) and shears them: none of it changes whether they are a region.
func postures(loops []Loop) [][]Loop {
	maps := []func(v Vertex) Vertex{
		func(v Vertex) Vertex { return v },
		func(v Vertex) Vertex { return Vertex{-v.Y, v.X} },
		func(v Vertex) Vertex { return Vertex{-v.X, -v.Y} },
		func(v Vertex) Vertex { return Vertex{v.Y, -v.X} },
		func(v Vertex) Vertex { return Vertex{-v.X, v.Y} },
		func(v Vertex) Vertex { return Vertex{v.Y, v.X} },
	}
	if far := reach(loops); far < 1000 {
		maps = append(maps,
			func(v Vertex) Vertex { return Vertex{v.X + v.Y, v.Y} },
			func(v Vertex) Vertex { return Vertex{3*v.X - v.Y, v.X + 2*v.Y} },
			func(v Vertex) Vertex { return Vertex{v.X * 4111, v.Y * 4093} },
			func(v Vertex) Vertex { return Vertex{v.X*2048 + v.Y, v.Y*2048 + v.X} })
	}
	var all [][]Loop
	for _, f := range maps {
		mirrored := orient(f(Vertex{}), f(Vertex{1, 0}), f(Vertex{0, 1})) < 0
		var moved []Loop
		for _, l := range loops {
			m := make(Loop, len(l))
			for i, v := range l {
				m[i] = f(v)
				if mirrored {
					m[i] = f(l[len(l)-1-i])
				}
			}
			moved = append(moved, m)
		}
		all = append(all, moved)
	}
	return all
}

func reach(loops []Loop) int32 {
	far := int32(0)
	for _, l := range loops {
		for _, v := range l {
			far = max(far, v.X, -v.X, v.Y, -v.Y)
		}
	}
	return far
}

// isRegion decides by looking at every pair of edges, and at the winding number
// on either side of each.
func isRegion(loops []Loop) bool {
	type edge struct{ a, b Vertex }
	var edges []edge
	seen := map[Vertex]bool{}
	for _, l := range loops {
		if len(l) < 3 {
			return false
		}
		for i, v := range l {
			if seen[v] {
				return false
			}
			seen[v] = true
			edges = append(edges, edge{v, l[(i+1)%len(l)]})
		}
	}
	for i, e := range edges {
		for _, f := range edges[:i] {
			if e.b == f.a || e.a == f.b { // they share one end: the other must not lie on the other edge
				if onSegment(e.a, e.b, f.a) && f.a != e.b || onSegment(e.a, e.b, f.b) && f.b != e.a ||
					onSegment(f.a, f.b, e.a) && e.a != f.b || onSegment(f.a, f.b, e.b) && e.b != f.a {
					return false
				}
				continue
			}
			if onSegment(e.a, e.b, f.a) || onSegment(e.a, e.b, f.b) || onSegment(f.a, f.b, e.a) || onSegment(f.a, f.b, e.b) {
				return false
			}
			if (orient(e.a, e.b, f.a) > 0) != (orient(e.a, e.b, f.b) > 0) && (orient(f.a, f.b, e.a) > 0) != (orient(f.a, f.b, e.b) > 0) {
				return false
			}
		}
	}
	for _, e := range edges {
		a, b := e.a.Point().Scale(PerMM), e.b.Point().Scale(PerMM)
		d := b.Sub(a)
		out := Point{d.Y, -d.X}.Scale(1e-7 / d.Len())
		middle := a.Add(d.Scale(0.5))
		if windingAt(loops, middle.Add(out)) != 0 || windingAt(loops, middle.Sub(out)) != 1 {
			return false
		}
	}
	return len(loops) > 0
}

func onSegment(a, b, p Vertex) bool {
	return orient(a, b, p) == 0 && min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) && min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

// windingAt counts crossings of the ray to the right of p, in grid steps.
func windingAt(loops []Loop, p Point) int {
	n := 0
	for _, l := range loops {
		for i, v := range l {
			a, b := v.Point().Scale(PerMM), l[(i+1)%len(l)].Point().Scale(PerMM)
			if (a.Y > p.Y) == (b.Y > p.Y) || a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) < p.X {
				continue
			}
			if b.Y > a.Y {
				n++
			} else {
				n--
			}
		}
	}
	return n
}

// randomLoops draws loops on a small grid, where points and edges meet often.
func randomLoops(rnd *rand.Rand) []Loop {
	size := 3 + rnd.IntN(12)
	loops := make([]Loop, 1+rnd.IntN(3))
	for i := range loops {
		loops[i] = make(Loop, 3+rnd.IntN(6))
		for k := range loops[i] {
			loops[i][k] = Vertex{int32(rnd.IntN(size)), int32(rnd.IntN(size))}
		}
	}
	return loops
}

// cells draws the outline of some squares of a board: aligned edges, holes,
// islands, corners of 180 degrees, and touching corners where squares meet in a
// point. Each loop keeps to the left where four edges meet.
func cells(rnd *rand.Rand) []Loop {
	size := int32(2 + rnd.IntN(9))
	full := map[Vertex]bool{}
	for x := range size {
		for y := range size {
			full[Vertex{x, y}] = rnd.IntN(8) > 2
		}
	}
	steps := map[Vertex][]Vertex{}
	add := func(a, b Vertex) { steps[a] = append(steps[a], b) }
	var starts []Vertex
	for x := int32(-1); x <= size; x++ {
		for y := int32(-1); y <= size; y++ {
			starts = append(starts, Vertex{x, y})
			if !full[Vertex{x, y}] {
				continue
			}
			for _, side := range []struct{ beside, a, b Vertex }{
				{Vertex{x, y - 1}, Vertex{x, y}, Vertex{x + 1, y}},
				{Vertex{x + 1, y}, Vertex{x + 1, y}, Vertex{x + 1, y + 1}},
				{Vertex{x, y + 1}, Vertex{x + 1, y + 1}, Vertex{x, y + 1}},
				{Vertex{x - 1, y}, Vertex{x, y + 1}, Vertex{x, y}},
			} {
				if !full[side.beside] {
					add(side.a, side.b)
				}
			}
		}
	}
	var loops []Loop
	for _, v := range starts {
		for len(steps[v]) > 0 {
			var loop Loop
			for at := v; len(steps[at]) > 0; {
				loop = append(loop, at)
				next := steps[at][0]
				steps[at] = steps[at][1:]
				at = next
			}
			loops = append(loops, loop)
		}
	}
	return loops
}
