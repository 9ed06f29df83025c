// Package van is the front page: the drawn vehicle, the date and its odds, what
// reaches the cause, what would move the date, and the checks that matter.
package van

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/desk"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/vehicle"
	"fettle/plan"
	"fettle/takeoff"
	"fettle/unit"
)

// Place returns the place with its routes.
func Place(d desk.Desk) web.Place {
	p := place{d, &drawn.Press{}}
	return web.Place{Key: "van", Label: "The Vehicle", Path: "/b/{build}/van", Routes: []web.Route{
		{Pattern: "GET /b/{build}/van", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/van/movers", Who: web.Guest, Handle: p.showMovers},
	}}
}

type place struct {
	desk  desk.Desk
	press *drawn.Press
}

// front is what the page shows.
type front struct {
	Base   string // /b/pedlar
	Label  string
	Build  *build.Build
	Plan   *plan.Plan
	Drawn  templ.Component // the view asked for
	Tabs   templ.Component // the way to the others
	View   vehicle.View
	Drafts int // findings on the slip
	States []tally
	Clocks []clock // of paint, with the panels that each holds for
	Open   int     // findings not closed
	Hours  string
	Checks []takeoff.Check
	More   int // checks not shown
	Date   figure.Figure
	Odds   figure.Figure
	Net    figure.Figure
}

// tally is how many panels are in a state.
type tally struct {
	State string
	Count int
}

func (p place) show(r *web.Request) error {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(pl)
	}
	b, slip, err := p.desk.Drafted(r)
	if err != nil {
		return err
	}
	f := front{Base: "/b/" + r.Build(), Label: b.Vehicle.Label, Build: &b, Plan: pl}
	marks, clocks := badges(&b, p.desk.Shop.Now(), f.Base)
	f.Clocks = clocks
	views := drawn.Views(&b, drawn.Options{Base: f.Base + "/metal", Kept: &view.Build, Open: true, Badges: marks})
	f.View, _ = drawn.View(views, r.Query("view"))
	mark := desk.Mark(view, slip) + "/" + f.View.ID + minute(marks, p.desk.Shop.Now())
	f.Drawn = p.press.Print(mark, vehicle.Draw(f.View))
	f.Tabs = p.press.Print(mark+"/tabs", vehicle.Tabs(views, f.View.ID, f.Base+"/van?view="))
	f.Drafts = len(b.Findings) - len(view.Build.Findings)
	f.States = tallies(&b)
	f.openFindings()
	f.figures()
	f.Checks, f.More = heaviest(pl.Checks)
	return p.desk.Page(r, web.Sheet{Place: "van", Shown: shown(f)}, page(f))
}

func shown(f front) string {
	if f.View.ID == "" {
		return "not drawn yet"
	}
	return f.View.Label
}

// figures gives the headline numbers their short texts; the workings are the plan's.
func (f *front) figures() {
	f.Date, f.Odds, f.Net = f.Plan.Dates.Figure, f.Plan.Odds.Figure, f.Plan.Money.NetFig
	f.Date.Text = f.Plan.Dates.P50.Short()
	f.Odds.Text = fmt.Sprintf("%.0f %%", 100*f.Plan.Odds.Ready)
	f.Net.Text = f.Build.Currency.Format(f.Plan.Money.Net.Expected)
}

func (f *front) openFindings() {
	var sum unit.Effort
	for _, x := range f.Build.Findings {
		if !drawn.Done(f.Build, x) {
			f.Open++
			sum += x.Hours()
		}
	}
	f.Hours = sum.String()
}

// colour is the one that stands for painted panels in the legend.
func (f front) colour() string {
	if len(f.Build.Colours) == 0 {
		return ""
	}
	return f.Build.Colours[0].Face
}

// tallies counts the panels in each state, in the order of the work.
func tallies(b *build.Build) []tally {
	var out []tally
	for _, s := range build.PanelStates() {
		t := tally{State: string(s)}
		for _, p := range b.Panels {
			if p.State == s {
				t.Count++
			}
		}
		if t.Count > 0 {
			out = append(out, t)
		}
	}
	return out
}

// most is how many checks the front page shows.
const most = 5

// heaviest returns the checks that matter most and how many are left out.
func heaviest(all []takeoff.Check) ([]takeoff.Check, int) {
	rank := map[takeoff.Weight]int{takeoff.Lost: 0, takeoff.Slipping: 1, takeoff.Tight: 2}
	sorted := slices.Clone(all)
	slices.SortStableFunc(sorted, func(a, b takeoff.Check) int { return cmp.Compare(rank[a.Weight], rank[b.Weight]) })
	n := min(len(sorted), most)
	return sorted[:n], len(sorted) - n
}
