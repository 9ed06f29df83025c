package pattern

import (
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// Squaring says what counts as nearly straight and nearly square.
type Squaring struct {
	Straight float64 `json:"straight_mm,omitempty"` // points so near to a line between corners lie on it; 0 for 1.5
	Angle    float64 `json:"angle_deg,omitempty"`   // sides so near to square, or to parallel, become so; 0 for 3
	Move     float64 `json:"move_mm,omitempty"`     // no corner goes further; 0 for 5
	Side     float64 `json:"side_mm,omitempty"`     // shorter sides are left alone; 0 for 60
}

// Moved is a corner that squaring has put elsewhere.
type Moved struct {
	Was [2]float64 `json:"was"`
	Is  [2]float64 `json:"is"`
	By  float64    `json:"by_mm"`
}

// Squared is an outline put right.
type Squared struct {
	Line  Line    `json:"line"`
	Moved []Moved `json:"moved,omitempty"` // corners, in order
	From  []int   `json:"from"`            // the point of the old line that each was; what is missing lay nearly on a straight side
	Held  int     `json:"held,omitempty"`  // sides that keep their way, for a corner would have gone too far
	Most  float64 `json:"most_mm"`         // the furthest that the new outline lies from a point of the old
}

// Square makes a traced outline true: points nearly on a straight side go, and
// sides that are nearly square or parallel to a longer one become so, each
// turning about its own middle. What moved, and how far, is told; the sides of
// curves are too short to be touched.
func (q Squaring) Square(line Line) (Squared, error) {
	q = q.filled()
	if !(q.Straight >= 0 && q.Straight <= 50 && q.Angle >= 0 && q.Angle <= 20 && q.Move >= 0 && q.Move <= 200 && q.Side > 0) {
		return Squared{}, fault.New(fault.Invalid, "squaring within %g mm and %g°, corners moved %g mm", q.Straight, q.Angle, q.Move).At("square").WithHint("1.5 mm, 3° and 5 mm are usual")
	}
	if err := geom.Ring(line).Check(); err != nil {
		return Squared{}, fault.Within(err, "line")
	}
	out := Squared{From: q.straightened(line)}
	var corners Line
	for _, i := range out.From {
		corners = append(corners, line[i])
	}
	out.Line, out.Held = q.squared(corners)
	for i, p := range corners {
		if by := p.Distance(out.Line[i]); by > 1e-9 {
			out.Moved = append(out.Moved, Moved{[2]float64{p.X, p.Y}, [2]float64{out.Line[i].X, out.Line[i].Y}, by})
		}
	}
	if err := geom.Ring(out.Line).Check(); err != nil {
		return Squared{}, fault.Within(err, "the squared line")
	}
	for _, p := range line {
		out.Most = max(out.Most, geom.Ring(out.Line).Distance(p))
	}
	return out, nil
}

// squared puts the corners where the sides meet on their new ways. While one
// would go too far, the side there that turned most keeps its own way.
func (q Squaring) squared(corners Line) (out Line, held int) {
	n := len(corners)
	own, ways := q.ways(corners)
	for {
		out = out[:0]
		worst := 0
		for i := range corners {
			out = append(out, meet(corners, own, ways, i))
			if out[i].Distance(corners[i]) > out[worst].Distance(corners[worst]) {
				worst = i
			}
		}
		if out[worst].Distance(corners[worst]) <= q.Move {
			return out, held
		}
		before := (worst + n - 1) % n
		if math.Abs(ways[before]-own[before]) > math.Abs(ways[worst]-own[worst]) {
			worst = before
		}
		ways[worst] = own[worst]
		held++
	}
}

func (q Squaring) filled() Squaring {
	for _, f := range []struct {
		v     *float64
		habit float64
	}{{&q.Straight, 1.5}, {&q.Angle, 3}, {&q.Move, 5}, {&q.Side, 60}} {
		if *f.v == 0 {
			*f.v = f.habit
		}
	}
	return q
}

// ways gives every side its direction: sides within the angle of square or
// parallel to a longer one of their kind share one heading, the mean of theirs
// by length; the short keep their own.
func (q Squaring) ways(corners Line) (own, ways []float64) {
	n := len(corners)
	var long []float64
	var order []int
	ways, long, order = make([]float64, n), make([]float64, n), make([]int, n)
	for i, p := range corners {
		d := corners[(i+1)%n].Sub(p)
		ways[i], long[i], order[i] = math.Atan2(d.Y, d.X), math.Hypot(d.X, d.Y), i
	}
	own = slices.Clone(ways)
	slices.SortStableFunc(order, func(a, b int) int {
		if long[a] > long[b] {
			return -1
		}
		if long[a] < long[b] {
			return 1
		}
		return a - b
	})
	kind := make([]int, n)
	for i := range kind {
		kind[i] = -1
	}
	for _, lead := range order {
		if kind[lead] >= 0 || long[lead] < q.Side {
			continue
		}
		var mates []int
		sum, weight := 0.0, 0.0
		for _, i := range order {
			if off := quarter(ways[i] - ways[lead]); kind[i] < 0 && long[i] >= q.Side && math.Abs(off) <= q.Angle*math.Pi/180 {
				kind[i], mates = lead, append(mates, i)
				sum, weight = sum+float64(off*long[i]), weight+long[i]
			}
		}
		if len(mates) < 2 {
			continue
		}
		mean := ways[lead] + sum/weight
		for _, i := range mates {
			ways[i] -= quarter(ways[i] - mean)
		}
	}
	return own, ways
}

// quarter takes the nearest number of right angles off an angle.
func quarter(a float64) float64 { return a - float64(math.Pi/2*math.Round(a/(math.Pi/2))) }

// meet returns where the sides before and after a corner meet, each on its way
// through its own middle; a corner of sides that keep their way stays.
func meet(corners Line, own, ways []float64, i int) geom.Point {
	n := len(corners)
	h := (i + n - 1) % n
	if own[h] == ways[h] && own[i] == ways[i] {
		return corners[i]
	}
	a := step(corners[h], corners[i].Sub(corners[h]), 0.5)
	b := step(corners[i], corners[(i+1)%n].Sub(corners[i]), 0.5)
	s, c := math.Sincos(ways[h])
	u := geom.Point{X: c, Y: s}
	s, c = math.Sincos(ways[i])
	v := geom.Point{X: c, Y: s}
	den := u.Cross(v)
	if math.Abs(den) < math.Sin(least) { // nearly in line, as where a curve begins: square down onto the way that is new
		if own[h] == ways[h] {
			a, u = b, v
		}
		return step(a, u, dot(corners[i].Sub(a), u))
	}
	return step(a, u, b.Sub(a).Cross(v)/den)
}
