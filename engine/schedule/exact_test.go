package schedule

import (
	"math/rand/v2"
	"slices"
	"strconv"
)

// exact is the earliest finish of any plan of a small problem on a grid of
// hours, found by every order and every choice of people: each placed in turn at
// its first free hour. Finishes never come earlier by starting later, so some
// order gives the best plan. Maximum lags, pins, crews and clashes are not
// held; all overtime is worked. It shares only the walk of Check.
type exact struct {
	c      checker
	p      *Problem
	best   Minute
	times  []Window
	stints [][]Window
	holds  []hold
	placed []bool
	need   []bool
}

type hold struct {
	Window
	place, units int
}

const hour = 60

func exactFinish(p Problem) Minute {
	p.People = slices.Clone(p.People)
	for _, o := range p.Overtime {
		h := &p.People[o.Person]
		p.Calendars = append(p.Calendars, joined(append(Calendar{o.Window}, p.Calendars[h.Calendar]...)))
		h.Calendar = len(p.Calendars) - 1
	}
	e := &exact{
		c: checker{p: &p}, p: &p, best: Never, times: make([]Window, len(p.Activities)),
		stints: make([][]Window, len(p.People)), placed: make([]bool, len(p.Activities)), need: make([]bool, len(p.Activities)),
	}
	for j := range e.need {
		e.need[j] = true
	}
	for _, r := range p.Remedies {
		e.need[r.Activity] = false
	}
	for _, r := range p.Risks {
		for _, j := range r.Activities {
			e.need[j] = false
		}
	}
	e.next(p.Now)
	return e.best
}

// next places any activity that may come now, in every way.
func (e *exact) next(last Minute) {
	left := false
	for j := range e.p.Activities {
		if e.placed[j] || !e.need[j] {
			continue
		}
		left = true
		if ready, ok := e.ready(j); ok {
			e.placed[j] = true
			e.each(j, ready, last)
			e.placed[j] = false
		}
	}
	if !left {
		e.best = min(e.best, last)
	}
}

func (e *exact) ready(j int) (Minute, bool) {
	a := &e.p.Activities[j]
	if a.State != Open {
		return e.p.Now, true
	}
	t := max(e.p.Now, a.Release)
	for _, l := range e.p.Links {
		if l.Max || l.To != j || !e.need[l.From] {
			continue
		}
		if !e.placed[l.From] {
			return 0, false
		}
		from := e.times[l.From].To
		if l.FromStart {
			from = e.times[l.From].From
		}
		t = max(t, e.c.walk(l.Calendar, from, l.Lag))
	}
	return t, true
}

// each goes through the choices of people of j.
func (e *exact) each(j int, ready, last Minute) {
	a := &e.p.Activities[j]
	heads := headsOf(a)
	if a.State == Done {
		e.times[j] = Window{a.Start, a.Finish}
		e.next(max(last, a.Finish))
		return
	}
	for pick := range 1 << len(a.Who) {
		var crew []int
		for i, p := range a.Who {
			if pick>>i&1 == 1 {
				crew = append(crew, p)
			}
		}
		if heads > 0 && len(crew) == heads || heads == 0 && pick == 0 {
			e.put(j, ready, last, crew)
		}
	}
}

func (e *exact) put(j int, t, last Minute, crew []int) {
	a := &e.p.Activities[j]
	for ; t < 40*day; t += hour {
		end, ok := e.fits(j, t, crew)
		if !ok {
			continue
		}
		if end >= e.best {
			return
		}
		for _, p := range crew {
			e.stints[p] = append(e.stints[p], Window{t, e.c.walk(e.p.People[p].Calendar, t, a.Work)})
		}
		held := len(e.holds)
		for _, u := range a.Uses {
			e.holds = append(e.holds, hold{Window{t, end}, u.Place, u.Units})
		}
		e.times[j] = Window{t, end}
		if a.State == Started {
			e.times[j].From = a.Start
		}
		e.next(max(last, end))
		e.holds = e.holds[:held]
		for _, p := range crew {
			e.stints[p] = e.stints[p][:len(e.stints[p])-1]
		}
		return
	}
}

