package wall

import (
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web/ui/chart"
	"fettle/plan"
	"fettle/unit"
)

var legendStages = [...]string{"strip", "look", "metal", "body", "paint", "loom", "trim", "assembly", "away", "book"}

// at is the address of the wall from a day on.
func (f face) at(d unit.Date) string { return "/b/" + f.Build + "/wall?from=" + d.String() }

func taskHref(build string, id build.TaskID) string {
	return "/b/" + build + "/wall/task/" + string(id)
}

func oddsOf(p *plan.Plan) chart.Odds {
	o := chart.Odds{Title: "Odds of being ready by a day", Promised: p.Promise.Ready}
	for _, c := range p.Odds.Curve {
		o.Points = append(o.Points, chart.Chance{Day: c.Day, Share: c.Chance})
	}
	return o
}

// dateFigure is the middle of the finishes, with the rest in its working.
func dateFigure(f face) figure.Figure {
	d := f.Plan.Dates.Figure
	d.Name = "The date"
	d.Text = f.Plan.Dates.P50.Long()
	return d
}

// rung is one link of the chain behind the date, in words.
type rung struct {
	Task             build.TaskID
	Name, What, When string
	Why              string
	Wait             bool
}

// rungs puts the chain into words, first things first.
func rungs(p *plan.Plan) []rung {
	var all []rung
	for _, s := range p.Chain {
		r := rung{Task: s.Task, Name: s.Name, What: s.What, Why: upper(s.Why), When: weekDay(s.Start.Date())}
		if last := lastDay(s.Start, s.Finish); last != s.Start.Date() {
			r.When += " – " + weekDay(last)
		}
		r.Wait = strings.HasSuffix(s.What, "of waiting")
		all = append(all, r)
	}
	return all
}
