// Package takeoff is what a stage makes of the facts: lines of work, wants,
// loads and checks, each with its figure. It also holds the one reckoning that
// all stages share: how many hours a task still needs.
package takeoff

import (
	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// Work is what one trade has to do in one task.
type Work struct {
	Task         build.TaskID  `json:"task"`
	Trade        build.TradeID `json:"trade"`
	Planned      unit.Effort   `json:"planned_h"`             // in all, as the facts stand
	Left         unit.Effort   `json:"left_h"`                // still to do, at the pace shown so far
	Open         unit.Effort   `json:"open_h"`                // planned hours not signed off, at the pace shown so far
	Begun        unit.Effort   `json:"begun_h"`               // hours booked that are in Open; more than Open where it has run over
	Pace         float64       `json:"pace"`                  // hours booked per hour planned on finished parts of the stage; 1 is as planned
	FromFindings bool          `json:"of_findings,omitempty"` // the hours are those of findings
	Because      []string      `json:"because,omitempty"`
	Cautions     []string      `json:"cautions,omitempty"`
	Figure       figure.Figure `json:"working"`
}

// Want is a part or material that must be there for a task.
type Want struct {
	Part   build.PartID  `json:"part"`
	Task   build.TaskID  `json:"task"`
	AtEnd  bool          `json:"at_end"` // the task may begin without it
	Figure figure.Figure `json:"working"`
}

// Load is work at an outside shop.
type Load struct {
	Load   build.OutworkID `json:"load"`
	Task   build.TaskID    `json:"task"`
	Days   int             `json:"days"` // working days of the whole turn-round as likely now
	Figure figure.Figure   `json:"working"`
}

// Weight says how much a check matters, in the words of a date.
type Weight string

// The weights of a check.
const (
	Tight    Weight = "tight"
	Slipping Weight = "slipping"
	Lost     Weight = "lost"
)

// Check is something the facts say is, or will be, wrong.
type Check struct {
	ID     string        `json:"id"`
	Weight Weight        `json:"weight"`
	Says   string        `json:"says"`
	Do     string        `json:"do"`
	Link   string        `json:"link,omitempty"`
	Figure figure.Figure `json:"working"`
}

// List is the take-off of one stage.
type List struct {
	Stage  string  `json:"stage"`
	Work   []Work  `json:"work,omitempty"`
	Wants  []Want  `json:"wants,omitempty"`
	Loads  []Load  `json:"loads,omitempty"`
	Tins   []Tins  `json:"tins,omitempty"`
	Checks []Check `json:"checks,omitempty"`
}

// Of returns the work, wants and loads that every stage has in common: those
// of the tasks that carry its name.
func Of(b *build.Build, stage string) List {
	list := List{Stage: stage}
	pace := PaceOf(b, stage)
	for _, t := range b.Tasks {
		if t.Stage != stage {
			continue
		}
		list.Work = append(list.Work, workOf(b, t, pace)...)
		if t.Outwork != "" {
			list.Loads = append(list.Loads, loadOf(b, t))
		}
	}
	for _, p := range b.Parts {
		if t := b.Task(p.Task); t != nil && t.Stage == stage {
			list.Wants = append(list.Wants, wantOf(b, p))
		}
	}
	return list
}
