package turn

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/plan"
	"fettle/unit"
)

// Obstacle says the first thing that stands in the way of a stint, the nearest
// to somebody's hand first: a part not there, a load not back, a decision
// missing, work before it not finished. Empty when nothing does.
func Obstacle(p *plan.Plan, b *build.Build, s Stint) string {
	for _, says := range []string{part(p, b, s), load(p, b, s), decision(b, s), before(p, s)} {
		if says != "" {
			return says
		}
	}
	return ""
}

func part(p *plan.Plan, b *build.Build, s Stint) string {
	for _, o := range p.Orders {
		if o.Task != s.Task.ID || o.When == "here" {
			continue
		}
		need := s.Leg.Start.Date()
		if one := b.Part(o.Part); one.AtEnd || len(one.Because) > 0 {
			need = s.Leg.Finish.Date()
		}
		switch {
		case o.When != "on order" && o.There > need:
			return fmt.Sprintf("%s %s is not ordered, and takes %d working days", o.Part, o.Name, o.Lead)
		case o.When == "on order" && o.There > need:
			return fmt.Sprintf("%s %s is not here, due %s", o.Part, o.Name, day(o.There))
		case o.When == "on order" && need <= p.Now.Date():
			return fmt.Sprintf("%s %s should be here and is not booked in", o.Part, o.Name)
		}
	}
	return ""
}

func load(p *plan.Plan, b *build.Build, s Stint) string {
	for _, l := range p.Loads {
		task := b.Load(l.ID).Task
		if slices.Contains(s.Task.After, task) && b.Task(task).State != build.Finished {
			return fmt.Sprintf("%s %s is not back, likely %s", l.ID, l.What, day(l.Back))
		}
	}
	return ""
}

func decision(b *build.Build, s Stint) string {
	for _, f := range b.Findings {
		if f.Task == s.Task.ID && f.Remedy == "" {
			return fmt.Sprintf("%s %s is not decided", f.ID, f.What)
		}
	}
	return ""
}

func before(p *plan.Plan, s Stint) string {
	for _, t := range p.Tasks {
		if slices.Contains(s.Task.After, t.ID) && t.State != build.Finished {
			return fmt.Sprintf("after %s %s, likely %s", t.ID, t.Name, day((t.Finish - 1).Date()))
		}
	}
	return ""
}

func day(d unit.Date) string { return d.Time().Format("Mon 2 Jan") }
