package shopfile

import (
	"fmt"
	"io"
	"unicode/utf8"

	"fettle/engine/schedule"
)

// Write writes a problem: the same problem, the same bytes. A fault of kind
// Invalid says which index points nowhere, or which ID cannot stand in a file.
func Write(w io.Writer, f File) error {
	if f.Origin == 0 {
		return wrong("origin", "no day to count from")
	}
	wr := &writer{File: f, out: form{Form: "fettle", Origin: f.Origin.String()}}
	wr.all()
	if wr.err != nil {
		return wr.err
	}
	return lay(w, wr.out)
}

// writer turns a problem into the form. It keeps the first fault and goes on.
type writer struct {
	File
	out       form
	err       error
	calendars []string // names by index
}

func (w *writer) keep(path, format string, args ...any) {
	if w.err == nil {
		w.err = wrong(path, format, args...)
	}
}

func (w *writer) all() {
	p, out := &w.Problem, &w.out
	out.Now, out.Absence = w.Moment(p.Now), p.Absence
	if p.Goal != 0 {
		out.Goal = w.Moment(p.Goal)
	}
	if p.Near != 0 {
		out.Near = w.Moment(p.Near)
	}
	if v := p.Weights; v != nil {
		out.Weights = &weightsForm{v.Late, v.Remedial, v.Moved, v.Overtime, v.Length}
	}
	w.distinct()
	w.hours()
	for _, h := range p.People {
		out.People = append(out.People, personForm{ID: h.ID, Calendar: w.calendar(h.Calendar, "person "+h.ID), Range: factor(h.Range), Learned: learned(h.Learned)})
	}
	for _, q := range p.Places {
		out.Places = append(out.Places, placeForm{q.ID, q.Units})
	}
	for _, f := range p.Factors {
		out.Factors = append(out.Factors, factorForm{f.ID, factor(f.Range), learned(f.Learned), f.Seen})
	}
	for j := range p.Activities {
		out.Activities = append(out.Activities, w.activity(j))
	}
	w.rules()
}

// distinct wants IDs by which things can be found again.
func (w *writer) distinct() {
	p := &w.Problem
	see := func(what string, n int, id func(int) string) {
		seen := make(map[string]bool, n)
		for i := range n {
			if s := id(i); s == "" || seen[s] || !utf8.ValidString(s) {
				w.keep(fmt.Sprintf("%s %d", what, i), "the ID %q is empty, used twice or not text", s)
			}
			seen[id(i)] = true
		}
	}
	see("person", len(p.People), func(i int) string { return p.People[i].ID })
	see("place", len(p.Places), func(i int) string { return p.Places[i].ID })
	see("factor", len(p.Factors), func(i int) string { return p.Factors[i].ID })
	see("activity", len(p.Activities), func(i int) string { return p.Activities[i].ID })
	for _, a := range p.Activities {
		if !utf8.ValidString(a.Group) || !utf8.ValidString(a.Crew) {
			w.keep("activity "+a.ID, "its task or crew is not text")
		}
	}
	for _, k := range p.Risks {
		if !utf8.ValidString(k.ID) {
			w.keep("risk "+k.ID, "its ID is not text")
		}
	}
}

// calendar names a calendar; the wall clock has no name.
func (w *writer) calendar(i int, path string) string {
	if i == -1 {
		return ""
	}
	if i < 0 || i >= len(w.calendars) {
		w.keep(path, "calendar %d of %d", i, len(w.calendars))
		return ""
	}
	return w.calendars[i]
}

func (w *writer) person(i int, path string) string {
	if i < 0 || i >= len(w.Problem.People) {
		w.keep(path, "person %d of %d", i, len(w.Problem.People))
		return ""
	}
	return w.Problem.People[i].ID
}

func (w *writer) people(list []int, path string) []string {
	var out []string
	for _, i := range list {
		out = append(out, w.person(i, path))
	}
	return out
}

func (w *writer) job(i int, path string) string {
	if i < 0 || i >= len(w.Problem.Activities) {
		w.keep(path, "activity %d of %d", i, len(w.Problem.Activities))
		return ""
	}
	return w.Problem.Activities[i].ID
}

func (w *writer) jobs(list []int, path string) []string {
	out := []string{}
	for _, i := range list {
		out = append(out, w.job(i, path))
	}
	return out
}

func factor(s schedule.Spread) []float64 {
	if s == (schedule.Spread{}) {
		return nil
	}
	return []float64{s.Low, s.Mode, s.High}
}

func reserve(s schedule.Spread, wall bool) []string {
	if s == (schedule.Spread{}) {
		return nil
	}
	return []string{span(s.Low, wall), span(s.Mode, wall), span(s.High, wall)}
}

func learned(l schedule.Lognormal) *logForm {
	if l == (schedule.Lognormal{}) {
		return nil
	}
	return &logForm{l.Mu, l.Sigma}
}

// hours writes the calendars. One that a single person works by goes by that
// person's ID, any other by a number.
func (w *writer) hours() {
	p := &w.Problem
	users := make([][]string, len(p.Calendars))
	taken := map[string]bool{}
	for _, h := range p.People {
		taken[h.ID] = true
		if h.Calendar >= 0 && h.Calendar < len(users) {
			users[h.Calendar] = append(users[h.Calendar], h.ID)
		}
	}
	fits, until := make([]*weekly, len(p.Calendars)), schedule.Minute(0)
	for i, c := range p.Calendars {
		if fit, ok := w.fit(c); ok {
			fits[i], until = &fit, max(until, fit.last)
			w.out.Until = w.date(until)
		}
	}
	for i, c := range p.Calendars {
		name := fmt.Sprintf("hours %d", i+1)
		if len(users[i]) == 1 {
			name = users[i][0]
		} else {
			for taken[name] {
				name += "'"
			}
		}
		w.calendars = append(w.calendars, name)
		w.out.Calendars = append(w.out.Calendars, w.calendarForm(name, c, fits[i], until))
	}
}

