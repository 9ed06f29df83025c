package pattern

import (
	"fmt"
	"math"
)

// PipingCord returns the metres of cord, or of made-up piping, for a seam in
// mm with so many corners: a corner takes 25 mm more. Where a share is given it
// goes on top instead.
func PipingCord(seam, corners, share Given) (Amount, error) {
	var s sum
	long := s.take(seam, askLength)
	n := s.take(corners, asked{name: "corners", whole: true, low: 0, high: 1000, has: true, why: "none"})
	if share != (Given{}) {
		more := s.part(share, asked{name: "more", low: 0, high: 1, why: "25 %"})
		return s.is("piping", long*(1+more)/1000, "m", 2, "seam × (1 + more)", fmt.Sprintf("%s mm × %s ÷ 1000", num(long, 1), num(1+more, 3)))
	}
	return s.is("piping", (long+25*n)/1000, "m", 2, "seam + 25 mm × corners", fmt.Sprintf("(%s mm + 25 × %g) ÷ 1000", num(long, 1), n))
}

// ClipCount returns the clips of an edge in mm at a pitch of at most so many mm
// (150 by the trade); all the way round there are as many as gaps, along an
// open edge one more.
func ClipCount(edge, pitch Given, round bool) (Amount, error) {
	return spaced("clips", edge, pitch, asked{name: "pitch", unit: "mm", low: 10, high: 1000, habit: 150, has: true, why: "every 100–150 mm"}, round)
}

// HogRings returns the rings along a listing wire in mm, 40–60 mm apart.
func HogRings(wire, pitch Given) (Amount, error) {
	return spaced("hog rings", wire, pitch, asked{name: "pitch", unit: "mm", low: 10, high: 200, habit: 50, has: true, why: "every 40–60 mm"}, false)
}

func spaced(name string, length, pitch Given, a asked, round bool) (Amount, error) {
	var s sum
	long, apart := s.take(length, asked{name: "length", unit: "mm", low: 0, high: 1e6, why: "measure the edge"}), s.take(pitch, a)
	n, one, tail := math.Ceil(long/apart-1e-9), 1.0, " + 1"
	if round {
		one, tail = 0, ""
	}
	return s.is(name, n+one, "", 0, "length ÷ pitch, rounded up"+tail, fmt.Sprintf("%s ÷ %s, rounded up%s", num(long, 1), num(apart, 1), tail))
}

// ListingWire returns the metres of listing wire: each sleeve in mm and an end
// bent over at both its ends, 25 mm by the trade.
func ListingWire(sleeves []Given, end Given) (Amount, error) {
	var s sum
	total := 0.0
	for i, g := range sleeves {
		total += s.take(g, asked{name: fmt.Sprintf("sleeve %d", i+1), unit: "mm", low: 1, high: 1e5, why: "measure the sleeve"})
	}
	bent := s.take(end, asked{name: "bent end", unit: "mm", low: 0, high: 200, habit: 25, has: true, why: "bent over so that it cannot wander out"})
	return s.is("listing wire", (total+2*bent*float64(len(sleeves)))/1000, "m", 2, "sleeves + 2 × bent end × wires",
		fmt.Sprintf("(%s mm + 2 × %s × %d) ÷ 1000", num(total, 1), num(bent, 1), len(sleeves)))
}

// Stitches returns how many stitches a motif takes: each stroke's length over
// the pitch, rounded up, and the one it begins with.
func (m Motif) Stitches() (Amount, error) {
	var s sum
	g := Given{}
	if m.Pitch != 0 {
		g = Given{Value: m.Pitch}
	}
	pitch, scale := s.take(g, askPitch), m.scaled()
	if m.Cuts {
		return s.is("stitches", 0, "", 0, "none: the motif is cut", "0")
	}
	n, long := 0.0, 0.0
	for _, l := range m.Strokes {
		d := l.Length() * scale
		if m.Closed && len(l) > 1 {
			d += l[0].Distance(l[len(l)-1]) * scale
		}
		long += d
		n += math.Ceil(d/pitch-1e-9) + 1
	}
	return s.is("stitches", n, "", 0, "each stroke ÷ pitch, rounded up, + 1", fmt.Sprintf("%d strokes of %s mm in all ÷ %s, each rounded up, + %d", len(m.Strokes), num(long, 1), num(pitch, 2), len(m.Strokes)))
}

func (m Motif) scaled() float64 {
	if m.Scale == 0 {
		return 1
	}
	return m.Scale
}
