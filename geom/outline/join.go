package outline

import (
	"math"
	"slices"

	"fettle/geom"
)

// join ties open strokes of one layer together where their ends lie within
// reach of each other. Ends that touch are tied first, then the nearest free
// end, in the order of the file; every end is tied once. A closed result does
// not keep the second of two ends that met.
func join(strands []Outline, reach float64) []Outline {
	if reach < 0 {
		return strands
	}
	t := tying{strands: strands, reach: reach, mate: make([]int32, 2*len(strands))}
	for i := range t.mate {
		t.mate[i] = -1
	}
	t.tie(reach / 1000)
	t.tie(reach)
	return t.chains()
}

// tying knows every end by its number: 2i is the start of stroke i, 2i+1 its
// last point. mate holds the end each is tied to, or −1.
type tying struct {
	strands []Outline
	reach   float64
	mate    []int32
}

type cell struct {
	layer string
	x, y  int64
}

func (t *tying) end(e int32) geom.Point {
	p := t.strands[e/2].Points
	if e%2 == 0 {
		return p[0]
	}
	return p[len(p)-1]
}

func (t *tying) cell(e int32, size float64) cell {
	p := t.end(e)
	return cell{t.strands[e/2].Layer, int64(math.Floor(p.X / size)), int64(math.Floor(p.Y / size))}
}

// mostLooked bounds the free ends looked at in one cell, so that a heap of
// ends in one place costs no more than its number.
const mostLooked = 64

// tie pairs free ends that lie within size of each other. The cells of a grid
// hold their ends in lists that forget tied ends as they are walked.
func (t *tying) tie(size float64) {
	heads, next := map[cell]int32{}, make([]int32, len(t.mate))
	for e := int32(len(t.mate)) - 1; e >= 0; e-- {
		if t.strands[e/2].Closed || t.mate[e] >= 0 {
			continue
		}
		k := t.cell(e, size)
		next[e] = -1
		if first, ok := heads[k]; ok {
			next[e] = first
		}
		heads[k] = e
	}
	for e := range int32(len(t.mate)) {
		if t.strands[e/2].Closed || t.mate[e] >= 0 {
			continue
		}
		if f := t.nearest(e, size, heads, next); f >= 0 {
			t.mate[e], t.mate[f] = f, e
		}
	}
}

func (t *tying) nearest(e int32, size float64, heads map[cell]int32, next []int32) int32 {
	best, away := int32(-1), size
	middle, at := t.cell(e, size), t.end(e)
	for i := range int64(9) {
		k := cell{middle.layer, middle.x + i%3 - 1, middle.y + i/3 - 1}
		first, ok := heads[k]
		for ok && first >= 0 && t.mate[first] >= 0 {
			first = next[first]
		}
		if ok {
			heads[k] = first
		}
		for f, looked := first, 0; ok && f >= 0 && looked < mostLooked; looked++ {
			for next[f] >= 0 && t.mate[next[f]] >= 0 {
				next[f] = next[next[f]]
			}
			d := at.Distance(t.end(f))
			if f != e && d <= away && (d < away || best < 0) && t.may(e, f) {
				best, away = f, d
			}
			f = next[f]
		}
	}
	return best
}

// may says whether two ends can be tied: a stroke closes on itself only if it
// is longer than the gap it bridges.
func (t *tying) may(e, f int32) bool {
	if e/2 != f/2 {
		return true
	}
	p, length := t.strands[e/2].Points, 0.0
	for i := 1; i < len(p) && length <= 4*t.reach; i++ {
		length += p[i].Distance(p[i-1])
	}
	return len(p) > 2 && length > 4*t.reach
}

// chains walks the ties. A chain begins at a free end if it has one.
func (t *tying) chains() []Outline {
	used, out := make([]bool, len(t.strands)), make([]Outline, 0, len(t.strands))
	for i, s := range t.strands {
		if used[i] {
			continue
		}
		if s.Closed {
			out = append(out, s)
			continue
		}
		e := int32(2 * i)
		for t.mate[e] >= 0 && t.mate[e]/2 != int32(i) {
			e = t.mate[e] ^ 1
			if e/2 == int32(i) {
				break
			}
		}
		out = append(out, t.walk(e, used))
	}
	return out
}

// walk gathers the chain whose first stroke is entered at the end e.
func (t *tying) walk(e int32, used []bool) Outline {
	first := e
	o := Outline{Layer: t.strands[e/2].Layer, Line: t.strands[e/2].Line}
	for {
		s := t.strands[e/2]
		used[e/2] = true
		o.Line = min(o.Line, s.Line)
		points := s.Points
		if e%2 == 1 {
			points = slices.Clone(points)
			slices.Reverse(points)
		}
		if len(o.Points) > 0 {
			points = points[1:]
		}
		o.Points = append(o.Points, points...)
		e = t.mate[e^1]
		if e < 0 {
			return o
		}
		if e == first {
			break
		}
	}
	o.Points = o.Points[:len(o.Points)-1]
	o.Closed = len(o.Points) > 2
	return o
}
