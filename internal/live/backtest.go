package live

import (
	"context"
	"fmt"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/journal"
	"fettle/plan"
	"fettle/takeoff"
	"fettle/unit"
)

// Made is a forecast as it was made on an earlier morning, and what came of it.
type Made struct {
	Build string    `json:"build"`
	Day   unit.Date `json:"day"` // the morning; only what was kept before it counts
	plan.Forecast
	Promised unit.Date `json:"promised,omitzero"` // the day promised then; none for a task
	Ready    float64   `json:"ready"`             // the chance given to it then; 0 for a task
	Finished unit.Date `json:"finished"`
	Held     bool      `json:"p80_held"`   // finished by P80
	Error    int       `json:"error_days"` // working days from P50 to the finish; positive is later than forecast
	Said     float64   `json:"p80_said"`   // the chance given then to P80: 0.8 and a little more, for days are whole; 0 for a task
	said     [3]float64
	off      [3]int // working days from P50, P80 and P90 to the finish
	missed   int    // and from the day promised
}

// Tested is what a back-test makes of one build.
type Tested struct {
	Build    string      `json:"build"`
	Title    string      `json:"title"`
	Finished unit.Date   `json:"finished,omitzero"` // of the last task; none while tasks are open
	Open     int         `json:"open_tasks"`
	Whole    []Made      `json:"forecasts"`      // of the finish of the build, once it is finished
	Tasks    []Made      `json:"task_forecasts"` // of the finish of each finished task
	Hours    []KindHours `json:"hours"`
}

// KindHours compares the hours of the finished tasks of one kind of work.
type KindHours struct {
	Kind   string      `json:"kind"`
	Tasks  int         `json:"tasks"`
	First  unit.Effort `json:"first_planned_h"` // on the first morning
	Last   unit.Effort `json:"planned_h"`       // with all that was found since
	Booked unit.Effort `json:"booked_h"`
}

// Backtest replays the journal of a build as it stood each morning (weekly:
// each Monday morning) from the first one after it began, forecasts with the
// facts and the clock of then and what builds taught that were over by then,
// and lays beside it what came. Entries count by the time they carry. The fault
// of a build on which nothing is finished says so.
func (s *Shop) Backtest(ctx context.Context, id string, weekly bool) (Tested, error) {
	all, err := s.store.Entries(ctx, id, 0, 0)
	if err != nil {
		return Tested{}, err
	}
	b, err := Replay(all)
	if err != nil {
		return Tested{}, err
	}
	t := test{shop: s, all: all, now: b, result: Tested{Build: b.Name, Title: b.Title}}
	last := unit.Date(0)
	for _, task := range b.Tasks {
		last = max(last, task.Ended)
		if task.State != build.Finished {
			t.result.Open++
		}
	}
	if last == 0 {
		return Tested{}, fault.New(fault.NotFound, "nothing is finished on %s yet: all of its %d tasks are open", b.Name, len(b.Tasks)).
			WithHint("a back-test sets earlier forecasts beside what came of them; end a task first, or name a finished build")
	}
	if t.result.Open == 0 {
		t.result.Finished = last
	}
	for d := unit.DateOf(all[0].At) + 1; d <= last; d++ {
		if weekly && d != d.Monday() || plan.DaysBetween(&b, d-1, d) == 0 && !weekly {
			continue
		}
		if err := t.morning(ctx, d); err != nil {
			return Tested{}, err
		}
	}
	return t.result, nil
}

// test walks through the mornings of one build.
type test struct {
	shop   *Shop
	all    []journal.Entry
	now    build.Build // as it stands now, the truth that forecasts are held to
	result Tested
}

// morning forecasts with the facts and the clock of a morning.
func (t *test) morning(ctx context.Context, day unit.Date) error {
	b, err := Replay(Until(t.all, day))
	if err != nil {
		return fault.Wrap(fault.KindOf(err), err, fmt.Sprintf("the morning of %s", day.Short()))
	}
	if t.result.Hours == nil {
		t.result.Hours = hoursByKind(&b, &t.now)
	}
	past, err := t.shop.lessons(ctx, t.all[0].Build, day)
	if err != nil {
		return err
	}
	out, open, err := plan.Forecasts(ctx, &b, learn(b, past), plan.Options{Now: day.At(8, 0), Runs: t.shop.options.Runs, Seed: t.shop.options.Seed})
	if err != nil || !open {
		return err
	}
	if t.result.Finished != 0 {
		m := t.made(day, out.Whole, t.result.Finished)
		m.Promised, m.missed = b.Promise.Ready, t.between(b.Promise.Ready, t.result.Finished)
		m.Ready, m.Said, m.said = round4(out.Ready), round4(out.Said[1]), out.Said
		t.result.Whole = append(t.result.Whole, m)
	}
	for _, f := range out.Tasks {
		if task := t.now.Task(f.Task); task != nil && task.State == build.Finished && day <= task.Ended {
			t.result.Tasks = append(t.result.Tasks, t.made(day, f, task.Ended))
		}
	}
	return nil
}

// made lays what came beside a forecast.
func (t *test) made(day unit.Date, f plan.Forecast, finished unit.Date) Made {
	m := Made{Build: t.result.Build, Day: day, Forecast: f, Finished: finished}
	for i, said := range []unit.Date{f.P50, f.P80, f.P90} {
		m.off[i] = t.between(said, finished)
	}
	m.Error, m.Held = m.off[0], m.off[1] <= 0
	return m
}

// between counts working days; it is negative where to lies before from.
func (t *test) between(from, to unit.Date) int {
	return plan.DaysBetween(&t.now, from, to) - plan.DaysBetween(&t.now, to, from)
}

// hoursByKind sums the hours of finished tasks, as planned in the facts of
// first and as planned and booked in those of now.
func hoursByKind(first, now *build.Build) []KindHours {
	list := []KindHours{}
	of := func(kind string) *KindHours {
		for i := range list {
			if list[i].Kind == kind {
				return &list[i]
			}
		}
		list = append(list, KindHours{Kind: kind})
		return &list[len(list)-1]
	}
	for _, r := range takeoff.Records(now) {
		k := of(r.Kind)
		k.Tasks, k.Last, k.Booked = k.Tasks+1, k.Last+r.Planned, k.Booked+r.Booked
		if t := first.Task(r.Task); t != nil {
			k.First += takeoff.Planned(first, *t)
		}
	}
	return list
}
