package loom

import "slices"

// group is switches whose contacts feed or earth the same wires, so that only
// their positions together say what happens there.
type group struct {
	switches []int
	before   []int // groups without which nothing reaches its contacts
}

// groups sorts the switches of a net. A switch is the feeder of the wires behind
// it, seen from where there is always feed or always earth; feeders of the same
// wires are one group. The ignition switch and a lamp's switch behind it are
// two, for with the ignition on the lamp's switch alone decides.
func (n *net) groups() []group {
	part, count := n.stretches()
	level := n.levels(part, count)
	relays := len(n.p.Relays)
	up := make([]int32, len(n.p.Switches)+relays)
	for i := range up {
		up[i] = int32(i)
	}
	merge := func(x, y int32) {
		x, y = root(up, x), root(up, y)
		up[max(x, y)] = min(x, y)
	}
	feeder := n.feeders(part, level, count, merge)
	for i := range n.branches {
		e := &n.branches[i]
		a, b := part[e.a], part[e.b]
		switch {
		case e.kind == coilBranch:
			for _, s := range []int32{a, b} {
				if feeder[s] >= 0 {
					merge(feeder[s], int32(len(n.p.Switches)+e.of))
				}
			}
		case e.kind == loadBranch && feeder[a] >= 0 && feeder[b] >= 0:
			merge(feeder[a], feeder[b])
		}
	}
	at := map[int32]int{}
	var list []group
	for i, s := range n.p.Switches {
		if len(s.Positions) < 2 {
			continue
		}
		r := root(up, int32(i))
		k, ok := at[r]
		if !ok {
			k = len(list)
			at[r] = k
			list = append(list, group{})
		}
		list[k].switches = append(list[k].switches, i)
	}
	n.order(list, part, feeder, func(id int32) (int, bool) { k, ok := at[root(up, id)]; return k, ok })
	return list
}

// order notes which groups stand before which, from the feeders of what their
// contacts switch, at any distance.
func (n *net) order(list []group, part, feeder []int32, of func(id int32) (int, bool)) {
	for i := range n.branches {
		e := &n.branches[i]
		if !n.opens(e) {
			continue
		}
		g, ok := of(n.switchOf(e))
		if !ok {
			continue
		}
		for _, end := range []int32{part[e.a], part[e.b]} {
			if feeder[end] < 0 {
				continue
			}
			if k, ok := of(feeder[end]); ok && k != g && !slices.Contains(list[g].before, k) {
				list[g].before = append(list[g].before, k)
			}
		}
	}
	for g := range list {
		for i := 0; i < len(list[g].before); i++ {
			for _, k := range list[list[g].before[i]].before {
				if k != g && !slices.Contains(list[g].before, k) {
					list[g].before = append(list[g].before, k)
				}
			}
		}
	}
}

// switchOf numbers switches, then relays.
func (n *net) switchOf(e *branch) int32 {
	if e.kind == contactBranch {
		return int32(e.of)
	}
	return int32(len(n.p.Switches) + e.of)
}

// stretches numbers what hangs together when every switch is open and every
// consumer, coil and source away.
func (n *net) stretches() (part []int32, count int) {
	up := make([]int32, len(n.names))
	for i := range up {
		up[i] = int32(i)
	}
	for i := range n.branches {
		if e := &n.branches[i]; e.kind.passes() && !n.opens(e) {
			x, y := root(up, e.a), root(up, e.b)
			up[max(x, y)] = min(x, y)
		}
	}
	part = make([]int32, len(up))
	number := map[int32]int32{}
	for i := range up {
		r := root(up, int32(i))
		k, ok := number[r]
		if !ok {
			k = int32(len(number))
			number[r] = k
		}
		part[i] = k
	}
	return part, len(number)
}

// opens reports whether the branch is open in some position.
func (n *net) opens(e *branch) bool {
	return e.kind == makeBranch || e.kind == breakBranch || e.kind == contactBranch && slices.Contains(e.closed, false)
}

// levels counts for each stretch how many switches lie between it and where
// there is always feed or earth.
func (n *net) levels(part []int32, count int) []int {
	level := make([]int, count)
	for i := range level {
		level[i] = -1
	}
	var queue []int32
	start := func(node int32) {
		if s := part[node]; level[s] < 0 {
			level[s] = 0
			queue = append(queue, s)
		}
	}
	start(n.body)
	for _, list := range [][]int{n.cells, n.chargers} {
		for _, i := range list {
			start(n.branches[i].a)
			start(n.branches[i].b)
		}
	}
	beside := make([][]int32, count)
	for i := range n.branches {
		if e := &n.branches[i]; n.opens(e) {
			a, b := part[e.a], part[e.b]
			beside[a], beside[b] = append(beside[a], b), append(beside[b], a)
		}
	}
	for len(queue) > 0 {
		s := queue[0]
		queue = queue[1:]
		for _, t := range beside[s] {
			if level[t] < 0 {
				level[t] = level[s] + 1
				queue = append(queue, t)
			}
		}
	}
	return level
}

// feeders merges the switches and relays that feed one stretch and returns one
// of them for each, or −1.
func (n *net) feeders(part []int32, level []int, count int, merge func(x, y int32)) []int32 {
	feeder := make([]int32, count)
	for i := range feeder {
		feeder[i] = -1
	}
	for i := range n.branches {
		e := &n.branches[i]
		if !n.opens(e) {
			continue
		}
		id := n.switchOf(e)
		for _, ends := range [][2]int32{{e.a, e.b}, {e.b, e.a}} {
			from, to := part[ends[0]], part[ends[1]]
			if level[to] == 0 || level[from] > level[to] {
				continue
			}
			if feeder[to] >= 0 {
				merge(feeder[to], id)
			}
			feeder[to] = id
		}
	}
	return feeder
}