func (e *exact) fits(j int, t Minute, crew []int) (end Minute, ok bool) {
	a := &e.p.Activities[j]
	end = t
	if a.Kind == Passive {
		end = e.c.walk(a.Calendar, t, a.Work)
	}
	for _, p := range crew {
		calendar := e.p.People[p].Calendar
		done := e.c.walk(calendar, t, a.Work)
		if openTime(e.p.Calendars[calendar], t, t+1) == 0 || a.Kind == Session && done != t+a.Work || done >= Never {
			return 0, false
		}
		for _, s := range e.stints[p] {
			if a.Work > 0 && s.From < done && t < s.To {
				return 0, false
			}
		}
		end = max(end, done)
	}
	for _, u := range a.Uses {
		for at := t; at < end; at += hour {
			sum := u.Units
			for _, h := range e.holds {
				if h.place == u.Place && h.From <= at && at < h.To {
					sum += h.units
				}
			}
			if sum > e.p.Places[u.Place].Units {
				return 0, false
			}
		}
	}
	return end, true
}

// smallProblem is a crowded problem on the grid of exact.
func smallProblem(seed uint64, most int) Problem {
	roll := rand.New(rand.NewPCG(seed, 2)).IntN
	p := Problem{Now: Minute(roll(3) * 10 * hour)}
	for range 1 + roll(3) {
		c, from, length := Calendar{}, Minute(6+roll(6)), Minute(3+roll(7))
		for d := range Minute(30) {
			if roll(5) > 0 {
				c = append(c, Window{d*day + from*hour, d*day + (from+length)*hour})
			}
		}
		p.Calendars = append(p.Calendars, append(c, Window{31*day + 480, 31*day + 1200}))
	}
	for i := range 1 + roll(3) {
		p.People = append(p.People, Person{ID: "p" + strconv.Itoa(i), Calendar: roll(len(p.Calendars))})
	}
	for i := range roll(3) {
		p.Places = append(p.Places, Place{ID: "q" + strconv.Itoa(i), Units: 1 + roll(2)})
	}
	if roll(4) == 0 {
		d := Minute(roll(4))
		p.Overtime = append(p.Overtime, Overtime{Person: roll(len(p.People)), Window: Window{d*day + 1200, d*day + 1380}, Price: 1})
	}
	for i := range 2 + roll(most-1) {
		p.Activities = append(p.Activities, smallActivity(&p, i, roll))
		if i > 0 && roll(3) == 0 {
			p.Links = append(p.Links, Link{
				From: roll(i), To: i, Lag: Minute(roll(3) * 4 * hour), Calendar: roll(len(p.Calendars)+1) - 1, FromStart: roll(4) == 0,
			})
		}
	}
	if last := len(p.Activities) - 1; roll(6) == 0 && last > 1 {
		p.Activities[last].State = Open
		p.Risks = []Risk{{ID: "r", Chance: 0.5, Activities: []int{last}}}
	}
	return p
}

func smallActivity(p *Problem, i int, roll func(n int) int) Activity {
	a := Activity{ID: "a" + strconv.Itoa(i), Kind: Kind([]int{0, 0, 0, 1, 1, 2}[roll(6)])}
	switch a.Kind {
	case Labour:
		a.Work = Minute(roll(12) * hour)
	case Session:
		a.Work = Minute(roll(4) * hour)
	case Passive:
		a.Work, a.Calendar = Minute(roll(16)*hour), roll(len(p.Calendars)+1)-1
	}
	if a.Kind != Passive {
		first := roll(len(p.People))
		for k := range 1 + roll(len(p.People)) {
			a.Who = append(a.Who, (first+k)%len(p.People))
		}
		a.Heads = roll(min(3, len(a.Who)+1))
	}
	if len(p.Places) > 0 && roll(2) == 0 {
		q := roll(len(p.Places))
		a.Uses = []Use{{q, 1 + roll(p.Places[q].Units)}}
	}
	if roll(3) == 0 {
		a.Release = Minute(roll(60) * hour)
	}
	if p.Now > 0 && roll(8) == 0 {
		a.State, a.Start = Started, p.Now/2
	}
	return a
}
