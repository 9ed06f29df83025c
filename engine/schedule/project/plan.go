package project

import "slices"

// plan is a schedule of one side, as early as its list allowed.
type plan struct {
	finish   []int32 // by activity of its side
	order    []int32 // the list that justifies it, in the numbers of the other side
	last     int32   // makespan
	score    uint64  // lower is better: makespan first, then how full the end is
	hash     uint64  // of the finishes
	parallel bool    // its gene: how its children are generated
	twin     []int32 // finishes on the other side of the first known of order
	known    int     // set by children, which begin with the same activities
}

func newPlan(n int) *plan {
	return &plan{finish: make([]int32, n), order: make([]int32, n), twin: make([]int32, n)}
}

func (p *plan) copy() *plan {
	c := *p
	c.finish, c.order, c.twin = slices.Clone(p.finish), slices.Clone(p.order), slices.Clone(p.twin)
	return &c
}

// settle fills in what follows from the finishes.
func (p *plan) settle(s *side, d *decoder) {
	d.mirrored(p.finish, p.last, p.order)
	p.known = 0
	p.hash = hash(p.finish, 0)
	p.score = uint64(p.last)<<endBits | p.crowd(s)
}

const endBits = 40

// crowd measures how much work finishes near the end: of two schedules of the
// same makespan, the one with less is nearer to a shorter one. Work that
// finishes within the last 30 % counts by the square of its nearness.
func (p *plan) crowd(s *side) uint64 {
	sum, near := int64(0), int64(p.last)*3/10+1
	for j, f := range p.finish {
		if d := near - int64(p.last-f); d > 0 {
			d = d * 64 / near
			sum += d * d * (int64(s.dur[j]) * 6400 / near)
		}
	}
	return uint64(min(sum, 1<<endBits-1))
}

// hash is FNV-1a, a number at a time.
func hash(numbers []int32, seed uint64) uint64 {
	h := 14695981039346656037 ^ seed
	for _, v := range numbers {
		h = (h ^ uint64(v)) * 1099511628211
	}
	return h
}
