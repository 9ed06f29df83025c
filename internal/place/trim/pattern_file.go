package trim

import (
	"fmt"

	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/internal/shapeout"
	"fettle/internal/web"
	stage "fettle/stage/trim"
)

// patternPens draw the cut line whole and heavy, the sewn line broken.
var patternPens = map[string]pdf.Pen{"cut": {Width: 0.5}, "sew": {Width: 0.25, Dash: 3}, "notch": {Width: 0.35}, "snip": {Width: 0.25}, "stitch": {Width: 0.25, Dash: 1}, "hole": {Width: 0.35}, "pleat": {Width: 0.25, Dash: 6}, "arrow": {Width: 0.35}, "label": {Width: 0.25}}

// patternFile answers with one pattern, or with the whole set, one to one: as
// PDF on the paper asked for, as DXF or as SVG.
func (p place) patternFile(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	var list []stage.PatternSheet
	name := r.Build() + "-patterns"
	if r.Path("piece") != "" {
		if list, err = s.sheetsOf(r); err != nil {
			return err
		}
		name = fmt.Sprintf("%s-pattern-%s-r%d", r.Build(), list[0].Piece.ID, list[0].Pattern.Revision)
	} else if list, err = stage.PatternSheets(s.Build); err != nil {
		return err
	}
	if len(list) == 0 {
		return fault.New(fault.NotFound, "no piece has a pattern yet")
	}
	if form := r.Query("form"); form != "" && form != "pdf" {
		return shapeout.Drawing(r, name, s.Build.Title, sideBySide(list), patternPens)
	}
	var sheets []pdf.Sheet
	for _, one := range list {
		head := fmt.Sprintf("%s, %s: %s, %d to cut of %s, revision %d", s.Build.Title, one.Drawn.Piece, one.Piece.Name, one.Piece.Quantity, one.Piece.Material, one.Pattern.Revision)
		sheets = append(sheets, pdf.Sheet{Title: head, Plan: drawnPlan(one)})
	}
	return shapeout.Printed(r, name+".pdf", sheets, patternPens)
}

// drawnPlan is a pattern as lines on layers, each named as what it is.
func drawnPlan(one stage.PatternSheet) outline.Plan {
	var plan outline.Plan
	for _, s := range one.Drawn.Strokes {
		plan.Outlines = append(plan.Outlines, outline.Outline{Layer: string(s.Layer), Closed: s.Closed, Points: s.Points})
	}
	for _, w := range one.Drawn.Words {
		plan.Labels = append(plan.Labels, outline.Label{Layer: "label", Text: w.Text, At: geom.Point{X: w.At[0], Y: w.At[1]}, Height: w.Height})
	}
	return plan
}

// sideBySide is a set of patterns in one drawing, 50 mm apart.
func sideBySide(list []stage.PatternSheet) outline.Plan {
	var all outline.Plan
	x := 0.0
	for _, one := range list {
		plan := drawnPlan(one)
		b := geom.Polygon{Outer: plan.Outlines[0].Points}.Bounds()
		by := geom.Point{X: x - b.Min.X, Y: -b.Min.Y}
		for _, o := range plan.Outlines {
			moved := make([]geom.Point, len(o.Points))
			for i, q := range o.Points {
				moved[i] = q.Add(by)
			}
			o.Points = moved
			all.Outlines = append(all.Outlines, o)
		}
		for _, l := range plan.Labels {
			l.At = l.At.Add(by)
			all.Labels = append(all.Labels, l)
		}
		x += b.Width() + 50
	}
	return all
}
