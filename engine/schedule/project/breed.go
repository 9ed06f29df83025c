package project

import "math/rand/v2"

// breeder makes lists for one side out of plans of the other.
type breeder struct {
	net    *net
	rng    *rand.Rand
	energy []float64 // work of each activity of side 0, weighted by how scarce its resources are
	taken  []bool
	block  []bool
}

// The shares of the operators, found on every second file of the j120 set at
// 1,000 and 5,000 schedules; docs/engine/schedule-search.md has the table.
const (
	peakShare  = 0.8  // children by peak crossover, the rest by two-point crossover
	peakTries  = 5    // windows drawn, of which the densest is inherited
	peakShort  = 0.1  // shortest window, of the activities
	peakLong   = 0.5  // longest
	swapRate   = 0.02 // chance of each neighbouring pair to change places
	toSerial   = 0.2  // chance of a parallel gene to turn serial in a child
	toParallel = 0.03 // and the other way
)

func newBreeder(n *net, rng *rand.Rand) *breeder {
	return &breeder{net: n, rng: rng, energy: energy(n), taken: make([]bool, n.n), block: make([]bool, n.n)}
}

func energy(n *net) []float64 {
	p := n.p
	load := make([]float64, len(p.Capacity)) // slots of full use
	each := func(j int32, k int) float64 {
		return float64(p.Demand[j][k]) * float64(p.Duration[j]) / float64(max(1, p.Capacity[k]))
	}
	for j := range p.Duration {
		for k := range load {
			load[k] += each(int32(j), k)
		}
	}
	e := make([]float64, n.n)
	for i, j := range n.topo {
		for k := range load {
			e[i] += float64(each(j, k) * load[k])
		}
	}
	return e
}

// child writes a list for side 1-k out of two plans of side k.
func (b *breeder) child(k int, mother, father *plan, list []int32) {
	clear(b.taken)
	if b.rng.Float64() < peakShare {
		b.peak(k, mother, father, list)
	} else {
		b.twoPoint(mother.order, father.order, list)
	}
	b.swap(&b.net.sides[1-k], list)
}

// gene says whether the child is generated in parallel.
func (b *breeder) gene(mother *plan) bool {
	r := b.rng.Float64()
	if mother.parallel {
		return r >= toSerial
	}
	return r < toParallel
}

// twoPoint takes the head and the tail from the mother and between them the
// order of the father [Hartmann1998]. Both lists keep precedence, so the child does.
func (b *breeder) twoPoint(mother, father, list []int32) {
	x, y := b.rng.IntN(len(list)), b.rng.IntN(len(list))
	x, y = min(x, y), max(x, y)
	at := copy(list, mother[:x])
	for _, j := range list[:at] {
		b.taken[j] = true
	}
	for _, j := range father {
		if at >= y {
			break
		}
		if !b.taken[j] {
			list[at], b.taken[j] = j, true
			at++
		}
	}
	for _, j := range mother {
		if !b.taken[j] {
			list[at] = j
			at++
		}
	}
}

// peak takes a stretch of the father in which the resources are well used, as
// one block [Valls2008], at the place in the mother's list where it stood in
// the father's; predecessors that come too late are pulled before it.
func (b *breeder) peak(k int, mother, father *plan, list []int32) {
	from, to := b.dense(k, father)
	clear(b.block)
	for _, j := range father.order[from:to] {
		b.block[j] = true
	}
	s, at, i := &b.net.sides[1-k], 0, 0
	for head := 0; i < len(list) && head < from; i++ {
		if j := mother.order[i]; !b.block[j] {
			at = b.pull(s, j, list, at)
			head++
		}
	}
	for _, j := range father.order[from:to] {
		at = b.pull(s, j, list, at)
	}
	for ; i < len(list); i++ {
		at = b.pull(s, mother.order[i], list, at)
	}
}

// pull appends j to the list, after those of its predecessors that are missing.
func (b *breeder) pull(s *side, j int32, list []int32, at int) int {
	if b.taken[j] {
		return at
	}
	b.taken[j] = true
	for _, p := range s.pred.of(j) {
		at = b.pull(s, p, list, at)
	}
	list[at] = j
	return at + 1
}

// dense draws windows of the father's list and returns the one with the most
// work for the time it spans.
func (b *breeder) dense(k int, father *plan) (from, to int) {
	n := len(father.order)
	length := int(float64(n) * (peakShort + float64((peakLong-peakShort)*b.rng.Float64())))
	length = min(n, max(2, length))
	most := -1.0
	for range peakTries {
		x := b.rng.IntN(n - length + 1)
		if d := b.density(k, father, x, x+length); d > most {
			most, from = d, x
		}
	}
	return from, from + length
}

func (b *breeder) density(k int, p *plan, from, to int) float64 {
	s, last := &b.net.sides[k], int32(len(p.order)-1)
	sum, first, end := 0.0, int32(longest), int32(0)
	for _, j := range p.order[from:to] {
		own := last - j
		first, end = min(first, p.finish[own]-s.dur[own]), max(end, p.finish[own])
		if k == 1 {
			own = j
		}
		sum += b.energy[own]
	}
	return sum / float64(max(1, end-first))
}

// swap lets neighbours change places where precedence allows it.
func (b *breeder) swap(s *side, list []int32) {
	for i := range len(list) - 1 {
		if b.rng.Float64() < swapRate && !s.after(list[i], list[i+1]) {
			list[i], list[i+1] = list[i+1], list[i]
		}
	}
}

// after says whether j is a direct successor of i.
func (s *side) after(i, j int32) bool {
	for _, p := range s.pred.of(j) {
		if p == i {
			return true
		}
	}
	return false
}
