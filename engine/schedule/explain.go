package schedule

// nowhere is a start that nothing holds.
func nowhere(now Minute) Binding {
	return Binding{Cause: ByNow, Activity: -1, Link: -1, Person: -1, Place: -1, At: now}
}

// binding finds what set the start of j in the schedule that stands in the run:
// of all that had to be over first, the one that was over last. Links win ties.
func (r *run) binding(j int) Binding {
	b := nowhere(r.now)
	switch r.n.Activities[j].State {
	case Done:
		b.Cause, b.At = ByFact, r.start[j]
		return b
	case Started:
		b.Cause = ByFact
	case Open:
		if r.release[j] > b.At {
			b.Cause, b.At = ByRelease, r.release[j]
		}
	}
	r.byWindow(j, &b)
	r.byLink(j, &b)
	r.byPerson(j, &b)
	r.byPlace(j, &b)
	r.byAir(j, &b)
	r.byClosed(j, &b)
	return b
}

func (r *run) byLink(j int, b *Binding) {
	for _, l := range r.n.in[j] {
		from := r.n.Links[l].From
		if r.skipped[from] {
			continue
		}
		if at := r.n.arrival(l, r.start[from], r.finish[from]); at > b.At || at == b.At && b.Link < 0 {
			b.Cause, b.At, b.Link, b.Activity = ByLink, at, l, from
			if r.n.Links[l].FromStart && r.n.Activities[from].State == Started {
				b.Activity = -1 // its start is a fact, whatever its rest waits for
			}
			if l >= r.n.raw {
				b.Cause, b.Link = ByRemedy, -1
			}
		}
	}
}

func (r *run) byPerson(j int, b *Binding) {
	for _, p := range r.heads[r.n.first[j]:r.n.first[j+1]] {
		for _, i := range r.n.users[p] {
			if r.skipped[i] || r.resume[i] >= r.resume[j] || !r.chose(i, p) {
				continue
			}
			if at := r.until(p, i, r.resume[i]); at > b.At && at <= r.resume[j] {
				*b = Binding{Cause: ByPerson, Activity: i, Link: -1, Person: p, Place: -1, At: at}
			}
		}
	}
}

func (r *run) chose(i, p int) bool {
	for _, h := range r.heads[r.n.first[i]:r.n.first[i+1]] {
		if h == p {
			return true
		}
	}
	return false
}

// byPlace blames a place only when it had no room until the other left.
func (r *run) byPlace(j int, b *Binding) {
	for _, u := range r.n.Activities[j].Uses {
		for _, i := range r.n.holders[u.Place] {
			at := r.finish[i]
			if at <= b.At || at > r.resume[j] || r.resume[i] >= at {
				continue
			}
			if r.usage(u.Place, at-1)+u.Units > r.n.Places[u.Place].Units {
				*b = Binding{Cause: ByPlace, Activity: i, Link: -1, Person: -1, Place: u.Place, At: at}
			}
		}
	}
}

// usage is how many units of a place are taken in the minute after t.
func (r *run) usage(place int, t Minute) int {
	sum := 0
	for _, i := range r.n.holders[place] {
		if r.resume[i] > t || r.finish[i] <= t {
			continue
		}
		for _, u := range r.n.Activities[i].Uses {
			if u.Place == place {
				sum += u.Units
			}
		}
	}
	return sum
}

// byClosed accounts for the time between the cause and the start. A cause that
// comes while people are off makes the calendar the cause; one that comes at
// the end of their day does not. What closed hours do not explain was kept back.
func (r *run) byClosed(j int, b *Binding) {
	if r.resume[j] <= b.At || r.resume[j] >= Never {
		return
	}
	opened, off := b.At, false
	for _, p := range r.heads[r.n.first[j]:r.n.first[j+1]] {
		opened = max(opened, r.fit(p, j, b.At))
		off = off || r.clocks[p].midGap(b.At)
	}
	switch {
	case opened < r.resume[j]:
		b.Cause = ByHold
	case off && b.Cause != ByPerson:
		b.Cause = ByCalendar
	}
}

// midGap says that t lies inside closed time, not at its very beginning.
func (k *clock) midGap(t Minute) bool {
	i := k.index(t)
	if i == len(k.win) || k.win[i].From <= t {
		return false
	}
	return i == 0 || k.win[i-1].To < t
}

// lastOne is the activity that finishes last, the first of several.
func (r *run) lastOne() int {
	last := -1
	for j, f := range r.finish {
		if !r.skipped[j] && (last < 0 || f > r.finish[last]) {
			last = j
		}
	}
	return last
}
