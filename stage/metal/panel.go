package metal

import (
	"context"
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/flatten"
	"fettle/fault"
	"fettle/figure"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/takeoff"
	"fettle/unit"
)

// PanelAsk is what is asked of a surface that is made of sheet.
type PanelAsk struct {
	Grade  string
	Gauge  unit.Length
	Mirror bool // a scan of the other side is turned into this one
}

// Panel is a surface laid flat for sheet metal.
type Panel struct {
	Problem flatten.Problem
	Result  flatten.Result
	Areas   []float64 // of each face of the surface, mm²
	Forming flatten.Forming
	Bends   []flatten.Bend // where folding takes the place of stretching
}

// foldRadius is the largest radius that is taken for a fold, in gauges.
const foldRadius = 15

// LayPanel lays a surface flat for a steel.
func LayPanel(ctx context.Context, m mesh.Mesh, a PanelAsk) (Panel, error) {
	steel, err := flatten.Sheet(a.Grade, a.Gauge.Mm())
	if err != nil {
		return Panel{}, err
	}
	if a.Mirror {
		m = mirrored(m)
	}
	p := Panel{Problem: flatten.Problem{Surface: m, Material: &steel}, Areas: m.FaceAreas()}
	if p.Result, err = flatten.Solve(ctx, p.Problem, flatten.Options{Seed: 1}); err != nil {
		return p, err
	}
	p.Forming = flatten.Formed(*steel.Metal, p.Result.Faces, p.Areas)
	p.Bends = flatten.Bends(m, p.Result.Flat, foldRadius*a.Gauge.Mm())
	return p, nil
}

// mirrored is the other hand of a surface, its outside still outside.
func mirrored(m mesh.Mesh) mesh.Mesh {
	out := mesh.Mesh{Points: slices.Clone(m.Points), Faces: slices.Clone(m.Faces)}
	for i := range out.Points {
		out.Points[i].Y = -out.Points[i].Y
	}
	for i, f := range out.Faces {
		out.Faces[i] = mesh.Face{f[0], f[2], f[1]}
	}
	return out
}

// Ratio is the area of a face over that of the sheet it is made of: above 1 it
// is stretched, below 1 it is shrunk.
func (p Panel) Ratio(face int) float64 { return 1 / (1 + p.Result.Faces[face].Thick) }

// Near is how near a face comes to its forming limit; 1 is at it.
func (p Panel) Near(face int) float64 {
	s := p.Result.Faces[face].Stretch
	return s[0] / p.Problem.Material.Metal.Limit(s[1])
}

// Outlines are the parts of the flat panel with what is cut out of them, the
// largest first.
func (p Panel) Outlines() []geom.Polygon {
	flat := p.Result.Flat
	near := mesh.Mesh{Points: make([]mesh.Vec, len(flat.Points)), Faces: flat.Faces}.Adjacency()
	label, count := near.Components()
	parts := make([]geom.Polygon, count)
	for _, loop := range near.BoundaryLoops() {
		ring := make(geom.Ring, len(loop))
		for i, v := range loop {
			ring[i] = flat.Points[v]
		}
		part := &parts[label[near.Leaving(loop[0])[0]/3]]
		if part.Outer != nil && math.Abs(geom.RingArea(ring)) > math.Abs(geom.RingArea(part.Outer)) {
			part.Outer, ring = ring, part.Outer
		}
		if part.Outer == nil {
			part.Outer = ring
		} else {
			part.Holes = append(part.Holes, ring)
		}
	}
	slices.SortStableFunc(parts, func(a, b geom.Polygon) int { return int(math.Copysign(1, b.Area()-a.Area())) })
	return parts
}

