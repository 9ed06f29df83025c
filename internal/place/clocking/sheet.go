package clocking

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/turn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// line is one stretch of work on a day sheet.
type line struct {
	From   string          `json:"from"`
	To     string          `json:"to"` // empty while it runs
	Task   build.TaskID    `json:"task"`
	Name   string          `json:"name"`
	Worked unit.Effort     `json:"worked_h"`
	Note   string          `json:"note,omitempty"` // a gap before it, or hours counted twice
	Find   build.FindingID `json:"finding,omitempty"`
}

// act is an entry of the journal that made the sheet and can be taken back.
type act struct {
	Entry, Says string
}

// daySheet is a person's day.
type daySheet struct {
	Build   string
	Person  build.Person
	Day     unit.Date
	Lines   []line
	Sum     unit.Effort
	ByTask  []line // only task, name and hours
	Due     unit.Effort
	Acts    []act // newest first
	Tasks   []field.Option
	Entry   string
	Wrong   field.Errors
	Sent    map[string]string
	Running bool
}

func (p place) sheet(r *web.Request) error {
	s, err := p.load(r, r.Path("who"), r.Query("day"))
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV(fmt.Sprintf("%s-%s.csv", s.Person.ID, s.Day), sheetTable(s).Records())
	case "json":
		return r.JSON(s.Lines)
	}
	return p.desk.Page(r, web.Sheet{Place: "clocking", Shown: "day sheet of " + s.Person.Name + ", " + s.Day.Long()}, sheetPage(s))
}

func (p place) load(r *web.Request, code, onDay string) (daySheet, error) {
	view, err := p.desk.View(r)
	if err != nil {
		return daySheet{}, err
	}
	who, err := find(view, code)
	if err != nil {
		return daySheet{}, err
	}
	s := daySheet{Build: r.Build(), Person: *who, Day: p.desk.Shop.Now().Date(), Entry: field.NewEntry()}
	if d, err := unit.ParseDate(onDay); err == nil && d != 0 {
		s.Day = d
	}
	from, to := turn.Hours(&view.Build, who.ID, s.Day)
	s.Due = unit.Effort(to - from)
	s.lines(view)
	for _, t := range view.Build.Tasks {
		if t.State != build.Finished && t.Outwork == "" {
			s.Tasks = append(s.Tasks, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name})
		}
	}
	all, err := p.desk.Shop.Entries(r.Context(), r.Build())
	if err != nil {
		return s, err
	}
	s.acts(all, view)
	return s, nil
}

// gapFrom is the pause, in minutes, from which a day sheet marks a gap.
const gapFrom = 5

// lines reads the day's hours and marks what does not join up.
func (s *daySheet) lines(v live.View) {
	var own []build.Hours
	for _, h := range v.Build.Hours {
		if h.Person == s.Person.ID && h.Start.Date() == s.Day {
			own = append(own, h)
		}
	}
	slices.SortStableFunc(own, func(a, b build.Hours) int { return cmp.Compare(a.Start, b.Start) })
	var end unit.Moment
	for _, h := range own {
		one := line{From: h.Start.Clock(), Task: h.Task, Name: v.Build.Task(h.Task).Name, Worked: h.Worked, Find: h.Finding}
		if h.Stop != 0 {
			one.To = h.Stop.Clock()
		} else {
			s.Running = true
		}
		switch pause := h.Start - end; {
		case end != 0 && pause < 0:
			one.Note = fmt.Sprintf("%s counted twice", length(int(-pause)))
		case end != 0 && pause >= gapFrom:
			one.Note = fmt.Sprintf("gap of %s before", length(int(pause)))
		}
		end = max(end, h.Stop)
		s.Sum += h.Worked
		s.Lines = append(s.Lines, one)
		s.count(one)
	}
}

func (s *daySheet) count(one line) {
	i := slices.IndexFunc(s.ByTask, func(o line) bool { return o.Task == one.Task })
	if i < 0 {
		s.ByTask = append(s.ByTask, line{Task: one.Task, Name: one.Name})
		i = len(s.ByTask) - 1
	}
	s.ByTask[i].Worked += one.Worked
}

