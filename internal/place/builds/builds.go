// Package builds lists the builds of the shop, with the date and the odds of
// each, and says how to make one where there is none.
package builds

import (
	"fmt"

	"fettle/internal/desk"
	"fettle/internal/journal"
	"fettle/internal/web"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/plan"
	"fettle/unit"
)

// Place returns the place. It belongs to no build, so it has no plate.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "builds", Path: "/builds", Routes: []web.Route{
		{Pattern: "GET /builds", Who: web.Guest, Handle: p.show},
	}}
}

type place struct{ desk desk.Desk }

// card is a build with its date.
type card struct {
	ID       string    `json:"build"`
	Title    string    `json:"title"`
	Vehicle  string    `json:"vehicle"`
	Cause    string    `json:"cause"`
	Promised unit.Date `json:"promised"`
	P50      unit.Date `json:"p50,omitzero"`
	P80      unit.Date `json:"p80,omitzero"`
	Ready    float64   `json:"ready"`
	Word     string    `json:"word,omitempty"`
	Entries  int64     `json:"entries"`
	Last     unit.Date `json:"last_entry"`
	Trouble  string    `json:"trouble,omitempty"` // why there is no date
}

func (p place) show(r *web.Request) error {
	all, err := p.desk.Shop.Builds(r.Context())
	if err != nil {
		return err
	}
	cards := make([]card, 0, len(all))
	for _, b := range all {
		c, err := p.card(r, b)
		if err != nil {
			return err
		}
		cards = append(cards, c)
	}
	switch r.As() {
	case "csv":
		return r.CSV("builds.csv", list(cards).Records())
	case "json":
		return r.JSON(cards)
	}
	return r.Page(web.Sheet{Place: "Builds", Shown: shown(len(cards))}, page(cards))
}

// card reads a build. One whose plan cannot be made is listed with the reason.
func (p place) card(r *web.Request, b journal.Build) (card, error) {
	view, err := p.desk.Shop.View(r.Context(), b.ID)
	if err != nil {
		return card{}, err
	}
	facts := &view.Build
	c := card{ID: b.ID, Title: facts.Title, Vehicle: facts.Vehicle.Name, Cause: facts.Cause.Name, Promised: facts.Promise.Ready,
		Entries: b.Seq, Last: unit.DateOf(b.Last)}
	pl, _, err := p.desk.Shop.Plan(r.Context(), b.ID)
	if r.Context().Err() != nil {
		return c, r.Context().Err()
	}
	if err != nil {
		c.Trouble = err.Error()
		return c, nil
	}
	c.dates(pl)
	return c, nil
}

func (c *card) dates(pl *plan.Plan) {
	c.P50, c.P80, c.Ready, c.Word = pl.Dates.P50, pl.Dates.P80, pl.Odds.Ready, pl.Odds.Word
}

func shown(n int) string {
	if n == 1 {
		return "1 build"
	}
	return fmt.Sprintf("%d builds", n)
}

func list(cards []card) table.Table {
	t := table.Table{ID: "builds", Caption: "In the shop", Self: "/builds", Columns: []table.Column{
		{Head: "Build", Wide: true}, {Head: "Vehicle", Wide: true}, {Head: "Promised"}, {Head: "Half are finished by"}, {Head: "4 in 5 by"},
		{Head: "Odds"}, {Head: "Entries", Number: true}}}
	for _, c := range cards {
		odds := table.Text(c.Trouble)
		if c.Word != "" {
			word := fmt.Sprintf("%.0f %% %s", 100*c.Ready, c.Word)
			odds = table.Show(word, mark.Show(mark.Meaning(c.Word), word))
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Link(c.Title, "/b/"+c.ID+"/van"), table.Text(c.Vehicle), table.Text(c.Promised.Short()),
			table.Text(c.P50.Short()), table.Text(c.P80.Short()), odds, table.Text(fmt.Sprint(c.Entries))}})
	}
	return t
}
