package people

import (
	"slices"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// form reads what was sent together with what the page needs.
func (p place) form(r *web.Request) (*web.Form, face, error) {
	f, err := r.Form()
	if err != nil {
		return nil, face{}, err
	}
	page, err := p.face(r)
	return f, page, err
}

// propose lays a change on the slip, or shows the page again with what is
// wrong.
func (p place) propose(r *web.Request, f *web.Form, shown face, change build.Change) error {
	if f.Err() != nil {
		shown.Wrong, shown.Sent = f.Errors, map[string]string{}
		for _, name := range []string{"away-who", "away-first", "away-last", "away-why", "shut-first", "shut-last", "shut-why", "extra-who", "extra-hours",
			"risk-id", "risk-what", "risk-task", "risk-chance", "risk-times", "risk-costs", "risk-hours", "risk-source",
			"range-of", "range-low", "range-mode", "range-high", "range-source", "settle-event", "settle-did"} {
			shown.Sent[name] = f.Raw(name)
		}
		return r.Invalid(web.Sheet{Place: "people", Shown: "hours of each person"}, page(shown))
	}
	return p.desk.Propose(r, "/b/"+r.Build()+"/slip", change)
}

// days reads a first and a last day; no last day means one day.
func days(f *web.Form, prefix string, today unit.Date) (first, last unit.Date) {
	first, last = f.Date(prefix+"-first"), f.Date(prefix+"-last")
	if last == 0 {
		last = first
	}
	switch {
	case f.Err() != nil:
	case first == 0:
		f.Fail(prefix+"-first", "is empty: give a day")
	case last < first:
		f.Fail(prefix+"-last", "lies before the first day")
	case last < today:
		f.Fail(prefix+"-last", "has passed already")
	}
	return first, last
}

func (p place) absence(r *web.Request) error {
	f, shown, err := p.form(r)
	if err != nil {
		return err
	}
	who := f.Choice("away-who", ids(&shown.View.Build)...)
	first, last := days(f, "away", shown.View.Now.Date())
	why := f.Text("away-why", 1, 80)
	return p.propose(r, f, shown, &build.AddAbsence{Absence: build.Absence{Person: build.PersonID(who), First: first, Last: last, Why: why}})
}

func (p place) closure(r *web.Request) error {
	f, shown, err := p.form(r)
	if err != nil {
		return err
	}
	first, last := days(f, "shut", shown.View.Now.Date())
	why := f.Text("shut-why", 1, 80)
	return p.propose(r, f, shown, &build.AddClosure{Closure: build.Closure{First: first, Last: last, Why: why}})
}

func (p place) saturdays(r *web.Request) error {
	f, shown, err := p.form(r)
	if err != nil {
		return err
	}
	who := build.PersonID(f.Choice("extra-who", ids(&shown.View.Build)...))
	hundredths := f.Decimal("extra-hours", 2, 25, 1600)
	var picked []unit.Date
	for _, text := range f.All("extra-day") {
		if d, err := unit.ParseDate(text); err == nil && slices.Contains(shown.Offers, d) {
			picked = append(picked, d)
		}
	}
	if len(picked) == 0 {
		f.Fail("extra-day", "needs at least one Saturday that is offered")
	}
	return p.propose(r, f, shown, &build.AddOvertime{Person: who, Days: picked, Hours: unit.Effort(unit.MulDiv(hundredths, 60, 100))})
}

func ids(b *build.Build) []string {
	var all []string
	for _, p := range b.People {
		all = append(all, string(p.ID))
	}
	return all
}

// crew are the people to choose from; ready are those who offer Saturdays.
func (f face) crew(picked string) []field.Option {
	var all []field.Option
	for _, p := range f.View.Build.People {
		one := field.Option{Value: string(p.ID), Label: string(p.ID), Hint: p.Name, Picked: string(p.ID) == picked}
		all = append(all, one)
	}
	return all
}

// offers are the Saturdays to tick.
func (f face) offers() []field.Option {
	var all []field.Option
	for _, d := range f.Offers {
		one := field.Option{Value: d.String(), Label: d.Time().Format("2 Jan")}
		for _, o := range f.View.Build.Overtime {
			if o.Day == d {
				one.Hint += string(o.Person) + " comes "
			}
		}
		all = append(all, one)
	}
	return all
}

// usual is how many hours a Saturday has, as the people offer.
func (f face) usual() string {
	for _, p := range f.View.Build.People {
		if p.Saturday > 0 {
			return hours(p.Saturday)
		}
	}
	return "6"
}

func (f face) sent(name, known string) string {
	if v, ok := f.Sent[name]; ok {
		return v
	}
	return known
}
