// Package overlay joins, cuts and offsets polygons with holes.
//
// Union, Intersect and Subtract take areas as lists of polygons. Offset moves
// the edge of an area outwards or inwards by a distance, with round corners:
// it is the area with every point nearer than that to its edge added, or taken
// away, so holes close as the outer edge grows and open as it shrinks.
//
// The work of cutting edges at one another is done by a kept library behind
// library.go; nothing else knows it (docs/adr/0009). Its sums are float64: a
// corner where two edges cross is right to within rounding, about 1e-16 of
// the largest coordinate, and slips as thin as that may stay or go. What comes
// back has the inside of the outer ring to the left and that of holes to the
// right, begins each ring at its lowest leftmost corner, and stands in order of
// these: the same input gives the same bits. A ring of it crosses nothing, but
// may touch itself or another at single points.
//
// Lengths are all in one unit, the caller's own. Bad input is a fault of kind
// Invalid or TooLarge that names the polygon, counted from 1. Input is held to
// Polygon.Check first; polygons of one list may overlap one another.
package overlay
