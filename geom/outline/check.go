package outline

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Check returns the box around outlines that are to be written. The error is
// a fault of kind Invalid that names the outline, counted from 1.
func Check(list []Outline) (geom.Box, error) {
	var box geom.Box
	for i, o := range list {
		if len(o.Points) < 2 {
			return box, fault.New(fault.Invalid, "it has %d points, at least 2 make a line", len(o.Points)).At(Nth(i))
		}
		for j, p := range o.Points {
			if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
				return box, fault.New(fault.Invalid, "the place %g, %g is nowhere", p.X, p.Y).At(Nth(i))
			}
			if one := (geom.Box{Min: p, Max: p}); i+j == 0 {
				box = one
			} else {
				box = box.Union(one)
			}
		}
	}
	return box, nil
}

// Nth names the place of the outline with an index, for faults.
func Nth(i int) string { return fmt.Sprintf("outline %d", i+1) }
