package shopfile

import (
	"fmt"
	"slices"
	"strings"

	"fettle/engine/schedule"
)

var (
	kinds  = []string{schedule.Labour: "labour", schedule.Session: "session", schedule.Passive: "wait", schedule.Milestone: "milestone"}
	states = []string{schedule.Open: "open", schedule.Started: "started", schedule.Done: "done"}
)

// resources reads calendars, people, places and factors.
func (r *reader) resources() {
	p := &r.Problem
	for i, c := range r.in.Calendars {
		p.Calendars = append(p.Calendars, r.hours(c, at("calendars", i, c.ID)))
	}
	for i, h := range r.in.People {
		path := at("people", i, h.ID)
		p.People = append(p.People, schedule.Person{
			ID: h.ID, Calendar: r.find(r.calendars, h.Calendar, join(path, "calendar"), "calendar"), Range: r.factor(h.Range, join(path, "range")), Learned: learnt(h.Learned),
		})
	}
	for _, q := range r.in.Places {
		p.Places = append(p.Places, schedule.Place{ID: q.ID, Units: q.Units})
	}
	for i, f := range r.in.Factors {
		p.Factors = append(p.Factors, schedule.Factor{
			ID: f.ID, Range: r.factor(f.Range, join(at("factors", i, f.ID), "range")), Learned: learnt(f.Learned), Seen: f.Seen,
		})
	}
}

// hours reads a calendar.
func (r *reader) hours(c calendarForm, path string) schedule.Calendar {
	var out schedule.Calendar
	add := func(list []string, name string) {
		for k, text := range list {
			w, err := r.windowOf(text, fmt.Sprintf("%s, %s[%d]", path, name, k))
			if err != nil {
				r.keep(err)
			}
			out = append(out, w)
		}
	}
	add(c.Windows, "windows")
	switch {
	case c.Week == "" && c.Windows == nil:
		r.keep(wrong(path, "it has no hours").WithHint(`give a week, such as "mon-fri 08:00-16:00", or a list of windows`))
	case c.Week != "" && c.Windows != nil:
		r.keep(wrong(path, "it has a week and windows").WithHint("put the windows into also"))
	case c.Week == "" && c.From+c.Until != "" || c.Week == "" && len(c.Closed)+len(c.Also) > 0:
		r.keep(wrong(path, "from, until, closed and also belong to a week").WithHint("leave them out, or give a week"))
	case c.Week != "":
		out = r.laid(c, path)
		add(c.Also, "also")
	}
	return joined(out)
}

// laid lays a week over its days.
func (r *reader) laid(c calendarForm, path string) schedule.Calendar {
	w, err := weekOf(c.Week, join(path, "week"))
	if err != nil {
		r.keep(err)
	}
	first, last := schedule.Minute(0), schedule.Minute(0)
	if c.From != "" {
		first = r.date(c.From, join(path, "from"))
	}
	switch {
	case c.Until != "":
		last = r.date(c.Until, join(path, "until"))
	case r.in.Until != "":
		last = r.date(r.in.Until, "until")
	default:
		r.keep(wrong(path, "the week has no end").WithHint(`say how long it goes on: "until": "2027-12-31", here or for the whole file`))
	}
	if (last-first)/day > longest {
		r.keep(wrong(path, "the week goes on for %d days", (last-first)/day).WithHint("keep within 60 years"))
		return nil
	}
	var closed [][2]schedule.Minute
	for k, text := range c.Closed {
		from, to, two := strings.Cut(text, " to ")
		if !two {
			to = from
		}
		where := fmt.Sprintf("%s, closed[%d]", path, k)
		closed = append(closed, [2]schedule.Minute{r.date(from, where), r.date(to, where)})
	}
	return r.lay(w, first, last, func(d schedule.Minute) bool {
		return slices.ContainsFunc(closed, func(c [2]schedule.Minute) bool { return c[0] <= d && d <= c[1] })
	})
}

func (r *reader) date(text, path string) schedule.Minute {
	m, err := r.dayOf(text, path)
	if err != nil {
		r.keep(err)
	}
	return m
}

func (r *reader) activity(a activityForm, path string) schedule.Activity {
	out := schedule.Activity{
		ID: a.ID, Group: a.Task, Heads: a.Heads, Crew: a.Crew, Pinned: a.Pinned,
		Kind: schedule.Kind(r.word(kinds, a.Kind, join(path, "kind"))), Who: r.finds(r.people, a.Who, join(path, "who"), "person"),
		Range: r.factor(a.Range, join(path, "range")), Learned: learnt(a.Learned),
		Factors: r.finds(r.factors, a.Factors, join(path, "factors"), "factor"),
		Late:    r.reserve(a.Late, join(path, "late"), true),
	}
	if a.State != "" {
		out.State = schedule.State(r.word(states, a.State, join(path, "state")))
	}
	wall := out.Kind == schedule.Passive && a.Calendar == ""
	out.Extra = r.reserve(a.Extra, join(path, "extra"), wall)
	switch {
	case out.Kind == schedule.Passive:
		out.Calendar = r.calendar(a.Calendar, path)
	case a.Calendar != "":
		r.keep(wrong(join(path, "calendar"), "only a wait has a calendar of its own").WithHint("labour and sessions go by the hours of the people in who"))
	}
	if a.Takes != "" || out.Kind != schedule.Milestone {
		out.Work = r.minutes(a.Takes, join(path, "takes"), wall)
	}
	if a.Whole != "" || a.Spent != "" {
		out.Begun = schedule.Begun{Planned: r.minutes(a.Whole, join(path, "whole"), wall), Spent: r.minutes(a.Spent, join(path, "spent"), wall)}
	}
	for k, u := range a.Uses {
		q := r.find(r.places, u.Place, fmt.Sprintf("%s, uses[%d], place", path, k), "place")
		out.Uses = append(out.Uses, schedule.Use{Place: q, Units: u.Units})
	}
	if a.NotBefore != "" {
		out.Release = r.moment(a.NotBefore, join(path, "not_before"))
	}
	r.facts(a, &out, path)
	return out
}

