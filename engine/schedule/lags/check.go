package lags

import "fettle/fault"

// Check recomputes from the raw problem that starts is a schedule: every start
// at least 0, every lag kept, no resource over its capacity in any slot. It
// shares no code with the search. What it finds is a fault of kind Conflict;
// a bad problem is one of kind Invalid.
func Check(p Problem, starts []int) error {
	if err := validate(&p); err != nil {
		return err
	}
	if len(starts) != len(p.Duration) {
		return fault.New(fault.Conflict, "%d starts for %d activities", len(starts), len(p.Duration))
	}
	for i, s := range starts {
		if s < 0 {
			return fault.New(fault.Conflict, "starts at %d, before 0", s).At(activity(i))
		}
	}
	for k, l := range p.Lags {
		if starts[l.To]-starts[l.From] < l.Min {
			return fault.New(fault.Conflict, "activity %d starts at %d, less than %d after activity %d at %d",
				l.To, starts[l.To], l.Min, l.From, starts[l.From]).At(lagName(k))
		}
	}
	return checkLoad(&p, starts)
}

// checkLoad looks at every start: a load can only rise there.
func checkLoad(p *Problem, starts []int) error {
	load := make([]int, len(p.Capacity))
	for k, t := range starts {
		if p.Duration[k] == 0 {
			continue
		}
		clear(load)
		for i, s := range starts {
			if t < s || t >= s+p.Duration[i] {
				continue
			}
			for q, r := range p.Demand[i] {
				load[q] += r
			}
		}
		for q, c := range p.Capacity {
			if load[q] > c {
				return fault.New(fault.Conflict, "resource %d holds %d of %d at %d", q, load[q], c, t).At(activity(k))
			}
		}
	}
	return nil
}
