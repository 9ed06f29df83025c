package clocking

import (
	"slices"

	"fettle/build"
	"fettle/internal/live"
	"fettle/internal/turn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/plan"
	"fettle/unit"
)

// plate is a name plate with what its person is on.
type plate struct {
	Person build.Person
	On     *running
}

func (p place) names(r *web.Request) error {
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	now := p.desk.Shop.Now()
	var plates []plate
	for _, who := range view.Build.People {
		plates = append(plates, plate{who, runningOf(view, now, who.ID)})
	}
	if r.As() == "json" {
		return r.JSON(plates)
	}
	return p.desk.Page(r, web.Sheet{Place: "clocking", Shown: "who is on what", Scripts: scripts()}, namesPage(r.Build(), plates))
}

// scripts are the islands of the clocking pages.
func scripts() []string { return []string{"clocking.js"} }

// touch is a task that can be touched.
type touch struct {
	Task plan.Task
	Says string
	Now  bool // the person is on it
}

// face is what one person's page needs to know.
type face struct {
	Build  string
	Person build.Person
	On     *running
	Today  []touch // what the plan gives them today, or next where it gives nothing
	Next   bool    // Today is what comes next
	Own    []touch // other open tasks of their trades
	Rest   []touch // all other open tasks
	Day    unit.Date
	Booked unit.Effort // on this day, closed entries
	Wrong  field.Errors
	Time   string // what was typed into the stop's time
}

func (p place) person(r *web.Request) error {
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	who, err := find(view, r.Path("who"))
	if err != nil {
		return err
	}
	f, err := p.face(r, *who)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "clocking", Shown: who.Name, Scripts: scripts()}, personPage(f))
}

// personAgain shows the page with what is wrong in the time that was typed.
func (p place) personAgain(r *web.Request, who *build.Person, view live.View, sent *web.Form) error {
	f, err := p.face(r, *who)
	if err != nil {
		return err
	}
	f.Wrong, f.Time = sent.Errors, sent.Raw("time")
	return r.Invalid(web.Sheet{Place: "clocking", Shown: who.Name, Scripts: scripts()}, personPage(f))
}

func (p place) face(r *web.Request, who build.Person) (face, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return face{}, err
	}
	now := p.desk.Shop.Now()
	f := face{Build: r.Build(), Person: who, On: runningOf(view, now, who.ID), Day: now.Date()}
	for _, h := range view.Build.Hours {
		if h.Person == who.ID && h.Start.Date() == f.Day {
			f.Booked += h.Worked
		}
	}
	stints := turn.On(pl, &view.Build, who.ID, f.Day)
	if len(stints) == 0 {
		f.Next = true
		stints = turn.Next(pl, who.ID, f.Day, 2)
	}
	for _, s := range stints {
		says := s.Hours.String() + " today"
		if f.Next {
			says = "from " + day(s.From.Date())
		}
		f.Today = append(f.Today, f.touch(s.Task, says))
	}
	f.others(pl)
	return f, nil
}

func (f *face) touch(t plan.Task, says string) touch {
	return touch{Task: t, Says: says, Now: f.On != nil && f.On.Task.ID == t.ID}
}

// others sorts the other open tasks: the begun and those of the person's own
// trades first.
func (f *face) others(pl *plan.Plan) {
	for _, t := range pl.Tasks {
		listed := slices.ContainsFunc(f.Today, func(o touch) bool { return o.Task.ID == t.ID })
		if listed || t.State == build.Finished || len(t.Legs) == 0 {
			continue
		}
		own := slices.ContainsFunc(t.Legs, func(l plan.Leg) bool { return f.Person.Does(l.Trade) })
		one := f.touch(t, string(t.State))
		if t.State == build.NotBegun && t.Start != 0 {
			one.Says = "from " + day(t.Start.Date())
		}
		if own {
			f.Own = append(f.Own, one)
		} else {
			f.Rest = append(f.Rest, one)
		}
	}
	slices.SortStableFunc(f.Own, func(a, b touch) int { return int(a.Task.Start - b.Task.Start) })
}
