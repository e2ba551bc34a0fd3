package bvh

// split reorders the items from first up to end into two parts and returns
// where the second begins. Neither is empty.
func (g *grower) split(first, end, depth int) int {
	items := g.items[first:end]
	half := first + len(items)/2
	if depth >= maxSplit {
		return half
	}
	lo, hi := centres(items)
	best := cut{cost: -1}
	for axis := range 3 {
		if c := binned(items, axis, lo[axis], hi[axis]); c.cost >= 0 && (best.cost < 0 || c.cost < best.cost) {
			best = c
		}
	}
	if best.cost < 0 {
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

// centres returns the bounds of twice the centres of the items' boxes.
func centres(items []item) (lo, hi [3]float32) {
	b := emptyBox()
	for i := range items {
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

// cut divides items by the bin that their centre falls into along one axis:
// up to the last bin on one side. A negative cost says that there is none.
type cut struct {
	axis, last int
	from, per  float32
	cost       float32
}

func (c *cut) bin(it *item) int {
	return min(bins-1, int((it.lo[c.axis]+it.hi[c.axis]-c.from)*c.per))
}

// binned finds the cheapest cut along an axis: the least sum of surface times
// number over the two sides.
func binned(items []item, axis int, lo, hi float32) cut {
	c := cut{axis: axis, from: lo, per: bins / (hi - lo), cost: -1}
	if !(hi > lo) || c.per > 1e30 {
		return c
	}
	var boxes [bins]box
	var count [bins]int
	for i := range boxes {
		boxes[i] = emptyBox()
	}
	for i := range items {
		k := c.bin(&items[i])
		boxes[k].add(&items[i].box)
		count[k]++
	}
	var right [bins]float32 // surface times number beyond each bin
	side, n := emptyBox(), 0
	for k := bins - 1; k > 0; k-- {
		side.add(&boxes[k])
		if n += count[k]; n > 0 {
			right[k-1] = side.area() * float32(n)
		}
	}
	side, n = emptyBox(), 0
	for k := range bins - 1 {
		side.add(&boxes[k])
		n += count[k]
		if n == 0 || n == len(items) {
			continue
		}
		if cost := side.area()*float32(n) + right[k]; c.cost < 0 || cost < c.cost {
			c.cost, c.last = cost, k
		}
	}
	return c
}
