package outside

import (
	"cmp"
	"slices"

	"fettle/engine/schedule"
)

// value is what plans are ranked by, measure after measure, in hours and money.
type value struct{ late, remedial, price, last int }

func (a value) less(b value) bool {
	return cmp.Or(cmp.Compare(a.late, b.late), cmp.Compare(a.remedial, b.remedial), cmp.Compare(a.price, b.price), cmp.Compare(a.last, b.last)) < 0
}

// slot is where an activity lies. ends holds, by person, when each of its
// people is free again.
type slot struct {
	start, from, to int // from is where the work still to do begins
	people          []int
	ends            []int
	skipped         bool
}

// slow finds the best plan of a small problem by trying every start and every
// choice of people, one activity after the other. Time is an array of hours.
type slow struct {
	p      *schedule.Problem
	open   []hours // by calendar; the last is the wall clock
	hands  []hours // by person, with what is bought
	at     []slot
	best   value
	better []slot
	price  int
	nodes  int
}

const mostNodes = 100_000

// hours is a calendar: which hours are open, and when so many open ones have
// passed from an hour on, stepped out once; more than the horizon beyond it.
type hours struct {
	open  []bool
	after [horizon + 1][mostWork + 1]int
}

const mostWork = 12 // hours, of any activity or lag

func newSlow(p *schedule.Problem, bought []int) *slow {
	s := &slow{p: p, at: make([]slot, len(p.Activities))}
	for _, c := range p.Calendars {
		s.open = append(s.open, stepped(opened(make([]bool, horizon), c)))
	}
	s.open = append(s.open, stepped(opened(make([]bool, horizon), schedule.Calendar{{From: 0, To: horizon * hour}})))
	for h, who := range p.People {
		open := slices.Clone(s.open[who.Calendar].open)
		for _, w := range bought {
			if p.Overtime[w].Person == h {
				open = opened(open, schedule.Calendar{p.Overtime[w].Window})
			}
		}
		s.hands = append(s.hands, stepped(open))
	}
	for _, w := range bought {
		s.price += int(p.Overtime[w].Price)
	}
	return s
}

func opened(open []bool, c schedule.Calendar) []bool {
	for _, w := range c {
		for t := w.From / hour; t < w.To/hour; t++ {
			open[t] = true
		}
	}
	return open
}

// stepped counts from the horizon back: a closed hour changes nothing, an open
// one takes one off what is left.
func stepped(open []bool) hours {
	h := hours{open: open}
	for from := horizon; from >= 0; from-- {
		h.after[from][0] = from
		for work := 1; work <= mostWork; work++ {
			switch {
			case from == horizon:
				h.after[from][work] = horizon + work
			case open[from]:
				h.after[from][work] = h.after[from+1][work-1]
			default:
				h.after[from][work] = h.after[from+1][work]
			}
		}
	}
	return h
}

// pass is when so much work has passed.
func (h *hours) pass(t int, work schedule.Minute) int {
	return h.after[min(t, horizon)][work/hour]
}

func (s *slow) lagged(l *schedule.Link) int {
	t := s.at[l.From].to
	if l.FromStart {
		t = s.at[l.From].start
	}
	return s.calendar(l.Calendar).pass(t, l.Lag)
}

func (s *slow) calendar(i int) *hours {
	if i < 0 {
		i = len(s.open) - 1
	}
	return &s.open[i]
}

// lay works an activity from an hour on with some people. It says no where
// somebody is off at its start, a session is broken, or the hours run out.
func (s *slow) lay(j, t int, people []int) (slot, bool) {
	a := &s.p.Activities[j]
	x := slot{start: t, from: t, to: t, people: people}
	if a.State == schedule.Started {
		x.start = int(a.Start / hour)
	}
	if a.Kind == schedule.Passive {
		x.to = s.calendar(a.Calendar).pass(t, a.Work)
	}
	for _, h := range people {
		if !s.hands[h].open[t] {
			return x, false
		}
		end := s.hands[h].pass(t, a.Work)
		if a.Kind == schedule.Session && end != t+int(a.Work/hour) {
			return x, false
		}
		x.ends, x.to = append(x.ends, end), max(x.to, end)
	}
	return x, x.to <= horizon
}

// agrees says that activity j, the last one laid, goes with those before it.
func (s *slow) agrees(j int) bool {
	a, x := &s.p.Activities[j], &s.at[j]
	if x.skipped || a.State == schedule.Done {
		return true
	}
	if x.from < int(s.p.Now/hour) || a.State == schedule.Open && x.start < int(a.Release/hour) {
		return false
	}
	for i := range s.p.Links {
		l := &s.p.Links[i]
		if l.To == j && !l.Max && a.State == schedule.Open && !s.at[l.From].skipped && x.start < s.lagged(l) {
			return false
		}
	}
	for i := range j {
		if !s.at[i].skipped && s.p.Activities[i].State != schedule.Done && !s.apart(i, j) {
			return false
		}
	}
	return s.room(j) && s.air(j) && s.mended(j)
}

// apart says that nobody is at both, and that a crew is one.
func (s *slow) apart(i, j int) bool {
	x, y := &s.at[i], &s.at[j]
	for k, h := range x.people {
		if m := slices.Index(y.people, h); m >= 0 && x.from < y.ends[m] && y.from < x.ends[k] {
			return false
		}
	}
	crew := s.p.Activities[j].Crew
	return crew == "" || s.p.Activities[i].Crew != crew || slices.Equal(x.people, y.people)
}

