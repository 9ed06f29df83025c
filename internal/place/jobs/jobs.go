// Package jobs shows the long work of the shop: what is being worked out, for
// whom and since when, what waits, and what came of the rest; with Stop and
// Again.
package jobs

import (
	"fmt"
	"time"

	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/job"
	"fettle/internal/web"
	"fettle/internal/web/ui/progress"
	"fettle/internal/web/ui/table"
)

// Place returns the place with its routes. It has no plate: the box of every
// piece of work leads here, and so does the title block.
func Place(d desk.Desk) web.Place {
	p := place{d}
	return web.Place{Key: "jobs", Path: "/b/{build}/jobs", Routes: []web.Route{
		{Pattern: "GET /jobs", Who: web.Guest, Handle: p.show},
		{Pattern: "GET /b/{build}/jobs", Who: web.Guest, Handle: p.show},
		{Pattern: "POST /b/{build}/jobs/{key}/stop", Who: web.Crew, Handle: p.stop},
		{Pattern: "POST /b/{build}/jobs/{key}/again", Who: web.Crew, Handle: p.again},
	}}
}

type place struct{ desk desk.Desk }

// face is what the page shows.
type face struct {
	At    string // its own address
	Open  []progress.Params
	Ended table.Table
}

// row is a piece of work as JSON has it.
type row struct {
	Key    string    `json:"key"`
	Kind   string    `json:"kind"`
	Build  string    `json:"build"`
	What   string    `json:"what"`
	By     string    `json:"by"`
	State  job.State `json:"state"`
	Ahead  int       `json:"ahead"`
	Steps  int       `json:"steps"`
	Budget int       `json:"budget,omitempty"`
	Figure string    `json:"figure,omitempty"`
	Fault  string    `json:"fault,omitempty"`
	Page   string    `json:"page,omitempty"`
	Asked  time.Time `json:"asked"`
	Begun  time.Time `json:"begun,omitzero"`
	Ended  time.Time `json:"ended,omitzero"`
}

func (p place) show(r *web.Request) error {
	list, err := p.list(r)
	if err != nil {
		return err
	}
	f := p.face(r, list)
	switch r.As() {
	case "json":
		rows := make([]row, len(list))
		for i, j := range list {
			rows[i] = row{j.Key, j.Kind, j.Build, j.What, j.By, j.State, j.Ahead, j.Progress.Done, j.Progress.Of, j.Progress.Figure, j.Fault, j.Page, j.Asked, j.Begun, j.Ended}
		}
		return r.JSON(rows)
	case "csv":
		return r.CSV("long-work.csv", f.Ended.Records())
	}
	return p.desk.Page(r, web.Sheet{Place: "Long work", Shown: shown(len(f.Open))}, page(f))
}

func (p place) list(r *web.Request) ([]job.Job, error) {
	if p.desk.Jobs == nil {
		return nil, nil
	}
	return p.desk.Jobs.List(r.Context(), r.Build())
}

func shown(open int) string {
	if open == 1 {
		return "1 piece of work under way"
	}
	return fmt.Sprintf("%d pieces of work under way", open)
}

func (p place) face(r *web.Request, list []job.Job) face {
	f := face{At: r.HTTP().URL.Path}
	f.Ended = table.Table{ID: "work-ended", Caption: "What came of the rest", Self: f.At, Columns: []table.Column{
		{Head: "What", Wide: true}, {Head: "How it ended", Wide: true}, {Head: "Best found", Wide: true}, {Head: "Asked by"}, {Head: "Asked"},
		{Head: "Took", Number: true}, {Head: "Again"}}}
	for _, j := range list {
		box := desk.Work(r, j)
		if r.Build() == "" {
			box.What += " · " + j.Build
		}
		if j.State.Open() {
			box.ID, box.All = "", "" // the whole list follows
			f.Open = append(f.Open, box)
			continue
		}
		cells := []table.Cell{table.Link(box.What, box.Show), table.Text(how(j)), table.Text(box.Best), table.Text(box.By), table.Text(box.Asked),
			table.Text(progress.Spent(box.Spent)), {}}
		if j.State != job.Done && box.Again != "" {
			cells[6] = table.Show("", again(box))
		}
		f.Ended.Rows = append(f.Ended.Rows, table.Row{Cells: cells, Quiet: j.State == job.Done})
	}
	return f
}

// how says how work ended.
func how(j job.Job) string {
	switch j.State {
	case job.Done:
		return "worked out"
	case job.Stopped:
		return "stopped; the best so far stands"
	}
	return "not finished: " + j.Fault
}

// of returns the work that the request names, if it is for its build.
func (p place) of(r *web.Request) (job.Job, error) {
	if p.desk.Jobs == nil {
		return job.Job{}, fault.New(fault.NotFound, "no long work is done here")
	}
	j, err := p.desk.Jobs.Get(r.Context(), r.Path("key"))
	if err == nil && j.Build != r.Build() {
		err = fault.New(fault.NotFound, "this work belongs to another build")
	}
	return j, err
}

// stop ends work and shows the page that it was stopped from.
func (p place) stop(r *web.Request) error {
	j, err := p.of(r)
	if err != nil {
		return err
	}
	if err := p.desk.Jobs.Stop(r.Context(), j.Key); err != nil {
		return err
	}
	return r.SeeOther(desk.Back(r, "/b/"+r.Build()+"/jobs"))
}

// again asks for work once more and shows it.
func (p place) again(r *web.Request) error {
	j, err := p.of(r)
	if err != nil {
		return err
	}
	if j, err = p.desk.Jobs.Again(r.Context(), j.Key, r.Person().Code); err != nil {
		return err
	}
	if j.Page == "" {
		j.Page = "/b/" + r.Build() + "/jobs"
	}
	return r.SeeOther(j.Page)
}

// empty tells whether there is nothing to show.
func (f face) empty() bool { return len(f.Open) == 0 && len(f.Ended.Rows) == 0 }
