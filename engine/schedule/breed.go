package schedule

import "math/rand/v2"

// The shares of the operators; docs/engine/schedule.md has what was tried.
const (
	peakShare  = 0.8  // children by peak crossover, the rest by two-point crossover
	peakTries  = 5    // windows drawn, of which the densest is inherited
	peakShort  = 0.1  // shortest window, of the activities
	peakLong   = 0.5  // longest
	swapRate   = 0.02 // chance of each neighbouring pair to change places
	toSerial   = 0.2  // chance of a parallel gene to turn serial in a child
	toParallel = 0.03 // and the other way
)

// breeder makes lists out of lists.
type breeder struct {
	n      *net
	rng    *rand.Rand
	sample *sampler
	pred   [][]int
	energy []float64 // work of each activity, weighted by how scarce its people and places are
	taken  []bool
	block  []bool
}

func newBreeder(n *net, rng *rand.Rand) *breeder {
	c := len(n.Activities)
	b := &breeder{n: n, rng: rng, sample: newSampler(c), energy: energy(n), taken: make([]bool, c), block: make([]bool, c), pred: make([][]int, c)}
	for j := range b.pred {
		for _, l := range n.in[j] {
			b.pred[j] = append(b.pred[j], n.Links[l].From)
		}
	}
	return b
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
	clear(b.taken)
	if b.rng.Float64() < peakShare {
		b.peak(mother.heir, father, c.order)
	} else {
		b.twoPoint(mother.heir, father.heir, c.order)
	}
	b.swap(c.order)
}

// twoPoint takes the head and the tail from the mother and between them the
// order of the father [Hartmann1998]. Both keep precedence, so the child does.
func (b *breeder) twoPoint(mother, father, list []int) {
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

// peak takes a stretch of the father in which people and places are well used,
// as one block [Valls2008], at the place in the mother's list where it stood in
// the father's; predecessors that come too late are pulled before it.
func (b *breeder) peak(mother []int, father *candidate, list []int) {
	from, to := b.dense(father)
	clear(b.block)
	for _, j := range father.heir[from:to] {
		b.block[j] = true
	}
	at, i := 0, 0
	for head := 0; i < len(list) && head < from; i++ {
		if j := mother[i]; !b.block[j] {
			at = b.pull(j, list, at)
			head++
		}
	}
	for _, j := range father.heir[from:to] {
		at = b.pull(j, list, at)
	}
	for ; i < len(list); i++ {
		at = b.pull(mother[i], list, at)
	}
}

// pull appends j to the list, after those of its predecessors that are missing.
func (b *breeder) pull(j int, list []int, at int) int {
	if b.taken[j] {
		return at
	}
	b.taken[j] = true
	for _, p := range b.pred[j] {
		at = b.pull(p, list, at)
	}
	list[at] = j
	return at + 1
}

// dense draws windows of the father's list and returns the one with the most
// energy for the time it spans.
func (b *breeder) dense(father *candidate) (from, to int) {
	n := len(father.heir)
	length := int(float64(n) * (peakShort + float64((peakLong-peakShort)*b.rng.Float64())))
	length = min(n, max(2, length))
	most := -1.0
	for range peakTries {
		x := b.rng.IntN(n - length + 1)
		if d := b.density(father, x, x+length); d > most {
			most, from = d, x
		}
	}
	return from, from + length
}

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

// swap lets neighbours change places where precedence allows it.
func (b *breeder) swap(list []int) {
	for i := range len(list) - 1 {
		if b.rng.Float64() < swapRate && !b.follows(list[i], list[i+1]) {
			list[i], list[i+1] = list[i+1], list[i]
		}
	}
}

func (b *breeder) follows(i, j int) bool {
	for _, p := range b.pred[j] {
		if p == i {
			return true
		}
	}
	return false
}
