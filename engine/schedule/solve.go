package schedule

import (
	"cmp"
	"context"
	"slices"

	"fettle/fault"
)

// Solve plans. The first plan is the parallel generation of the list, as a
// foreman would work it; with a budget of Options.Schedules the search then
// looks for one that is really better: less late, then less overrun of maximum
// lags and pins, then an earlier last finish. Bad input is a fault of kind
// Invalid that names the rule and the activity; every other outcome is a
// Status. The result has passed Check.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	n, err := compile(p)
	if err != nil {
		return Result{}, err
	}
	if err := checkOrder(&p, o.Order); err != nil {
		return Result{}, err
	}
	s := newSearch(n, o)
	s.plain()
	s.improve(ctx)
	res := s.result()
	if err := Check(p, res); err != nil {
		return Result{}, &fault.Fault{Kind: fault.Internal, Msg: "the plan failed its own check: " + err.Error(), Cause: err}
	}
	return res, nil
}

// natural is the order of Activities.
func natural(n int) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	return order
}

// result puts the best plan back into the run, explains it and writes it down.
func (s *search) result() Result {
	r, b := s.run, s.best
	copy(r.start, b.start)
	copy(r.resume, b.resume)
	copy(r.finish, b.finish)
	copy(r.heads, b.heads)
	copy(r.skipped, b.skipped)
	res := Result{
		Status: s.status(), Times: make([]Timing, len(b.start)), Makespan: b.last, Lateness: b.late,
		LowerBound: s.bound, Order: b.list(), Stats: s.stats,
	}
	for j := range res.Times {
		if b.skipped[j] {
			res.Times[j] = Timing{Skipped: true, Binding: nowhere(s.n.Now)}
			continue
		}
		t := Timing{Start: b.start[j], Resume: b.resume[j], Finish: b.finish[j], Binding: r.binding(j)}
		if b.start[j] < Never && s.n.Activities[j].State != Done {
			t.People = b.heads[s.n.first[j]:s.n.first[j+1]]
		}
		res.Times[j] = t
	}
	for _, l := range s.n.maxLags {
		if by := s.n.over(l, b.start, b.finish); by > 0 {
			res.Overruns = append(res.Overruns, Overrun{Link: l, By: by})
		}
	}
	return res
}

// list is the priority list of the plan. For a serial plan it is the order of
// its starts: the list by which a foreman comes nearest to it.
func (b plan) list() []int {
	order := slices.Clone(b.order)
	if b.serial {
		slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(b.start[x], b.start[y]) })
	}
	return order
}

func (s *search) status() Status {
	switch {
	case s.best.last >= Never:
		return OutOfHours
	case s.proved():
		return ProvedBest
	case s.cut:
		return Interrupted
	}
	return BestFound
}
