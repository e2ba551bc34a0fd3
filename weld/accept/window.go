package accept

import "sort"

// stretch is a piece of weld.
type stretch struct {
	at, extent float64 // m from the weld start, m
	placed     bool    // without a place it may lie anywhere
}

// worstWindow returns the most length, m, that stretches can take up in any
// window of a given length (m): overlaps count once, and what has no place
// counts as if it lay in the worst window.
func worstWindow(stretches []stretch, window float64) float64 {
	var placed []stretch
	loose := 0.0
	for _, s := range stretches {
		if s.placed {
			placed = append(placed, s)
		} else {
			loose += s.extent
		}
	}
	sort.Slice(placed, func(i, j int) bool { return placed[i].at < placed[j].at })
	var merged []stretch
	for _, s := range placed {
		if n := len(merged); n > 0 && s.at <= merged[n-1].at+merged[n-1].extent {
			merged[n-1].extent = max(merged[n-1].extent, s.at+s.extent-merged[n-1].at)
			continue
		}
		merged = append(merged, s)
	}
	most := 0.0
	// The worst window begins with a stretch or ends with one.
	for _, s := range merged {
		most = max(most, covered(merged, s.at, window), covered(merged, s.at+s.extent-window, window))
	}
	return min(most+loose, window)
}

// covered returns how much of a window from a start (m) the stretches cover, m.
func covered(merged []stretch, start, window float64) float64 {
	sum := 0.0
	for _, s := range merged {
		sum += max(0, min(s.at+s.extent, start+window)-max(s.at, start))
	}
	return sum
}

// total returns the length that stretches take up in all, m; overlaps count
// once.
func total(stretches []stretch) float64 {
	const all = 1e9 // longer than any weld, m
	return worstWindow(stretches, all)
}

// imperfect returns the stretches of observations that pick chooses, and
// whether each has its extent.
func imperfect(obs []observation, pick func(observation) bool) (out []stretch, measured bool) {
	measured = true
	for _, o := range obs {
		if pick(o) {
			out = append(out, stretch{o.at, o.extent, o.placed})
			measured = measured && o.extent > 0
		}
	}
	return out, measured
}
