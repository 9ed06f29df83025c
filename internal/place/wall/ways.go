package wall

import (
	"fmt"
	"slices"
	"strings"

	"fettle/fault"
	"fettle/internal/live"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/plan"
)

// wayOut is a way as the page shows it.
type wayOut struct {
	Key   string
	Rank  int
	Way   plan.Way
	Word  string
	Price string
	Cash  string
}

// choices is what the page of ways out needs to know.
type choices struct {
	Build  string
	Plan   *plan.Plan
	Ready  bool // the ways are worked out
	Ways   []wayOut
	Entry  string
	Script string // address of the table as a fragment
}

func (p place) showWays(r *web.Request) error {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return err
	}
	c := choices{Build: r.Build(), Plan: pl, Script: "/b/" + r.Build() + "/wall/ways/table"}
	if as := r.As(); as != "page" || r.Query("now") != "" || p.ways.known(r.Build(), view) {
		if c, err = p.choices(r, c, view); err != nil {
			return err
		}
		switch as {
		case "csv":
			return r.CSV(r.Build()+"-ways-out.csv", wayTable(c, view).Records())
		case "json":
			return r.JSON(waysOf(c.Ways))
		}
	}
	return p.desk.Page(r, web.Sheet{Place: "wall", Shown: "ways out"}, waysPage(c, wayTable(c, view)))
}

func (p place) waysTable(r *web.Request) error {
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return err
	}
	c, err := p.choices(r, choices{Build: r.Build(), Plan: pl}, view)
	if err != nil {
		return err
	}
	return r.Fragment(waysFound(c, wayTable(c, view)))
}

func (p place) choices(r *web.Request, c choices, view live.View) (choices, error) {
	ways, err := p.ways.of(r.Context(), r.Build(), view)
	if err != nil {
		return c, err
	}
	money := view.Build.Currency.Format
	c.Ready, c.Entry = true, field.NewEntry()
	for i, w := range ways {
		one := wayOut{Key: keyOf(w), Rank: i + 1, Way: w, Word: plan.WordOf(w.Ready), Price: money(w.Price), Cash: money(w.Cash)}
		if w.Cash > 0 {
			one.Cash = "+" + one.Cash
		}
		c.Ways = append(c.Ways, one)
	}
	return c, nil
}

func keyOf(w plan.Way) string { return strings.Join(w.Levers, "+") }

func waysOf(all []wayOut) []plan.Way {
	ways := make([]plan.Way, len(all))
	for i, w := range all {
		ways[i] = w.Way
	}
	return ways
}

// wayTable lists the ways, the best first.
func wayTable(c choices, view live.View) table.Table {
	t := table.Table{
		ID: "ways", Caption: "Ways out, the best first", Self: "/b/" + c.Build + "/wall/ways",
		Empty: "The facts offer no way out: nobody has Saturdays or hours to lend, and no outside shop has made an offer.",
		Columns: []table.Column{{Head: "", Number: true}, {Head: "Do this", Wide: true}, {Head: "Half by", Number: true}, {Head: "4 in 5 by", Number: true},
			{Head: "Odds", Unit: "%", Number: true}, {Head: "±", Unit: "points", Number: true}, {Head: "Gain", Unit: "points", Number: true},
			{Head: "Price", Unit: view.Build.Currency.Symbol, Number: true}, {Head: "Cash", Number: true}, {Head: ""}},
	}
	for _, w := range c.Ways {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{
			table.Text(fmt.Sprint(w.Rank)), table.Text(upper(w.Way.Name)), day2(w.Way.P50), day2(w.Way.P80),
			table.Show(fmt.Sprintf("%.1f", 100*w.Way.Ready), chanceCell(w)), table.Text(fmt.Sprintf("%.1f", 100*w.Way.StdErr)),
			table.Text(signed(100 * w.Way.Gain)), table.Text(strings.TrimPrefix(w.Price, view.Build.Currency.Symbol)), table.Text(w.Cash), table.Show("", putForm(c, w)),
		}})
	}
	return t
}

// signed writes a whole number with its sign.
func signed(points float64) string {
	text := fmt.Sprintf("%+.0f", points)
	return strings.Replace(strings.Replace(text, "-0", "0", 1), "-", "−", 1)
}

// putWay lays a way on the person's slip, where its knock-on shows before it
// is kept.
func (p place) putWay(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	key := f.Text("way", 1, 500)
	if f.Err() != nil {
		return f.Err()
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	ways, err := p.ways.of(r.Context(), r.Build(), view)
	if err != nil {
		return err
	}
	i := slices.IndexFunc(ways, func(w plan.Way) bool { return keyOf(w) == key })
	if i < 0 {
		return fault.New(fault.Conflict, "that way out is no longer open").WithHint("The facts have moved on: look at the ways out again.")
	}
	return p.desk.Propose(r, "/b/"+r.Build()+"/slip", ways[i].Changes...)
}
