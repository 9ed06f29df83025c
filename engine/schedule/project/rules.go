package project

import "math/rand/v2"

// sampler draws lists that keep precedence. Among what could come next, the
// smaller the value of an activity the likelier it is taken: its weight is its
// regret, the distance to the worst, to the power of bias.
type sampler struct {
	ready  []int32
	wait   []int32
	weight []float64 // running sums
}

const bias = 3 // 2 to 5 gave equally good searches of large projects, 1 to 3 better ones of small: see docs/engine/schedule-search.md

func newSampler(n int) *sampler {
	return &sampler{ready: make([]int32, 0, n), wait: make([]int32, n), weight: make([]float64, n)}
}

// list fills order with all activities of a side. Without rng the smallest
// value goes first.
func (m *sampler) list(s *side, value []int32, rng *rand.Rand, order []int32) {
	ready := m.ready[:0]
	for j := range int32(s.n) {
		if m.wait[j] = int32(len(s.pred.of(j))); m.wait[j] == 0 {
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
		for _, to := range s.succ.of(j) {
			if m.wait[to]--; m.wait[to] == 0 {
				ready = append(ready, to)
			}
		}
	}
}

func smallest(ready, value []int32) int {
	at := 0
	for i, j := range ready {
		if b := ready[at]; value[j] < value[b] || value[j] == value[b] && j < b {
			at = i
		}
	}
	return at
}

func (m *sampler) draw(ready, value []int32, rng *rand.Rand) int {
	worst := value[ready[0]]
	for _, j := range ready {
		worst = max(worst, value[j])
	}
	sum := 0.0
	for i, j := range ready {
		regret := float64(worst-value[j]) + 1
		w := regret
		for range bias - 1 {
			w *= regret
		}
		sum += w
		m.weight[i] = sum
	}
	x := rng.Float64() * sum
	for i := range ready {
		if x < m.weight[i] {
			return i
		}
	}
	return len(ready) - 1
}

// latest is the priority rule: the latest finish that the longest path allows.
func latest(n *net, side int) []int32 {
	s := &n.sides[side]
	value := make([]int32, s.n)
	for j := range value {
		value[j] = n.path - s.tail[j] + s.dur[j]
	}
	return value
}
