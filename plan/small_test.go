package plan

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"fettle/build"
	"fettle/internal/demo"
	"fettle/internal/scenario"
	"fettle/rates"
	"fettle/unit"
)

const h = unit.Hour

// monday is the day on which the small build is planned: 2 March 2026.
var monday = unit.Day(2026, time.March, 2)

// small is a build of two tasks: two days of metal, then a day of assembly.
// Both people work from Monday to Friday, 08:00 to 16:00.
func small() *build.Build {
	week := [7]unit.Effort{8 * h, 8 * h, 8 * h, 8 * h, 8 * h}
	return &build.Build{
		Name: "small", Currency: unit.Currency{Code: "GBP", Symbol: "£"}, Cause: build.Cause{Name: "the library"},
		Promise: build.Promise{In: monday - 7, Ready: monday + 11, Day: monday + 12},
		Trades:  []build.Trade{{ID: "MW", Name: "metal"}, {ID: "WA", Name: "assembly"}},
		People: []build.Person{
			{ID: "mo", Name: "Mo", Trades: []build.TradeID{"MW"}, Starts: "08:00", Week: week, Rate: 30_00, Premium: 50},
			{ID: "wyn", Name: "Wyn", Trades: []build.TradeID{"WA", "MW"}, Starts: "08:00", Week: week, Rate: 20_00},
			{ID: "lee", Name: "Lee", Starts: "08:00", Helps: true},
		},
		Bays: []build.Bay{{ID: "bay", Name: "Bay", Units: 1}},
		Tasks: []build.Task{
			{ID: "T1", Name: "sides", Stage: "metal", Legs: []build.Leg{{Trade: "MW", Hours: 16 * h}}, State: build.NotBegun},
			{ID: "T2", Name: "fit", Stage: "assembly", Legs: []build.Leg{{Trade: "WA", Hours: 8 * h}}, After: []build.TaskID{"T1"}, State: build.NotBegun},
		},
		Sale: build.Sale{Low: 500_00, Expected: 700_00, High: 900_00, FeePercent: 400, Closes: monday + 20},
	}
}

// made plans a build at a moment with few runs.
func made(t testing.TB, b *build.Build, now unit.Moment) *Plan {
	t.Helper()
	p, err := Make(context.Background(), b, rates.Default(), Options{Now: now, Runs: 60, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// days writes when tasks run, by day of March and clock.
func days(p *Plan) string {
	var list []string
	at := func(m unit.Moment) string {
		if m == 0 {
			return "never"
		}
		return fmt.Sprintf("%d/%s", m.Date()-monday+2, m.Clock())
	}
	for _, t := range p.Tasks {
		list = append(list, fmt.Sprintf("%s %s to %s", t.ID, at(t.Start), at(t.Finish)))
	}
	return strings.Join(list, ", ")
}

// story is a build at a moment of its own time.
type story struct {
	name string
	b    build.Build
	now  unit.Moment
}

// stories are both demo builds on days from beginning to end.
func stories(t testing.TB) []story {
	t.Helper()
	var list []story
	for _, s := range []struct {
		read func() (scenario.File, error)
		days []unit.Date
	}{
		{demo.Pedlar, []unit.Date{unit.Day(2026, 9, 15), unit.Day(2026, 10, 6), unit.Day(2026, 10, 7), unit.Day(2026, 12, 22), unit.Day(2027, 2, 12), unit.Day(2027, 3, 14)}},
		{demo.Second, []unit.Date{unit.Day(2027, 1, 13), unit.Day(2027, 1, 28), unit.Day(2027, 2, 3)}},
	} {
		f, err := s.read()
		if err != nil {
			t.Fatal(err)
		}
		for _, day := range s.days {
			b, err := scenario.Replay(f, day)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, story{b.Name + " on " + day.String(), b, day.At(8, 0)})
		}
	}
	return append(list, story{"small", *small(), monday.At(8, 0)})
}
