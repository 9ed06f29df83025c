package schedule

import (
	"cmp"
	"slices"
)

// by sets the latest starts from the moment at which all has to be over.
func (f *full) by(last Minute) {
	m := f.back
	for _, j := range slices.Backward(f.part) {
		t := -last
		for _, l := range m.n.in[j] {
			if k := m.n.Links[l].From; !f.n.optional[k] {
				t = max(t, m.n.arrival(l, f.tail[k].From, f.tail[k].To))
			}
		}
		f.tail[j] = Window{t, t}
		if f.n.Activities[j].Work > 0 {
			f.tail[j].To = m.soonest(j, t)
		}
		f.late[j] = -f.tail[j].To
	}
}

// search begins with nothing laid.
func (f *full) search() bool {
	for p := range f.r.busy {
		f.r.busy[p] = f.r.busy[p][:0]
	}
	for q := range f.r.booked {
		f.r.booked[q] = f.r.booked[q].clear()
	}
	f.open = 0
	for _, j := range f.part {
		f.laid[j], f.r.finish[j] = false, Never
		if f.needs[j] {
			f.open++
		}
	}
	return f.lay(0, f.n.Now)
}

// lay lays what is open, in order of starts, nothing before a moment. It says
// no when there is no way or the steps are spent.
func (f *full) lay(depth int, least Minute) bool {
	if !f.reach(least) {
		return false
	}
	if f.open == 0 {
		return true
	}
	f.choices[depth] = f.options(f.choices[depth][:0])
	for k := range f.choices[depth] {
		if f.steps <= 0 {
			return false
		}
		f.steps--
		o := &f.choices[depth][k]
		f.put(depth, o)
		if f.lay(depth+1, o.from) {
			return true
		}
		f.lift(depth, o)
	}
	return false
}

// reach works out when what is not laid could run at best, by links, and says
// whether that is soon enough.
func (f *full) reach(least Minute) bool {
	for _, j := range f.part {
		if f.laid[j] {
			continue
		}
		t, sure := f.ready(j)
		if f.needs[j] {
			t = max(t, least)
		}
		f.sure[j], f.from[j], f.to[j] = sure, t, f.soonest(j, t)
		if t > f.late[j] || f.to[j] >= Never {
			return false
		}
	}
	return true
}

// ready is when the links of j let it start, and whether that is certain.
func (f *full) ready(j int) (t Minute, sure bool) {
	n := f.n
	if n.Activities[j].State == Started {
		return n.Now, true
	}
	t, sure = max(n.Now, n.Activities[j].Release), true
	for _, l := range n.in[j] {
		k := n.Links[l].From
		if n.optional[k] {
			continue
		}
		begun := f.from[k]
		if n.Activities[k].State == Started {
			begun = n.Activities[k].Start
		}
		t = max(t, n.arrival(l, begun, f.to[k]))
		sure = sure && (f.laid[k] || !f.needs[k] && f.sure[k])
	}
	return t, sure
}

// soonest is when j could be over at best from t on.
func (f *full) soonest(j int, t Minute) Minute {
	a, end := &f.n.Activities[j], Never
	if a.Kind == Passive {
		return f.n.clock(a.Calendar).after(t, a.Work)
	}
	for _, team := range f.teams[j] {
		done := t
		for _, p := range team {
			done = max(done, f.r.until(p, j, f.r.fit(p, j, t)))
		}
		end = min(end, done)
	}
	return end
}

// options are what may begin next. In an active schedule nothing begins when
// something else that is ready could be over by then, its dust settled
// [GifflerThompson1960]; of a crew nobody knows yet who it will be.
func (f *full) options(list []option) []option {
	soon := Never
	for _, j := range f.part {
		if f.laid[j] || !f.needs[j] || !f.sure[j] {
			continue
		}
		first, last := Never, Minute(0)
		for _, team := range f.teams[j] {
			if !f.matches(j, team) {
				continue
			}
			from, to := f.first(j, team)
			list = append(list, option{j, from, to, team})
			first, last = min(first, to), max(last, to)
		}
		if f.n.crew != nil && f.n.crew[j] >= 0 {
			first = last
		}
		soon = min(soon, f.quiet(j, first))
	}
	list = slices.DeleteFunc(list, func(o option) bool { return o.from >= soon || o.from > f.late[o.j] })
	slices.SortFunc(list, func(a, b option) int {
		return cmp.Or(cmp.Compare(f.late[a.j], f.late[b.j]), cmp.Compare(a.to, b.to), cmp.Compare(a.j, b.j))
	})
	return list
}

// matches says that a team is that of the crew, if it is known.
func (f *full) matches(j int, team []int) bool {
	if f.n.crew == nil || f.n.crew[j] < 0 {
		return true
	}
	for i, c := range f.n.crew {
		if c == f.n.crew[j] && f.laid[i] && f.needs[i] {
			return slices.Equal(team, f.r.chosen(i))
		}
	}
	return true
}

// quiet is when the dust of an end has settled.
func (f *full) quiet(j int, end Minute) Minute {
	quiet := end
	if f.n.dirty != nil {
		for _, c := range f.n.dirty[j] {
			quiet = max(quiet, f.n.settled(c, end))
		}
	}
	return quiet
}

// first is when a team can do j first, among what is laid.
func (f *full) first(j int, team []int) (from, to Minute) {
	r, a := f.r, &f.n.Activities[j]
	for t := f.from[j]; t < Never; {
		at, end := t, t
		for _, p := range team {
			at, end = max(at, r.gap(p, j, t)), max(end, r.until(p, j, t))
		}
		if a.Kind == Passive {
			end = f.n.clock(a.Calendar).after(t, a.Work)
		}
		if at == t {
			at = max(r.room(j, t, end), r.lungs(j, t, end))
		}
		if at == t {
			return t, end
		}
		t = at
	}
	return Never, Never
}

func (f *full) put(depth int, o *option) {
	r, uses := f.r, f.n.Activities[o.j].Uses
	for len(f.saved[depth]) < len(uses) {
		f.saved[depth] = append(f.saved[depth], nil)
	}
	for k, u := range uses {
		f.saved[depth][k] = append(f.saved[depth][k][:0], r.booked[u.Place]...)
	}
	copy(r.chosen(o.j), o.team)
	r.book(o.j, o.from, o.to)
	r.resume[o.j], r.finish[o.j] = o.from, o.to
	f.laid[o.j], f.from[o.j], f.to[o.j] = true, o.from, o.to
	f.open--
}

// lift takes it back.
func (f *full) lift(depth int, o *option) {
	r := f.r
	for _, p := range o.team {
		r.busy[p] = slices.DeleteFunc(r.busy[p], func(s span) bool { return s.from == o.from })
	}
	for k, u := range f.n.Activities[o.j].Uses {
		r.booked[u.Place] = append(r.booked[u.Place][:0], f.saved[depth][k]...)
	}
	f.laid[o.j], r.finish[o.j] = false, Never
	f.open++
}

// over is when the last is over.
func (f *full) over() Minute {
	last := f.n.Now
	for _, j := range f.part {
		last = max(last, f.to[j])
	}
	return last
}
