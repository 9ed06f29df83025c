package schedule

// arc makes a moment come at least so many minutes after another: even numbers
// are starts of activities, odd ones finishes.
type arc struct {
	from, to int
	least    Minute
}

// circles says that least and most lags alone make some moment later than
// itself, whenever the work is done [BartuschMohringRadermacher1988]. Only what
// holds at every hour counts: the shortest work, lags on the wall.
func (f *frame) circles() bool {
	if len(f.wishes) == 0 {
		return false
	}
	arcs := f.arcs()
	late := make([]int64, 2*len(f.n.Activities))
	for range late {
		moved := false
		f.steps -= len(arcs)
		for _, a := range arcs {
			if t := late[a.from] + int64(a.least); t > late[a.to] {
				late[a.to], moved = t, true
			}
		}
		if !moved {
			return false
		}
	}
	return true
}

func (f *frame) arcs() []arc {
	n, always := f.n, f.n.clock(-1)
	var list []arc
	for _, j := range f.order {
		if n.Activities[j].State == Done {
			continue
		}
		kind := n.Activities[j].Kind
		list = append(list, arc{2 * j, 2*j + 1, min(limit, f.shortest(j))})
		if kind == Session || kind == Milestone || kind == Passive && f.waits[j] == always {
			list = append(list, arc{2*j + 1, 2 * j, -f.work[j]})
		}
		for _, l := range n.out[j] {
			if at, ok := f.end(l); ok && !f.off[l] {
				list = append(list, arc{at, 2 * n.Links[l].To, n.Links[l].Lag})
			}
		}
	}
	for _, l := range f.wishes {
		if at, ok := f.end(l); ok && n.Links[l].Calendar < 0 {
			list = append(list, arc{2 * n.Links[l].To, at, -n.Links[l].Lag})
		}
	}
	return list
}

// end is the moment that a link counts from, when it is not a fact.
func (f *frame) end(link int) (moment int, open bool) {
	l := &f.n.Links[link]
	state := f.n.Activities[l.From].State
	if l.FromStart {
		return 2 * l.From, state == Open
	}
	return 2*l.From + 1, state != Done
}
