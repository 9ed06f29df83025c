package schedule

import "slices"

// finder walks the chain of a plan and writes down what could be loosened.
type finder struct {
	p      *Problem
	h      HelpOptions
	res    *Result
	list   []Relaxation
	limits []Limit
}

func relaxations(p *Problem, res Result, h HelpOptions) ([]Relaxation, []Limit) {
	f := &finder{p: p, h: h, res: &res}
	if f.h.Longer <= 0 {
		f.h.Longer = 60
	}
	if f.h.Sooner <= 0 {
		f.h.Sooner = 7 * 1440
	}
	for _, s := range Chain(*p, res) {
		f.step(s)
	}
	for i, o := range p.Overtime {
		if o.Window.From >= p.Now && !slices.Contains(res.Bought, i) {
			f.add(Relaxation{Kind: OvertimeTake, ID: p.People[o.Person].ID, Person: o.Person, Place: -1, Activity: -1, Overtime: i, Window: o.Window, Price: o.Price})
		}
	}
	return f.list, f.limits
}

// add leaves out what is in the list already.
func (f *finder) add(r Relaxation) {
	if !slices.Contains(f.list, r) {
		f.list = append(f.list, r)
	}
}

func (f *finder) step(s Step) {
	a := &f.p.Activities[s.Activity]
	if a.State == Done {
		return
	}
	if s.Lag > 0 {
		f.limits = append(f.limits, Limit{Activity: s.Activity, Link: s.Binding.Link, Length: s.Lag})
	}
	if a.Kind == Passive && s.Finish > s.Start {
		f.limits = append(f.limits, Limit{Activity: s.Activity, Link: -1, Length: s.Finish - s.Start})
	}
	switch b := s.Binding; b.Cause {
	case ByPerson:
		f.add(Relaxation{Kind: OneMoreLike, ID: f.p.People[b.Person].ID, Person: b.Person, Place: -1, Activity: -1, Overtime: -1})
	case ByPlace:
		f.add(Relaxation{Kind: MoreRoom, ID: f.p.Places[b.Place].ID, Person: -1, Place: b.Place, Activity: -1, Overtime: -1})
	case ByHold:
		f.pins(s.Activity)
	}
	if s.Binding.Cause == ByRelease || a.Pinned && a.State == Open {
		f.release(s.Activity)
	}
	for _, p := range f.res.Times[s.Activity].People {
		f.hours(p, s)
	}
}

// release offers an earlier part, or to let go of a pin.
func (f *finder) release(j int) {
	a := &f.p.Activities[j]
	r := Relaxation{Kind: PinLetGo, ID: a.ID, Person: -1, Place: -1, Activity: j, Overtime: -1}
	if !a.Pinned {
		r.Kind, r.By = EarlierPart, min(f.h.Sooner, a.Release-f.p.Now)
	}
	f.add(r)
}

// pins are those that j may have been kept back for: they share a person or a place.
func (f *finder) pins(j int) {
	a := &f.p.Activities[j]
	for q := range f.p.Activities {
		b := &f.p.Activities[q]
		if !b.Pinned || b.State != Open || q == j {
			continue
		}
		if slices.ContainsFunc(a.Who, func(p int) bool { return slices.Contains(b.Who, p) }) ||
			slices.ContainsFunc(a.Uses, func(u Use) bool {
				return slices.ContainsFunc(b.Uses, func(v Use) bool { return u.Place == v.Place })
			}) {
			f.release(q)
		}
	}
}

// hours offers longer days, and the first of the extra days that falls between
// what the step waited for and its end.
func (f *finder) hours(p int, s Step) {
	r := Relaxation{Kind: LongerDays, ID: f.p.People[p].ID, Person: p, Place: -1, Activity: -1, Overtime: -1, By: f.h.Longer}
	f.add(r)
	own := f.p.Calendars[f.p.People[p].Calendar]
	for _, w := range f.h.Days {
		if w.From < max(f.p.Now, s.Binding.At) || w.From >= s.Finish || openTime(own, w.From, w.To) > 0 {
			continue
		}
		r.Kind, r.By, r.Window = ExtraDay, 0, w
		f.add(r)
		return
	}
}
