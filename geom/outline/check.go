package outline

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"fettle/fault"
	"fettle/geom"
)

// Box returns the smallest box around the outlines of a plan that is to be
// written; labels do not count. The error is a fault of kind Invalid that names
// the outline or the label, counted from 1.
func (p Plan) Box() (geom.Box, error) {
	for i, l := range p.Labels {
		if !(l.Height > 0 && l.Height <= 1000) || !somewhere(l.At) || strings.ContainsFunc(l.Text, unicode.IsControl) {
			return geom.Box{}, fault.New(fault.Invalid, "%.40q, %g high at %g, %g cannot be written", l.Text, l.Height, l.At.X, l.At.Y).At(fmt.Sprintf("label %d", i+1))
		}
	}
	var box geom.Box
	for i, o := range p.Outlines {
		if len(o.Points) < 2 {
			return box, fault.New(fault.Invalid, "it has %d points, at least 2 make a line", len(o.Points)).At(Nth(i))
		}
		for j, p := range o.Points {
			if !somewhere(p) {
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

func somewhere(p geom.Point) bool {
	return math.Abs(p.X) <= math.MaxFloat64 && math.Abs(p.Y) <= math.MaxFloat64
}

// Nth names the place of the outline with an index, for faults.
func Nth(i int) string { return fmt.Sprintf("outline %d", i+1) }
