package metal

import (
	"cmp"
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/flatten/pieces"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/overlay"
	"fettle/unit"
)

// Outlines are the parts of the flat panel with what is cut out of them, the
// largest first.
func (p Panel) Outlines() []geom.Polygon {
	var parts []geom.Polygon
	for _, loops := range pieces.Loops(p.Result.Flat) {
		part := geom.Polygon{Outer: pieces.Ring(p.Result.Flat, loops[0])}
		for _, hole := range loops[1:] {
			part.Holes = append(part.Holes, pieces.Ring(p.Result.Flat, hole))
		}
		parts = append(parts, part)
	}
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
	slices.SortStableFunc(list, func(a, b geom.Polygon) int { return cmp.Compare(b.Area(), a.Area()) })
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
