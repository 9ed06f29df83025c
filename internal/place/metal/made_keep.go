package metal

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/internal/desk"
	"fettle/internal/flatwork"
	"fettle/internal/shapeout"
	"fettle/internal/web"
	stage "fettle/stage/metal"
)

// panelPlan is the flat panel at true size: cut line, the panel's own edge
// within it, and its folds.
func (page madePage) panelPlan() (outline.Plan, error) {
	var plan outline.Plan
	for i, part := range page.Panel.Outlines() {
		cut, err := stage.CutLine(part, page.Over)
		if err != nil {
			return plan, err
		}
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerCut, cut)...)
		if page.Over > 0 {
			plan.Outlines = append(plan.Outlines, shapeout.Closed(layerFit, part)...)
		}
		plan.Labels = append(plan.Labels, outline.Label{Layer: layerCut, Text: fmt.Sprintf("%s part %d, %s %s mm", page.Surface.ID, i+1, page.Ask.Grade, mm(page.Ask.Gauge)), At: geom.Ring(part.Outer).Centroid(), Height: 8})
	}
	for _, b := range page.Panel.Bends {
		layer := layerUp
		if b.Angle > 0 {
			layer = layerDown
		}
		plan.Outlines = append(plan.Outlines, outline.Outline{Layer: layer, Points: []geom.Point{b.From, b.To}})
	}
	return plan, nil
}

var panelPens = map[string]pdf.Pen{layerCut: {Width: 0.5}, layerFit: {Width: 0.25, Dash: 5}, layerUp: foldPens[layerUp], layerDown: foldPens[layerDown]}

// panelFile answers with the flat panel at true size.
func (p place) panelFile(r *web.Request) error {
	page, err := p.madePage(r, r.Asked())
	if err != nil {
		return err
	}
	if page.Panel == nil {
		return fault.New(fault.Invalid, "it cannot be laid flat so: %s", page.sum())
	}
	plan, err := page.panelPlan()
	if err != nil {
		return err
	}
	title := fmt.Sprintf("%s, panel %s %s: cut line with %s mm left over", page.Build.Title, page.Surface.ID, page.Surface.Name, mm(page.Over))
	return shapeout.Drawing(r, r.Build()+"-panel-"+string(page.Surface.ID), title, plan, panelPens)
}

// lookForCuts has relief cuts looked for, and comes back to the page.
func (p place) lookForCuts(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.askedPanel(r, f)
	if err != nil {
		return err
	}
	if err := f.Err(); err != nil {
		return err
	}
	problem, err := stage.PanelProblem(page.Mesh, page.Ask)
	if err != nil {
		return err
	}
	key, err := flatwork.Ask(p.desk, r, stage.PanelOrder(problem, true), "relief cuts for panel "+string(page.Surface.ID))
	if err != nil {
		return err
	}
	return r.SeeOther(page.address("", "search", key))
}

// keepPanel keeps one part of the flat panel as a blank's true shape, through
// the slip.
func (p place) keepPanel(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.madePage(r, f)
	if err != nil {
		return err
	}
	one := build.Blank{ID: build.BlankID(strings.ToUpper(f.Text("blank-id", 1, 12))), Name: f.Text("blank-name", 1, 80), Gauge: page.Ask.Gauge, Quantity: 1, Over: page.Over}
	part := int(f.Int("part", 1, 1000))
	if old := page.Build.Blank(one.ID); old != nil {
		one.Finding, one.Done, one.Quantity = old.Finding, old.Done, old.Quantity
	}
	if f.Err() == nil && page.Panel == nil {
		f.Fail("gauge", "cannot be laid flat so: "+page.sum())
	}
	if f.Err() == nil {
		parts := page.Panel.Outlines()
		if part > len(parts) {
			f.Fail("part", "must be from 1 to "+strconv.Itoa(len(parts)))
		} else if one, err = stage.PanelBlank(one, page.Surface, parts[part-1]); err != nil {
			f.Fail("part", err.Error())
		}
	}
	change := &build.SetBlanks{Blanks: []build.Blank{one}}
	if f.Err() == nil {
		desk.Holds(f, page.Build, "blank-id", change)
	}
	if f.Err() == nil {
		return p.desk.Propose(r, page.blankPath(one.ID), change)
	}
	page.foldActs = foldActs{Open: "panel", Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(page.dressed(), showPanelFlat(page))
}
