// Package clocking starts and stops work in two touches, a name plate and a
// task, and shows each person's day sheet.
package clocking

import (
	"fmt"
	"strings"

	"github.com/google/uuid"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/journal"
	"fettle/internal/live"
	"fettle/internal/turn"
	"fettle/internal/web"
	"fettle/unit"
)

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "clocking", Label: "Clocking", Path: "/b/{build}/clocking", Helper: true, Routes: []web.Route{
		{Pattern: "GET /b/{build}/clocking", Who: web.Crew, Handle: p.names},
		{Pattern: "GET /b/{build}/clocking/{who}", Who: web.Crew, Handle: p.person},
		{Pattern: "GET /b/{build}/clocking/{who}/sheet", Who: web.Crew, Handle: p.sheet},
		{Pattern: "POST /b/{build}/clocking/on", Who: web.Crew, Handle: p.on},
		{Pattern: "POST /b/{build}/clocking/off", Who: web.Crew, Handle: p.off},
		{Pattern: "POST /b/{build}/clocking/line", Who: web.Crew, Handle: p.line},
	}}
}

type place struct{ desk desk.Desk }

func path(b string) string { return "/b/" + b + "/clocking" }

// running is the open entry of a person, as the pages show it.
type running struct {
	Task      build.Task
	Since     unit.Moment
	Minutes   int  // so far
	Forgotten bool // from an earlier day
	Guess     unit.Moment
}

// runningOf returns what a person is on; nil when they are off the clock.
func runningOf(v live.View, now unit.Moment, who build.PersonID) *running {
	open := v.Build.Clocked(who)
	if open == nil {
		return nil
	}
	r := &running{Task: *v.Build.Task(open.Task), Since: open.Start, Minutes: int(max(now-open.Start, 0))}
	if open.Start.Date() < now.Date() {
		r.Forgotten, r.Guess = true, guess(&v.Build, *open)
	}
	return r
}

// guess is when a forgotten entry most likely ended: with the person's own day,
// or an hour after its start where it began later.
func guess(b *build.Build, open build.Hours) unit.Moment {
	_, end := turn.Hours(b, open.Person, open.Start.Date())
	if end <= open.Start {
		end = open.Start + 60
	}
	return min(end, (open.Start.Date()+1).At(0, 0)-1)
}

// clock is the shop's time at which a thing was touched. A tablet that could
// not reach the server sends it later, and says when it was touched.
func (p place) clock(r *web.Request, f *web.Form) unit.Moment {
	const least, most = 90_000, 7 * 24 * 3_600_000
	now := p.desk.Shop.Now()
	if f.Raw("at") == "" {
		return now
	}
	touched := f.Int("at", 0, 1<<50)
	if lag := r.Now().UnixMilli() - touched; lag >= least && lag <= most {
		return now - unit.Moment(lag/60_000)
	}
	return now
}

// asked reads the person that a form names.
func (p place) asked(r *web.Request) (*web.Form, *build.Person, live.View, error) {
	f, err := r.Form()
	if err != nil {
		return nil, nil, live.View{}, err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return f, nil, view, err
	}
	who, err := find(view, f.Text("person", 1, 40))
	return f, who, view, err
}

func find(v live.View, code string) (*build.Person, error) {
	who := v.Build.Person(build.PersonID(code))
	if who == nil {
		return nil, fault.New(fault.NotFound, "nobody here is called %q", code).WithHint("Touch a name plate on the clocking page.")
	}
	return who, nil
}

// on puts a person on a task, and takes them off what they were on.
func (p place) on(r *web.Request) error {
	f, who, view, err := p.asked(r)
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	at := p.clock(r, f)
	c := &build.ClockOn{ID: entry, Person: who.ID, Task: build.TaskID(f.Text("task", 1, 40)), At: at, Finding: build.FindingID(f.Text("finding", 0, 40))}
	if f.Err() != nil {
		return f.Err()
	}
	drafts := []live.Draft{{ID: entry, Change: c}}
	text := c.Say(&view.Build)
	if now := runningOf(view, at, who.ID); now != nil && now.Forgotten {
		stop := &build.ClockOff{Person: who.ID, At: now.Guess}
		drafts = []live.Draft{{ID: twin(entry), Change: stop}, drafts[0]}
		text = fmt.Sprintf("%s stopped at %s on %s; %s", now.Task.ID, now.Guess.Clock(), day(now.Guess.Date()), text)
	} else if now != nil {
		text += ", moved over from " + string(now.Task.ID)
	}
	return p.keep(r, text, path(r.Build()), drafts)
}

// twin is the ID of the entry that is kept together with another, the same
// however often the form is sent.
func twin(entry string) string {
	return uuid.NewSHA1(uuid.MustParse(entry), []byte("stop")).String()
}

// off stops a person's work, now or at a time on the day it began.
func (p place) off(r *web.Request) error {
	f, who, view, err := p.asked(r)
	if err != nil {
		return err
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	at := p.clock(r, f)
	if f.Has("time") {
		open := view.Build.Clocked(who.ID)
		if open == nil {
			return r.SeeOther(path(r.Build()))
		}
		at = timeOn(f, "time", open.Start.Date())
		if at != 0 && at < open.Start {
			f.Fail("time", "lies before the start at "+open.Start.Clock())
		}
	}
	if f.Err() != nil {
		return p.personAgain(r, who, view, f)
	}
	c := &build.ClockOff{Person: who.ID, At: at}
	return p.keep(r, c.Say(&view.Build), path(r.Build()), []live.Draft{{ID: entry, Change: c}})
}

// keep keeps the drafts and offers to put them back.
func (p place) keep(r *web.Request, text, next string, drafts []live.Draft) error {
	kept, err := p.desk.Shop.Record(r.Context(), r.Build(), journal.AnySeq, desk.Who(r), drafts)
	if err != nil {
		return err
	}
	r.Kept(text, fmt.Sprintf("%d-%d", kept[0].Seq, kept[len(kept)-1].Seq), "")
	return r.SeeOther(next)
}

// timeOn reads a time of the day, such as 16:00.
func timeOn(f *web.Form, name string, day unit.Date) unit.Moment {
	minutes, err := build.ParseClock(strings.TrimSpace(f.Raw(name)))
	if err != nil {
		f.Fail(name, "is not a time such as 16:00")
		return 0
	}
	return day.At(0, minutes)
}

func day(d unit.Date) string { return d.Time().Format("Mon 2 Jan") }

// length writes minutes as "1 h 05".
func length(minutes int) string {
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d", minutes/60, minutes%60)
}
