package nest

import (
	"math"
	"math/rand/v2"

	"fettle/geom"
)

// How many places are tried when a piece looks for a new one, and how many of
// them are looked at closely [Gardeyn2025].
const (
	samplesNear  = 25 // about where it lies
	samplesAll   = 50 // anywhere
	samplesAlike = 25 // as its equals lie: not in that method
	samplesKept  = 3
)

// alike is how close two places are to count as one, as a share of the
// smaller side of the piece's box.
const alike = 0.05

// alikeTurn is how close their angles are, degrees.
const alikeTurn = 2

// candidate is a spot and its weighted loss.
type candidate struct {
	spot
	cost float64
}

// shortlist holds the best few different candidates, best first.
type shortlist struct {
	list [samplesKept]candidate
	n    int
}

// enough is the cost a new candidate has to stay below.
func (k *shortlist) enough(most float64) float64 {
	if k.n < len(k.list) {
		return most
	}
	return k.list[k.n-1].cost
}

// add takes a candidate in, unless better ones fill the list or one of them
// is nearly the same.
func (k *shortlist) add(c candidate) {
	for i := range k.list[:k.n] {
		if !k.list[i].like(c.spot) {
			continue
		}
		if k.list[i].cost <= c.cost {
			return
		}
		copy(k.list[i:], k.list[i+1:k.n])
		k.n--
		break
	}
	if k.n == len(k.list) {
		k.n--
	}
	i := k.n
	for ; i > 0 && k.list[i-1].cost > c.cost; i-- {
		k.list[i] = k.list[i-1]
	}
	k.list[i] = c
	k.n++
}

func (s spot) like(o spot) bool {
	d := alike * s.turn.side
	return s.turned(o) && max(s.x-o.x, o.x-s.x) < d && max(s.y-o.y, o.y-s.y) < d
}

// turned says whether two spots have nearly the same turn.
func (s spot) turned(o spot) bool {
	if s.turn == o.turn && !s.turn.loose {
		return true
	}
	a, flip := s.lies()
	b, also := o.lies()
	return flip == also && math.Abs(math.Remainder(a-b, 360)) < alikeTurn
}

// seeker is a judge with luck: it finds better places.
type seeker struct {
	*judge
	rand  *rand.Rand
	order []int   // copies to move in a round
	room  [3]turn // for loose turns: two that a descent goes back and forth between, and one of a draw
}

func newSeeker(l *layout, seed, worker uint64) *seeker {
	return &seeker{judge: newJudge(l), rand: rand.New(rand.NewPCG(seed, worker)), order: make([]int, 0, len(l.items))}
}

// seek looks for the place of copy i with the least weighted loss, all others
// staying where they are, and moves it there if that is better than where it
// lies.
func (k *seeker) seek(i int) {
	here := candidate{k.spots[i], k.burden(i)}
	var found shortlist
	found.add(here)
	try := func(s spot, ok bool) {
		if !ok {
			return
		}
		enough := found.enough(far)
		if cost := k.cost(i, s, enough); cost < enough {
			found.add(candidate{s, cost})
		}
	}
	for range samplesNear {
		try(k.sample(i, k.boxes[i]))
	}
	for range samplesAll {
		try(k.sample(i, k.anywhere(i)))
	}
	for range samplesAlike {
		try(k.mimic(i))
	}
	best := here
	for _, c := range found.list[:found.n] {
		if c = k.descend(i, c, coarse); c.cost < best.cost {
			best = c
		}
	}
	if best = k.descend(i, best, fine); best.cost < here.cost {
		k.move(i, best.spot)
	}
}

// far is more than any weighted loss.
const far = 1e300

// axisDraws is how often a place is drawn anew where the piece's tight
// direction would stray.
const axisDraws = 12

// sample draws a turn and a place, of pieces with a tight direction again where
// that strays.
func (k *seeker) sample(i int, in geom.Box) (spot, bool) {
	s, ok := k.draw(i, in)
	for n := 0; n < axisDraws && ok && k.strays(i, s); n++ {
		s, ok = k.draw(i, in)
	}
	return s, ok
}

// strays says whether the tight direction of a copy would stray at a spot.
func (k *seeker) strays(i int, s spot) bool {
	axis := k.problem.Pieces[k.items[i].piece].Axis
	if axis == nil || k.floor == nil {
		return false
	}
	heading := k.floor.heading(s.x+s.turn.centre.X, s.y+s.turn.centre.Y)
	rotation, mirrored := s.lies()
	return math.Abs(axis.off(heading, rotation, mirrored)) > axis.Tolerance+strayHair
}

// draw draws a turn and a place at which the middle of the piece's box lies
// in a given one, and its box inside the bounds. It is false where the turned
// piece fits nowhere.
func (k *seeker) draw(i int, in geom.Box) (spot, bool) {
	turns := k.forms[k.items[i].piece].turns
	t := &turns[0]
	if len(turns) > 1 {
		t = &turns[k.rand.IntN(len(turns))]
	}
	b, ok := k.span(t)
	mx, my := (t.box.Min.X+t.box.Max.X)/2, (t.box.Min.Y+t.box.Max.Y)/2
	x0, x1 := max(b.Min.X, in.Min.X-mx), min(b.Max.X, in.Max.X-mx)
	y0, y1 := max(b.Min.Y, in.Min.Y-my), min(b.Max.Y, in.Max.Y-my)
	s := spot{turn: t, x: x0 + float64(k.rand.Float64()*(x1-x0)), y: y0 + float64(k.rand.Float64()*(y1-y0))}
	s, on := k.snap(i, s)
	return s, ok && on && x0 <= x1 && y0 <= y1
}
