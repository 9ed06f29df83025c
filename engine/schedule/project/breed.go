package project

import (
	"math"
	"math/rand/v2"

	"fettle/engine/schedule/activitylist"
)

// breeder makes lists for one side out of plans of the other.
type breeder struct {
	net    *net
	rng    *rand.Rand
	energy []float64 // work of each activity of side 0, weighted by how scarce its resources are
	cross  *activitylist.Crosser[int32]
	swaps  float64 // chance of each neighbouring pair to change places
}

// The shares of the operators, found on every second file of the j120 set at
// 1,000 and 5,000 schedules; docs/engine/schedule-search.md has the table.
const (
	peakShare  = 0.8  // children by peak crossover, the rest by two-point crossover
	toSerial   = 0.2  // chance of a parallel gene to turn serial in a child
	toParallel = 0.03 // and the other way
)

func newBreeder(n *net, rng *rand.Rand) *breeder {
	return &breeder{
		net: n, rng: rng, energy: energy(n), swaps: swapRate(n.n), cross: activitylist.NewCrosser[int32](n.n, rng),
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
	g := b.net.sides[1-k].graph
	if b.rng.Float64() < peakShare {
		b.cross.Peak(g, mother.order, father.order, list, func(from, to int) float64 { return b.density(k, father, from, to) })
	} else {
		b.cross.TwoPoint(mother.order, father.order, list)
	}
	b.cross.Swap(g, b.swaps, list)
}

// gene says whether the child is generated in parallel.
func (b *breeder) gene(mother *plan) bool {
	r := b.rng.Float64()
	if mother.parallel {
		return r >= toSerial
	}
	return r < toParallel
}

// density is the energy of a stretch of a list for the time it spans.
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
