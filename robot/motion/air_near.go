package motion

import (
	"math"
	"math/bits"
	"slices"

	"seamwright/robot/kinematics"
)

// nearTree finds the nearest of many points that come one by one. It is a k-d
// tree (J. L. Bentley, "Multidimensional Binary Search Trees Used for Associative
// Searching", 1975, from memory) with its points in buckets at the leaves: a full
// bucket is cut at the median of its widest side. Points that come in order make
// such a tree deep; past twice the depth of a balanced one it is built afresh.
type nearTree struct {
	n      int                             // coordinates of a point
	points [][kinematics.MaxJoints]float64 // by number; coordinates are weighted
	gone   []bool                          // points that are not to be found any more
	cells  []nearCell
	lists  [][nearBucket]int32 // the numbers of points in each leaf
	order  []int32             // working memory of a build
	// off and best belong to the query that is running.
	goal  [kinematics.MaxJoints]float64
	off   [kinematics.MaxJoints]float64
	best  int32
	bestD float64
}

// nearBucket is the number of points in a full leaf.
const nearBucket = 8

// nearCell is an inner cell, cut at coordinate axis = at, or a leaf.
type nearCell struct {
	at          float64
	below, over int32 // cells of an inner cell
	axis        int16 // -1 for a leaf
	count       int16 // points of a leaf
	list        int32 // index in lists of a leaf
	next        int32 // leaf: another leaf at the same place, where points coincide; -1: none
}

// reset empties the tree for points of n coordinates and keeps its memory.
func (t *nearTree) reset(n int) {
	t.n = n
	t.points, t.gone = t.points[:0], t.gone[:0]
	t.clearCells()
}

func (t *nearTree) clearCells() {
	t.cells, t.lists = t.cells[:0], t.lists[:0]
	t.leaf()
}

// leaf adds an empty leaf and returns its number.
func (t *nearTree) leaf() int32 {
	t.lists = append(t.lists, [nearBucket]int32{})
	t.cells = append(t.cells, nearCell{axis: -1, next: -1, list: int32(len(t.lists) - 1)})
	return int32(len(t.cells) - 1)
}

// add appends a point; its number is that of points added before.
func (t *nearTree) add(p *[kinematics.MaxJoints]float64) {
	t.points, t.gone = append(t.points, *p), append(t.gone, false)
	if t.place(int32(len(t.points)-1)) > nearDepth(len(t.points)) {
		t.build()
	}
}

// nearDepth returns the depth that a tree of n points may have.
func nearDepth(n int) int { return 2*bits.Len(uint(n/nearBucket)) + 8 }

// place puts point i into its leaf and returns the leaf's depth.
func (t *nearTree) place(i int32) (depth int) {
	p := &t.points[i]
	at := int32(0)
	for {
		c := &t.cells[at]
		switch {
		case c.axis >= 0 && p[c.axis] < c.at:
			at, depth = c.below, depth+1
		case c.axis >= 0:
			at, depth = c.over, depth+1
		case c.count < nearBucket:
			t.lists[c.list][c.count] = i
			c.count++
			return depth
		case c.next >= 0:
			at = c.next
		default:
			t.cut(at)
		}
	}
}

// cut turns a full leaf into a cell with two leaves. Where all its points
// coincide it hangs another leaf behind it.
func (t *nearTree) cut(at int32) {
	list := t.lists[t.cells[at].list]
	axis, mid := t.split(list[:])
	if axis < 0 {
		next := t.leaf()
		t.cells[at].next = next
		return
	}
	over := t.leaf()
	below := t.leaf()
	// The old list serves the cell below.
	t.cells[below].list, t.cells[at].list = t.cells[at].list, t.cells[below].list
	c := &t.cells[at]
	c.axis, c.at, c.below, c.over = int16(axis), mid, below, over
	for _, i := range list {
		to := below
		if t.points[i][axis] >= mid {
			to = over
		}
		leaf := &t.cells[to]
		t.lists[leaf.list][leaf.count] = i
		leaf.count++
	}
}

