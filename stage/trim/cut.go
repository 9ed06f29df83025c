package trim

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/geom"
)

// Cut is one pattern to cut from a material: a piece, or the left or right
// hand of a handed one.
type Cut struct {
	ID     string // of the piece, with L or R behind it for a hand
	Piece  build.Piece
	Mirror bool         // the other hand: the drawing turned over, the leather not
	Copies []int        // of the piece, from 0, that are cut so
	Shape  geom.Polygon // mm
}

// Cuts returns the patterns of a material in the order of the list of pieces.
func Cuts(b *build.Build, material string) []Cut {
	var list []Cut
	for _, p := range b.Pieces {
		if p.Material != material {
			continue
		}
		if !p.Handed || p.Quantity < 2 {
			list = append(list, Cut{ID: string(p.ID), Piece: p, Copies: upTo(p.Quantity, 0, 1), Shape: p.Cut().Polygon()})
			continue
		}
		shape := p.Cut().Polygon()
		list = append(list,
			Cut{ID: string(p.ID) + " L", Piece: p, Copies: upTo(p.Quantity, 0, 2), Shape: shape},
			Cut{ID: string(p.ID) + " R", Piece: p, Copies: upTo(p.Quantity, 1, 2), Shape: turnedOver(shape), Mirror: true})
	}
	return list
}

func upTo(n, from, step int) []int {
	var list []int
	for i := from; i < n; i += step {
		list = append(list, i)
	}
	return list
}

// turnedOver is a shape mirrored left to right within its own box.
func turnedOver(p geom.Polygon) geom.Polygon {
	box := p.Bounds()
	flip := func(ring []geom.Point) []geom.Point {
		out := make([]geom.Point, len(ring))
		for i, q := range ring {
			out[len(ring)-1-i] = geom.Point{X: box.Min.X + box.Max.X - q.X, Y: q.Y}
		}
		return out
	}
	out := geom.Polygon{Outer: flip(p.Outer)}
	for _, h := range p.Holes {
		out.Holes = append(out.Holes, flip(h))
	}
	return out
}

// Name says which copy of a piece is meant: T05 L, T13 4, T21.
func (c Cut) Name(copy int) string {
	if len(c.Copies) == 1 {
		return c.ID
	}
	return fmt.Sprintf("%s %d", c.ID, slices.Index(c.Copies, copy)+1)
}

// CutOf returns the pattern of a copy of a piece, or nil.
func CutOf(cuts []Cut, piece build.PieceID, copy int) *Cut {
	for i := range cuts {
		if cuts[i].Piece.ID == piece && slices.Contains(cuts[i].Copies, copy) {
			return &cuts[i]
		}
	}
	return nil
}

// Lies is the outline of a placed copy on its hide or roll, in mm.
func (c Cut) Lies(at build.Placed) geom.Polygon {
	return nest.Placement{X: at.X, Y: at.Y, Rotation: at.Rotation}.Lay(c.Shape)
}

// AnchorAt is where the place of a placed copy lies that keeps to the pattern of
// its roll, in mm; false where none does.
func (c Cut) AnchorAt(at build.Placed) (geom.Point, bool) {
	m := c.Piece.Match
	one := nest.Placement{X: at.X, Y: at.Y, Rotation: at.Rotation}.Lay(geom.Polygon{Outer: []geom.Point{c.anchor()}})
	return one.Outer[0], m.Along || m.Across
}

// anchor is that place in its own drawing.
func (c Cut) anchor() geom.Point {
	m := c.Piece.Match
	at := geom.Point{X: m.At[0].Mm(), Y: m.At[1].Mm()}
	if box := c.Shape.Bounds(); c.Mirror {
		at.X = box.Min.X + box.Max.X - at.X
	}
	return at
}

// Axis is the direction in which the pattern must not give, in its own drawing.
func (c Cut) Axis() build.Axis {
	a := c.Piece.Axis
	if c.Mirror {
		a.Angle = 180 - a.Angle
	}
	return a
}