// acts finds the entries that made the sheet, newest first, so that each can
// be taken back.
func (s *daySheet) acts(all []journal.Entry, v live.View) {
	undone := live.Undone(all)
	for i := len(all) - 1; i >= 0; i-- {
		e := all[i]
		if undone[e.ID] || !slices.Contains([]string{"clock-on", "clock-off", "record-hours"}, e.Kind) {
			continue
		}
		var told struct {
			Person build.PersonID `json:"person"`
			At     unit.Moment    `json:"at"`
			Hours  []build.Hours  `json:"hours"`
		}
		if json.Unmarshal(e.Change, &told) != nil {
			continue
		}
		own := told.Person == s.Person.ID && told.At.Date() == s.Day || slices.ContainsFunc(told.Hours, func(h build.Hours) bool {
			return h.Person == s.Person.ID && h.Start.Date() == s.Day
		})
		if own {
			c, err := build.Decode(e.Kind, e.Version, e.Change)
			if err == nil {
				s.Acts = append(s.Acts, act{e.ID, c.Say(&v.Build)})
			}
		}
	}
}

// line adds a stretch of work that was not clocked.
func (p place) line(r *web.Request) error {
	f, who, _, err := p.asked(r)
	if err != nil {
		return err
	}
	s, err := p.load(r, string(who.ID), f.Raw("day"))
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	from, to := timeOn(f, "from", s.Day), timeOn(f, "to", s.Day)
	task := build.TaskID(f.Text("task", 1, 40))
	if from != 0 && to != 0 && to <= from {
		f.Fail("to", "lies before the start")
	}
	if from > p.desk.Shop.Now() {
		f.Fail("from", "has not come yet")
	}
	if f.Err() != nil {
		s.Wrong, s.Sent = f.Errors, map[string]string{"from": f.Raw("from"), "to": f.Raw("to"), "task": string(task)}
		return r.Invalid(web.Sheet{Place: "clocking", Shown: "day sheet of " + s.Person.Name}, sheetPage(s))
	}
	c := &build.RecordHours{Hours: []build.Hours{{ID: entry, Person: who.ID, Task: task, Start: from, Stop: to, Worked: unit.Effort(to - from)}}}
	text := fmt.Sprintf("%s on %s, %s to %s", who.ID, task, from.Clock(), to.Clock())
	return p.keep(r, text, s.self(), []live.Draft{{ID: entry, Change: c}})
}

func (s daySheet) self() string {
	return path(s.Build) + "/" + string(s.Person.ID) + "/sheet?day=" + s.Day.String()
}

func (s daySheet) on(d unit.Date) string {
	return path(s.Build) + "/" + string(s.Person.ID) + "/sheet?day=" + d.String()
}

// sheetTable lists the day's lines.
func sheetTable(s daySheet) table.Table {
	t := table.Table{ID: "day-sheet", Caption: s.Person.Name + ", " + s.Day.Long(), Self: s.self(), Empty: "Nothing is booked on this day.",
		Columns: []table.Column{{Head: "From", Number: true}, {Head: "To", Number: true}, {Head: "Task"}, {Head: "What", Wide: true}, {Head: "Finding"},
			{Head: "Worked", Unit: "h", Number: true}, {Head: "Mind", Wide: true}}}
	for _, l := range s.Lines {
		to := l.To
		if to == "" {
			to = "running"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(l.From), table.Text(to), table.Link(string(l.Task), "/b/"+s.Build+"/task/"+string(l.Task)),
			table.Text(l.Name), table.Text(string(l.Find)), table.Text(hours(l.Worked)), table.Text(l.Note)}})
	}
	t.Foot = []table.Cell{table.Text("Sum"), {}, {}, {}, {}, table.Text(hours(s.Sum)), table.Text(s.compared())}
	return t
}

// compared says how the sum stands to the hours of the person's day.
func (s daySheet) compared() string {
	switch {
	case s.Due == 0:
		return "no day of theirs"
	case s.Sum < s.Due:
		return (s.Due - s.Sum).String() + " short of " + s.Due.String()
	case s.Sum > s.Due:
		return (s.Sum - s.Due).String() + " over " + s.Due.String()
	}
	return "a full day"
}

func hours(e unit.Effort) string { return strings.TrimSuffix(e.String(), " h") }
