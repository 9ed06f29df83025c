package schedule

import "strings"

// checkLoops walks the links depth first. Maximum lags are wishes and cannot
// close a loop; but remedial work waits for the beginning of its window, and
// the end for the work.
func checkLoops(p *Problem) error {
	w := walk{next: make([][]int, len(p.Activities)), mark: make([]byte, len(p.Activities))}
	for _, l := range p.Links {
		if !l.Max {
			w.next[l.From] = append(w.next[l.From], l.To)
		}
	}
	for _, m := range p.Remedies {
		l := p.Links[m.Link]
		w.next[l.From] = append(w.next[l.From], m.Activity)
		w.next[m.Activity] = append(w.next[m.Activity], l.To)
	}
	for j := range p.Activities {
		if loop := w.from(j); loop != nil {
			ids := make([]string, len(loop))
			for i, k := range loop {
				ids[i] = p.Activities[k].ID
			}
			return broken(ruleLoop, "activity "+ids[0], "it waits for itself: %s", strings.Join(ids, " > ")).
				WithHint("take out one of these links")
		}
	}
	return nil
}

// reaches says that b waits for a by links that are never skipped.
func reaches(p *Problem, a, b int, optional []bool) bool {
	seen := make([]bool, len(p.Activities))
	next := []int{a}
	for len(next) > 0 {
		j := next[len(next)-1]
		next = next[:len(next)-1]
		for _, l := range p.Links {
			if l.Max || l.From != j || seen[l.To] || optional[l.To] && l.To != b {
				continue
			}
			if l.To == b {
				return true
			}
			seen[l.To] = true
			next = append(next, l.To)
		}
	}
	return false
}

// walk is a depth-first search: mark is 0 for new, 1 for on the path, 2 for clear.
type walk struct {
	next [][]int
	mark []byte
	path []int
}

// from returns the first loop met from j, its first activity also last, or nil.
func (w *walk) from(j int) []int {
	if w.mark[j] == 2 {
		return nil
	}
	if w.mark[j] == 1 {
		for i, k := range w.path {
			if k == j {
				return append(w.path[i:len(w.path):len(w.path)], j)
			}
		}
	}
	w.mark[j], w.path = 1, append(w.path, j)
	for _, k := range w.next[j] {
		if loop := w.from(k); loop != nil {
			return loop
		}
	}
	w.mark[j], w.path = 2, w.path[:len(w.path)-1]
	return nil
}
