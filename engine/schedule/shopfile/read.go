package shopfile

import (
	"fmt"
	"io"
	"strings"

	"fettle/engine/schedule"
	"fettle/fault"
	"fettle/unit"
)

// most is the longest file that Read takes, in bytes.
const most = 64 << 20

// Read reads a problem. A fault is of kind Invalid and names the place; of kind
// TooLarge beyond 64 MB.
func Read(r io.Reader) (File, error) {
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	switch {
	case err != nil:
		return File{}, fault.Wrap(fault.Invalid, err, "read the problem")
	case len(data) > most:
		return File{}, fault.New(fault.TooLarge, "a problem of more than %d MB", most>>20)
	}
	var in form
	if err := decode(data, &in); err != nil {
		return File{}, err
	}
	if in.Form != "fettle" {
		return File{}, wrong("form", "%q is not this form", in.Form).WithHint(`begin with "form": "fettle"`)
	}
	origin, err := unit.ParseDate(in.Origin)
	if err != nil || origin == 0 {
		return File{}, wrong("origin", "%q is not a day", in.Origin).WithHint(`write the day from which minutes count, like "2026-10-05"`)
	}
	rd := &reader{File: File{Origin: origin}, in: &in}
	rd.all()
	return rd.File, rd.err
}

// reader turns the form into a problem. It keeps the first fault and goes on
// with zeros.
type reader struct {
	File
	in                                       *form
	err                                      error
	calendars, people, places, factors, jobs map[string]int
}

func (r *reader) keep(err error) {
	if r.err == nil {
		r.err = err
	}
}

func (r *reader) all() {
	in, p := r.in, &r.Problem
	r.calendars = index(in.Calendars, func(c calendarForm) string { return c.ID })
	r.people = index(in.People, func(h personForm) string { return h.ID })
	r.places = index(in.Places, func(q placeForm) string { return q.ID })
	r.factors = index(in.Factors, func(f factorForm) string { return f.ID })
	r.jobs = index(in.Activities, func(a activityForm) string { return a.ID })
	p.Absence = in.Absence
	if in.Now != "" {
		p.Now = r.moment(in.Now, "now")
	}
	if in.Goal != "" {
		p.Goal = r.moment(in.Goal, "goal")
	}
	if in.Near != "" {
		p.Near = r.moment(in.Near, "near")
	}
	if w := in.Weights; w != nil {
		p.Weights = &schedule.Weights{Late: w.Late, Remedial: w.Remedial, Moved: w.Moved, Overtime: w.Overtime, Length: w.Length}
	}
	r.resources()
	for i, a := range in.Activities {
		p.Activities = append(p.Activities, r.activity(a, at("activities", i, a.ID)))
	}
	r.published()
	r.rules()
}

func at(list string, i int, id string) string {
	return strings.TrimSpace(fmt.Sprintf("%s[%d] %s", list, i, id))
}

// index maps IDs to places in a list. An ID said twice keeps its first place;
// Solve refuses the second.
func index[T any](list []T, id func(T) string) map[string]int {
	m := make(map[string]int, len(list))
	for i, x := range list {
		if _, twice := m[id(x)]; !twice {
			m[id(x)] = i
		}
	}
	return m
}

// find resolves an ID.
func (r *reader) find(in map[string]int, id, path, what string) int {
	i, ok := in[id]
	if !ok {
		r.keep(wrong(path, "there is no %s %q", what, id).WithHint("write its id exactly as in its own entry, or add the entry"))
	}
	return i
}

func (r *reader) finds(in map[string]int, ids []string, path, what string) []int {
	var list []int
	for k, id := range ids {
		list = append(list, r.find(in, id, fmt.Sprintf("%s[%d]", path, k), what))
	}
	return list
}

// calendar resolves the name of a calendar; none is the wall clock.
func (r *reader) calendar(id, path string) int {
	if id == "" {
		return -1
	}
	return r.find(r.calendars, id, join(path, "calendar"), "calendar")
}

func (r *reader) moment(text, path string) schedule.Minute {
	m, err := r.minute(text, path)
	if err != nil {
		r.keep(err)
	}
	return m
}

func (r *reader) minutes(text, path string, wall bool) schedule.Minute {
	m, err := minutesOf(text, path, wall)
	if err != nil {
		r.keep(err)
	}
	return m
}

func (r *reader) factor(list []float64, path string) schedule.Spread {
	switch len(list) {
	case 0:
		return schedule.Spread{}
	case 3:
		return schedule.Spread{Low: list[0], Mode: list[1], High: list[2]}
	}
	r.keep(wrong(path, "%d numbers", len(list)).WithHint("give three: low, likely, high, such as [0.9, 1, 1.4]"))
	return schedule.Spread{}
}

func (r *reader) reserve(list []string, path string, wall bool) schedule.Spread {
	var x [3]float64
	switch len(list) {
	case 0:
		return schedule.Spread{}
	case 3:
		for i, text := range list {
			m, err := spanOf(text, fmt.Sprintf("%s[%d]", path, i), wall)
			if err != nil {
				r.keep(err)
			}
			x[i] = m
		}
	default:
		r.keep(wrong(path, "%d spans", len(list)).WithHint(`give three: low, likely, high, such as ["0m", "2h", "8h"]`))
	}
	return schedule.Spread{Low: x[0], Mode: x[1], High: x[2]}
}

func learnt(l *logForm) schedule.Lognormal {
	if l == nil {
		return schedule.Lognormal{}
	}
	return schedule.Lognormal{Mu: l.Mu, Sigma: l.Sigma}
}