// Figures are what the sheet must bear, each with its working.
func (p Panel) Figures() []figure.Figure {
	f, metal := p.Forming, p.Problem.Material.Metal
	sheet := figure.Input{Name: "sheet", Value: fmt.Sprintf("%s, %g mm", metal.Grade, metal.Thickness), Source: figure.Decided, Note: "figures of the grade by EN 10130; the mill's sheet goes before"}
	var area float64
	for _, a := range p.Areas {
		area += a
	}
	surface := figure.Input{Name: "surface", Value: fmt.Sprintf("%.4f m²", area/1e6), Source: figure.Measured}
	face := "stretch and shrink by face, of least plastic work, Hill's normal anisotropy"
	return []figure.Figure{
		{Name: "sheet laid flat", Text: fmt.Sprintf("%.4f m²", area/f.Ratio/1e6), Formula: "area of the surface ÷ mean stretch of its area", With: fmt.Sprintf("%.4f ÷ %.4f = %.4f m²", area/1e6, f.Ratio, area/f.Ratio/1e6), Inputs: []figure.Input{surface, sheet}, Caution: edgesCut},
		{Name: "to be stretched", Text: percent(f.Stretched), Formula: "share of the surface that is more than 1 % larger than its sheet", With: percent(f.Stretched) + ", by " + face, Inputs: []figure.Input{surface, sheet}},
		{Name: "to be shrunk", Text: percent(f.Shrunk), Formula: "share of the surface that is more than 1 % smaller than its sheet", With: percent(f.Shrunk) + ", by " + face, Inputs: []figure.Input{surface, sheet}},
		{Name: "thinnest", Text: fmt.Sprintf("%.2f mm", metal.Thickness*(1+f.Thin)), Formula: "gauge ÷ stretch of area, for the volume stays", With: fmt.Sprintf("%.2f mm × (1 − %.1f %%) = %.2f mm", metal.Thickness, -100*f.Thin, metal.Thickness*(1+f.Thin)), Inputs: []figure.Input{sheet}},
		{Name: "worst against its forming limit", Text: percent(f.Worst), Formula: "largest stretch ÷ the stretch at which the sheet necks at that cross stretch; 90 % is flagged", With: percent(f.Worst) + "; " + percent(f.Near) + " of the area is at 90 % or more", Inputs: []figure.Input{sheet}},
	}
}

func percent(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }

// PanelBlank is the blank of one part of a panel: its true shape in the corner
// of its own drawing, and where it came from.
func PanelBlank(one build.Blank, from build.Surface, outline geom.Polygon) (build.Blank, error) {
	if outline.Outer == nil {
		return one, fault.New(fault.Invalid, "the panel has no outline")
	}
	box := outline.Bounds()
	move := func(r []geom.Point) []geom.Point {
		out := make(geom.Ring, len(r))
		for i, p := range r {
			out[i] = p.Sub(box.Min)
		}
		return out.Tidy()
	}
	at := geom.Polygon{Outer: move(outline.Outer)}
	for _, h := range outline.Holes {
		at.Holes = append(at.Holes, move(h))
	}
	one.Shape = build.ShapeOf(at)
	one.Width, one.Height = unit.Length(math.Round(box.Width()*1000)), unit.Length(math.Round(box.Height()*1000))
	one.Surface, one.Scan = from.ID, from.Scan
	return one, nil
}

// outdated says which blanks were laid flat from a scan that another took the
// place of.
func outdated(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, blank := range b.Blanks {
		s := b.Surface(blank.Surface)
		if s == nil || s.Scan == blank.Scan || blank.Left() == 0 {
			continue
		}
		checks = append(checks, takeoff.Check{ID: "scan/" + string(blank.ID), Weight: takeoff.Slipping, Link: "metal/surface/" + string(s.ID),
			Says:   fmt.Sprintf("blank %s was laid flat from an older scan of surface %s", blank.ID, s.ID),
			Do:     "lay the surface flat anew and keep it, before it is cut",
			Figure: figure.Figure{Name: "scan", Text: "older", Formula: "the scan that the blank names is not the surface's", With: string(blank.Scan[:8]) + " is not " + string(s.Scan[:8]), Caution: edgesCut}})
	}
	return checks
}

// Grades are the steels that a panel can be laid flat for, the plainest first.
func Grades() []string { return flatten.Grades() }