// facts reads when it began and ended, which its state must call for.
func (r *reader) facts(a activityForm, out *schedule.Activity, path string) {
	for _, f := range []struct {
		name, text string
		from       schedule.State
		to         *schedule.Minute
	}{{"started", a.Started, schedule.Started, &out.Start}, {"finished", a.Finished, schedule.Done, &out.Finish}} {
		switch wanted := out.State >= f.from; {
		case wanted:
			*f.to = r.moment(f.text, join(path, f.name))
		case f.text != "":
			r.keep(wrong(join(path, f.name), "its state is %s", states[out.State]).WithHint("set state to " + states[f.from] + ", or leave " + f.name + " out"))
		}
	}
}

// word is the place of a word in a list.
func (r *reader) word(list []string, word, path string) int {
	i := slices.Index(list, word)
	if i < 0 {
		r.keep(wrong(path, "there is no %q", word).WithHint("use one of " + strings.Join(list, ", ")))
	}
	return max(i, 0)
}

// published reads what the shop was told; without any, nothing was.
func (r *reader) published() {
	for i, a := range r.in.Activities {
		if a.Published == nil {
			continue
		}
		if r.Problem.Published == nil {
			r.Problem.Published = make([]schedule.Slot, len(r.in.Activities))
			for j := range r.Problem.Published {
				r.Problem.Published[j].Start = schedule.Never
			}
		}
		path := join(at("activities", i, a.ID), "published")
		r.Problem.Published[i] = schedule.Slot{
			Start: r.moment(a.Published.Start, join(path, "start")), People: r.finds(r.people, a.Published.Who, join(path, "who"), "person"),
		}
	}
}

// rules reads links, clashes, overtime and risks.
func (r *reader) rules() {
	p := &r.Problem
	for i, l := range r.in.Links {
		r.link(l, fmt.Sprintf("links[%d]", i))
	}
	for i, c := range r.in.Clashes {
		path := fmt.Sprintf("clashes[%d]", i)
		out := schedule.Clash{
			Dirty: r.finds(r.jobs, c.Dirty, join(path, "dirty"), "activity"), Clean: r.finds(r.jobs, c.Clean, join(path, "clean"), "activity"),
			Calendar: r.calendar(c.Calendar, path),
		}
		if c.Settle != "" {
			out.Settle = r.minutes(c.Settle, join(path, "settle"), c.Calendar == "")
		}
		p.Clashes = append(p.Clashes, out)
	}
	for i, o := range r.in.Overtime {
		path := fmt.Sprintf("overtime[%d]", i)
		w, err := r.windowOf(o.Window, join(path, "window"))
		if err != nil {
			r.keep(err)
		}
		p.Overtime = append(p.Overtime, schedule.Overtime{Person: r.find(r.people, o.Person, join(path, "person"), "person"), Window: w, Price: o.Price})
	}
	for i, k := range r.in.Risks {
		path := join(at("risks", i, k.ID), "activities")
		p.Risks = append(p.Risks, schedule.Risk{ID: k.ID, Chance: k.Chance, Activities: r.finds(r.jobs, k.Activities, path, "activity")})
	}
}

func (r *reader) link(l linkForm, path string) {
	p, wall := &r.Problem, l.Calendar == ""
	out := schedule.Link{
		From: r.find(r.jobs, l.After, join(path, "after"), "activity"), To: r.find(r.jobs, l.Activity, join(path, "activity"), "activity"),
		Calendar: r.calendar(l.Calendar, path), FromStart: l.FromStart, Max: l.AtMost != "",
	}
	switch {
	case out.Max && l.Lag != "":
		r.keep(wrong(path, "it has a lag and at_most").WithHint("write two links: one with lag, one with at_most"))
	case out.Max:
		out.Lag = r.minutes(l.AtMost, join(path, "at_most"), wall)
	case len(l.Remedy) > 0:
		r.keep(wrong(join(path, "remedy"), "only a window that can be missed has a remedy").WithHint("say at_most, or leave the remedy out"))
	case l.Lag != "":
		out.Lag = r.minutes(l.Lag, join(path, "lag"), wall)
	}
	for _, j := range r.finds(r.jobs, l.Remedy, join(path, "remedy"), "activity") {
		p.Remedies = append(p.Remedies, schedule.Remedy{Link: len(p.Links), Activity: j})
	}
	p.Links = append(p.Links, out)
}
