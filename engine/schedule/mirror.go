package schedule

import (
	"cmp"
	"slices"
)

// mirrored is the problem seen from its end: time runs backwards, calendars and
// links are turned round. Only the order that comes out of it is used, so what
// has no mirror image (start-to-start lags, releases, pins) is left out
// [Valls2005].
func (n *net) mirrored() *net {
	p := Problem{People: n.People, Places: n.Places, Activities: slices.Clone(n.Activities)}
	for _, c := range n.Calendars {
		p.Calendars = append(p.Calendars, turned(c))
	}
	for j := range p.Activities {
		a := &p.Activities[j]
		if a.State == Done {
			*a = Activity{ID: a.ID, Kind: Milestone}
		}
		a.State, a.Release, a.Pinned = Open, 0, false
	}
	for _, l := range n.Links {
		if !l.Max && !l.FromStart && n.Activities[l.From].State != Done && n.Activities[l.To].State == Open {
			p.Links = append(p.Links, Link{From: l.To, To: l.From, Lag: l.Lag, Calendar: l.Calendar})
		}
	}
	m := &net{Problem: p}
	for _, c := range p.Calendars {
		m.clocks = append(m.clocks, newClock(c))
	}
	m.clocks = append(m.clocks, newClock(Calendar{{From: -Never, To: Never - limit}}))
	m.connect()
	m.share()
	m.optional = n.optional
	return m
}

func turned(c Calendar) Calendar {
	back := make(Calendar, len(c))
	for i, w := range c {
		back[len(c)-1-i] = Window{-w.To, -w.From}
	}
	return back
}

// justify pushes the schedule in the run to the right, last finish first, and
// returns the list of the starts that come out.
func (s *search) justify() []int {
	order := natural(len(s.n.Activities))
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.run.finish[b], s.run.finish[a]) })
	m := s.mirror
	m.now = -s.run.makespan()
	for j := range m.release {
		m.release[j] = m.now
	}
	m.list(order)
	m.serial()
	s.stats.Schedules++
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(m.finish[b], m.finish[a]) })
	return order
}

// tails is the list by latest start in the plan without limits: what has the
// longest way still to go comes first.
func (s *search) tails() []int {
	n := s.n
	tail := make([]Minute, len(n.Activities))
	topo := n.topological()
	for i := len(topo) - 1; i >= 0; i-- {
		j := topo[i]
		for _, l := range n.out[j] {
			k := n.Links[l].To
			tail[j] = max(tail[j], min(limit, tail[k]+n.Links[l].Lag))
		}
		tail[j] = min(limit, tail[j]+n.Activities[j].Work)
	}
	order := natural(len(tail))
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(tail[b], tail[a]) })
	return order
}
