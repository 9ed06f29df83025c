package schedule

import (
	"context"
	"slices"

	"fettle/fault"
)

// Solve plans. The first plan is the parallel generation of the list, as a
// foreman would work it; with a budget of Options.Schedules the search then
// looks for one that is better by Score. Bad input is a fault of kind Invalid
// that names the rule and the activity; every other outcome is a Status. The
// same problem, options and number of workers give the same result. It has
// passed Check.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	n, err := compile(p)
	if err != nil {
		return Result{}, err
	}
	if err := checkOrder(&p, o.Order); err != nil {
		return Result{}, err
	}
	if err := checkStart(&p, &o); err != nil {
		return Result{}, err
	}
	s := newSearch(n, o)
	s.improve(ctx)
	res := s.result()
	if err := Check(p, res); err != nil {
		return Result{}, &fault.Fault{Kind: fault.Internal, Msg: "the plan failed its own check: " + err.Error(), Cause: err}
	}
	return res, nil
}

// checkStart checks what describes the plan to start from beside its list.
func checkStart(p *Problem, o *Options) error {
	for _, w := range o.Bought {
		if !inside(w, len(p.Overtime)) {
			return broken(ruleIndex, "options", "overtime %d of %d", w, len(p.Overtime))
		}
	}
	for _, h := range o.Holds {
		if !inside(h.Activity, len(p.Activities)) {
			return broken(ruleIndex, "options", "a hold on activity %d of %d", h.Activity, len(p.Activities))
		}
		if !amount(h.Until) {
			return broken(ruleAmount, "options", "a hold until %d", h.Until)
		}
	}
	return checkPrefer(p, o.Prefer)
}

// natural is the order of Activities.
func natural(n int) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	return order
}

// result puts the best plan back into a run, explains it and writes it down.
func (s *search) result() Result {
	i := s.best()
	if i.thinned != i.best.hash && s.o.Schedules > 0 {
		i.thin() // with what is left of the budget of a plan that was proved
	}
	r, b := i.run, i.best
	order := i.list(b)
	r.buy(b.bought)
	b.put(r)
	res := Result{
		Status: s.status(), Times: make([]Timing, len(b.start)), Makespan: b.Length + s.n.Now, Lateness: b.Late,
		LowerBound: i.bound, Order: order, Serial: b.serial, Price: b.Price, Score: b.Score, Stats: s.stats(),
	}
	for j := range res.Times {
		res.Times[j] = timing(r, j)
	}
	for _, l := range s.n.maxLags {
		k := &s.n.Links[l]
		if r.skipped[k.From] || r.skipped[k.To] || i.judge.remedied(r, l) {
			continue
		}
		if by := s.n.over(l, b.start, b.finish); by > 0 {
			res.Overruns = append(res.Overruns, Overrun{Link: l, By: by})
		}
	}
	for m := range s.n.Remedies {
		if !b.skipped[s.n.Remedies[m].Activity] {
			res.Remedies = append(res.Remedies, m)
		}
	}
	for _, j := range i.judge.near {
		if i.judge.moved(r, j) {
			res.Moved = append(res.Moved, j)
		}
	}
	for j, h := range b.hold {
		if h > s.n.Now {
			res.Holds = append(res.Holds, Hold{Activity: j, Until: h})
		}
	}
	res.Prefer = s.n.preferences(b)
	for w, yes := range b.bought {
		if yes {
			res.Bought = append(res.Bought, w)
		}
	}
	return res
}

func timing(r *run, j int) Timing {
	if r.skipped[j] {
		return Timing{Skipped: true, Binding: nowhere(r.now)}
	}
	t := Timing{Start: r.start[j], Resume: r.resume[j], Finish: r.finish[j], Binding: r.binding(j)}
	if t.Start < Never && r.n.Activities[j].State != Done {
		t.People = slices.Clone(r.chosen(j))
	}
	return t
}

// list is the priority list of the plan. For a serial plan it is the order of
// its starts, by which a foreman comes nearest to the plan, if that gives the
// plan again.
func (i *island) list(c *candidate) []int {
	if !c.serial {
		return slices.Clone(c.order)
	}
	order := slices.Clone(c.order)
	i.sort(order, func(j int) Minute { return c.start[j] })
	if i.decode(order, &c.genes); i.run.hash() != c.hash {
		copy(order, c.order)
	}
	return order
}

func (s *search) status() Status {
	b := s.best()
	switch {
	case b.best.Length+s.n.Now >= Never:
		return OutOfHours
	case b.proved():
		return ProvedBest
	}
	for _, i := range s.islands {
		if i.cut {
			return Interrupted
		}
	}
	return BestFound
}
