package schedule

import (
	"cmp"
	"slices"
)

// shifts are the windows of overtime that one person may work.
type shifts struct {
	person  int
	windows []int // indices into Problem.Overtime, in order of time
}

// sell sorts the overtime by person.
func (n *net) sell() {
	at := map[int]int{}
	for w, o := range n.Overtime {
		i, known := at[o.Person]
		if !known {
			i = len(n.extra)
			at[o.Person] = i
			n.extra = append(n.extra, shifts{person: o.Person})
		}
		n.extra[i].windows = append(n.extra[i].windows, w)
	}
	for _, x := range n.extra {
		slices.SortFunc(x.windows, func(a, b int) int { return cmp.Compare(n.Overtime[a].Window.From, n.Overtime[b].Window.From) })
	}
}

// buy opens the chosen windows of Problem.Overtime in the hours of their people
// and closes the others. Only the hours of people whose choice differs from
// the last one are made anew, in room that is kept from one time to the next.
func (r *run) buy(bought []bool) {
	for i, x := range r.n.extra {
		same, none := true, true
		for _, w := range x.windows {
			same, none = same && bought[w] == r.bought[w], none && !bought[w]
			r.bought[w] = bought[w]
		}
		own := &r.n.clocks[r.n.People[x.person].Calendar]
		switch {
		case same:
		case none:
			r.clocks[x.person] = *own
		default:
			r.longer[i].merge(own.win, r.n.Overtime, x.windows, bought)
			r.clocks[x.person] = r.longer[i]
		}
	}
}

// merge makes k the hours of a calendar and of the chosen windows; what touches
// becomes one window, so that a session may run across.
func (k *clock) merge(own Calendar, all []Overtime, windows []int, chosen []bool) {
	if cap(k.win) < len(own)+len(windows) {
		k.win = make([]Window, 0, len(own)+len(windows))
	}
	k.win = k.win[:0]
	for _, w := range windows {
		if !chosen[w] {
			continue
		}
		o := all[w].Window
		for len(own) > 0 && own[0].From < o.From {
			k.join(own[0])
			own = own[1:]
		}
		k.join(o)
	}
	for _, w := range own {
		k.join(w)
	}
	k.tabulate()
}

func (k *clock) join(w Window) {
	if last := len(k.win) - 1; last >= 0 && k.win[last].To == w.From {
		k.win[last].To = w.To
		return
	}
	k.win = append(k.win, w)
}
