package wall

import (
	"fettle/build"
	"fettle/internal/web"
	"fettle/unit"
)

func (p place) begin(r *web.Request) error {
	return p.keepDay(r, func(id build.TaskID, d unit.Date) build.Change { return &build.BeginTask{Task: id, Day: d} })
}

func (p place) end(r *web.Request) error {
	return p.keepDay(r, func(id build.TaskID, d unit.Date) build.Change { return &build.EndTask{Task: id, Day: d} })
}

// keepDay keeps that a task was begun or finished on the day sent, or today.
func (p place) keepDay(r *web.Request, change func(build.TaskID, unit.Date) build.Change) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	c, err := p.card(r)
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	d := f.Date("day")
	if f.Err() != nil {
		return p.again(r, c, f, "day")
	}
	if d == 0 {
		d = c.View.Now.Date()
	}
	act := change(c.Task.ID, d)
	return p.desk.Keep(r, entry, act.Say(&c.View.Build), taskHref(c.Build, c.Task.ID), act)
}

// sayLeft lays on the slip what the person doing the work says is left.
func (p place) sayLeft(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	c, err := p.card(r)
	if err != nil {
		return err
	}
	var left []build.Leg
	var names []string
	for _, l := range c.Plan.Legs {
		name := "left-" + string(l.Trade)
		names = append(names, name)
		if tenths := f.Decimal(name, 2, 0, 200_000); tenths > 0 {
			left = append(left, build.Leg{Trade: l.Trade, Hours: unit.Effort(unit.MulDiv(tenths, 60, 100))})
		}
	}
	if f.Err() != nil {
		return p.again(r, c, f, names...)
	}
	return p.desk.Propose(r, "/b/"+r.Build()+"/slip", &build.SayLeft{Task: c.Task.ID, Left: left})
}

// hold lays on the slip that a task may not begin before a day; an empty day
// lets it go.
func (p place) hold(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	c, err := p.card(r)
	if err != nil {
		return err
	}
	d := f.Date("until")
	if d != 0 && d < c.View.Now.Date() {
		f.Fail("until", "lies in the past: give a day to come, or none to let the task go")
	}
	if f.Err() != nil {
		return p.again(r, c, f, "until")
	}
	return p.desk.Propose(r, "/b/"+r.Build()+"/slip", &build.HoldTask{Task: c.Task.ID, Day: d})
}

// again shows the page with what was typed and what is wrong with it.
func (p place) again(r *web.Request, c card, f *web.Form, names ...string) error {
	c.Wrong, c.Sent = f.Errors, map[string]string{}
	for _, n := range names {
		c.Sent[n] = f.Raw(n)
	}
	return r.Invalid(web.Sheet{Place: "wall", Shown: c.title()}, taskPage(c))
}
