package drawing

import (
	"math"
	"slices"

	"pintle/geom"
)

// A Hatched is cut material: convex pieces that together are one body. Bodies
// side by side lean differently.
type Hatched struct {
	Pieces [][]geom.Point
	Turn   float64 // rad, of the lines from the x axis
	Pitch  float64 // mm between them on paper
}

// hatched returns the cut of all layers as one body, hatched at an angle in rad.
func hatched(layers []cutLayer, turn float64) []Hatched {
	h := Hatched{Turn: turn}
	for _, l := range layers {
		paired := len(l.bottom.spans) == len(l.top.spans)
		for i, b := range l.bottom.spans {
			t := b
			if paired {
				t = l.top.spans[i]
			}
			if b.hatchTo-b.hatchFrom < 1e-6 {
				continue
			}
			h.Pieces = append(h.Pieces, []geom.Point{
				{X: b.hatchFrom, Y: l.z0}, {X: b.hatchTo, Y: l.z0}, {X: t.hatchTo, Y: l.z1}, {X: t.hatchFrom, Y: l.z1},
			})
		}
	}
	if len(h.Pieces) == 0 {
		return nil
	}
	return []Hatched{h}
}

// Lines returns the hatching at the pitch in mm: along each line, pieces that
// meet give one stroke. Lines are counted from the origin, so that bodies drawn
// in two places of a sheet are hatched alike.
func (h Hatched) Lines(pitch float64) []geom.Line {
	sin, cos := math.Sincos(h.Turn)
	along, across := geom.Point{X: cos, Y: sin}, geom.Point{X: -sin, Y: cos}
	rows := map[int][][2]float64{}
	for _, piece := range h.Pieces {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range piece {
			lo, hi = min(lo, dot(p, across)), max(hi, dot(p, across))
		}
		for row := int(math.Ceil(lo / pitch)); float64(row)*pitch < hi; row++ {
			if from, to, ok := clip(piece, along, across, (float64(row)+1e-7)*pitch); ok {
				rows[row] = append(rows[row], [2]float64{from, to})
			}
		}
	}
	var numbers []int
	for row := range rows {
		numbers = append(numbers, row)
	}
	slices.Sort(numbers)
	var lines []geom.Line
	for _, row := range numbers {
		foot := across.Scale(float64(row) * pitch)
		for _, run := range joined(rows[row]) {
			lines = append(lines, geom.Line{A: foot.Add(along.Scale(run[0])), B: foot.Add(along.Scale(run[1]))})
		}
	}
	return lines
}

// clip returns where the line at a distance across lies in a convex piece.
func clip(piece []geom.Point, along, across geom.Point, at float64) (from, to float64, ok bool) {
	from, to = math.Inf(1), math.Inf(-1)
	last := piece[len(piece)-1]
	for _, p := range piece {
		a, b := dot(last, across)-at, dot(p, across)-at
		if (a < 0) != (b < 0) {
			x := dot(last, along) + (dot(p, along)-dot(last, along))*a/(a-b)
			from, to = min(from, x), max(to, x)
		}
		last = p
	}
	return from, to, from < to
}

// joined merges runs that meet.
func joined(runs [][2]float64) [][2]float64 {
	slices.SortFunc(runs, func(a, b [2]float64) int { return sign(a[0] - b[0]) })
	merged := runs[:1]
	for _, r := range runs[1:] {
		if last := &merged[len(merged)-1]; r[0] <= last[1]+1e-3 {
			last[1] = max(last[1], r[1])
			continue
		}
		merged = append(merged, r)
	}
	return merged
}
