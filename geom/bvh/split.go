package bvh

const (
	bins     = 16   // bins of the surface-area heuristic along each axis
	binsFew  = 8    // the same for few items
	few      = 32   // items
	looked   = 2048 // items that are looked at, at least, to find a cut; all if fewer
	maxSplit = 48   // levels cut by area; deeper ones are halved, which bounds the depth
	maxDepth = maxSplit + 28
)

// split reorders the items from first up to end into two parts and returns
// where the second begins. Neither is empty.
func (g *grower) split(first, end, depth int) int {
	items := g.items[first:end]
	half := first + len(items)/2
	if depth >= maxSplit {
		return half
	}
	best, ok := cheapest(items)
	if !ok {
		return half // all centres in one place
	}
	i, j := 0, len(items)
	for i < j {
		if best.bin(&items[i]) <= best.last {
			i++
		} else {
			j--
			items[i], items[j] = items[j], items[i]
		}
	}
	return first + i
}

// cut divides items by the bin that their centre falls into along one axis:
// up to the last bin on one side.
type cut struct {
	axis, last int
	from, per  float32
	most       int // the highest bin
}

func (c *cut) bin(it *item) int {
	return max(0, min(c.most, int((it.lo[c.axis]+it.hi[c.axis]-c.from)*c.per)))
}

// heap is what has fallen into a bin.
type heap struct {
	box
	n int
}

// cheapest finds the cut with the least sum of surface times number over the
// two sides, from a part of the items if they are many; ok is false if there
// is none.
func cheapest(items []item) (best cut, ok bool) {
	step := max(1, len(items)/looked)
	lo, hi := centres(items, step)
	count := bins
	if len(items) < few {
		count = binsFew
	}
	least := float32(-1)
	for axis := range 3 {
		c := cut{axis: axis, from: lo[axis], per: float32(count) / (hi[axis] - lo[axis]), most: count - 1}
		if !(hi[axis] > lo[axis]) || c.per > 1e30 {
			continue
		}
		var heaps [bins]heap
		for k := range count {
			heaps[k].box = emptyBox()
		}
		for i := 0; i < len(items); i += step {
			h := &heaps[c.bin(&items[i])]
			h.add(&items[i].box)
			h.n++
		}
		if last, cost, found := sweep(heaps[:count]); found && (!ok || cost < least) {
			c.last = last
			best, least, ok = c, cost, true
		}
	}
	return best, ok
}

// sweep finds the bin after which a cut costs least: surface (m2) times number
// on the one side plus the same on the other.
func sweep(heaps []heap) (last int, least float32, ok bool) {
	var beyond [bins]float32
	side := heap{box: emptyBox()}
	for k := len(heaps) - 1; k > 0; k-- {
		if heaps[k].n > 0 {
			side.add(&heaps[k].box)
			side.n += heaps[k].n
		}
		if side.n > 0 {
			beyond[k-1] = side.area() * float32(side.n)
		}
	}
	all := side.n + heaps[0].n
	side = heap{box: emptyBox()}
	for k := range len(heaps) - 1 {
		if heaps[k].n == 0 {
			continue // as good as the cut before it
		}
		side.add(&heaps[k].box)
		side.n += heaps[k].n
		if side.n == all {
			break
		}
		if cost := side.area()*float32(side.n) + beyond[k]; !ok || cost < least {
			last, least, ok = k, cost, true
		}
	}
	return last, least, ok
}

// centres returns the bounds of twice the centres of every step-th item's box.
func centres(items []item, step int) (lo, hi [3]float32) {
	b := emptyBox()
	for i := 0; i < len(items); i += step {
		it := &items[i]
		for k := range 3 {
			c := it.lo[k] + it.hi[k]
			if c < b.lo[k] {
				b.lo[k] = c
			}
			if c > b.hi[k] {
				b.hi[k] = c
			}
		}
	}
	return b.lo, b.hi
}
