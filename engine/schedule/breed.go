package schedule

import (
	"math/rand/v2"

	"fettle/engine/schedule/activitylist"
)

// The shares of the operators; docs/engine/schedule.md has what was tried.
const (
	peakShare  = 0.8  // children by peak crossover, the rest by two-point crossover
	bias       = 5    // how strongly drawn lists follow a rule
	swapRate   = 0.02 // chance of each neighbouring pair to change places
	toSerial   = 0.2  // chance of a parallel gene to turn serial in a child
	toParallel = 0.03 // and the other way
)

// breeder makes lists out of lists.
type breeder struct {
	n      *net
	rng    *rand.Rand
	sample *activitylist.Sampler[int]
	cross  *activitylist.Crosser[int]
	graph  activitylist.Graph[int]
	energy []float64 // work of each activity, weighted by how scarce its people and places are
}

func newBreeder(n *net, rng *rand.Rand) *breeder {
	c := len(n.Activities)
	return &breeder{
		n: n, rng: rng, energy: energy(n), graph: n.graph(),
		sample: activitylist.NewSampler[int](c, bias), cross: activitylist.NewCrosser[int](c, rng),
	}
}

// graph is who waits for whom, once for each link.
func (n *net) graph() activitylist.Graph[int] {
	g := activitylist.Graph[int]{Pred: make([][]int, len(n.Activities)), Succ: make([][]int, len(n.Activities))}
	for j := range g.Pred {
		for _, l := range n.in[j] {
			g.Pred[j] = append(g.Pred[j], n.Links[l].From)
		}
		for _, l := range n.out[j] {
			g.Succ[j] = append(g.Succ[j], n.Links[l].To)
		}
	}
	return g
}

// energy is by activity what it takes of people and places, each weighted by
// how much is asked of it in all.
func energy(n *net) []float64 {
	people, places := make([]float64, len(n.People)), make([]float64, len(n.Places))
	share := func(j int) float64 {
		return float64(n.Activities[j].Work) * float64(n.heads(j)) / float64(max(1, len(n.Activities[j].Who)))
	}
	part := func(j int, u Use) float64 {
		return float64(n.Activities[j].Work) * float64(u.Units) / float64(max(1, n.Places[u.Place].Units))
	}
	for j := range n.Activities {
		for _, p := range n.Activities[j].Who {
			people[p] += share(j)
		}
		for _, u := range n.Activities[j].Uses {
			places[u.Place] += part(j, u)
		}
	}
	e := make([]float64, len(n.Activities))
	for j := range e {
		for _, p := range n.Activities[j].Who {
			e[j] += float64(share(j) * people[p])
		}
		for _, u := range n.Activities[j].Uses {
			e[j] += float64(part(j, u) * places[u.Place])
		}
	}
	return e
}

// child writes the list of c out of what two plans hand on.
func (b *breeder) child(mother, father, c *candidate) {
	if b.rng.Float64() < peakShare {
		b.cross.Peak(b.graph, mother.heir, father.heir, c.order, func(from, to int) float64 { return b.density(father, from, to) })
	} else {
		b.cross.TwoPoint(mother.heir, father.heir, c.order)
	}
	b.cross.Swap(b.graph, swapRate, c.order)
}

// density is the energy of a stretch of a list for the time it spans.
func (b *breeder) density(c *candidate, from, to int) float64 {
	sum, first, end := 0.0, Never, Minute(0)
	for _, j := range c.heir[from:to] {
		if c.skipped[j] || b.n.Activities[j].State == Done {
			continue
		}
		first, end = min(first, c.resume[j]), max(end, c.finish[j])
		sum += b.energy[j]
	}
	return sum / float64(max(1, end-first))
}
