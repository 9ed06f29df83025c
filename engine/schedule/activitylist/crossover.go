package activitylist

import "math/rand/v2"

// The windows of peak crossover; docs/engine/schedule-search.md has what else
// was tried.
const (
	peakTries = 5   // windows drawn, of which the densest is inherited
	peakShort = 0.1 // shortest window, of the activities
	peakLong  = 0.5 // longest
)

// Crosser makes a list out of two. It allocates nothing when it crosses.
type Crosser[T Index] struct {
	rng          *rand.Rand
	taken, block []bool
}

// NewCrosser returns a crosser of lists of n activities.
func NewCrosser[T Index](n int, rng *rand.Rand) *Crosser[T] {
	return &Crosser[T]{rng: rng, taken: make([]bool, n), block: make([]bool, n)}
}

// TwoPoint takes the head and the tail from the mother and between them the
// order of the father [Hartmann1998]. Both keep precedence, so the child does.
func (c *Crosser[T]) TwoPoint(mother, father, list []T) {
	clear(c.taken)
	x, y := c.rng.IntN(len(list)), c.rng.IntN(len(list))
	x, y = min(x, y), max(x, y)
	at := copy(list, mother[:x])
	for _, j := range list[:at] {
		c.taken[j] = true
	}
	for _, j := range father {
		if at >= y {
			break
		}
		if !c.taken[j] {
			list[at], c.taken[j] = j, true
			at++
		}
	}
	for _, j := range mother {
		if !c.taken[j] {
			list[at] = j
			at++
		}
	}
}

// Peak takes the densest of some windows of the father, by density of the
// positions from (inclusive) to (exclusive), as one block [Valls2008], at the
// place in the mother's list where it stood in the father's; predecessors that
// come too late are pulled before it.
func (c *Crosser[T]) Peak(g Graph[T], mother, father, list []T, density func(from, to int) float64) {
	clear(c.taken)
	clear(c.block)
	from, to := c.dense(len(father), density)
	for _, j := range father[from:to] {
		c.block[j] = true
	}
	at, i := 0, 0
	for head := 0; i < len(list) && head < from; i++ {
		if j := mother[i]; !c.block[j] {
			at = c.pull(g, j, list, at)
			head++
		}
	}
	for _, j := range father[from:to] {
		at = c.pull(g, j, list, at)
	}
	for ; i < len(list); i++ {
		at = c.pull(g, mother[i], list, at)
	}
}

// pull appends j to the list, after those of its predecessors that are missing.
func (c *Crosser[T]) pull(g Graph[T], j T, list []T, at int) int {
	if c.taken[j] {
		return at
	}
	c.taken[j] = true
	for _, p := range g.Pred[j] {
		at = c.pull(g, p, list, at)
	}
	list[at] = j
	return at + 1
}

// dense draws windows and returns the one of the highest density.
func (c *Crosser[T]) dense(n int, density func(from, to int) float64) (from, to int) {
	length := int(float64(n) * (peakShort + float64((peakLong-peakShort)*c.rng.Float64())))
	length = min(n, max(2, length))
	most := -1.0
	for range peakTries {
		x := c.rng.IntN(n - length + 1)
		if d := density(x, x+length); d > most {
			most, from = d, x
		}
	}
	return from, from + length
}

// Swap lets neighbours change places at a rate, where precedence allows it.
func (c *Crosser[T]) Swap(g Graph[T], rate float64, list []T) {
	for i := range len(list) - 1 {
		if c.rng.Float64() < rate && !g.Follows(list[i], list[i+1]) {
			list[i], list[i+1] = list[i+1], list[i]
		}
	}
}
