package metal

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	"fettle/plan"
	"fettle/stage/loom"
	"fettle/unit"
)

func (p place) holeRoutes() []web.Route {
	at := "/b/{build}/metal/holes"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.holes},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.drillHole},
	}
}

// holesPage is what is to be drilled for the loom before paint.
type holesPage struct {
	scene
	Table table.Table
	Open  []hole
	Late  int // after their panel went into primer
	Entry string
	Wrong field.Errors
}

// hole is one hole with the day before which it is to be drilled.
type hole struct {
	build.Hole
	Panel *build.Panel
	Paint string    // the first painting of its panel that is not begun: T15 primer
	By    unit.Date // the day that begins on, by the plan; 0 where none is planned
	Cost  *figure.Figure
}

// late tells whether a hole should have been drilled already.
func (h hole) late(today unit.Date) bool {
	return !h.Drilled && (h.Cost != nil || h.By != 0 && h.By < today)
}

func (p place) holes(r *web.Request) error {
	page, err := p.holesPage(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-holes.csv", page.Table.Records())
	case "json":
		return r.JSON(page.Build.Loom.Holes)
	}
	return p.desk.Page(r, page.sheet(), showHoles(page))
}

func (page holesPage) sheet() web.Sheet {
	return web.Sheet{Place: "metal", Shown: fmt.Sprintf("%d holes for the loom, %d open", len(page.Table.Rows), len(page.Open))}
}

func (p place) holesPage(r *web.Request) (holesPage, error) {
	s, err := p.scene(r)
	if err != nil {
		return holesPage{}, err
	}
	pl, view, err := p.desk.Plan(r)
	if err != nil {
		return holesPage{}, err
	}
	page := holesPage{scene: s, Entry: field.NewEntry()}
	list := holesOf(s.Build, pl)
	for _, h := range list {
		if !h.Drilled {
			page.Open = append(page.Open, h)
		}
		if h.late(view.Now.Date()) {
			page.Late++
		}
	}
	page.Table = s.holeTable(list, view.Now.Date())
	return page, nil
}

// holesOf are the holes of the loom, those first that are to be drilled first.
func holesOf(b *build.Build, pl *plan.Plan) []hole {
	var list []hole
	for _, x := range b.Loom.Holes {
		h := hole{Hole: x, Panel: b.Panel(x.Panel)}
		if h.Panel != nil {
			h.Paint, h.By = painted(b, pl, h.Panel)
		}
		if f, ok := loom.LateHole(b, x); ok {
			h.Cost = &f
		}
		list = append(list, h)
	}
	slices.SortStableFunc(list, func(a, b hole) int {
		rank := func(h hole) int64 {
			if h.By == 0 {
				return 1 << 40
			}
			return int64(h.By)
		}
		return int(min(max(rank(a)-rank(b), -1), 1))
	})
	return list
}

// painted is the first task that paints a panel and is not begun, and its day.
func painted(b *build.Build, pl *plan.Plan, p *build.Panel) (string, unit.Date) {
	what, day := "", unit.Date(0)
	for _, t := range pl.Tasks {
		if t.State != build.NotBegun || t.Start == 0 || day != 0 && t.Start.Date() >= day {
			continue
		}
		paints := slices.ContainsFunc(b.Products, func(x build.Product) bool {
			return x.Task == t.ID && slices.ContainsFunc(x.Zones, p.Has)
		})
		if paints {
			what, day = string(t.ID)+" "+t.Name, t.Start.Date()
		}
	}
	return what, day
}

func (s scene) holeTable(list []hole, today unit.Date) table.Table {
	t := table.Table{ID: "holes", Caption: "Holes for the loom", Self: s.At() + "/holes", Empty: "The loom passes no hole. Its route says where it does: Loom, Route.", Columns: []table.Column{
		{Head: "Hole"}, {Head: "Panel", Wide: true}, {Head: "Panel is"}, {Head: "Drill", Unit: "mm", Number: true}, {Head: "Grommet", Wide: true}, {Head: "Before", Wide: true}, {Head: "So", Wide: true}}}
	for _, h := range list {
		before := "no paint is planned"
		switch {
		case h.By != 0:
			before = h.By.Short() + ", " + h.Paint
		case h.Panel != nil && slices.Index(build.PanelStates(), h.Panel.State) >= slices.Index(build.PanelStates(), build.InPrimer):
			before = "painted already"
		}
		panel, state := table.Text(string(h.Hole.Panel)), ""
		if h.Panel != nil {
			panel, state = table.Link(string(h.Panel.ID)+" "+h.Panel.FullName(), s.At()+"/panel/"+string(h.Panel.ID)), string(h.Panel.State)
		}
		t.Rows = append(t.Rows, table.Row{ID: "hole-" + h.ID, Quiet: h.Drilled, Cells: []table.Cell{table.Link(h.ID, s.Base+"/loom/route/hole/"+h.ID), panel, table.Text(state), table.Text(mm(h.Diameter)),
			table.Text(h.Grommet), table.Text(before), h.stands(today)}})
	}
	return t
}

// stands says how a hole stands: drilled, to drill, overdue, or what it costs
// now that its panel is in paint.
func (h hole) stands(today unit.Date) table.Cell {
	switch {
	case h.Drilled && h.Day != 0:
		return table.Text("drilled " + h.Day.Short() + " " + string(h.Hole.By))
	case h.Drilled:
		return table.Text("drilled")
	case h.Cost != nil:
		text := "in paint: " + h.Cost.Text
		return table.Show(text, lateHole(h, working.Figure("late-"+h.ID, working.Inline, *h.Cost)))
	case h.late(today):
		return table.Show("overdue", mark.Show(mark.Slipping, "overdue"))
	}
	return table.Show("to drill", mark.Show(mark.Tight, "to drill"))
}

// drillHole notes that a hole is drilled.
func (p place) drillHole(r *web.Request) error {
	page, err := p.holesPage(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	act := &build.DrillHole{Hole: f.Text("hole", 1, 20), Day: view.Now.Date(), By: desk.By(r, &view.Build)}
	desk.Holds(f, &view.Build, "hole", act)
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(page.sheet(), showHoles(page))
	}
	return p.desk.Keep(r, f.Raw("entry"), act.Say(&view.Build), page.At()+"/holes", act)
}

// holesIn are the holes of a panel.
func holesIn(b *build.Build, id build.PanelID) []build.Hole {
	var list []build.Hole
	for _, h := range b.Loom.Holes {
		if h.Panel == id {
			list = append(list, h)
		}
	}
	return list
}