// split returns the axis on which the points spread widest and a value that has
// about half of them below it, at least one below and one not; axis -1 where all
// points coincide.
func (t *nearTree) split(list []int32) (axis int, mid float64) {
	axis, widest := -1, 0.0
	for a := range t.n {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, i := range list {
			lo, hi = min(lo, t.points[i][a]), max(hi, t.points[i][a])
		}
		if hi-lo > widest {
			axis, widest = a, hi-lo
		}
	}
	if axis < 0 {
		return -1, 0
	}
	slices.SortFunc(list, func(i, j int32) int {
		switch x, y := t.points[i][axis], t.points[j][axis]; {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return int(i - j)
	})
	half := len(list) / 2
	mid = t.points[list[half]][axis]
	for half < len(list) && t.points[list[half]][axis] == t.points[list[0]][axis] {
		half++ // the lower half is one value: cut above it
		mid = t.points[list[half]][axis]
	}
	return axis, mid
}

// build makes the tree afresh and balanced, without the points that are gone.
func (t *nearTree) build() {
	t.cells, t.lists = t.cells[:0], t.lists[:0]
	t.order = t.order[:0]
	for i := range t.points {
		if !t.gone[i] {
			t.order = append(t.order, int32(i))
		}
	}
	t.grow(t.order)
}

// grow makes the cell of the listed points and returns its number.
func (t *nearTree) grow(list []int32) int32 {
	at := t.leaf()
	axis, mid := -1, 0.0
	if len(list) > nearBucket {
		axis, mid = t.split(list)
	}
	if axis < 0 {
		for _, i := range list {
			t.placeAt(at, i)
		}
		return at
	}
	cutAt, _ := slices.BinarySearchFunc(list, mid, func(i int32, v float64) int {
		if t.points[i][axis] < v {
			return -1
		}
		return 1
	})
	below := t.grow(list[:cutAt])
	over := t.grow(list[cutAt:])
	c := &t.cells[at]
	c.axis, c.at, c.below, c.over = int16(axis), mid, below, over
	return at
}

// placeAt puts point i into the leaf or one that hangs behind it.
func (t *nearTree) placeAt(at, i int32) {
	for t.cells[at].count == nearBucket {
		if t.cells[at].next < 0 {
			next := t.leaf()
			t.cells[at].next = next
		}
		at = t.cells[at].next
	}
	c := &t.cells[at]
	t.lists[c.list][c.count] = i
	c.count++
}

// nearest returns the number of the point nearest to p and the square of its
// distance, -1 and +Inf where there is none.
func (t *nearTree) nearest(p *[kinematics.MaxJoints]float64) (int32, float64) {
	t.goal, t.best, t.bestD = *p, -1, math.Inf(1)
	t.off = [kinematics.MaxJoints]float64{}
	t.visit(0, 0)
	return t.best, t.bestD
}

// visit looks through a cell that is at least sqrt(d) away. The running sum d
// rounds, so cells that seem a hair too far are looked at all the same.
func (t *nearTree) visit(at int32, d float64) {
	c := &t.cells[at]
	if c.axis < 0 {
		t.scan(c)
		return
	}
	diff := t.goal[c.axis] - c.at
	first, second := c.below, c.over
	if diff >= 0 {
		first, second = second, first
	}
	t.visit(first, d)
	was := t.off[c.axis]
	d += float64(diff*diff) - float64(was*was)
	if d <= t.bestD*(1+1e-12) {
		t.off[c.axis] = diff
		t.visit(second, d)
		t.off[c.axis] = was
	}
}

// scan looks at the points of a leaf; of equal distances the lower number wins.
func (t *nearTree) scan(c *nearCell) {
	for {
		for _, i := range t.lists[c.list][:c.count] {
			d := t.square(i)
			if (d < t.bestD || d == t.bestD && i < t.best) && !t.gone[i] {
				t.best, t.bestD = i, d
			}
		}
		if c.next < 0 {
			return
		}
		c = &t.cells[c.next]
	}
}

// square returns the square of the distance from the goal to point i.
func (t *nearTree) square(i int32) float64 {
	p, q := &t.points[i], &t.goal
	sum := 0.0
	for k := range t.n {
		d := p[k] - q[k]
		sum += float64(d * d)
	}
	return sum
}
