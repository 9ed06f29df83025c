package today

import (
	"cmp"
	"slices"

	"fettle/build"
	"fettle/internal/live"
	"fettle/internal/turn"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

// job is a stint with what stands in its way and what can hurt.
type job struct {
	turn.Stint
	Obstacle string
	Cautions []string
}

// person is one person's day.
type person struct {
	Person build.Person
	Now    []job // today
	Next   []job // after today
	On     build.TaskID
	Since  unit.Moment
	Off    string // why they are not here; empty when they are
}

// booth is a task that has a place to itself on some of the next days.
type booth struct {
	Task     plan.Task
	Place    string
	From, To unit.Date
}

// day is everything the page needs to know.
type day struct {
	Build  string
	View   live.View
	Plan   *plan.Plan
	Day    unit.Date
	Who    string
	People []person
	One    *person
	Lead   bool         // One leads the build: the first on its list of people
	Parts  []plan.Order // due in by today and not here
	Loads  []plan.Load  // due back by today and not back
	Tight  []plan.Load  // loads not back, the least float first
	Booths []booth
	Orders []plan.Order
}

// How far ahead booth days are told, and how many tight loads.
const (
	boothDays = 10
	tightest  = 3
)

// huddle works out everybody's day.
func huddle(name string, p *plan.Plan, v live.View, now unit.Moment) day {
	h := day{Build: name, View: v, Plan: p, Day: now.Date(), Orders: ordersDue(p)}
	for _, who := range v.Build.People {
		if one := personDay(p, v, who, h.Day); !who.Helps || len(one.Now) > 0 || one.On != "" {
			h.People = append(h.People, one)
		}
	}
	for _, o := range p.Orders {
		if o.When == "on order" && o.There <= h.Day {
			h.Parts = append(h.Parts, o)
		}
	}
	h.loads(p)
	h.booths(p, v)
	return h
}

func personDay(p *plan.Plan, v live.View, who build.Person, d unit.Date) person {
	one := person{Person: who}
	for _, s := range turn.On(p, &v.Build, who.ID, d) {
		one.Now = append(one.Now, jobOf(p, v, s))
	}
	for _, s := range turn.Next(p, who.ID, d, 3) {
		one.Next = append(one.Next, jobOf(p, v, s))
	}
	if open := v.Build.Clocked(who.ID); open != nil {
		one.On, one.Since = open.Task, open.Start
	}
	if from, to := turn.Hours(&v.Build, who.ID, d); from == to {
		one.Off = "not here today"
		if why := turn.Shut(&v.Build, d); why != "" {
			one.Off = "shut: " + why
		}
	}
	return one
}

func jobOf(p *plan.Plan, v live.View, s turn.Stint) job {
	return job{s, turn.Obstacle(p, &v.Build, s), v.Build.Task(s.Task.ID).Caution}
}

func (h *day) loads(p *plan.Plan) {
	for _, l := range p.Loads {
		out := l.State == build.Away || l.State == build.Chased
		if out && l.Back <= h.Day {
			h.Loads = append(h.Loads, l)
		}
		if l.State != build.Back && l.State != build.Checked && l.State != build.Claimed {
			h.Tight = append(h.Tight, l)
		}
	}
	slices.SortStableFunc(h.Tight, func(a, b plan.Load) int { return cmp.Compare(a.Float, b.Float) })
	h.Tight = h.Tight[:min(tightest, len(h.Tight))]
}

// booths lists the tasks that fill a place of one on the next days.
func (h *day) booths(p *plan.Plan, v live.View) {
	for _, t := range p.Tasks {
		bay := v.Build.Task(t.ID).Bay
		i := slices.IndexFunc(v.Build.Bays, func(b build.Bay) bool { return b.ID == bay && b.Units == 1 })
		if i < 0 || t.State == build.Finished || t.Start == 0 {
			continue
		}
		one := booth{t, v.Build.Bays[i].Name, t.Start.Date(), (max(t.Finish, t.Start+1) - 1).Date()}
		if one.From <= h.Day+boothDays && one.To >= h.Day {
			h.Booths = append(h.Booths, one)
		}
	}
	slices.SortStableFunc(h.Booths, func(a, b booth) int { return cmp.Compare(a.From, b.From) })
}

// entry is one line of the list as a program reads it.
type entry struct {
	Person   build.PersonID `json:"person"`
	Task     build.TaskID   `json:"task"`
	Name     string         `json:"name"`
	From     unit.Moment    `json:"from"`
	Hours    unit.Effort    `json:"hours_h"`
	Left     unit.Effort    `json:"left_h"`
	Obstacle string         `json:"obstacle,omitempty"`
}

// listed returns what is done today by whoever is shown.
func listed(h day) []entry {
	list := []entry{}
	for _, one := range h.People {
		if h.One != nil && one.Person.ID != h.One.Person.ID {
			continue
		}
		for _, j := range one.Now {
			list = append(list, entry{one.Person.ID, j.Task.ID, j.Task.Name, j.From, j.Hours, j.Leg.Left, j.Obstacle})
		}
	}
	return list
}

// listTable is the same as a table.
func listTable(h day) table.Table {
	t := table.Table{ID: "today", Caption: "Today", Columns: []table.Column{{Head: "Who"}, {Head: "Task"}, {Head: "What", Wide: true},
		{Head: "From"}, {Head: "Today", Unit: "h", Number: true}, {Head: "Left", Unit: "h", Number: true}, {Head: "In the way", Wide: true}}}
	for _, e := range listed(h) {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(string(e.Person)), table.Text(string(e.Task)), table.Text(e.Name),
			table.Text(e.From.Clock()), table.Text(hours(e.Hours)), table.Text(hours(e.Left)), table.Text(e.Obstacle)}})
	}
	return t
}
