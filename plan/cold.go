package plan

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// longShut is from how many days shut a bay counts as cold through.
const longShut = 7

// coldDays finds work in a bay with a record of being warmed whose first day
// follows a long closure: metal is cold through although the air is soon warm.
func coldDays(b *build.Build, p *Plan) []takeoff.Check {
	var checks []takeoff.Check
	for _, t := range p.Tasks {
		task := b.Task(t.ID)
		if task == nil || task.Stage != "paint" || task.State == build.Finished || task.Began != 0 {
			continue
		}
		warmed := warmUps(b, task.Bay)
		shut, days := shutBefore(b, t.Start.Date())
		if len(warmed) == 0 || days < longShut || p.Now.Date() > t.Start.Date() {
			continue
		}
		last := warmed[len(warmed)-1]
		checks = append(checks, takeoff.Check{
			ID: "cold/" + string(t.ID), Weight: takeoff.Tight, Link: "task/" + string(t.ID),
			Says: fmt.Sprintf("%s begins on %s after %d days unheated (%s): metal stays cold long after the air is warm", t.ID, t.Start.Date().Short(), days, shut.Why),
			Do: fmt.Sprintf("heat from the day before and read the metal, not the air; it last took %d min from %g to %g °C",
				last.Minutes, last.From, last.To),
			Figure: figure.Figure{Name: "days unheated", Text: fmt.Sprint(days), Formula: "days of the closure before the first day of the work",
				With:   fmt.Sprintf("%s to %s", shut.First.Short(), shut.Last.Short()),
				Inputs: []figure.Input{{Name: "warm-ups on record", Value: fmt.Sprint(len(warmed)), Source: figure.OwnPast, Note: fmt.Sprintf("n = %d", len(warmed))}},
			},
		})
	}
	return checks
}

func warmUps(b *build.Build, bay string) []build.WarmUp {
	var list []build.WarmUp
	for _, w := range b.WarmUps {
		if w.Bay == bay {
			list = append(list, w)
		}
	}
	return list
}

// shutBefore returns the closure that ends within a weekend of a day, and how
// many days it lasted.
func shutBefore(b *build.Build, day unit.Date) (build.Closure, int) {
	for _, c := range b.Closures {
		if c.Last < day && day-c.Last <= 3 {
			return c, int(c.Last-c.First) + 1
		}
	}
	return build.Closure{}, 0
}
