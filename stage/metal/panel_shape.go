package metal

import (
	"math"
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/geom/overlay"
	"fettle/unit"
)

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

// CutLine is where a part of the flat panel is cut: its outline with so much
// left over outside, and inside of what is cut out of it.
func CutLine(part geom.Polygon, over unit.Length) (geom.Polygon, error) {
	if over == 0 {
		return part, nil
	}
	list, err := overlay.Offset([]geom.Polygon{part}, over.Mm(), overlay.Round{Chord: 0.2})
	if err != nil || len(list) == 0 {
		return part, err
	}
	slices.SortStableFunc(list, func(a, b geom.Polygon) int { return int(math.Copysign(1, b.Area()-a.Area())) })
	return list[0], nil
}

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