func (w *writer) calendarForm(name string, c schedule.Calendar, fit *weekly, until schedule.Minute) calendarForm {
	out := calendarForm{ID: name}
	if fit == nil {
		out.Windows = []string{}
		for _, v := range c {
			out.Windows = append(out.Windows, w.window(v))
		}
		return out
	}
	out.Week = fit.week.String()
	for _, v := range fit.also {
		out.Also = append(out.Also, w.window(v))
	}
	for _, d := range fit.closed {
		text := w.date(d[0])
		if d[1] > d[0] {
			text += " to " + w.date(d[1])
		}
		out.Closed = append(out.Closed, text)
	}
	open := func(schedule.Minute) bool { return false }
	if fit.first < 0 || len(w.lay(fit.week, 0, fit.first-day, open)) > 0 {
		out.From = w.date(fit.first)
	}
	if len(w.lay(fit.week, fit.last+day, until, open)) > 0 {
		out.Until = w.date(fit.last)
	}
	return out
}

func (w *writer) date(m schedule.Minute) string { return w.Moment(m)[:len("2006-01-02")] }

func (w *writer) activity(j int) activityForm {
	a := &w.Problem.Activities[j]
	path := "activity " + a.ID
	if int(a.Kind) >= len(kinds) || int(a.State) >= len(states) {
		w.keep(path, "kind %d, state %d", a.Kind, a.State)
		return activityForm{}
	}
	wall := a.Kind == schedule.Passive && a.Calendar == -1
	out := activityForm{
		ID: a.ID, Task: a.Group, Kind: kinds[a.Kind], Who: w.people(a.Who, path), Heads: a.Heads, Crew: a.Crew, Pinned: a.Pinned,
		Range: factor(a.Range), Learned: learned(a.Learned), Extra: reserve(a.Extra, wall), Late: reserve(a.Late, true),
	}
	if a.Kind == schedule.Passive {
		out.Calendar = w.calendar(a.Calendar, path)
	}
	if a.Kind != schedule.Milestone {
		out.Takes = span(float64(a.Work), wall)
	}
	if a.Begun != (schedule.Begun{}) {
		out.Whole, out.Spent = span(float64(a.Begun.Planned), wall), span(float64(a.Begun.Spent), wall)
	}
	for _, u := range a.Uses {
		if u.Place < 0 || u.Place >= len(w.Problem.Places) {
			w.keep(path, "place %d of %d", u.Place, len(w.Problem.Places))
			continue
		}
		out.Uses = append(out.Uses, useForm{w.Problem.Places[u.Place].ID, u.Units})
	}
	for _, f := range a.Factors {
		if f < 0 || f >= len(w.Problem.Factors) {
			w.keep(path, "factor %d of %d", f, len(w.Problem.Factors))
			continue
		}
		out.Factors = append(out.Factors, w.Problem.Factors[f].ID)
	}
	if a.Release != 0 {
		out.NotBefore = w.Moment(a.Release)
	}
	if a.State != schedule.Open {
		out.State, out.Started = states[a.State], w.Moment(a.Start)
	}
	if a.State == schedule.Done {
		out.Finished = w.Moment(a.Finish)
	}
	if j < len(w.Problem.Published) && w.Problem.Published[j].Start < schedule.Never {
		s := w.Problem.Published[j]
		out.Published = &publishedForm{Start: w.Moment(s.Start), Who: w.people(s.People, path)}
	}
	return out
}

// rules writes links with their remedies, clashes, overtime and risks.
func (w *writer) rules() {
	p := &w.Problem
	for i, l := range p.Links {
		w.out.Links = append(w.out.Links, w.link(l, fmt.Sprintf("link %d", i)))
	}
	for i, r := range p.Remedies {
		path := fmt.Sprintf("remedy %d", i)
		if r.Link < 0 || r.Link >= len(p.Links) || !p.Links[r.Link].Max {
			w.keep(path, "link %d is no maximum lag", r.Link)
			continue
		}
		out := &w.out.Links[r.Link]
		out.Remedy = append(out.Remedy, w.job(r.Activity, path))
	}
	for i, c := range p.Clashes {
		path := fmt.Sprintf("clash %d", i)
		out := clashForm{Dirty: w.jobs(c.Dirty, path), Clean: w.jobs(c.Clean, path), Calendar: w.calendar(c.Calendar, path)}
		if c.Settle != 0 {
			out.Settle = span(float64(c.Settle), c.Calendar == -1)
		}
		w.out.Clashes = append(w.out.Clashes, out)
	}
	for i, o := range p.Overtime {
		w.out.Overtime = append(w.out.Overtime, overtimeForm{w.person(o.Person, fmt.Sprintf("overtime %d", i)), w.window(o.Window), o.Price})
	}
	for _, k := range p.Risks {
		w.out.Risks = append(w.out.Risks, riskForm{k.ID, k.Chance, w.jobs(k.Activities, "risk "+k.ID)})
	}
}

func (w *writer) link(l schedule.Link, path string) linkForm {
	out := linkForm{Activity: w.job(l.To, path), After: w.job(l.From, path), FromStart: l.FromStart, Calendar: w.calendar(l.Calendar, path)}
	text := span(float64(l.Lag), l.Calendar == -1)
	switch {
	case l.Max:
		out.AtMost = text
	case l.Lag != 0:
		out.Lag = text
	}
	return out
}
