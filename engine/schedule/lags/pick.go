package lags

import "math/rand/v2"

// picker chooses what to decide next.
type picker struct {
	weight []float64 // by variable: how often it took part in clashes lately
	gain   float64   // what one more clash is worth
	value  []int32   // by variable of a pair: its value in the best schedule
	busy   bool      // pairs by weight; otherwise starts in order of time
	near   near      // what is kept as it is in the best schedule
	rng    *rand.Rand
}

func newPicker(variables int, seed uint64) picker {
	p := picker{weight: make([]float64, variables), value: make([]int32, variables), gain: 1}
	p.rng = rand.New(rand.NewPCG(seed, 0))
	for k := range p.weight {
		p.weight[k] = 1e-3 * p.rng.Float64()
	}
	return p
}

// bump gives the variable of a side more weight.
func (s *search) bump(side int32) {
	p := &s.pick
	if p.weight[side>>1] += p.gain; p.weight[side>>1] < 1e100 {
		return
	}
	for k := range p.weight {
		p.weight[k] *= 1e-100
	}
	p.gain *= 1e-100
}

// fade makes clashes of the past count for less.
func (p *picker) fade() { p.gain /= 0.95 }

// guide makes the order of a schedule the one to try first.
func (s *search) guide(starts []int) {
	for k, o := range s.pairs {
		s.pick.value[int(s.n)+1+k] = 0
		if starts[o[0]] < starts[o[1]] {
			s.pick.value[int(s.n)+1+k] = 1
		}
	}
}

// choose is the next decision; ok is false when every start is fixed.
func (s *search) choose() (a atom, ok bool) {
	if s.pick.near.on {
		if a, ok = s.keep(); ok {
			return a, ok
		}
	}
	if s.pick.busy {
		if a, ok = s.busiest(); ok {
			return a, ok
		}
	}
	return s.earliest()
}

// earliest starts the activity that can start first, of these the most urgent.
func (s *search) earliest() (a atom, ok bool) {
	best := int32(-1)
	for i := range s.n {
		if s.fixed(i) {
			continue
		}
		if best < 0 || s.b[2*i] < s.b[2*best] || s.b[2*i] == s.b[2*best] && s.b[2*i+1] > s.b[2*best+1] {
			best = i
		}
	}
	if best < 0 {
		return a, false
	}
	return atom{2*best + 1, -s.b[2*best]}, true
}

// busiest decides the open pair of most weight.
func (s *search) busiest() (a atom, ok bool) {
	best := int32(-1)
	for v := s.n + 1; int(v) < len(s.b)/2; v++ {
		if !s.fixed(v) && (best < 0 || s.pick.weight[v] > s.pick.weight[best]) {
			best = v
		}
	}
	if best < 0 {
		return a, false
	}
	return s.ordered(best), true
}

// ordered decides a pair as it is in the best schedule.
func (s *search) ordered(v int32) atom {
	if s.pick.value[v] > 0 {
		return atom{2 * v, 1}
	}
	return atom{2*v + 1, 0}
}
