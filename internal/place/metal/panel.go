package metal

import (
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
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
		f.Inputs = append(f.Inputs, figure.Input{Name: b.ZoneName(a.Zone), Value: a.Area.String(), Source: figure.Measured, Note: "panel list"})
	}
	f.With = strings.Join(with, " + ") + " = " + f.Text
	return f
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
