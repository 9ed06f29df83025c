package schedule

// Step is one link of the chain that explains a date.
type Step struct {
	Activity      int // index into Problem.Activities
	Start, Finish Minute
	Binding       Binding
	Lag           Minute // from the end of the cause until it let go: cure, transport, turn-round
	Closed        Minute // from then to the start: nights, days off, keeping back
}

// Chain says why the last date is what it is: the last finish first, then what
// it waited for, and so on back to now or to a fact. A result without
// activities has no chain.
func Chain(p Problem, res Result) []Step {
	last := -1
	for j, t := range res.Times {
		if !t.Skipped && (last < 0 || t.Finish > res.Times[last].Finish) {
			last = j
		}
	}
	var steps []Step
	for j := last; j >= 0 && len(steps) < len(res.Times); j = res.Times[j].Binding.Activity {
		steps = append(steps, step(p, res, j))
	}
	return steps
}

func step(p Problem, res Result, j int) Step {
	t := res.Times[j]
	s := Step{Activity: j, Start: t.Start, Finish: t.Finish, Binding: t.Binding, Closed: t.Resume - t.Binding.At}
	if by := t.Binding.Activity; by >= 0 && t.Binding.Link >= 0 {
		from := res.Times[by].Finish
		if p.Links[t.Binding.Link].FromStart {
			from = res.Times[by].Start
		}
		s.Lag = t.Binding.At - from
	}
	return s
}