// room counts the place hour by hour.
func (s *slow) room(j int) bool {
	if len(s.p.Activities[j].Uses) == 0 {
		return true
	}
	for t := s.at[j].from; t < s.at[j].to; t++ {
		sum := 0
		for i := range j + 1 {
			x, u := &s.at[i], s.p.Activities[i].Uses
			if len(u) > 0 && !x.skipped && s.p.Activities[i].State != schedule.Done && x.from <= t && t < x.to {
				sum += u[0].Units
			}
		}
		if sum > s.p.Places[0].Units {
			return false
		}
	}
	return true
}

// air keeps dust from clean work, and lets it settle.
func (s *slow) air(j int) bool {
	for _, k := range s.p.Clashes {
		d, q := k.Dirty[0], k.Clean[0]
		if max(d, q) != j || s.at[d].skipped || s.at[q].skipped {
			continue
		}
		x, y := &s.at[d], &s.at[q]
		before, after := y.to <= x.from, s.calendar(k.Calendar).pass(x.to, k.Settle) <= y.from
		if s.p.Activities[q].State != schedule.Open { // it has begun: nothing to settle before
			after = x.to <= y.from
		}
		facts := s.p.Activities[d].State != schedule.Open && s.p.Activities[q].State != schedule.Open
		if !before && !after && !facts {
			return false
		}
	}
	return true
}

// mended wants a missed window with a remedy to have had it, after the window
// and before its end, and a kept one not.
func (s *slow) mended(j int) bool {
	for _, m := range s.p.Remedies {
		l := &s.p.Links[m.Link]
		if l.To != j {
			continue
		}
		x, closes := &s.at[m.Activity], s.lagged(l)
		if x.skipped && s.at[j].start > closes || !x.skipped && (x.start < closes || s.at[j].start < x.to) {
			return false
		}
	}
	return true
}

// value measures the first n activities; more of them never make it less.
func (s *slow) value(n int) value {
	v := value{price: s.price, last: int(s.p.Now / hour)}
	for j := range n {
		a, x := &s.p.Activities[j], &s.at[j]
		if x.skipped {
			continue
		}
		v.last = max(v.last, x.to)
		if a.Pinned && a.State == schedule.Open {
			v.remedial += max(0, x.start-max(int(s.p.Now), int(a.Release))/hour)
		}
	}
	for _, m := range s.p.Remedies {
		if m.Activity < n && !s.at[m.Activity].skipped {
			v.remedial += int(s.p.Activities[m.Activity].Work / hour)
		}
	}
	for i := range s.p.Links {
		l := &s.p.Links[i]
		if !l.Max || l.To >= n || l.From >= n || s.at[l.To].skipped || s.at[l.From].skipped || s.p.Activities[l.To].State != schedule.Open || s.mends(i) {
			continue
		}
		v.remedial += max(0, s.at[l.To].start-s.lagged(l))
	}
	if s.p.Goal > 0 {
		v.late = max(0, v.last-int(s.p.Goal/hour))
	}
	return v
}

// mends says that a link has a remedy, which takes the place of its overrun.
func (s *slow) mends(link int) bool {
	return slices.ContainsFunc(s.p.Remedies, func(m schedule.Remedy) bool { return m.Link == link })
}

// search lays activity j in every way and goes on to the next. It looks for
// plans better than best.
func (s *slow) search(j int) {
	if s.nodes++; s.nodes > mostNodes {
		return
	}
	if j == len(s.at) {
		s.best, s.better = s.value(j), slices.Clone(s.at)
		return
	}
	a := &s.p.Activities[j]
	if a.State == schedule.Done {
		s.at[j] = slot{start: int(a.Start / hour), from: int(a.Start / hour), to: int(a.Finish / hour)}
		s.search(j + 1)
		return
	}
	if slices.ContainsFunc(s.p.Remedies, func(m schedule.Remedy) bool { return m.Activity == j }) {
		s.at[j] = slot{skipped: true}
		s.search(j + 1)
	}
	for _, people := range teams(a) {
		for t := int(s.p.Now / hour); t < horizon; t++ {
			x, ok := s.lay(j, t, people)
			if !ok && x.to <= horizon {
				continue
			}
			s.at[j] = x
			if x.to > horizon || !s.value(j+1).less(s.best) {
				break // later is no better
			}
			if s.agrees(j) {
				s.search(j + 1)
				if s.free(j) {
					break // later serves nobody
				}
			}
			if s.stays(j) {
				break
			}
		}
	}
}

// stays says that begun work stands in the place or in the air: it goes on as
// soon as somebody is at work. Other begun work may wait.
func (s *slow) stays(j int) bool {
	a := &s.p.Activities[j]
	aired := slices.ContainsFunc(s.p.Clashes, func(k schedule.Clash) bool { return k.Dirty[0] == j || k.Clean[0] == j })
	return a.State == schedule.Started && (len(a.Uses) > 0 || aired)
}

// free says that an activity takes nobody, no place and no air and opens no
// window: it may as well start as soon as it can.
func (s *slow) free(j int) bool {
	a := &s.p.Activities[j]
	if len(a.Who)+len(a.Uses) > 0 {
		return false
	}
	for _, l := range s.p.Links {
		if l.Max && (l.From == j || l.To == j) {
			return false
		}
	}
	for _, k := range s.p.Clashes {
		if k.Dirty[0] == j || k.Clean[0] == j {
			return false
		}
	}
	return true
}

// teams are the choices of so many people as an activity needs, sorted.
func teams(a *schedule.Activity) [][]int {
	if a.Kind == schedule.Passive || a.Kind == schedule.Milestone {
		return [][]int{nil}
	}
	who := slices.Sorted(slices.Values(a.Who))
	var out [][]int
	for i, h := range who {
		if a.Heads < 2 {
			out = append(out, []int{h})
			continue
		}
		for _, g := range who[i+1:] {
			out = append(out, []int{h, g})
		}
	}
	return out
}
