package overlay

import (
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Round says how the round corners of an offset are cut into chords.
type Round struct {
	Chord float64 // how far the edge may stray from the true offset, above 0
	Full  bool    // stray away from the input only: the way to it is nowhere shorter than asked. Else either way
}

// mostSegments bounds the straight pieces that one offset is made of.
const mostSegments = 20_000

// Offset moves the edge of the area of all polygons outwards by a distance, or
// inwards where it is below 0. Parts and holes of less than the square of the
// chord are not worth a knife: they go, unless a part stands as it came in.
//
// Every corner of the result is measured against the edge of the input: where
// one lies nearer or further than asked by more than the chord, there is no
// result but a fault of kind Internal.
func Offset(p []geom.Polygon, by float64, round Round) ([]geom.Polygon, error) {
	if err := check(p); err != nil {
		return nil, err
	}
	if !(math.Abs(by) <= 1e6) {
		return nil, fault.New(fault.Invalid, "an offset of %g", by)
	}
	if !(round.Chord > 0 && round.Chord <= 1e6) {
		return nil, fault.New(fault.Invalid, "a chord may stray by more than 0, not %g", round.Chord)
	}
	whole, err := joined(areasOf(p))
	if err != nil || by == 0 {
		return outcome(whole, err)
	}
	inner := whole.polygons()
	band, err := stroke(inner, math.Abs(by), round)
	if err != nil {
		return nil, err
	}
	op := area.or
	if by < 0 {
		op = area.without
	}
	moved, err := outcome(op(whole, band))
	if err != nil {
		return nil, err
	}
	moved = coarse(moved, round.Chord*round.Chord)
	return moved, measured(inner, moved, math.Abs(by), round.Chord)
}

// stroke returns what lies within reach of the edges: the union of capsules
// about their segments. A share of the chord goes into leaving out points that
// lie nearly on a line.
func stroke(list []geom.Polygon, reach float64, round Round) (area, error) {
	slack := min(round.Chord/4, reach/4)
	pen := nib{reach: reach, chord: round.Chord - 2*slack, full: round.Full}
	if round.Full {
		pen.reach += slack
	}
	var capsules []area
	for _, p := range list {
		for _, r := range p.Rings() {
			r = thinned(r, slack)
			if len(capsules)+len(r) > mostSegments {
				return area{}, fault.New(fault.TooLarge, "the edges have more than %d pieces that are not on a line within %g", mostSegments, slack).
					WithHint("State a larger chord.")
			}
			for i, a := range r {
				capsules = append(capsules, areaOf(geom.Polygon{Outer: pen.capsule(a, r[(i+1)%len(r)])}))
			}
		}
	}
	return joined(capsules)
}

// nib is the disc that strokes an edge.
type nib struct {
	reach, chord float64
	full         bool // its chords lie outside
}

// capsule is what lies within reach of the way from a to b. Its half circles
// are cut into chords that touch them from outside, or whose ends lie on them;
// the sides are straight and exact.
func (n nib) capsule(a, b geom.Point) []geom.Point {
	far, first, steps := n.reach, 0.0, n.steps()
	last := steps
	step := math.Pi / float64(steps)
	if n.full {
		far, first, last = n.reach/math.Cos(step/2), step/2, steps-1
	}
	heading := math.Atan2(b.Y-a.Y, b.X-a.X)
	out := make([]geom.Point, 0, 2*last+2)
	for half, centre := range []geom.Point{b, a} {
		for i := range last + 1 {
			sin, cos := math.Sincos(heading + (float64(half)-0.5)*math.Pi + first + float64(step*float64(i)))
			out = append(out, geom.Point{X: centre.X + float64(far*cos), Y: centre.Y + float64(far*sin)})
		}
	}
	return out
}

// steps returns the chords of half a circle: one over the angle h strays by
// reach (1 − cos h/2) inside, or reach (1/cos h/2 − 1) outside.
func (n nib) steps() int {
	share := 1 - n.chord/n.reach
	if n.full {
		share = n.reach / (n.reach + n.chord)
	}
	return int(min(max(math.Ceil(math.Pi/(2*math.Acos(max(share, 0)))), 3), 1000))
}

// coarse leaves out parts and holes smaller than an area.
func coarse(list []geom.Polygon, least float64) (out []geom.Polygon) {
	for _, p := range list {
		if geom.RingArea(p.Outer) < least {
			continue
		}
		holes := p.Holes
		p.Holes = nil
		for _, h := range holes {
			if -geom.RingArea(h) >= least {
				p.Holes = append(p.Holes, h)
			}
		}
		out = append(out, p)
	}
	return out
}

// measured holds the corners of an offset to their distance from the input.
func measured(from, to []geom.Polygon, reach, chord float64) error {
	fence := newFence(from)
	for _, p := range to {
		for _, r := range p.Rings() {
			for _, q := range r {
				if d := fence.distance(q); math.Abs(d-reach) > chord*1.001+1e-9*(1+reach) {
					return fault.New(fault.Internal, "the offset at %.6g, %.6g lies %.6g from the edge, not %g", q.X, q.Y, d, reach)
				}
			}
		}
	}
	return nil
}
