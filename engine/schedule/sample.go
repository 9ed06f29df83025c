package schedule

import "math/rand/v2"

// sampler draws lists that keep precedence. Among what could come next, the
// smaller the value of an activity the likelier it is taken: its weight is its
// regret, the distance to the worst, to the power of bias.
type sampler struct {
	ready  []int
	wait   []int
	weight []float64 // running sums
}

const bias = 5 // the better first populations of engine/schedule/project came of it

func newSampler(n int) *sampler {
	return &sampler{ready: make([]int, 0, n), wait: make([]int, n), weight: make([]float64, n)}
}

// list fills order with all activities. Without rng the smallest value goes first.
func (m *sampler) list(n *net, value []Minute, rng *rand.Rand, order []int) {
	ready := m.ready[:0]
	for j := range order {
		if m.wait[j] = len(n.in[j]); m.wait[j] == 0 {
			ready = append(ready, j)
		}
	}
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
		for _, l := range n.out[j] {
			to := n.Links[l].To
			if m.wait[to]--; m.wait[to] == 0 {
				ready = append(ready, to)
			}
		}
	}
}

func smallest(ready []int, value []Minute) int {
	at := 0
	for i, j := range ready {
		if b := ready[at]; value[j] < value[b] || value[j] == value[b] && j < b {
			at = i
		}
	}
	return at
}

func (m *sampler) draw(ready []int, value []Minute, rng *rand.Rand) int {
	worst := value[ready[0]]
	for _, j := range ready {
		worst = max(worst, value[j])
	}
	sum := 0.0
	for i, j := range ready {
		regret := float64(worst-value[j]) + 1
		w := regret
		for range bias - 1 {
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
