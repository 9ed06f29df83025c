package plan

import (
	"fmt"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Person is what the build takes of one person.
type Person struct {
	ID      build.PersonID `json:"id"`
	Name    string         `json:"name"`
	Booked  unit.Effort    `json:"booked_h"`
	Left    unit.Effort    `json:"left_h"`
	Total   unit.Effort    `json:"total_h"`
	Given   unit.Effort    `json:"given_h"`
	Paid    unit.Effort    `json:"paid_h"`
	Cost    unit.Money     `json:"cost"`    // of the paid hours, overtime premium included
	Premium unit.Money     `json:"premium"` // the overtime part of Cost
	Value   unit.Money     `json:"given_value"`
	Figure  figure.Figure  `json:"working"`
}

func peopleOf(n *net, res schedule.Result) []Person {
	left := make([]unit.Effort, len(n.build.People))
	for _, l := range n.legs {
		for _, who := range res.Times[l.activity].People {
			left[who] += l.work.Left
		}
	}
	list := make([]Person, 0, len(n.build.People))
	for i, p := range n.build.People {
		row := Person{ID: p.ID, Name: p.Name, Left: left[i]}
		for _, h := range n.build.Hours {
			if h.Person == p.ID {
				row.Booked += h.Worked
			}
		}
		row.settle(n.build, p)
		list = append(list, row)
	}
	return list
}

// settle works out what a person's hours cost and what is given.
func (r *Person) settle(b *build.Build, p build.Person) {
	r.Total = r.Booked + r.Left
	if p.Helps {
		r.Figure = figure.Figure{Name: "hours of " + p.Name, Text: r.Total.String(), Formula: "hours booked; a helper's are neither planned nor valued", With: r.Booked.String() + " booked"}
		return
	}
	r.Given = min(p.Given, r.Total)
	if p.GivenAll {
		r.Given = r.Total
	}
	r.Paid = r.Total - r.Given
	r.Value = p.Rate.PerHour(r.Given)
	var extra unit.Effort
	for _, o := range b.Overtime {
		if o.Person == p.ID && !p.GivenAll {
			extra += o.Hours
		}
	}
	r.Premium = p.Rate.PerHour(extra).Percent(int64(p.Premium) * 100)
	r.Cost = p.Rate.PerHour(r.Paid) + r.Premium
	money := b.Currency.Format
	r.Figure = figure.Figure{
		Name: "hours of " + p.Name, Text: r.Total.String(),
		Formula: "hours booked + hours left; paid = total less given; cost = paid × rate + overtime × rate × premium",
		With: fmt.Sprintf("%s + %s = %s; %s − %s = %s; %s × %s + %s = %s", r.Booked, r.Left, r.Total,
			r.Total, r.Given, r.Paid, r.Paid, money(p.Rate), money(r.Premium), money(r.Cost)),
		Inputs: []figure.Input{
			{Name: "rate", Value: money(p.Rate) + " an hour", Source: figure.Decided, Link: "person/" + string(p.ID)},
			{Name: "given", Value: r.Given.String(), Source: figure.Decided},
			{Name: "overtime", Value: extra.String(), Source: figure.Decided, Note: fmt.Sprintf("premium %d %%", p.Premium)},
			{Name: "booked", Value: r.Booked.String(), Source: figure.Measured, Note: "clocked and recorded"},
		},
	}
}

// StageHours is what a stage needs in all.
type StageHours struct {
	Stage   string      `json:"stage"`
	Planned unit.Effort `json:"planned_h"`
	Left    unit.Effort `json:"left_h"`
	// Findings is the part of Planned that comes from findings.
	Findings unit.Effort `json:"of_findings_h"`
}

func stageHours(lists []takeoff.List) []StageHours {
	list := make([]StageHours, 0, len(lists))
	for _, l := range lists {
		row := StageHours{Stage: l.Stage}
		for _, w := range l.Work {
			row.Planned, row.Left = row.Planned+w.Planned, row.Left+w.Left
			if w.FromFindings {
				row.Findings += w.Planned
			}
		}
		list = append(list, row)
	}
	return list
}
