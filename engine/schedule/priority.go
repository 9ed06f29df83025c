package schedule

// rule is a priority rule: the activity with the smallest value goes first. A
// backward rule lists the mirrored problem.
type rule struct {
	value    []Minute
	backward bool
}

// rules are the rules of one problem. The first two, by the latest finish, are
// those that lists are drawn around.
type rules struct {
	all      []rule
	previous []Minute // by activity, its place in the list the search began with
}

// newRules values activities by latest finish, latest finish from the goal,
// slack, number of successors and rank weight [Kolisch1996], on both sides.
func newRules(fwd, back *run, bound Minute, order []int) *rules {
	n, m := fwd.n, back.n
	early := fwd.unhindered(n.Now)
	late := back.unhindered(-bound)
	s := &rules{previous: make([]Minute, len(order))}
	for at, j := range order {
		s.previous[j] = Minute(at)
	}
	s.add(false, func(j int) Minute { return -late[j].From })
	s.add(true, func(j int) Minute { return -early[j].From })
	if n.Goal > n.Now && n.Goal != bound {
		goal := back.unhindered(-n.Goal)
		s.add(false, func(j int) Minute { return -goal[j].From })
	}
	s.add(false, func(j int) Minute { return -late[j].To - early[j].From })
	s.add(true, func(j int) Minute { return -late[j].To - early[j].From })
	s.add(false, n.followers())
	s.add(true, m.followers())
	s.add(false, n.rankWeight)
	s.add(true, m.rankWeight)
	return s
}

func (s *rules) add(backward bool, value func(j int) Minute) {
	r := rule{value: make([]Minute, len(s.previous)), backward: backward}
	for j := range r.value {
		r.value[j] = value(j)
	}
	s.all = append(s.all, r)
}

// unhindered is when each activity runs if it never waits for a person or a
// place and nothing starts before now.
func (r *run) unhindered(now Minute) []Window {
	n := r.n
	times := make([]Window, len(n.Activities))
	for _, j := range n.topological() {
		ready := max(now, n.Activities[j].Release)
		for _, l := range n.in[j] {
			t := times[n.Links[l].From]
			ready = max(ready, n.arrival(l, t.From, t.To))
		}
		times[j] = Window{ready, r.soonest(j, ready)}
		if a := &n.Activities[j]; a.State == Done {
			times[j] = Window{a.Start, a.Finish}
		}
	}
	return times
}

// followers counts what comes after an activity, near and far, below zero: the
// most successors go first.
func (n *net) followers() func(j int) Minute {
	met := make([]int, len(n.Activities))
	var walk func(j, mark int) Minute
	walk = func(j, mark int) Minute {
		sum := Minute(0)
		for _, l := range n.out[j] {
			if to := n.Links[l].To; met[to] != mark {
				met[to] = mark
				sum += 1 + walk(to, mark)
			}
		}
		return sum
	}
	return func(j int) Minute { return -walk(j, j+1) }
}

// rankWeight is the work of an activity and of its direct successors, below zero.
func (n *net) rankWeight(j int) Minute {
	sum := n.Activities[j].Work
	for _, l := range n.out[j] {
		sum += n.Activities[n.Links[l].To].Work
	}
	return -min(sum, limit)
}
