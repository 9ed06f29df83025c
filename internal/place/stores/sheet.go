package stores

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/unit"
)

// sheet is what the pages of the stores know.
type sheet struct {
	Base   string // /b/pedlar
	Name   string // short name of the build
	Build  *build.Build
	Plan   *plan.Plan
	Today  unit.Date
	Crew   bool // may act
	Hidden bool // prices are kept back
}

func (p place) load(r *web.Request) (sheet, error) {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return sheet{}, err
	}
	return sheet{Base: "/b/" + r.Build(), Name: r.Build(), Build: &view.Build, Plan: pl, Today: view.Now.Date(),
		Crew: r.Person().Role >= account.Crew, Hidden: r.Query("prices") == "hide"}, nil
}

// line is a part with its order and how it stands.
type line struct {
	plan.Order
	Supplier string          `json:"supplier,omitempty"`
	Ordered  unit.Date       `json:"ordered,omitzero"`
	Slack    int             `json:"spare_days"` // working days between its coming and the day it is needed
	Taken    build.TaskState `json:"task_state"`
}

// in returns the lines whose word is one of whens, in the plan's order.
func (s sheet) in(whens ...string) []line {
	var list []line
	for _, o := range s.Plan.Orders {
		for _, w := range whens {
			if o.When == w {
				list = append(list, s.line(o))
			}
		}
	}
	return list
}

func (s sheet) line(o plan.Order) line {
	part := s.Build.Part(o.Part)
	l := line{Order: o, Supplier: part.Supplier, Ordered: part.Ordered}
	if t := s.Build.Task(o.Task); t != nil {
		l.Taken = t.State
	}
	if o.There != 0 && o.NeedBy != 0 {
		l.Slack = plan.DaysBetween(s.Build, o.There, o.NeedBy) - plan.DaysBetween(s.Build, o.NeedBy, o.There)
	}
	l.Figure = o.Figure
	return l
}

// shelf is the stores as a program reads them.
type shelf struct {
	Orders []line          `json:"orders"`
	Paint  []figure.Figure `json:"paint"`
	Hides  []build.Hide    `json:"hides"`
}

func (s sheet) shelf() shelf {
	out := shelf{Orders: s.in("late", "due", "later", "on order", "here"), Paint: s.Plan.Litres, Hides: s.Build.Hides}
	if s.Hidden {
		for i := range out.Orders {
			out.Orders[i].Cost, out.Orders[i].Figure.Inputs = 0, nil
		}
		out.Hides = append([]build.Hide(nil), out.Hides...)
		for i := range out.Hides {
			out.Hides[i].Price = 0
		}
	}
	return out
}

func (s sheet) shown() string {
	if n := len(s.Plan.Today); n > 0 {
		return fmt.Sprintf("%d to order today", n)
	}
	return fmt.Sprintf("%d parts", len(s.Build.Parts))
}

// dueIn lists what was promised for today or an earlier day and is not here.
func (s sheet) dueIn() []line {
	var list []line
	for _, l := range s.in("on order") {
		if l.There != 0 && l.There <= s.Today {
			list = append(list, l)
		}
	}
	return list
}

// coming lists what is on order and not due yet.
func (s sheet) coming() []line {
	var list []line
	for _, l := range s.in("on order") {
		if l.There == 0 || l.There > s.Today {
			list = append(list, l)
		}
	}
	return list
}

func (s sheet) money(m unit.Money) string {
	if s.Hidden {
		return "–"
	}
	return s.Build.Currency.Format(m)
}

// bill is the sum of what is to be ordered today, with its working.
func (s sheet) bill(lines []line) figure.Figure {
	f := figure.Figure{Name: "cost of what is due", Formula: "quantity × quoted price of every part that is due; given parts cost nothing"}
	var sum unit.Money
	for _, l := range lines {
		cost, note := l.Cost, fmt.Sprintf("%d of them", l.Count)
		if l.Donated {
			cost, note = 0, "given"
		}
		sum += cost
		f.Inputs = append(f.Inputs, figure.Input{Name: string(l.Part) + " " + l.Name, Value: s.money(cost), Source: figure.Sheet,
			Note: note, Link: s.Base + "/part/" + string(l.Part)})
		if f.With != "" {
			f.With += " + "
		}
		f.With += s.money(cost)
	}
	f.Text = s.money(sum)
	f.With += " = " + f.Text
	return f
}

// suppliers lists who sells the lines, in the order in which they first appear.
func suppliers(lines []line) []string {
	var names []string
	seen := map[string]bool{}
	for _, l := range lines {
		if !seen[l.Supplier] && l.Supplier != "" {
			seen[l.Supplier] = true
			names = append(names, l.Supplier)
		}
	}
	return names
}
