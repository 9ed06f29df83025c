package schedule

import "slices"

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
		a.State, a.Release, a.Pinned, a.Crew = Open, -limit, false, ""
	}
	for _, l := range n.Links {
		if !l.Max && !l.FromStart && n.Activities[l.From].State != Done && n.Activities[l.To].State == Open {
			p.Links = append(p.Links, Link{From: l.To, To: l.From, Lag: l.Lag, Calendar: l.Calendar})
		}
	}
	for _, o := range n.Overtime {
		o.Window = Window{-o.Window.To, -o.Window.From}
		p.Overtime = append(p.Overtime, o)
	}
	m := &net{Problem: p}
	for _, c := range p.Calendars {
		m.clocks = append(m.clocks, newClock(c))
	}
	m.clocks = append(m.clocks, newClock(Calendar{{From: -Never, To: Never - limit}}))
	m.connect()
	m.share()
	m.sell()
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

// justify writes down what children inherit from a plan: the order of its
// starts when everything is pushed as far to the end as it goes, last finish
// first. Without budget it is the order of its own starts.
func (i *island) justify(c *candidate) {
	if c.Length+i.n.Now >= Never || !i.left() || !i.has(pushing) {
		i.sort(c.heir, func(j int) Minute { return c.start[j] })
		return
	}
	i.sort(c.heir, func(j int) Minute { return -c.finish[j] })
	i.backward(c.heir, c.Length+i.n.Now, &c.genes)
}

// backward generates a list serially on the mirrored problem, where everything
// ends by last, what was bought is open and the same people are waited for,
// and turns the list into the order of starts that comes out.
func (i *island) backward(list []int, last Minute, g *genes) {
	m := i.mirror
	m.buy(g.bought)
	m.prefer = g.prefer
	m.now = -last
	m.list(list)
	m.serial()
	i.used++
	i.sort(list, func(j int) Minute { return -m.finish[j] })
}

// sort fills a list with all activities by key; ties by number.
func (i *island) sort(list []int, key func(j int) Minute) {
	for j := range i.keys {
		i.keys[j] = int64(key(j))<<32 | int64(j)
	}
	slices.Sort(i.keys)
	for at, k := range i.keys {
		list[at] = int(uint32(k))
	}
}
