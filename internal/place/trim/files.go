package trim

import (
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/internal/shapeout"
	"fettle/internal/web"
	stage "fettle/stage/trim"
)

func (p place) fileRoutes() []web.Route {
	at := "GET /b/{build}/trim/lay/{material}"
	return []web.Route{
		{Pattern: at + "/patterns", Who: web.Guest, Handle: p.patterns},
		{Pattern: at + "/plan", Who: web.Guest, Handle: p.planFile},
	}
}

// The layers of a plan's file.
const (
	layerEdge  = "EDGE"
	layerPiece = "PIECES"
	layerMark  = "MARKS"
	layerZone  = "ZONES"
	layerArrow = "ARROWS"
	layerLeft  = "LEFT"
)

// pens draw what is cut whole, the rest broken.
var pens = map[string]pdf.Pen{layerEdge: {Width: 0.5}, layerPiece: {Width: 0.35}, layerMark: {Width: 0.35, Dash: 2}, layerZone: {Width: 0.18, Dash: 5}, layerLeft: {Width: 0.35, Dash: 8}, layerArrow: {Width: 0.18}}

// patterns answers with every pattern of a material at true size: one after the
// other, tiled on the paper asked for.
func (p place) patterns(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	var sheets []pdf.Sheet
	for _, c := range stage.Cuts(s.Build, r.Path("material")) {
		title := fmt.Sprintf("%s, %s: %s, %d to cut, grade %s", s.Build.Title, c.ID, c.Piece.Name, len(c.Copies), c.Piece.Grade)
		sheets = append(sheets, pdf.Sheet{Title: title, Plan: patternPlan(c)})
	}
	if len(sheets) == 0 {
		return fault.New(fault.NotFound, "no piece is cut from %q", r.Path("material"))
	}
	return shapeout.Printed(r, r.Build()+"-patterns.pdf", sheets, pens)
}

// patternPlan is one pattern with its number and its arrow.
func patternPlan(c stage.Cut) outline.Plan {
	plan := outline.Plan{Outlines: shapeout.Closed(layerPiece, c.Shape)}
	at := geom.Ring(c.Shape.Outer).Centroid()
	high := min(12, c.Shape.Bounds().Height()/4)
	plan.Labels = append(plan.Labels, outline.Label{Layer: layerArrow, Text: c.ID, At: at.Add(geom.Point{Y: high}), Height: high})
	if a := c.Axis(); a.Known() {
		plan.Outlines = append(plan.Outlines, arrowLines(at, a.Angle, min(c.Shape.Bounds().Width(), c.Shape.Bounds().Height())*0.4)...)
	}
	return plan
}

// planFile answers with the cut plan of a hide or a roll: as DXF, or at true
// size on paper.
func (p place) planFile(r *web.Request) error {
	page, err := p.layOf(r)
	if err != nil {
		return err
	}
	hide := build.HideID(r.Query("hide"))
	var plan outline.Plan
	for _, c := range page.Cards {
		if c.Hide.ID == hide {
			plan = drawingPlan(c.Drawing)
		}
	}
	if len(plan.Outlines) == 0 {
		return fault.New(fault.NotFound, "hide %q of %s is not there or not drawn", hide, page.Material)
	}
	name := strings.TrimSuffix(fmt.Sprintf("%s-plan-%s", r.Build(), hide), "-")
	return shapeout.Drawing(r, name, fmt.Sprintf("%s, cut plan %s, %s", page.Build.Title, hide, page.Material), plan, pens)
}

// drawingPlan is a drawing as lines on layers.
func drawingPlan(d drawing) outline.Plan {
	plan := outline.Plan{Outlines: shapeout.Closed(layerEdge, d.Outline)}
	for _, z := range d.Zones {
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerZone, z.Shape)...)
	}
	for _, m := range d.Marks {
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerMark, m.Shape)...)
	}
	for _, o := range d.Outs {
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerMark, o)...)
	}
	for _, line := range d.Pattern {
		plan.Outlines = append(plan.Outlines, outline.Outline{Layer: layerZone, Points: line})
	}
	if d.Left != nil {
		ring := geom.Polygon{Outer: d.Left.Corners[:]}
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerLeft, ring)...)
		plan.Labels = append(plan.Labels, outline.Label{Layer: layerLeft, Text: "left " + d.Left.Words(), At: geom.Ring(ring.Outer).Centroid(), Height: 14})
	}
	for _, p := range d.Pieces {
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerPiece, p.Shape)...)
		at := geom.Ring(p.Shape.Outer).Centroid()
		plan.Labels = append(plan.Labels, outline.Label{Layer: layerPiece, Text: p.Name, At: at, Height: 14})
		for _, q := range p.Anchor {
			for _, stroke := range crossAt(q) {
				plan.Outlines = append(plan.Outlines, outline.Outline{Layer: layerArrow, Points: stroke})
			}
		}
		if p.half > 0 {
			plan.Outlines = append(plan.Outlines, arrowLines(at, p.angle, p.half)...)
		}
	}
	return plan
}

// arrowLines is a line with a head at both ends, half as long to either side.
func arrowLines(at geom.Point, degrees, half float64) []outline.Outline {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	to := func(along, across float64) geom.Point {
		return at.Add(geom.Point{X: along*cos - across*sin, Y: along*sin + across*cos})
	}
	head := min(half/3, 20)
	line := func(points ...geom.Point) outline.Outline { return outline.Outline{Layer: layerArrow, Points: points} }
	return []outline.Outline{line(to(-half, 0), to(half, 0)),
		line(to(half-head, head/2), to(half, 0), to(half-head, -head/2)), line(to(head-half, head/2), to(-half, 0), to(head-half, -head/2))}
}
