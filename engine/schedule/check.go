package schedule

import (
	"cmp"
	"slices"

	"fettle/fault"
)

// Check recomputes from the raw problem that a result can be worked: facts are
// kept, nothing starts before now, its release or its links allow, all work is
// done inside the hours of the people chosen and the overtime that was bought,
// sessions run unbroken, nobody is in two places, no place is overfull, crews
// stay together, dust keeps from clean air, what is skipped may be, a missed
// window has its remedy or is named, and the makespan is the last finish. It
// shares no code with the generation: calendars are walked window by window.
// Activities dated Never are held to nothing; a failure is a fault of kind
// Invalid that names the activity.
func Check(p Problem, res Result) error {
	if len(res.Times) != len(p.Activities) {
		return fault.New(fault.Invalid, "%d dates for %d activities", len(res.Times), len(p.Activities))
	}
	c := checker{p: &p, times: res.Times}
	if err := c.overtime(res); err != nil {
		return err
	}
	last := p.Now
	for j := range p.Activities {
		if res.Times[j].Skipped {
			continue
		}
		if err := c.activity(j); err != nil {
			return err
		}
		last = max(last, res.Times[j].Finish)
	}
	for i := range p.Links {
		if err := c.link(i); err != nil {
			return err
		}
	}
	if last != res.Makespan {
		return fault.New(fault.Invalid, "the makespan is %d, the last finish %d", res.Makespan, last)
	}
	for _, check := range []func() error{c.people, c.places, c.crews, c.clashes, c.skips} {
		if err := check(); err != nil {
			return err
		}
	}
	return c.windows(res)
}

type checker struct {
	p     *Problem
	times []Timing
	hours []Calendar // by person, with what was bought
}

func (c checker) wrong(j int, format string, args ...any) error {
	return fault.New(fault.Invalid, format, args...).At("activity " + c.p.Activities[j].ID)
}

func (c checker) activity(j int) error {
	a, t := &c.p.Activities[j], c.times[j]
	switch {
	case a.State == Done:
		if t.Start != a.Start || t.Finish != a.Finish {
			return c.wrong(j, "it ran from %d to %d, not %d to %d", a.Start, a.Finish, t.Start, t.Finish)
		}
		return nil
	case a.State == Started && t.Start != a.Start:
		return c.wrong(j, "it started at %d, not %d", a.Start, t.Start)
	case t.Finish >= Never:
		return nil
	case t.Resume < c.p.Now:
		return c.wrong(j, "it runs at %d, before now", t.Resume)
	case a.State == Open && (t.Start < a.Release || t.Start != t.Resume):
		return c.wrong(j, "it starts at %d, released at %d", t.Start, a.Release)
	}
	return c.work(j)
}

// work checks that the time between start and finish holds exactly the work.
func (c checker) work(j int) error {
	a, t := &c.p.Activities[j], c.times[j]
	if err := c.crew(j); err != nil {
		return err
	}
	end := t.Resume
	switch a.Kind {
	case Passive:
		end = c.walk(a.Calendar, t.Resume, a.Work)
	case Labour, Session:
		for _, h := range t.People {
			end = max(end, count(c.hours[h], t.Resume, a.Work))
		}
	}
	if end != t.Finish {
		return c.wrong(j, "its work ends at %d, not %d", end, t.Finish)
	}
	if a.Kind == Session && t.Finish-t.Resume != a.Work {
		return c.wrong(j, "a session of %d minutes is stretched over %d", a.Work, t.Finish-t.Resume)
	}
	return nil
}

// crew checks who was chosen, and that each is at work when it begins.
func (c checker) crew(j int) error {
	a, t := &c.p.Activities[j], c.times[j]
	heads := 0
	if a.Kind == Labour || a.Kind == Session {
		heads = max(1, a.Heads)
	}
	if len(t.People) != heads {
		return c.wrong(j, "%d people for %d heads", len(t.People), heads)
	}
	for i, h := range t.People {
		if !slices.Contains(a.Who, h) || slices.Contains(t.People[:i], h) {
			return c.wrong(j, "person %d may not do it, or twice", h)
		}
		if openTime(c.hours[h], t.Resume, t.Resume+1) != 1 {
			return c.wrong(j, "%s is off at its start, %d", c.p.People[h].ID, t.Resume)
		}
	}
	return nil
}

func (c checker) link(i int) error {
	l := c.p.Links[i]
	if l.Max || c.times[l.From].Skipped || c.times[l.To].Skipped || c.p.Activities[l.To].State != Open || c.times[l.To].Finish >= Never {
		return nil
	}
	if earliest := c.lagged(i); c.times[l.To].Start < earliest {
		return c.wrong(l.To, "it starts at %d; after %s it may at %d", c.times[l.To].Start, c.p.Activities[l.From].ID, earliest)
	}
	return nil
}

// lagged is when the lag of a link is over.
func (c checker) lagged(i int) Minute {
	l := c.p.Links[i]
	from := c.times[l.From].Finish
	if l.FromStart {
		from = c.times[l.From].Start
	}
	return c.walk(l.Calendar, from, l.Lag)
}

// walk counts work minutes on a calendar of the problem; -1 is the wall clock.
func (c checker) walk(calendar int, t, work Minute) Minute {
	if calendar < 0 {
		return min(Never, t+work)
	}
	return count(c.p.Calendars[calendar], t, work)
}

// count counts work minutes window by window from t on.
func count(calendar Calendar, t, work Minute) Minute {
	if work == 0 {
		return t
	}
	for _, w := range calendar {
		from := max(t, w.From)
		if from >= w.To {
			continue
		}
		if from+work <= w.To {
			return from + work
		}
		work -= w.To - from
	}
	return Never
}

func openTime(calendar Calendar, from, to Minute) Minute {
	sum := Minute(0)
	for _, w := range calendar {
		sum += max(0, min(to, w.To)-max(from, w.From))
	}
	return sum
}

// people checks that nobody has two things at once.
func (c checker) people() error {
	type stint struct {
		from, to Minute
		j        int
	}
	for h, who := range c.p.People {
		var stints []stint
		for j := range c.times {
			if a := &c.p.Activities[j]; a.State != Done && a.Work > 0 && !c.times[j].Skipped && c.times[j].Finish < Never && slices.Contains(c.times[j].People, h) {
				from := c.times[j].Resume
				stints = append(stints, stint{from, count(c.hours[h], from, a.Work), j})
			}
		}
		slices.SortFunc(stints, func(a, b stint) int { return cmp.Compare(a.from, b.from) })
		for i := 1; i < len(stints); i++ {
			if stints[i].from < stints[i-1].to {
				return c.wrong(stints[i].j, "%s is still at %s at %d", who.ID, c.p.Activities[stints[i-1].j].ID, stints[i].from)
			}
		}
	}
	return nil
}

// places checks the units in use at every start: use only grows there.
func (c checker) places() error {
	type hold struct {
		from, to Minute
		units, j int
	}
	for q, place := range c.p.Places {
		var holds []hold
		for j := range c.times {
			for _, u := range c.p.Activities[j].Uses {
				if t := c.times[j]; u.Place == q && c.p.Activities[j].State != Done && !t.Skipped && t.Finish < Never {
					holds = append(holds, hold{t.Resume, t.Finish, u.Units, j})
				}
			}
		}
		for _, h := range holds {
			sum := 0
			for _, o := range holds {
				if o.from <= h.from && h.from < o.to {
					sum += o.units
				}
			}
			if sum > place.Units {
				return c.wrong(h.j, "%s holds %d of %d at %d", place.ID, sum, place.Units, h.from)
			}
		}
	}
	return nil
}
