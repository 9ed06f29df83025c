package wall

import (
	"cmp"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/internal/live"
	"fettle/plan"
	"fettle/unit"
)

// run is a stretch of time on the chart: a leg of work, hours already booked,
// a load at an outside shop, or a wait.
type run struct {
	Row    string // the person's ID, awayRow or waitRow
	Task   build.TaskID
	Name   string
	Stage  string
	From   unit.Moment
	To     unit.Moment
	Done   bool // has happened
	Sets   bool // sets the date
	Under  string
	Spoken string // its accessible name
}

// The rows that are no person.
const (
	awayRow = "away"
	waitRow = "wait"
)

// runsOf lists everything that a chart can show, in the order of time within
// each row.
func runsOf(p *plan.Plan, v live.View) []run {
	runs := append(bookedRuns(v), legRuns(p, v)...)
	runs = append(append(runs, loadRuns(p, v)...), waitRuns(p, v)...)
	slices.SortStableFunc(runs, func(a, b run) int { return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.From, b.From)) })
	return runs
}

// legRuns are the hours still to do, as planned.
func legRuns(p *plan.Plan, v live.View) []run {
	var runs []run
	for _, t := range p.Tasks {
		for _, l := range t.Legs {
			if l.Left == 0 || l.Finish == 0 || l.Person == "" {
				continue
			}
			one := run{Row: string(l.Person), Task: t.ID, Name: t.Name, Stage: t.Stage, From: l.Start, To: l.Finish,
				Sets: setsDate(p, t, l), Under: l.Left.String() + " left"}
			one.Spoken = fmt.Sprintf("%s %s, %s, %s, %s left", t.ID, t.Name, nameOf(&v.Build, l.Person), fromTo(l.Start, l.Finish), l.Left)
			if one.Sets {
				one.Spoken += fmt.Sprintf(", sets the date in %.0f of 100 builds", 100*t.Critical)
			}
			runs = append(runs, one)
		}
	}
	return runs
}

// oftenSets is the part of the played builds from which a task counts as one
// that sets the date.
const oftenSets = 0.5

// setsDate reports whether a leg holds the date: its task sets it in half of
// the played builds or more, and the leg is a link of the plain plan's chain or
// the last of its task.
func setsDate(p *plan.Plan, t plan.Task, l plan.Leg) bool {
	linked := slices.ContainsFunc(p.Chain, func(s plan.Step) bool { return s.Task == t.ID && s.Start == l.Start && s.Finish == l.Finish })
	if linked || t.Critical < oftenSets {
		return linked
	}
	return !slices.ContainsFunc(t.Legs, func(o plan.Leg) bool { return o.Finish > l.Finish })
}

// bookedRuns are the hours that were worked, those of one task on days that
// follow one another joined into one.
func bookedRuns(v live.View) []run {
	var runs []run
	for _, who := range v.Build.People {
		var own []build.Hours
		for _, h := range v.Build.Hours {
			if h.Person == who.ID {
				own = append(own, h)
			}
		}
		slices.SortStableFunc(own, func(a, b build.Hours) int { return cmp.Compare(a.Start, b.Start) })
		runs = append(runs, joined(v, who, own)...)
	}
	return runs
}

func joined(v live.View, who build.Person, own []build.Hours) []run {
	var runs []run
	var end unit.Moment
	var sum unit.Effort
	for _, h := range own {
		worked := h.Worked
		if h.Stop == 0 {
			worked = unit.Effort(max(v.Now-h.Start, 0))
		}
		from := max(h.Start, end)
		to := min(from+unit.Moment(worked), v.Now)
		if to <= from {
			continue
		}
		end = to
		t := v.Build.Task(h.Task)
		if n := len(runs) - 1; n >= 0 && runs[n].Task == h.Task && nextDay(&v.Build, runs[n].To, from) {
			sum += worked
			runs[n].To = to
			runs[n].Spoken = bookedName(t, who, runs[n].From, to, sum)
			continue
		}
		sum = worked
		runs = append(runs, run{Row: string(who.ID), Task: h.Task, Name: t.Name, Stage: t.Stage, From: from, To: to, Done: true,
			Spoken: bookedName(t, who, from, to, sum)})
	}
	return runs
}

func bookedName(t *build.Task, who build.Person, from, to unit.Moment, sum unit.Effort) string {
	return fmt.Sprintf("%s %s, %s, %s, %s booked", t.ID, t.Name, lower(who.Name), fromTo(from, to), sum)
}

// nextDay reports whether no working day lies between two stretches.
func nextDay(b *build.Build, end, start unit.Moment) bool {
	for d := end.Date() + 1; d < start.Date(); d++ {
		if !weekend(d) && closure(b, d) == nil {
			return false
		}
	}
	return true
}

// loadRuns are the turn-rounds of loads at outside shops.
func loadRuns(p *plan.Plan, v live.View) []run {
	var runs []run
	for _, l := range p.Loads {
		if l.Out == 0 || l.Back < l.Out {
			continue
		}
		t := taskOf(p, v.Build.Load(l.ID).Task)
		one := run{Row: awayRow, Task: t.ID, Name: l.What, Stage: "away", From: l.Out.At(8, 0), To: l.Back.At(16, 0),
			Done: l.State == build.Back || l.State == build.Checked || l.State == build.Claimed, Sets: t.Critical >= oftenSets && t.State != build.Finished}
		one.Spoken = fmt.Sprintf("%s %s, %d pieces away, %s, float %d working days", l.ID, l.What, l.Pieces, fromTo(one.From, one.To), l.Float)
		runs = append(runs, one)
	}
	return runs
}

// waitRuns are cures, dryings and other waits in the shop.
func waitRuns(p *plan.Plan, v live.View) []run {
	var runs []run
	for _, t := range p.Tasks {
		task := v.Build.Task(t.ID)
		if task.Wait == 0 || task.Outwork != "" || t.State == build.Finished || t.Finish == 0 {
			continue
		}
		one := run{Row: waitRow, Task: t.ID, Name: "waits", Stage: t.Stage, From: t.Worked, To: t.Finish}
		one.Sets = slices.ContainsFunc(p.Chain, func(s plan.Step) bool { return s.Task == t.ID && s.Finish == t.Finish })
		one.Spoken = fmt.Sprintf("%s %s waits %s, %s", t.ID, t.Name, plan.WorkingDays(task.Wait), fromTo(t.Worked, t.Finish))
		runs = append(runs, one)
	}
	return runs
}

func taskOf(p *plan.Plan, id build.TaskID) plan.Task {
	if i := slices.IndexFunc(p.Tasks, func(t plan.Task) bool { return t.ID == id }); i >= 0 {
		return p.Tasks[i]
	}
	return plan.Task{}
}

func nameOf(b *build.Build, id build.PersonID) string {
	if p := b.Person(id); p != nil {
		return lower(p.Name)
	}
	return string(id)
}
