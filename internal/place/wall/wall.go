// Package wall is the wall chart: who does what on which days, the date and
// its odds, why the date is what it is and not sooner, the pace, the ways out, a
// better order of the list, and a page for every task.
package wall

import (
	"fmt"
	"strings"

	"fettle/internal/desk"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/plan"
	"fettle/unit"
)

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{desk: d, ways: newMemory(d.Shop.WaysOut), orders: newMemory(betterOf(d.Shop)), whys: newMemory(whyOf(d.Shop))}
	at := func(pattern string, who web.Role, handle func(*web.Request) error) web.Route {
		method, path, _ := strings.Cut(pattern, " ")
		return web.Route{Pattern: method + " /b/{build}/" + path, Who: who, Handle: handle}
	}
	return web.Place{Key: "wall", Label: "Wall", Path: "/b/{build}/wall", Routes: []web.Route{
		at("GET wall", web.Guest, p.show),
		at("GET wall/ways", web.Crew, p.showWays),
		at("GET wall/ways/table", web.Crew, p.waysTable),
		at("POST wall/ways/put", web.Crew, p.putWay),
		at("GET wall/order", web.Crew, p.showOrder),
		at("GET wall/order/found", web.Crew, p.orderFound),
		at("GET wall/order/line", web.Crew, p.orderLine),
		at("POST wall/order/put", web.Crew, p.putOrder),
		at("GET wall/why", web.Crew, p.showWhy),
		at("GET wall/why/found", web.Crew, p.whyFound),
		at("GET wall/task/{task}", web.Guest, p.showTask),
		at("GET task/{task}", web.Guest, p.toTask),
		at("POST wall/task/{task}/begin", web.Crew, p.begin),
		at("POST wall/task/{task}/end", web.Crew, p.end),
		at("POST wall/task/{task}/left", web.Crew, p.sayLeft),
		at("POST wall/task/{task}/hold", web.Crew, p.hold),
	}}
}

type place struct {
	desk   desk.Desk
	ways   *memory[[]plan.Way]
	orders *memory[*plan.BetterOrder]
	whys   *memory[*plan.WhyNot]
}

// face is what the wall's page needs to know.
type face struct {
	Build  string
	Plan   *plan.Plan
	View   live.View
	Window window
	Charts []drawing // one on the screen, one for every six weeks on paper
	Tasks  []plan.Task
	Paper  bool
	Crew   bool              // may try ways out
	Slip   bool              // something lies on the person's slip
	Tried  bool              // drawn as it would be with the slip kept
	Order  *plan.BetterOrder // nil while nobody has looked for it
}

func (p place) show(r *web.Request) error {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-tasks.csv", taskTable(r.Build(), pl, view).Records())
	case "json":
		return r.JSON(pl)
	}
	f := face{Build: r.Build(), Plan: pl, View: view, Window: windowOf(r, pl), Tasks: pl.Tasks, Crew: r.Person().Role >= web.Crew}
	if f.Crew && p.orders.known(r.Build(), view) {
		if f.Order, err = p.orders.of(r.Context(), r.Build(), view); err != nil {
			return err
		}
	}
	runs := runsOf(pl, view)
	if r.As() == "paper" {
		f.Paper = true
		for _, one := range f.Window.sheets() {
			f.Charts = append(f.Charts, chartOf(r.Build(), pl, view, runs, one))
		}
		return p.desk.Page(r, web.Sheet{Place: "wall", Shown: "who does what, from " + f.Window.First.Short()}, paperPage(f, r.Query("size")))
	}
	if err := p.try(r, &f, runs); err != nil {
		return err
	}
	if !f.Tried {
		f.Charts = []drawing{chartOf(r.Build(), pl, view, runs, f.Window)}
	}
	return p.desk.Page(r, web.Sheet{Place: "wall", Shown: "who does what, " + f.Window.says()}, page(f))
}

// try draws the wall as it would be with the person's slip kept, over the
// outlines of where the bars stand now, when that is asked for.
func (p place) try(r *web.Request, f *face, now []run) error {
	drafted, slip, err := p.desk.Drafted(r)
	if err != nil {
		return err
	}
	f.Slip = len(slip.Changes) > 0
	if !f.Slip || r.Query("slip") == "" {
		return nil
	}
	trial, err := p.desk.Shop.Try(r.Context(), r.Build(), slip.Changes)
	if err != nil {
		return nil // the slip's own page says which change no longer applies
	}
	after := f.View
	after.Build = drafted
	c := chartOf(r.Build(), trial.After, after, runsOf(trial.After, after), f.Window)
	c.ghosts(scaleOf(&drafted, f.Window, nameWide, chartWide-nameWide), now)
	f.Tried, f.Charts = true, []drawing{c}
	return nil
}

// sheetWeeks is how many weeks stand on a sheet.
const sheetWeeks = 6

// window is the run of whole weeks that a chart shows.
type window struct {
	First unit.Date // a Monday
	Weeks int
	Begin unit.Date // Monday of the build's first week
	End   unit.Date // Monday of its last
	Whole bool
}

// windowOf reads the weeks asked for: from this week on when none are named.
func windowOf(r *web.Request, p *plan.Plan) window {
	last := max(p.Dates.P90, p.Promise.Ready, p.Dates.Plain, p.Now.Date())
	w := window{First: p.Now.Date().Monday(), Weeks: sheetWeeks, Begin: min(p.Promise.In, p.Now.Date()).Monday(), End: last.Monday()}
	if d, err := unit.ParseDate(r.Query("from")); err == nil && d != 0 {
		w.First = min(max(d.Monday(), w.Begin), w.End)
	}
	if r.Query("weeks") == "all" {
		w.First, w.Whole = w.Begin, true
		w.Weeks = int(w.End-w.Begin)/7 + 1
	}
	return w
}

func (w window) last() unit.Date { return w.First + unit.Date(7*w.Weeks) - 1 }

func (w window) says() string {
	if w.Whole {
		return "the whole build"
	}
	return fmt.Sprintf("%s to %s", dayMonth(w.First), w.last().Short())
}

// sheets cuts the time from the window's first day to the end of the build
// into sheets of six weeks.
func (w window) sheets() []window {
	var all []window
	for d := w.First; d <= w.End; d += 7 * sheetWeeks {
		all = append(all, window{First: d, Weeks: sheetWeeks, Begin: w.Begin, End: w.End})
	}
	return all
}

// earlier and later are the first days of the neighbouring windows; 0 for none.
func (w window) earlier() unit.Date {
	if w.Whole || w.First <= w.Begin {
		return 0
	}
	return max(w.First-7*sheetWeeks, w.Begin)
}

func (w window) later() unit.Date {
	if w.Whole || w.last() >= w.End {
		return 0
	}
	return w.First + 7*sheetWeeks
}

// dayMonth writes "6 Oct".
func dayMonth(d unit.Date) string { return d.Time().Format("2 Jan") }

// weekDay writes "Tue 6 Oct".
func weekDay(d unit.Date) string { return d.Time().Format("Mon 2 Jan") }
