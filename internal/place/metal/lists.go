package metal

import (
	"fmt"
	"net/url"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
)

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
	list := s.panelTable(r.Query("state"))
	switch r.As() {
	case "csv":
		return r.CSV("panels.csv", list.Records())
	case "json":
		return r.JSON(s.Build.Panels)
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: fmt.Sprintf("%d panels", len(s.Build.Panels))}, showPanels(s, list))
}

// panelTable lists the panels by state, or only those in one.
func (s scene) panelTable(only string) table.Table {
	t := table.Table{ID: "panels", Caption: fmt.Sprintf("%d panels", len(s.Build.Panels)), Self: s.At() + "/panels",
		Empty: "No panels yet. Read a list of panels in to begin with.",
		Columns: []table.Column{{Head: "No."}, {Head: "Panel", Wide: true}, {Head: "Side"}, {Head: "Gauge", Unit: "mm", Number: true}, {Head: "Surface", Unit: "m²", Number: true},
			{Head: "Decision"}, {Head: "State"}, {Head: "Findings", Number: true}, {Head: "Metal task"}}}
	if only != "" {
		t.Caption, t.Self, t.Empty = "Panels: "+only, t.Self+"?state="+url.QueryEscape(only), "No panel is in this state."
	}
	for _, state := range build.PanelStates() {
		for _, p := range s.Build.Panels {
			if p.State != state || only != "" && only != string(state) {
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
