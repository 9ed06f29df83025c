package loom

import (
	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
)

func (p place) labelRoutes() []web.Route {
	at := "/b/{build}/loom/labels"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.labels},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.labelsPrinted},
	}
}

// labelPage is the label sheets: a pair for each wire.
type labelPage struct {
	sheet
	Pairs []pair
	Stale int // printed once with another text
}

// pair is the two labels of a wire; Printed says that they are on paper as they are.
type pair struct {
	Cut     stage.Cut
	Printed bool
}

func (p place) labels(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := labelPage{sheet: s}
	for _, c := range s.Loom.Cuts {
		one := pair{Cut: c}
		if l := printed(s.Build, c.Circuit); l != nil {
			for _, text := range l.Text {
				one.Printed = one.Printed || text == c.Label
			}
			if !one.Printed {
				page.Stale++
			}
		}
		page.Pairs = append(page.Pairs, one)
	}
	switch r.As() {
	case "csv":
		t := table.Table{Columns: []table.Column{{Head: "Wire"}, {Head: "End"}, {Head: "At"}, {Head: "Text"}}}
		for _, l := range s.Loom.Labels {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(l.Cut), table.Text(l.End), table.Text(l.At), table.Text(l.Text)}})
		}
		return r.CSV(r.Build()+"-labels.csv", t.Records())
	case "json":
		return r.JSON(s.Loom.Labels)
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: plural(2*len(page.Pairs), "label")}, showLabels(page))
}

func printed(b *build.Build, circuit string) *build.PrintedWire {
	for i := range b.Loom.Labels {
		if b.Loom.Labels[i].Circuit == circuit {
			return &b.Loom.Labels[i]
		}
	}
	return nil
}

// labelsPrinted notes that the labels are printed as they stand.
func (p place) labelsPrinted(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	kept, err := stage.Work(r.Context(), &view.Build)
	if err != nil {
		return err
	}
	act := &build.PrintLabels{}
	for _, c := range kept.Cuts {
		i := len(act.Labels) - 1
		for i >= 0 && act.Labels[i].Circuit != c.Circuit {
			i--
		}
		if i < 0 {
			act.Labels = append(act.Labels, build.PrintedWire{Circuit: c.Circuit, Day: view.Now.Date()})
			i = len(act.Labels) - 1
		}
		act.Labels[i].Text = append(act.Labels[i].Text, c.Label)
	}
	return p.desk.Keep(r, f.Raw("entry"), act.Say(&view.Build), "/b/"+r.Build()+"/loom/labels", act)
}
