package nest

import (
	"cmp"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// The first layout: pieces by falling size, each as far left as a few hundred
// draws find room. It is only a beginning.
const startSamples = 300

// hair keeps pieces that are put beside each other from touching, as a share
// of the strip's height.
const hair = 1e-5

// start lays out all copies without collisions, those that are given a place
// there.
func (s *search) start() error {
	k := s.lead
	var order []int
	end := max(s.margin, s.now.flawed()+s.now.gap/2)
	for i := range s.now.items {
		s.now.away(i)
	}
	s.now.bounds.Max.X = math.Inf(1)
	for _, at := range s.now.given {
		i := find(s.now.items, at)
		s.now.put(i, s.now.spotOf(at))
		end = max(end, s.now.boxes[i].Max.X)
	}
	for i := range s.now.items {
		if s.now.spots[i].turn == nil || math.IsInf(s.now.boxes[i].Min.X, 1) {
			order = append(order, i)
		}
	}
	size := func(i int) float64 {
		f := &s.now.forms[s.now.items[i].piece]
		return f.hull * f.diameter
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size(b), size(a)) })
	for _, i := range order {
		p := k.leftmost(i, end)
		if p.turn == nil {
			return fault.New(fault.Invalid, "its tight direction strays in every turn allowed where the roll is free").At(nameOf(s.now.problem, s.now.items[i].piece))
		}
		s.now.put(i, p)
		end = max(end, s.now.boxes[i].Max.X)
	}
	s.now.bounds.Max.X = end
	k.all()
	s.accept()
	return nil
}

// leftmost returns the spot without collisions that reaches least far right
// among some drawn ones, each pushed left and down; end is where all others
// end, so that there is always one behind them.
func (k *seeker) leftmost(i int, end float64) spot {
	turns := k.forms[k.items[i].piece].turns
	best, far := spot{}, math.Inf(1)
	keep := func(p spot) {
		if x := p.x + p.turn.box.Max.X + float64(hair*(p.y+p.turn.box.Max.Y)); x < far {
			best, far = p, x
		}
	}
	for j := range turns {
		k.bounds.Max.X = end + turns[j].box.Width() + float64(2*hair*k.bounds.Height())
		if b, ok := k.span(&turns[j]); ok {
			if p, on := k.behind(i, spot{turn: &turns[j], x: b.Max.X, y: b.Min.Y}); on && !k.strays(i, p) {
				keep(p)
			}
		}
	}
	if best.turn == nil {
		return best
	}
	k.bounds.Max.X = best.x + best.turn.box.Max.X
	for range startSamples {
		if p, ok := k.sample(i, k.bounds); ok && p.x+p.turn.box.Max.X < far && k.cost(i, p, 0) == 0 {
			keep(k.push(i, p))
		}
	}
	return best
}

// push moves a spot left and down in ever smaller steps while nothing is in
// its way.
func (k *seeker) push(i int, p spot) spot {
	b, _ := k.span(p.turn)
	for step := p.turn.side; step > p.turn.side/100; step /= 2 {
		for _, d := range [2]geom.Point{{X: step}, {Y: step}} {
			for {
				q := p
				q.x, q.y = max(p.x-d.X, b.Min.X), max(p.y-d.Y, b.Min.Y)
				q, on := k.snap(i, q)
				if q == p || !on || k.cost(i, q, 0) > 0 {
					break
				}
				p = q
			}
		}
	}
	return p
}
