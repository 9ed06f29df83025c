package live

import (
	"context"
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/plan"
	"fettle/unit"
)

// Cause is what a share of a move is put down to.
type Cause string

// The causes.
const (
	ByChange Cause = "change" // findings, orders, decisions, times named by others
	ByWork   Cause = "work"   // hours worked, tasks begun and ended
	ByTime   Cause = "time"   // days went by
)

// Share is the part of a move of the date that one run of entries, or the
// passing of time, accounts for.
type Share struct {
	Cause  Cause     `json:"cause"`
	First  unit.Date `json:"first"` // days of the entries
	Last   unit.Date `json:"last"`
	Person string    `json:"person,omitempty"` // of ByChange
	Seqs   []int64   `json:"entries,omitempty"`
	Before unit.Date `json:"before"` // even chance by, without them
	After  unit.Date `json:"after"`
}

// Days is the share in days of the calendar; later is positive.
func (s Share) Days() int { return int(s.After - s.Before) }

// sharesRuns is how many builds are played for each plan of a share: enough
// for the middle of the finishes, which is all that is read.
const sharesRuns = 300

// mostDays is how many days are told one by one; beyond that weeks are.
const mostDays = 21

// Shares splits the move of the even-chance date since the morning of a day
// into what accounts for it, in the order it happened. Plans are made under
// one seed; all entries of a day (or a week, over a long time) are compared at
// the same moment, and the passing of time from one to the next is a share of
// its own. Each Before is the After of the share that precedes it, so the days
// add up to the whole move.
func (s *Shop) Shares(ctx context.Context, id string, since unit.Date) ([]Share, error) {
	all, err := s.store.Entries(ctx, id, 0, 0)
	if err != nil {
		return nil, err
	}
	if since > s.Now().Date() {
		return nil, fault.New(fault.Invalid, "%s has not come yet", since.Long()).At("since")
	}
	early := Until(all, since)
	if len(early) == 0 {
		return nil, fault.New(fault.NotFound, "the build had not begun on %s", since.Long()).At("since")
	}
	rest := slices.DeleteFunc(slices.Clone(all), func(e journal.Entry) bool { return unit.DateOf(e.At) < since })
	m := move{shop: s, all: append(early, rest...), done: len(early), since: since, now: s.planNow()}
	if m.build, err = Replay(early); err != nil {
		return nil, err
	}
	return m.shares(ctx)
}

// move walks the journal from a day on and measures the date on the way.
type move struct {
	shop  *Shop
	all   []journal.Entry
	done  int // entries that build holds
	build build.Build
	since unit.Date
	now   unit.Moment
	at    unit.Moment // of the last measurement
	date  unit.Date
	list  []Share
}

func (m *move) shares(ctx context.Context) ([]Share, error) {
	m.at = m.moment(m.since)
	var err error
	if m.date, err = m.measure(ctx); err != nil {
		return nil, err
	}
	for m.done < len(m.all) {
		if err := m.step(ctx); err != nil {
			return nil, err
		}
	}
	return m.list, m.pass(ctx, m.now)
}

// step takes the next run of entries: first time goes on to their day, then
// they count.
func (m *move) step(ctx context.Context) error {
	first := m.all[m.done]
	if err := m.pass(ctx, m.moment(unit.DateOf(first.At))); err != nil {
		return err
	}
	end := m.runEnd(&first)
	run := m.all[m.done:end]
	if err := m.take(run, end); err != nil {
		return err
	}
	m.done = end
	share := Share{Cause: causeOf(first.Kind), First: unit.DateOf(first.At), Last: unit.DateOf(run[len(run)-1].At), Before: m.date, After: m.date}
	if share.Cause == ByChange {
		share.Person = first.Person
	}
	for _, e := range run {
		share.Seqs = append(share.Seqs, e.Seq)
	}
	if !still(first.Kind) {
		date, err := m.measure(ctx)
		if err != nil {
			return err
		}
		m.date, share.After = date, date
	}
	m.list = append(m.list, share)
	return nil
}

// take brings the build up to the end of a run.
func (m *move) take(run []journal.Entry, end int) error {
	if slices.ContainsFunc(run, func(e journal.Entry) bool { return e.Kind == journal.KindUndo }) {
		b, err := Replay(m.all[:end])
		m.build = b
		return err
	}
	for _, e := range run {
		if err := apply(&m.build, e); err != nil {
			return err
		}
	}
	return nil
}

// pass lets time go on.
func (m *move) pass(ctx context.Context, to unit.Moment) error {
	if to <= m.at {
		return nil
	}
	from := m.at
	m.at = to
	date, err := m.measure(ctx)
	if err != nil {
		return err
	}
	m.list = append(m.list, Share{Cause: ByTime, First: from.Date(), Last: to.Date(), Before: m.date, After: date})
	m.date = date
	return nil
}

func (m *move) measure(ctx context.Context) (unit.Date, error) {
	past, err := m.shop.lessons(ctx, m.all[0].Build, m.at.Date())
	if err != nil {
		return 0, err
	}
	p, err := plan.Make(ctx, &m.build, learn(m.build, past), plan.Options{Now: m.at, Runs: sharesRuns, Seed: m.shop.options.Seed})
	if err != nil {
		return 0, err
	}
	return p.Dates.P50, nil
}

// moment is when the entries of a day are compared: now for today and for a
// week that is not over, else opening time on the day or on its week's Monday.
func (m *move) moment(d unit.Date) unit.Moment {
	if m.now.Date()-m.since > mostDays {
		d = max(d.Monday(), m.since)
		if d.Monday() == m.now.Date().Monday() {
			return m.now
		}
	}
	if d >= m.now.Date() {
		return m.now
	}
	return d.At(8, 0)
}

// runEnd finds the end of the run that begins at done: entries of the same
// stretch of time and the same cause, and for changes of the same person and
// the same day. Entries that cannot move the date go with any run. lead
// becomes the first that can.
func (m *move) runEnd(lead *journal.Entry) int {
	end := m.done + 1
	for ; end < len(m.all); end++ {
		next := m.all[end]
		a, b := unit.DateOf(lead.At), unit.DateOf(next.At)
		switch {
		case m.moment(a) != m.moment(b):
			return end
		case still(next.Kind):
		case still(lead.Kind):
			*lead = next
		case causeOf(lead.Kind) != causeOf(next.Kind):
			return end
		case causeOf(lead.Kind) == ByChange && (a != b || lead.Person != next.Person):
			return end
		}
	}
	return end
}

// causeOf sorts the kinds of change.
func causeOf(kind string) Cause {
	switch kind {
	case "record-hours", "clock-on", "clock-off", "begin-task", "end-task", "move-finding", "move-panels", "settle-event":
		return ByWork
	}
	return ByChange
}

// still tells whether a kind cannot move the date: money, photos and words.
func still(kind string) bool {
	switch kind {
	case "pay", "record-gift", "record-gift-in-kind", "agree-budget", "set-sale", "add-photo", "write-note",
		"raise-snag", "close-snag", "move-bags", "clock-on":
		return true
	}
	return false
}
