package mesh

import (
	"cmp"
	"slices"
)

const leafSize = 4

// A box holds a triangle or a branch of a tree of triangles; edges count as
// inside.
type box struct{ lo, hi [3]float64 }

func (b box) meets(c box) bool {
	return b.lo[0] <= c.hi[0] && c.lo[0] <= b.hi[0] &&
		b.lo[1] <= c.hi[1] && c.lo[1] <= b.hi[1] &&
		b.lo[2] <= c.hi[2] && c.lo[2] <= b.hi[2]
}

func (b box) join(c box) box {
	for k := range 3 {
		b.lo[k], b.hi[k] = min(b.lo[k], c.lo[k]), max(b.hi[k], c.hi[k])
	}
	return b
}

func (b box) middle() (m [3]float64) {
	for k := range 3 {
		m[k] = b.lo[k]/2 + b.hi[k]/2
	}
	return m
}

// A tree of boxes over triangles, sorted along a curve that keeps neighbours
// together and halved again and again.
type tree struct {
	boxes    []box   // by triangle
	order    []int32 // triangles along the curve
	branches []branch
}

type branch struct {
	box
	from, to    int32 // in order
	left, right int32 // branches, or 0 for a leaf
}

// newTree returns a tree of at least one box.
func newTree(boxes []box) *tree {
	t := &tree{boxes: boxes, order: make([]int32, len(boxes))}
	all := boxes[0]
	for _, b := range boxes {
		all = all.join(b)
	}
	keys := make([]uint64, len(boxes))
	for i, b := range boxes {
		t.order[i] = int32(i)
		keys[i] = curveKey(b.middle(), all)
	}
	slices.SortFunc(t.order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(keys[a], keys[b]), cmp.Compare(a, b))
	})
	t.grow(0, int32(len(boxes)))
	return t
}

// curveKey interleaves the bits of the coordinates (Morton order).
func curveKey(p [3]float64, all box) (key uint64) {
	for k := range 3 {
		var cell uint64
		if size := all.hi[k] - all.lo[k]; size > 0 {
			cell = uint64((p[k] - all.lo[k]) / size * (1<<21 - 1))
		}
		for bit := range 21 {
			key |= cell >> bit & 1 << (3*bit + k)
		}
	}
	return key
}

func (t *tree) grow(from, to int32) int32 {
	n := int32(len(t.branches))
	t.branches = append(t.branches, branch{from: from, to: to, box: t.boxes[t.order[from]]})
	if to-from <= leafSize {
		for _, i := range t.order[from:to] {
			t.branches[n].box = t.branches[n].join(t.boxes[i])
		}
		return n
	}
	middle := from + (to-from)/2
	left, right := t.grow(from, middle), t.grow(middle, to)
	b := &t.branches[n]
	b.left, b.right, b.box = left, right, t.branches[left].join(t.branches[right].box)
	return n
}

// A task is two branches whose triangles are to be paired, or one with itself.
type task struct{ m, n int32 }

// tasks cuts the search for pairs into at least so many tasks, where it can.
func (t *tree) tasks(least int) []task {
	all := []task{{0, 0}}
	for len(all) < least {
		var finer []task
		for _, k := range all {
			m, n := &t.branches[k.m], &t.branches[k.n]
			switch {
			case !m.meets(n.box):
			case m.left == 0 || n.left == 0:
				finer = append(finer, k)
			case k.m == k.n:
				finer = append(finer, task{m.left, m.left}, task{m.right, m.right}, task{m.left, m.right})
			default:
				finer = append(finer, task{m.left, n.left}, task{m.left, n.right}, task{m.right, n.left}, task{m.right, n.right})
			}
		}
		if len(finer) == len(all) {
			return finer
		}
		all = finer
	}
	return all
}

// pairs calls visit for every two triangles of a task whose boxes meet, until
// it returns false.
func (t *tree) pairs(k task, visit func(i, j int32) bool) bool {
	if k.m == k.n {
		return t.within(k.m, visit)
	}
	return t.across(k.m, k.n, visit)
}

// touching calls visit for every triangle whose box meets another, until it
// returns false.
func (t *tree) touching(n int32, b box, visit func(i int32) bool) bool {
	branch := &t.branches[n]
	if !branch.meets(b) {
		return true
	}
	if branch.left != 0 {
		return t.touching(branch.left, b, visit) && t.touching(branch.right, b, visit)
	}
	for _, i := range t.order[branch.from:branch.to] {
		if t.boxes[i].meets(b) && !visit(i) {
			return false
		}
	}
	return true
}

func (t *tree) within(n int32, visit func(i, j int32) bool) bool {
	b := t.branches[n]
	if b.left != 0 {
		return t.within(b.left, visit) && t.within(b.right, visit) && t.across(b.left, b.right, visit)
	}
	for k := b.from; k < b.to; k++ {
		for l := k + 1; l < b.to; l++ {
			if !t.try(k, l, visit) {
				return false
			}
		}
	}
	return true
}

func (t *tree) across(m, n int32, visit func(i, j int32) bool) bool {
	a, b := &t.branches[m], &t.branches[n]
	switch {
	case !a.meets(b.box):
		return true
	case a.left != 0 && (b.left == 0 || a.to-a.from >= b.to-b.from):
		return t.across(a.left, n, visit) && t.across(a.right, n, visit)
	case b.left != 0:
		return t.across(m, b.left, visit) && t.across(m, b.right, visit)
	}
	for k := a.from; k < a.to; k++ {
		for l := b.from; l < b.to; l++ {
			if !t.try(k, l, visit) {
				return false
			}
		}
	}
	return true
}

func (t *tree) try(k, l int32, visit func(i, j int32) bool) bool {
	i, j := t.order[k], t.order[l]
	return !t.boxes[i].meets(t.boxes[j]) || visit(i, j)
}
