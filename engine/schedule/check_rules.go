package schedule

import (
	"cmp"
	"slices"

	"fettle/fault"
)

// overtime adds what was bought to the hours and checks that it was for sale,
// once each, and its price.
func (c *checker) overtime(res Result) error {
	for _, h := range c.p.People {
		c.hours = append(c.hours, slices.Clone(c.p.Calendars[h.Calendar]))
	}
	price := int64(0)
	for i, w := range res.Bought {
		if w < 0 || w >= len(c.p.Overtime) || slices.Contains(res.Bought[:i], w) {
			return fault.New(fault.Invalid, "overtime %d is not for sale, or bought twice", w)
		}
		o := c.p.Overtime[w]
		price += o.Price
		c.hours[o.Person] = append(c.hours[o.Person], o.Window)
		slices.SortFunc(c.hours[o.Person], func(a, b Window) int { return cmp.Compare(a.From, b.From) })
	}
	if price != res.Price {
		return fault.New(fault.Invalid, "the price is %d, of what was bought %d", res.Price, price)
	}
	return nil
}

// counts says that an activity is done in this plan.
func (c checker) counts(j int) bool { return !c.times[j].Skipped && c.times[j].Finish < Never }

// crews checks that all activities of a crew have the same people.
func (c checker) crews() error {
	first := map[string][]int{}
	for j := range c.p.Activities {
		a := &c.p.Activities[j]
		people := slices.Sorted(slices.Values(c.times[j].People))
		if a.State == Done && len(a.Who) == max(1, a.Heads) {
			people = slices.Sorted(slices.Values(a.Who))
		}
		if a.Crew == "" || len(people) == 0 || !c.counts(j) {
			continue
		}
		if known, ok := first[a.Crew]; ok && !slices.Equal(known, people) {
			return c.wrong(j, "crew %s is %v here and %v elsewhere", a.Crew, people, known)
		}
		first[a.Crew] = people
	}
	return nil
}

// clashes checks every dirty activity against every clean one. Two facts are
// as they are.
func (c checker) clashes() error {
	for _, k := range c.p.Clashes {
		for _, d := range k.Dirty {
			for _, q := range k.Clean {
				if err := c.air(k, d, q); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func (c checker) air(k Clash, dirty, clean int) error {
	d, q := c.times[dirty], c.times[clean]
	facts := c.p.Activities[dirty].State != Open && c.p.Activities[clean].State != Open
	if facts || !c.counts(dirty) || !c.counts(clean) || d.Resume == d.Finish || q.Resume == q.Finish {
		return nil
	}
	if d.Resume < q.Finish && q.Resume < d.Finish {
		return c.wrong(clean, "%s makes dust while it runs, from %d", c.p.Activities[dirty].ID, max(d.Resume, q.Resume))
	}
	if q.Resume < d.Finish || c.p.Activities[clean].State != Open {
		return nil
	}
	if settled := c.walk(k.Calendar, d.Finish, k.Settle); q.Resume < settled {
		return c.wrong(clean, "it starts at %d; after %s the air is clean at %d", q.Resume, c.p.Activities[dirty].ID, settled)
	}
	return nil
}

// skips checks that only what a risk or a remedy calls for is left out, and
// that no risk strikes in a plan.
func (c checker) skips() error {
	optional := make([]bool, len(c.times))
	for _, m := range c.p.Remedies {
		optional[m.Activity] = true
	}
	for _, r := range c.p.Risks {
		for _, j := range r.Activities {
			if !c.times[j].Skipped {
				return c.wrong(j, "risk %s is in the plan", r.ID)
			}
			optional[j] = true
		}
	}
	for j, t := range c.times {
		if t.Skipped && !optional[j] {
			return c.wrong(j, "it is left out")
		}
	}
	return nil
}

// windows checks every maximum lag: missed, it has its remedies, all of them,
// or is named as an overrun; kept, it has neither.
func (c checker) windows(res Result) error {
	for i, l := range c.p.Links {
		if l.Max && c.p.Activities[l.To].State == Open {
			if err := c.window(i, res); err != nil {
				return err
			}
		}
	}
	for m := range c.p.Remedies {
		j, to := c.p.Remedies[m].Activity, c.p.Links[c.p.Remedies[m].Link].To
		if c.p.Activities[to].State != Open && !c.times[j].Skipped {
			return c.wrong(j, "it mends what has begun")
		}
		if c.times[j].Skipped == slices.Contains(res.Remedies, m) {
			return c.wrong(j, "a remedy is done and not named, or named and not done")
		}
	}
	return nil
}

func (c checker) window(i int, res Result) error {
	l := c.p.Links[i]
	to, idle := c.times[l.To], c.times[l.From].Skipped || c.times[l.To].Skipped
	by := Minute(0)
	if c.counts(l.From) && c.counts(l.To) {
		by = max(0, to.Start-c.lagged(i))
	}
	remedies := 0
	for _, m := range c.p.Remedies {
		t := c.times[m.Activity]
		if m.Link != i {
			continue
		}
		remedies++
		switch {
		case t.Skipped && by > 0:
			return c.wrong(l.To, "it starts %d minutes after its window, without its remedy", by)
		case !t.Skipped && idle:
			return c.wrong(m.Activity, "it mends a window that is not there")
		case !t.Skipped && c.counts(m.Activity) && t.Start < c.lagged(i):
			return c.wrong(m.Activity, "it starts at %d; the window closes at %d", t.Start, c.lagged(i))
		case !t.Skipped && c.counts(l.To) && to.Start < t.Finish:
			return c.wrong(l.To, "it starts at %d, before its remedy is over", to.Start)
		}
	}
	if !c.counts(l.To) && !idle || remedies > 0 {
		return nil
	}
	k := slices.IndexFunc(res.Overruns, func(o Overrun) bool { return o.Link == i })
	if k < 0 && by > 0 || k >= 0 && res.Overruns[k].By != by {
		return c.wrong(l.To, "it misses its window by %d minutes, which is not named", by)
	}
	return nil
}
