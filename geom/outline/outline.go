// Package outline holds what drawing files are read into and written from:
// named polylines in millimetres, with the curves already cut into chords.
//
// Lengths are millimetres, the y axis points up, angles are radians
// anticlockwise. Readers of formats whose y points down turn the drawing, so
// that a left piece never becomes a right one. No coordinate is larger than
// 1e7 and no drawing has more than MaxVertices points: beyond, reading stops
// with a fault that names the line.
//
// No point of a true curve is further than Options.Flatten from its polyline:
// the cuts of a conic are exact (the sagitta of an affine image of the unit
// circle), those of other curves follow from bounds of the second derivative.
// Chords lie on the hollow side: a curve that bulges out is cut a little small,
// one that bends in a little large, by no more than that.
package outline

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Limits of every drawing file.
const (
	MaxBytes      = 64 << 20
	MaxVertices   = 1_000_000
	maxCoordinate = 1e7
)

// Outline is one polyline of a drawing.
type Outline struct {
	Layer  string
	Closed bool
	Points []geom.Point // millimetres; a closed outline does not repeat its start
	Line   int          // the line of the file its first piece stands on; 0 when it was not read
}

// Open is a place where a stroke ends without meeting another end of its layer.
type Open struct {
	Layer    string
	From, To geom.Point // both ends of the stroke, millimetres
	Line     int
}

// Skip is something that a file holds and an outline cannot.
type Skip struct {
	What  string
	Count int
	Line  int // of the first
}

// Drawing is what was read.
type Drawing struct {
	Outlines []Outline // in the order of the file; open strokes too
	Open     []Open    // one for every open stroke
	Skipped  []Skip
}

// Label is a short text of one line, its middle at a place.
type Label struct {
	Layer  string
	Text   string
	At     geom.Point
	Height float64 // of its capitals, millimetres
}

// Plan is what is written: outlines, and words beside them.
type Plan struct {
	Outlines []Outline
	Labels   []Label
}

// Options say how a file is read. The zero value asks for the defaults.
type Options struct {
	Unit    float64 // millimetres in one unit of the file; 0 as the file says, and a fault if it does not
	Flatten float64 // how far a chord may stray from its curve, millimetres; 0 for 0.05, at least 0.001
	Join    float64 // how far apart two ends may lie and still meet, millimetres; 0 for 0.1, at least 0.001; below 0 to join nothing
}

// filled returns the options with the defaults in.
func (o Options) filled() (Options, error) {
	if o.Flatten == 0 {
		o.Flatten = 0.05
	}
	if o.Join == 0 {
		o.Join = 0.1
	}
	if !(o.Flatten >= 0.001 && o.Flatten <= 100) {
		return o, fault.New(fault.Invalid, "a chord may stray between 0.001 and 100 mm, not %g", o.Flatten).At("flatten")
	}
	if math.IsNaN(o.Join) || o.Join > 100 || o.Join > 0 && o.Join < 0.001 {
		return o, fault.New(fault.Invalid, "ends may be joined over 0.001 to 100 mm, not %g", o.Join).At("join")
	}
	if !(o.Unit >= 0 && o.Unit <= 1e6) {
		return o, fault.New(fault.Invalid, "a unit of the file is between 0 and 1,000,000 mm, not %g", o.Unit).At("unit")
	}
	return o, nil
}
