package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/geom"
	"fettle/unit"
)

// Rows is a lay on a roll in rows across it: simple to chalk out, and what the
// length is bought by.
type Rows struct {
	Length unit.Length
	Placed []build.Placed
	Over   []build.PieceID // wider than the roll
	Words  string          // the lengths of the rows
}

// strip is one copy as it lies on the roll.
type strip struct {
	cut           Cut
	copy          int
	turn          float64
	along, across unit.Length
}

// RowsOf lays every piece of a roll's material in rows: the tight direction
// along the roll, the longest rows first, as many side by side as its width
// takes; with a pattern every row begins on a repeat.
func RowsOf(b *build.Build, r build.Roll) Rows {
	var rows Rows
	strips := stripsOf(b, r, &rows)
	slices.SortStableFunc(strips, func(a, b strip) int { return int(b.along - a.along) })
	var words []string
	begin, rest := repeats(r.Edge, r.Repeat), unit.Length(0)
	for len(strips) > 0 {
		long, y := repeats(strips[0].along, r.Repeat), r.Edge
		strips = slices.DeleteFunc(strips, func(s strip) bool {
			if y+s.across > r.Width-r.Edge {
				return false
			}
			rows.Placed = append(rows.Placed, s.at(begin, y))
			y += s.across + r.Gap
			return true
		})
		rows.Length = begin + long + r.Edge
		begin = repeats(begin+long+r.Gap, r.Repeat)
		rest += long
		words = append(words, fmt.Sprintf("%.2f", long.Mm()/1000))
	}
	if rest = rows.Length - rest; rest > 0 {
		words = append(words, fmt.Sprintf("%.2f (ends and gaps)", rest.Mm()/1000))
	}
	rows.Words = strings.Join(words, " + ")
	return rows
}

// repeats is a length rounded up to whole repeats of a pattern, where there is
// one.
func repeats(long, repeat unit.Length) unit.Length {
	if repeat == 0 {
		return long
	}
	return (long + repeat - 1) / repeat * repeat
}

func stripsOf(b *build.Build, r build.Roll, rows *Rows) []strip {
	var list []strip
	for _, c := range Cuts(b, r.Material) {
		s := strip{cut: c, along: c.Piece.Width, across: c.Piece.Height}
		turn := 0 - c.Axis().Angle // not −0
		if int(turn)%180 != 0 {
			s.along, s.across = s.across, s.along
		}
		if !c.Piece.Axis.Known() && s.across > r.Width-2*r.Edge && !r.Nap {
			turn, s.along, s.across = 90, s.across, s.along
		}
		s.turn = turn
		if s.across > r.Width-2*r.Edge {
			rows.Over = append(rows.Over, c.Piece.ID)
			continue
		}
		for _, n := range c.Copies {
			s.copy = n
			list = append(list, s)
		}
	}
	return list
}

// at places the copy with the corner of its box at a place along and across.
func (s strip) at(along, across unit.Length) build.Placed {
	p := build.Placed{Piece: s.cut.Piece.ID, Copy: s.copy, Rotation: s.turn}
	corner := s.cut.Lies(p).Bounds().Min
	to := geom.Point{X: along.Mm(), Y: across.Mm()}.Sub(corner)
	p.X, p.Y = to.X, to.Y
	return p
}
