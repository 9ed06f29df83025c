package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/place/metal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/vehicle"
)

// panelPage is everything about one panel.
type panelPage struct {
	scene
	Panel    *build.Panel
	View     vehicle.View
	Area     figure.Figure
	Findings []*build.Finding
	Parts    []build.Part
	Photos   []build.Photo
	Task     *build.Task
	Colour   string
	Entry    string
}

func (p place) panel(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	panel, err := s.named(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(panel)
	}
	page := panelPage{scene: s, Panel: panel, Area: surface(s.Build, panel), Task: s.Build.Task(panel.Task), Colour: drawn.Colour(s.Build, *panel),
		Photos: s.pictures("panel/" + string(panel.ID)), Entry: field.NewEntry()}
	page.Findings, page.Parts = on(s.Build, panel.ID)
	views := drawn.Views(s.Build, drawn.Options{Base: s.At(), Kept: s.Kept, Panel: panel.ID})
	page.View, _ = drawn.View(views, drawn.Shows(s.Build, panel))
	page.View.Pins = pinsOf(page.View.Pins, page.Findings)
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "panel " + string(panel.ID), Scripts: []string{script}}, showPanel(page))
}

// on returns the findings of a panel and the parts they make necessary.
func on(b *build.Build, id build.PanelID) (findings []*build.Finding, parts []build.Part) {
	has := map[build.FindingID]bool{}
	for i := range b.Findings {
		for _, at := range b.Findings[i].Panels {
			if at == id {
				findings = append(findings, &b.Findings[i])
				has[b.Findings[i].ID] = true
			}
		}
	}
	for _, part := range b.Parts {
		for _, id := range part.Because {
			if has[id] {
				parts = append(parts, part)
				break
			}
		}
	}
	return findings, parts
}

// pinsOf leaves only the flags of some findings.
func pinsOf(pins []vehicle.Pin, findings []*build.Finding) []vehicle.Pin {
	var out []vehicle.Pin
	for _, pin := range pins {
		for _, f := range findings {
			if string(f.ID) == pin.Number {
				out = append(out, pin)
			}
		}
	}
	return out
}

func surface(b *build.Build, p *build.Panel) figure.Figure {
	f := figure.Figure{Name: "surface", Text: p.Area().String(), Formula: "the surface in every paint zone, added up"}
	var with []string
	for _, a := range p.Areas {
		with = append(with, a.Area.String())
		f.Inputs = append(f.Inputs, figure.Input{Name: zoneName(b, a.Zone), Value: a.Area.String(), Source: figure.Measured, Note: "panel list"})
	}
	f.With = strings.Join(with, " + ") + " = " + f.Text
	return f
}

func zoneName(b *build.Build, id build.ZoneID) string {
	for _, z := range b.Zones {
		if z.ID == id {
			return z.Name
		}
	}
	return string(id)
}

func (p place) decidePanel(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	panel, err := s.named(r)
	if err != nil {
		return err
	}
	change := &build.DecidePanel{Panel: panel.ID, Decision: build.PanelState(f.Choice("decision", "keep", "repair", "replace", "make"))}
	if f.Err() != nil {
		return f.Err()
	}
	return p.desk.Propose(r, s.At()+"/panel/"+string(panel.ID), change)
}

// findings lists all findings by the task they belong to.
func (p place) findings(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	list := s.findingTable()
	switch r.As() {
	case "csv":
		return r.CSV("findings.csv", list.Records())
	case "json":
		return r.JSON(s.Build.Findings)
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: fmt.Sprintf("%d findings", len(s.Build.Findings))}, showFindings(s, list))
}

func (s scene) findingTable() table.Table {
	t := table.Table{ID: "findings", Caption: fmt.Sprintf("Findings, %s", hoursOf(s.Build.Findings)), Self: s.At() + "/findings",
		Empty: "Nothing found yet. Touch the place on the drawing where it is.",
		Columns: []table.Column{{Head: "No."}, {Head: "Panel", Wide: true}, {Head: "Found", Wide: true}, {Head: "Size", Unit: "mm"}, {Head: "Remedy"},
			{Head: "Hours", Unit: "h", Number: true}, {Head: "State"}, {Head: "x", Unit: "mm", Number: true}, {Head: "z", Unit: "mm", Number: true}, {Head: "When"}}}
	for _, task := range s.Build.Tasks {
		var mine []build.Finding
		for _, f := range s.Build.Findings {
			if f.Task == task.ID {
				mine = append(mine, f)
			}
		}
		group := fmt.Sprintf("%s %s, %s", task.ID, task.Name, hoursOf(mine))
		for _, f := range mine {
			t.Rows = append(t.Rows, s.findingRow(f, group))
		}
	}
	return t
}

func (s scene) findingRow(f build.Finding, group string) table.Row {
	var names []string
	for _, id := range f.Panels {
		if p := s.Build.Panel(id); p != nil {
			names = append(names, string(id)+" "+p.FullName())
		}
	}
	state := string(f.State)
	if s.draft(f.ID) {
		state = "on your slip"
	}
	remedy := string(f.Remedy)
	if f.How != "" {
		remedy += ", " + f.How
	}
	panel := table.Text(strings.Join(names, " + "))
	if len(f.Panels) > 0 {
		panel.Href = s.At() + "/panel/" + string(f.Panels[0])
	}
	return table.Row{ID: string(f.ID), Group: group, Quiet: f.State == build.Closed, Cells: []table.Cell{
		table.Link(string(f.ID), s.At()+"/finding/"+string(f.ID)), panel, table.Text(f.What), table.Text(strings.TrimSuffix(f.Size.String(), " mm")),
		table.Text(remedy), table.Text(strings.TrimSuffix(f.Hours().String(), " h")), table.Text(state), table.Text(mm(f.X)), table.Text(mm(f.Z)), table.Text(f.Found)}}
}

// panels lists all panels by their state.
func (p place) panels(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	list := s.panelTable()
	switch r.As() {
	case "csv":
		return r.CSV("panels.csv", list.Records())
	case "json":
		return r.JSON(s.Build.Panels)
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: fmt.Sprintf("%d panels", len(s.Build.Panels))}, showPanels(s, list))
}

func (s scene) panelTable() table.Table {
	t := table.Table{ID: "panels", Caption: fmt.Sprintf("%d panels", len(s.Build.Panels)), Self: s.At() + "/panels",
		Empty: "No panels yet. Read a list of panels in to begin with.",
		Columns: []table.Column{{Head: "No."}, {Head: "Panel", Wide: true}, {Head: "Side"}, {Head: "Gauge", Unit: "mm", Number: true}, {Head: "Surface", Unit: "m²", Number: true},
			{Head: "Decision"}, {Head: "State"}, {Head: "Findings", Number: true}, {Head: "Metal task"}}}
	for _, state := range build.PanelStates() {
		for _, p := range s.Build.Panels {
			if p.State != state {
				continue
			}
			findings, _ := on(s.Build, p.ID)
			t.Rows = append(t.Rows, table.Row{ID: string(p.ID), Group: string(state), Cells: []table.Cell{
				table.Link(string(p.ID), s.At()+"/panel/"+string(p.ID)), table.Link(p.Name, s.At()+"/panel/"+string(p.ID)), table.Text(p.Side), table.Text(mm(p.Gauge)),
				table.Text(fmt.Sprintf("%.2f", p.Area().M2())), table.Text(string(p.Decision)), table.Text(string(p.State)), table.Text(fmt.Sprint(len(findings))), table.Text(string(p.Task))}})
		}
	}
	return t
}
