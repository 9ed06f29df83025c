package plan

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Drift is how far the hours of a stage's findings run from what they were
// planned at, what that costs, and the task that ran over most. The plan's
// dates and money already reckon with it; a drift says how much of them it is.
type Drift struct {
	Stage   string        `json:"stage"`
	Signed  unit.Effort   `json:"signed_h"`  // planned hours of what is closed
	Booked  unit.Effort   `json:"booked_h"`  // hours booked on what is closed
	Planned unit.Effort   `json:"planned_h"` // planned hours of all findings
	Ends    unit.Effort   `json:"ends_h"`    // where the stage ends at this pace
	Over    unit.Effort   `json:"over_h"`    // Ends less Planned; negative is under
	Cost    unit.Money    `json:"cost"`      // what Over costs the tin
	Net     unit.Money    `json:"net"`       // what reaches the cause with it
	Without unit.Money    `json:"net_without"`
	Cause   build.TaskID  `json:"cause,omitempty"` // the task that ran furthest over; empty where none did
	Name    string        `json:"cause_name,omitempty"`
	Factor  float64       `json:"cause_factor,omitempty"` // its hours booked ÷ planned, on what is closed
	Figure  figure.Figure `json:"working"`
}

// Drifts returns the drift of every stage of which something is signed off and
// whose hours differ from the plan, in the order of the stages.
func Drifts(b *build.Build, p *Plan) []Drift {
	var list []Drift
	for _, pace := range p.Pace {
		if pace.Task != "" || pace.Signed == 0 {
			continue
		}
		if d := driftOf(b, p, pace); d.Over != 0 {
			list = append(list, d)
		}
	}
	return list
}

func driftOf(b *build.Build, p *Plan, pace takeoff.Pace) Drift {
	d := Drift{Stage: pace.Stage, Signed: pace.Signed, Booked: pace.Booked, Planned: pace.Total, Net: p.Money.Net.Expected}
	legs := overruns(b, p, pace.Stage)
	var parts []string
	for _, l := range legs {
		d.Over += l.over
		if cost := l.cost(); cost != 0 {
			d.Cost += cost
			parts = append(parts, fmt.Sprintf("%s × %s", l.over, b.Currency.Format(l.who.Rate)))
		}
	}
	d.Ends, d.Without = d.Planned+d.Over, d.Net+d.Cost
	d.cause(b, p)
	d.figure(b, legs, strings.Join(parts, " + "))
	return d
}

// overrun is how far the hours of one person in a stage run from the plan.
type overrun struct {
	who  build.Person
	over unit.Effort
}

// cost is what the hours cost the tin: nothing where all hours are given.
func (o overrun) cost() unit.Money {
	if o.who.GivenAll {
		return 0
	}
	return o.who.Rate.PerHour(o.over)
}

// overruns returns, for each person, hours booked and hours left less hours
// planned over all tasks of a stage whose hours are those of findings.
func overruns(b *build.Build, p *Plan, stage string) []overrun {
	list := make([]overrun, len(b.People))
	for i, who := range b.People {
		list[i].who = who
	}
	for _, t := range p.Tasks {
		task := b.Task(t.ID)
		if !task.Findings || t.Stage != stage {
			continue
		}
		for _, h := range b.Hours {
			if h.Task == t.ID && !b.Person(h.Person).Helps {
				list[personAt(b, h.Person)].over += h.Worked
			}
		}
		for _, l := range t.Legs {
			if i := personAt(b, personOf(b, l)); i >= 0 {
				list[i].over += l.Left - l.Planned
			}
		}
	}
	return list
}

// personOf returns who works a leg: as planned, else the first whose own trade
// it is.
func personOf(b *build.Build, l Leg) build.PersonID {
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

// cause finds the task whose closed findings took most hours beyond the plan.
func (d *Drift) cause(b *build.Build, p *Plan) {
	var worst unit.Effort
	for _, one := range p.Pace {
		if one.Stage != d.Stage || one.Task == "" || one.Signed == 0 {
			continue
		}
		if over := one.Booked - one.Signed; over > worst {
			worst, d.Cause, d.Name = over, one.Task, b.Task(one.Task).Name
			d.Factor = one.Booked.H() / one.Signed.H()
		}
	}
}

func (d *Drift) figure(b *build.Build, legs []overrun, sum string) {
	money := b.Currency.Format
	d.Figure = figure.Figure{
		Name: "hours over in " + d.Stage, Text: signedHours(d.Over),
		Formula: "hours booked + hours left at the pace so far − hours planned; cost = each person's hours over × rate, given hours free",
		With: fmt.Sprintf("%s booked on %s signed off; ends at %s of %s planned; %s = %s; net %s instead of %s",
			d.Booked, d.Signed, d.Ends, d.Planned, sum, money(d.Cost), money(d.Net), money(d.Without)),
	}
	for _, l := range legs {
		if l.over == 0 {
			continue
		}
		note := money(l.cost())
		if l.who.GivenAll {
			note = "given"
		}
		d.Figure.Inputs = append(d.Figure.Inputs, figure.Input{Name: l.who.Name, Value: signedHours(l.over), Source: figure.Worked, Note: note, Link: "person/" + string(l.who.ID)})
	}
	if d.Cause != "" {
		d.Figure.Inputs = append(d.Figure.Inputs, figure.Input{Name: string(d.Cause) + " " + d.Name, Value: fmt.Sprintf("ran %.2f×", d.Factor),
			Source: figure.Measured, Note: "booked ÷ planned on closed findings", Link: "task/" + string(d.Cause)})
	}
}

// personAt is where a person stands among the people of a build; -1 is nowhere.
func personAt(b *build.Build, id build.PersonID) int {
	return slices.IndexFunc(b.People, func(p build.Person) bool { return p.ID == id })
}
