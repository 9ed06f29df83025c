package activitylist

import "math/rand/v2"

// Sampler draws lists. Among what could come next, the smaller the value of an
// activity the likelier it is taken: its weight is its regret, the distance to
// the worst plus 1, to the power of the bias. It allocates nothing when it draws.
type Sampler[T Index] struct {
	bias   int
	ready  []T
	wait   []int
	weight []float64 // running sums
}

// NewSampler returns a sampler of lists of n activities; the bias is at least 1.
func NewSampler[T Index](n, bias int) *Sampler[T] {
	return &Sampler[T]{bias: bias, ready: make([]T, 0, n), wait: make([]int, n), weight: make([]float64, n)}
}

// List fills order with all activities, by value. Without rng the smallest
// value goes first.
func (m *Sampler[T]) List(g Graph[T], value []int32, rng *rand.Rand, order []T) {
	m.ready = m.ready[:0]
	for j := range order {
		if m.wait[j] = len(g.Pred[j]); m.wait[j] == 0 {
			m.ready = append(m.ready, T(j))
		}
	}
	m.fill(g, value, rng, order)
}

// Part draws the order of a stretch of a list anew; what stands before and
// after it is left as it is.
func (m *Sampler[T]) Part(g Graph[T], value []int32, rng *rand.Rand, part []T) {
	m.ready = m.ready[:0]
	for j := range m.wait {
		m.wait[j] = -1
	}
	for _, j := range part {
		m.wait[j] = 0
	}
	for _, j := range part {
		for _, p := range g.Pred[j] {
			if m.wait[p] >= 0 {
				m.wait[j]++
			}
		}
		if m.wait[j] == 0 {
			m.ready = append(m.ready, j)
		}
	}
	m.fill(g, value, rng, part)
}

// fill takes one after the other of what is ready.
func (m *Sampler[T]) fill(g Graph[T], value []int32, rng *rand.Rand, order []T) {
	ready := m.ready
	for i := range order {
		at := 0
		if rng == nil {
			at = smallest(ready, value)
		} else {
			at = m.draw(ready, value, rng)
		}
		j := ready[at]
		ready[at] = ready[len(ready)-1]
		ready = ready[:len(ready)-1]
		order[i] = j
		for _, to := range g.Succ[j] {
			if m.wait[to]--; m.wait[to] == 0 {
				ready = append(ready, to)
			}
		}
	}
}

func smallest[T Index](ready []T, value []int32) int {
	at := 0
	for i, j := range ready {
		if b := ready[at]; value[j] < value[b] || value[j] == value[b] && j < b {
			at = i
		}
	}
	return at
}

func (m *Sampler[T]) draw(ready []T, value []int32, rng *rand.Rand) int {
	worst := value[ready[0]]
	for _, j := range ready {
		worst = max(worst, value[j])
	}
	sum := 0.0
	for i, j := range ready {
		regret := float64(worst-value[j]) + 1
		w := regret
		for range m.bias - 1 {
			w = float64(w * regret)
		}
		sum += w
		m.weight[i] = sum
	}
	x := float64(rng.Float64() * sum)
	for i := range ready {
		if x < m.weight[i] {
			return i
		}
	}
	return len(ready) - 1
}
