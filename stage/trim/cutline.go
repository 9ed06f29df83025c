package trim

import (
	"fettle/build"
	"fettle/geom"
)

// CutLine is the line of a hide that pieces keep a margin to, in mm: its
// outline, drawn in where it runs through a lesser zone.
func CutLine(h build.Hide) (line geom.Polygon, margin float64) {
	return cutInside(h), EdgeMargin + h.OutlineError.Mm()
}
