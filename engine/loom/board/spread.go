package board

import (
	"math"

	"fettle/geom"
)

// Of letters, in heights of capitals.
const (
	letterWide = 0.72 // a letter of a plain face, with its space
	letterRoom = 0.35 // kept about a word
	wordGap    = 1.2  // from what a word is of to the word
	wordLead   = 2.0  // beyond that a line leads from the one to the other
)

// around are the ways in which a word is put off its place, the best first.
var around = []float64{90, 270, 0, 180, 45, 315, 135, 225, 67.5, 292.5, 112.5, 247.5, 22.5, 337.5, 157.5, 202.5}

// away are the distances tried, in heights.
var away = []float64{wordGap, 2, 3, 4.5, 6.5, 9, 12, 16, 21}

// Spread puts words near the places that they are of, in their order, so that
// none lies over another or over a line, and leads a line to each that had to go
// far. Where there is no free place a word goes where it covers least.
func Spread(words []Text, lines []Line) (placed []Text, leaders []Line) {
	s := spreader{cell: 40, lines: map[[2]int32][]int32{}, boxes: map[[2]int32][]int32{}}
	for _, w := range words {
		s.cell = max(s.cell, 10*w.Height)
	}
	for _, l := range lines {
		for i := range l.Points {
			if i > 0 || l.Closed {
				s.keepOff(l.Points[(i+len(l.Points)-1)%len(l.Points)], l.Points[i])
			}
		}
	}
	for _, w := range words {
		box, far := s.place(w)
		mid := between(box.lo, box.hi, 0.5)
		placed = append(placed, Text{Layer: w.Layer, Text: w.Text, At: mid, Height: w.Height})
		if far > wordLead {
			near := geom.Point{X: min(max(w.At.X, box.lo.X), box.hi.X), Y: min(max(w.At.Y, box.lo.Y), box.hi.Y)}
			leaders = append(leaders, Line{Layer: w.Layer, Points: []geom.Point{w.At, near}})
			s.keepOff(w.At, near)
		}
	}
	return placed, leaders
}

// bounds is the box of a word.
type bounds struct{ lo, hi geom.Point }

// spreader knows by cells what is taken.
type spreader struct {
	cell  float64
	lines map[[2]int32][]int32
	boxes map[[2]int32][]int32
	seg   [][2]geom.Point
	taken []bounds
}

// cells calls f with every cell that a box reaches.
func (s *spreader) cells(lo, hi geom.Point, f func([2]int32)) {
	at := func(v float64) int32 { return int32(math.Floor(v / s.cell)) }
	for x := at(lo.X); x <= at(hi.X); x++ {
		for y := at(lo.Y); y <= at(hi.Y); y++ {
			f([2]int32{x, y})
		}
	}
}

func (s *spreader) keepOff(a, b geom.Point) {
	n := int32(len(s.seg))
	s.seg = append(s.seg, [2]geom.Point{a, b})
	s.cells(geom.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, geom.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}, func(c [2]int32) { s.lines[c] = append(s.lines[c], n) })
}

// place takes the first free place about a word's own, and tells how many
// heights off it is.
func (s *spreader) place(w Text) (bounds, float64) {
	n := float64(len([]rune(w.Text)))
	half := geom.Point{X: w.Height * (n*letterWide/2 + letterRoom), Y: w.Height * (0.5 + letterRoom)}
	var best bounds
	least, far := math.MaxInt, 0.0
	for _, d := range away {
		for _, angle := range around {
			h := heading(angle * deg)
			mid := geom.Point{X: w.At.X + h.X*(d*w.Height+half.X), Y: w.At.Y + h.Y*(d*w.Height+half.Y)}
			box := bounds{geom.Point{X: mid.X - half.X, Y: mid.Y - half.Y}, geom.Point{X: mid.X + half.X, Y: mid.Y + half.Y}}
			if hits := s.hits(box); hits < least {
				best, least, far = box, hits, d
			}
			if least == 0 {
				break
			}
		}
		if least == 0 {
			break
		}
	}
	k := int32(len(s.taken))
	s.taken = append(s.taken, best)
	s.cells(best.lo, best.hi, func(c [2]int32) { s.boxes[c] = append(s.boxes[c], k) })
	return best, far
}

// hits counts what a box would cover; another word counts for several lines.
func (s *spreader) hits(b bounds) int {
	n := 0
	s.cells(b.lo, b.hi, func(c [2]int32) {
		for _, k := range s.boxes[c] {
			if o := s.taken[k]; b.lo.X < o.hi.X && o.lo.X < b.hi.X && b.lo.Y < o.hi.Y && o.lo.Y < b.hi.Y {
				n += 8
			}
		}
		for _, k := range s.lines[c] {
			if crossesBox(s.seg[k][0], s.seg[k][1], b.lo, b.hi) {
				n++
			}
		}
	})
	return n
}
