// Package people shows what the build takes of each person, by task and stage,
// plans absences, closures and Saturdays, and judges what may happen.
package people

import (
	"slices"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/plan"
	"fettle/unit"
)

// Place returns the place with its routes. It has no plate: the wall and the
// lists of hours lead here.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "people", Path: "/b/{build}/people", Routes: []web.Route{
		{Pattern: "GET /b/{build}/people", Who: web.Crew, Handle: p.show},
		{Pattern: "GET /b/{build}/person/{who}", Who: web.Crew, Handle: p.toPerson},
		{Pattern: "POST /b/{build}/people/absence", Who: web.Crew, Handle: p.absence},
		{Pattern: "POST /b/{build}/people/closure", Who: web.Crew, Handle: p.closure},
		{Pattern: "POST /b/{build}/people/saturdays", Who: web.Crew, Handle: p.saturdays},
		{Pattern: "POST /b/{build}/people/judge", Who: web.Owner, Handle: p.judge},
		{Pattern: "POST /b/{build}/people/range", Who: web.Owner, Handle: p.judgeRange},
		{Pattern: "POST /b/{build}/people/settle", Who: web.Owner, Handle: p.settle},
	}}
}

type place struct{ desk desk.Desk }

func path(b string) string { return "/b/" + b + "/people" }

// face is what the page needs to know.
type face struct {
	Build  string
	Plan   *plan.Plan
	View   live.View
	Money  bool // rates and costs are the owner's to see
	Offers []unit.Date
	Wrong  field.Errors
	Sent   map[string]string
}

func (p place) face(r *web.Request) (face, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return face{}, err
	}
	f := face{Build: r.Build(), Plan: pl, View: view, Money: r.Person().Role >= web.Owner}
	f.Offers = nextSaturdays(&view.Build, view.Now.Date())
	return f, nil
}

func (p place) show(r *web.Request) error {
	f, err := p.face(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		if r.Query("list") == "people" {
			return r.CSV(r.Build()+"-people.csv", peopleTable(f).Records())
		}
		return r.CSV(r.Build()+"-hours.csv", taskTable(f).Records())
	case "json":
		return r.JSON(linesOf(f.Plan, &f.View.Build))
	}
	return p.desk.Page(r, web.Sheet{Place: "people", Shown: "hours of each person"}, page(f))
}

func (p place) toPerson(r *web.Request) error {
	return r.SeeOther(path(r.Build()) + "#person-" + r.Path("who"))
}

// mostOffers is how many Saturdays are offered.
const mostOffers = 8

// nextSaturdays lists the next Saturdays on which the shop is open.
func nextSaturdays(b *build.Build, from unit.Date) []unit.Date {
	var days []unit.Date
	for d := from.Monday() + 5; len(days) < mostOffers && d < from+365; d += 7 {
		shut := slices.ContainsFunc(b.Closures, func(c build.Closure) bool { return c.First <= d && d <= c.Last })
		if d >= from && !shut {
			days = append(days, d)
		}
	}
	return days
}

// line is what one person has to do with one task.
type line struct {
	Person  build.PersonID `json:"person"`
	Name    string         `json:"name"`
	Stage   string         `json:"stage"`
	Task    build.TaskID   `json:"task"`
	What    string         `json:"what"`
	Planned unit.Effort    `json:"planned_h"`
	Booked  unit.Effort    `json:"booked_h"`
	Left    unit.Effort    `json:"left_h"`
}

// linesOf lists every person with every task they have hours in, by the
// stages in the order of the plan.
func linesOf(p *plan.Plan, b *build.Build) []line {
	lines := []line{}
	for _, who := range b.People {
		for _, s := range p.Stages {
			for _, t := range p.Tasks {
				if t.Stage != s.Stage {
					continue
				}
				one := line{Person: who.ID, Name: who.Name, Stage: t.Stage, Task: t.ID, What: t.Name, Booked: booked(b, who.ID, t.ID)}
				for _, l := range t.Legs {
					if doer(b, l) == who.ID {
						one.Planned, one.Left = one.Planned+l.Planned, one.Left+l.Left
					}
				}
				if one.Planned > 0 || one.Booked > 0 || one.Left > 0 {
					lines = append(lines, one)
				}
			}
		}
	}
	return lines
}

// doer is who does a leg: the person in the plan, else the first whose own
// trade it is.
func doer(b *build.Build, l plan.Leg) build.PersonID {
	if l.Person != "" {
		return l.Person
	}
	for _, who := range b.People {
		if len(who.Trades) > 0 && who.Trades[0] == l.Trade {
			return who.ID
		}
	}
	return ""
}

func booked(b *build.Build, who build.PersonID, task build.TaskID) unit.Effort {
	var sum unit.Effort
	for _, h := range b.Hours {
		if h.Person == who && h.Task == task {
			sum += h.Worked
		}
	}
	return sum
}
