package geom

import (
	"strconv"
	"strings"
)

// Path is one or more rings and open strokes of straight and cubic pieces.
// The zero value is an empty path. A Path is a value: nothing changes it once
// it is read.
type Path struct{ rings []ring }

// ring is one stroke from start through segs. A closed ring ends where it
// starts, by a straight closing piece if need be.
type ring struct {
	start  Point
	segs   []seg
	closed bool
}

// seg is a cubic piece from the end of the one before it. A straight piece
// has its control points on the line, a third of the way from each end.
type seg struct {
	c1, c2, end Point
	straight    bool
}

func lineTo(from, to Point) seg {
	return seg{from.lerp(to, 1.0/3), from.lerp(to, 2.0/3), to, true}
}

// quadTo raises a quadratic piece to the cubic of the same shape.
func quadTo(from, c, to Point) seg {
	return seg{from.lerp(c, 2.0/3), to.lerp(c, 2.0/3), to, false}
}

// pieces calls f with the start and shape of every piece in order. An open
// stroke is treated as closed when f is to see an area.
func (r ring) pieces(asArea bool, f func(from Point, s seg)) {
	at := r.start
	for _, s := range r.segs {
		f(at, s)
		at = s.end
	}
	if asArea && at != r.start {
		f(at, lineTo(at, r.start))
	}
}

// Empty says whether the path has no stroke at all.
func (p Path) Empty() bool { return len(p.rings) == 0 }

// Closed says whether every stroke of the path is closed by Z.
func (p Path) Closed() bool {
	for _, r := range p.rings {
		if !r.closed {
			return false
		}
	}
	return len(p.rings) > 0
}

// String writes the path in the form ParsePath reads, with M, L, C and Z.
func (p Path) String() string {
	var b strings.Builder
	for _, r := range p.rings {
		writeStep(&b, 'M', r.start)
		for _, s := range r.segs {
			if s.straight {
				writeStep(&b, 'L', s.end)
				continue
			}
			writeStep(&b, 'C', s.c1, s.c2, s.end)
		}
		if r.closed {
			writeStep(&b, 'Z')
		}
	}
	return b.String()
}

func writeStep(b *strings.Builder, letter byte, points ...Point) {
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	b.WriteByte(letter)
	for _, p := range points {
		b.WriteByte(' ')
		b.WriteString(strconv.FormatFloat(p.X, 'f', -1, 64))
		b.WriteByte(' ')
		b.WriteString(strconv.FormatFloat(p.Y, 'f', -1, 64))
	}
}
