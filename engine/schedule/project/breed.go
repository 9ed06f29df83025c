package project

import (
	"math"
	"math/rand/v2"
)

// breeder makes lists for one side out of plans of the other.
type breeder struct {
	net    *net
	rng    *rand.Rand
	energy []float64 // work of each activity of side 0, weighted by how scarce its resources are
	taken  []bool
	block  []bool
	swaps  float64 // chance of each neighbouring pair to change places
}

// The shares of the operators, found on every second file of the j120 set at
// 1,000 and 5,000 schedules; docs/engine/schedule-search.md has the table.
const (
	peakShare  = 0.8  // children by peak crossover, the rest by two-point crossover
	peakTries  = 5    // windows drawn, of which the densest is inherited
	peakShort  = 0.1  // shortest window, of the activities
	peakLong   = 0.5  // longest
	toSerial   = 0.2  // chance of a parallel gene to turn serial in a child
	toParallel = 0.03 // and the other way
)

func newBreeder(n *net, rng *rand.Rand) *breeder {
	return &breeder{
		net: n, rng: rng, energy: energy(n), swaps: swapRate(n.n),
		taken: make([]bool, n.n), block: make([]bool, n.n),
	}
}

// swapRate is 2 % for 120 activities and more for fewer: where projects are
// small, lists come back sooner.
func swapRate(n int) float64 {
	return min(0.5, 0.02*math.Pow(120/float64(max(1, n)), 1.5))
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

// swap lets neighbours change places where precedence allows it.
func (b *breeder) swap(s *side, list []int32) {
	for i := range len(list) - 1 {
		if b.rng.Float64() < b.swaps && !s.after(list[i], list[i+1]) {
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
