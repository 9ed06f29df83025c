package metal

import (
	"fmt"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/geom"
	"fettle/geom/overlay"
	"fettle/unit"
)

// What is worth keeping of a sheet that is cut: a habit of the trade, since
// smaller pieces are not found again when they are wanted.
const (
	keepArea = 40_000.0 // mm²
	keepSide = 100.0    // mm, the shorter side of its box
)

// Left is what is left in one piece of a sheet of a plan once its blanks and the
// cuts about them are gone, as an offcut without a number; false where nothing
// worth keeping is.
func Left(b *build.Build, plan build.SheetPlan, sheet build.Sheet, nth int) (build.Sheet, bool, error) {
	var gone []geom.Polygon
	for _, at := range plan.Placed {
		blank := b.Blank(at.Blank)
		if at.Sheet != sheet.ID || at.Nth != nth || blank == nil {
			continue
		}
		wide := *blank
		wide.Over += Kerf
		shape, err := Lies(wide, at)
		if err != nil {
			return build.Sheet{}, false, err
		}
		gone = append(gone, shape)
	}
	gone, err := overlay.Union(gone...)
	if err != nil {
		return build.Sheet{}, false, err
	}
	rest, err := overlay.Subtract([]geom.Polygon{sheet.Cut().Polygon()}, gone)
	if err != nil {
		return build.Sheet{}, false, err
	}
	var best geom.Polygon
	for _, p := range rest {
		if best.Outer == nil || p.Area() > best.Area() {
			best = p
		}
	}
	box := best.Bounds()
	if best.Outer == nil || best.Area() < keepArea || min(box.Width(), box.Height()) < keepSide {
		return build.Sheet{}, false, nil
	}
	left := build.Sheet{Name: fmt.Sprintf("left of %s", sheet.ID), Gauge: sheet.Gauge, Quantity: 1, Offcut: true, Shape: build.ShapeOf(nest.Placement{X: -box.Min.X, Y: -box.Min.Y}.Lay(best))}
	size := left.Shape.Polygon().Bounds()
	left.Width, left.Height = unit.Length(size.Width()*1000+0.5), unit.Length(size.Height()*1000+0.5)
	return left, true, nil
}
