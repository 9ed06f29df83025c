package readin

import (
	"fmt"
	"hash/fnv"

	"fettle/build"
	"fettle/unit"
)

// hours turns a row into record-hours: one line, or one for each person where
// people have columns of their own or stand with their hours in one cell.
func (p *planner) hours(r *rowReader) (build.Change, func()) {
	base := build.Hours{Task: r.task(), Note: r.text("note")}
	if base.Task == "" {
		r.fail("task", invalid("the task is empty").WithHint("name the task in a column, or for the whole list"))
	}
	if text := r.text("finding"); text != "" {
		base.Finding = build.FindingID(shapeNumber(text, "F"))
		if p.work.Finding(base.Finding) == nil {
			r.fail("finding", invalid("there is no finding %q", text))
		}
	}
	t := r.times()
	c := &build.RecordHours{}
	for _, s := range r.workers(t) {
		if r.Status == Bad {
			break
		}
		line := base
		r.place(&line, s, t)
		c.Hours = append(c.Hours, line)
	}
	if r.Status != Bad && len(c.Hours) == 0 {
		r.fail("hours", invalid("the hours are empty"))
	}
	return c, func() { r.keepHours(c) }
}

// keepHours remembers the lines of a row, to know them when they come again.
func (r *rowReader) keepHours(c *build.RecordHours) {
	for _, h := range c.Hours {
		r.p.keep("hours "+h.ID, "hours "+h.ID, r.Line)
		key := string(h.Person) + h.Start.Date().String()
		r.p.ends[key] = max(r.p.ends[key], int64(h.Start)+int64(h.Worked))
	}
}

// times is when the work of a row was done; minutes are from midnight, -1 is
// not said.
type times struct {
	day         unit.Date
	start, stop int
}

// times reads day, start and stop. A stop before the start is a fault.
func (r *rowReader) times() times {
	t := times{start: -1, stop: -1}
	if text := r.text("date"); text != "" {
		t.day, _ = r.day("date", text)
	}
	startDay, start := r.clock("start", t.day)
	stopDay, stop := r.clock("stop", max(t.day, startDay))
	if t.day == 0 {
		t.day = startDay
	}
	t.start, t.stop = start, stop
	switch {
	case r.Status == Bad:
	case t.day == 0:
		r.fail("date", invalid("the day is empty"))
	case start >= 0 && startDay != t.day:
		r.fail("start", invalid("the start is on %s, the day is %s", startDay.Short(), t.day.Short()))
	case stop >= 0 && (stopDay < t.day || stopDay == t.day && start >= 0 && stop <= start):
		r.fail("stop", invalid("the stop lies before the start").WithHint("write work past midnight as two rows"))
	case stop >= 0 && stopDay > t.day:
		r.fail("stop", invalid("the stop is on another day than the start").WithHint("write work past midnight as two rows"))
	}
	return t
}

// clock reads a time of day, or a day with its time.
func (r *rowReader) clock(field string, day unit.Date) (unit.Date, int) {
	text := r.text(field)
	if text == "" {
		return day, -1
	}
	if minutes, err := parseClock(text); err == nil {
		return day, minutes
	}
	on, minutes := r.day(field, text)
	if minutes < 0 && r.Status != Bad {
		r.fail(field, invalid("%q has no time of day", text).WithHint("write it like 8:00"))
	}
	return on, minutes
}

// workers reads who worked how long.
func (r *rowReader) workers(t times) []share {
	var shares []share
	for _, c := range r.p.m.Columns {
		if c.Of == "" || c.At >= len(r.cells) || r.cells[c.At] == "" || r.cells[c.At] == "-" {
			continue
		}
		h, err := r.p.n.parseHours(r.cells[c.At])
		if err != nil {
			r.fail("hours "+c.Of, err)
			return nil
		}
		shares = append(shares, share{c.Of, h})
	}
	if len(shares) > 0 {
		return shares
	}
	text := r.text("hours")
	if text == "" {
		return []share{{r.text("person"), r.span(t)}}
	}
	shares, err := r.p.n.parseShares(text)
	if err != nil {
		r.fail("hours", err)
		return nil
	}
	for i := range shares {
		if shares[i].name == "" {
			shares[i].name = r.text("person")
		}
	}
	return shares
}

// span is the time from start to stop, where no hours are written.
func (r *rowReader) span(t times) unit.Effort {
	if t.start < 0 || t.stop < 0 {
		r.fail("hours", invalid("neither hours nor both start and stop are written"))
		return 0
	}
	return unit.Effort(t.stop - t.start)
}

// place gives a line its person, its hours and its start. Without one it begins
// when the person's day does, or where their last such line of that day ended.
func (r *rowReader) place(h *build.Hours, s share, t times) {
	if s.name == "" {
		r.fail("person", invalid("no person is named").WithHint("say which heading holds the person, or write MW 5, LD 2"))
		return
	}
	id, err := r.p.names.person(s.name)
	if err != nil {
		r.fail("person", err)
		return
	}
	h.Person, h.Worked = id, s.hours
	at := t.start
	if at >= 0 && t.stop >= 0 && int(s.hours) > t.stop-at {
		r.fail("hours", invalid("%s do not fit between start and stop", s.hours))
	}
	if at < 0 && t.stop >= 0 {
		at = max(t.stop-int(s.hours), 0)
	}
	h.ID = hoursID(*h, t.day, at)
	if at < 0 {
		at = r.p.free(id, t.day)
	}
	h.Start = t.day.At(0, 0) + unit.Moment(at)
	if t.stop >= 0 {
		h.Stop = t.day.At(0, 0) + unit.Moment(t.stop)
	}
	if old, ok := r.p.same["hours "+h.ID]; ok {
		if line, here := r.p.lines[old]; here {
			r.fail("hours", invalid("line %d says the same", line).WithHint("add start times or a note if both were worked"))
		} else {
			r.fail("hours", invalid("these hours are in the build already"))
		}
	}
}

// free returns the minute of the day from which a person has no line without a
// start yet.
func (p *planner) free(id build.PersonID, day unit.Date) int {
	at := 8 * 60
	if who := p.work.Person(id); who != nil {
		if m, err := build.ParseClock(who.Starts); err == nil {
			at = m
		}
	}
	if end, ok := p.ends[string(id)+day.String()]; ok {
		at = max(at, int(end-int64(day)*1440))
	}
	return at
}

// hoursID names a line by what it says, so that the same line read again is
// known: day, person, task, start (- for none), minutes, and a mark of its
// finding and note.
func hoursID(h build.Hours, day unit.Date, start int) string {
	at := "-"
	if start >= 0 {
		at = fmt.Sprintf("%02d%02d", start/60, start%60)
	}
	id := fmt.Sprintf("%s %s %s %s %d", day, h.Person, h.Task, at, h.Worked)
	if h.Finding != "" || h.Note != "" {
		mark := fnv.New32a()
		fmt.Fprintf(mark, "%s|%s", h.Finding, fold(h.Note))
		id += fmt.Sprintf(" %08x", mark.Sum32())
	}
	return id
}
