package loom

import "slices"

// Runs lists what is cut: circuits, then wires, in the order of a Result.
func (p *Problem) Runs() []Run {
	list := make([]Run, 0, len(p.Circuits)+len(p.Wires))
	for _, c := range p.Circuits {
		list = append(list, c.Run)
	}
	for _, w := range p.Wires {
		list = append(list, w.Run)
	}
	return list
}

// lying lists the runs in each bundle, each once, by their place among Runs.
func (p *Problem) lying() [][]int {
	by := make(map[string][]int, len(p.Bundles))
	place := make(map[string]int, len(p.Circuits)+len(p.Wires))
	for i, run := range p.Runs() {
		place[run.ID] = i
		if run.Bundle != "" {
			by[run.Bundle] = append(by[run.Bundle], i)
		}
	}
	lists := make([][]int, len(p.Bundles))
	for k, b := range p.Bundles {
		list := slices.Clone(by[b.Name])
		for _, id := range b.Runs {
			list = append(list, place[id])
		}
		slices.Sort(list)
		lists[k] = slices.Compact(list)
	}
	return lists
}
