package schedule

import (
	"context"
	"sync"
)

// search is the anytime ladder: the starting list, then islands that look for
// better ones until the budget is spent or the plan is proved best.
type search struct {
	n       *net
	o       Options
	islands []*island
}

const exchanges = 20 // between islands, evenly over the budget

// newSearch makes the plain plan.
func newSearch(n *net, o Options) *search {
	s := &search{n: n, o: o}
	first := newIsland(n, &s.o, 0, 1)
	first.limit = max(21, o.Schedules) // the plain plan is made in any case
	if first.bound = o.Bound; o.Bound == 0 {
		first.bound = lowerBound(first.run)
	}
	first.plain()
	s.islands = []*island{first}
	return s
}

// improve spends the budget.
func (s *search) improve(ctx context.Context) {
	first := s.islands[0]
	budget := s.o.Schedules - first.used
	if budget <= 0 || first.proved() || first.bound >= Never {
		return
	}
	first.bound = raised(s.n, first.bound, s.n.Now+first.best.Length, boundSteps(s.n, budget))
	if first.proved() {
		return
	}
	s.settle(budget)
	if first.enumerate(); first.proved() {
		return
	}
	for _, i := range s.islands {
		i.bound = first.bound
	}
	rounds := max(exchanges, s.o.Schedules/2000) // a tick of Progress at least every 2,000 schedules
	for r := 1; r <= rounds; r++ {
		s.together(ctx, r, rounds)
		if s.finished() {
			break
		}
		if r%(rounds/exchanges) == 0 {
			s.exchange()
		}
		if s.o.Progress != nil {
			s.o.Progress(s.stats().Schedules, s.o.Schedules)
		}
	}
}

// settle divides the budget between the islands.
func (s *search) settle(budget int) {
	first := s.islands[0]
	workers := min(max(1, s.o.Workers), budget)
	back := newRun(s.n.mirrored())
	rules := newRules(first.run, back, first.bound, first.best.order)
	for w := range workers {
		i := first
		if w > 0 {
			i = newIsland(s.n, &s.o, w, workers)
			i.without = first.without
			s.islands = append(s.islands, i)
		}
		i.of = workers
		i.ready(i.used+(budget+w)/workers, rules, first.best)
	}
}

// together runs every island to the end of a round.
func (s *search) together(ctx context.Context, round, rounds int) {
	var wait sync.WaitGroup
	for _, i := range s.islands {
		wait.Go(func() { i.search(ctx, max(1, i.limit*round/rounds)) })
	}
	wait.Wait()
}

// exchange gives each island the best plan of its neighbour.
func (s *search) exchange() {
	if len(s.islands) < 2 {
		return
	}
	guests := make([]*candidate, len(s.islands))
	for w, i := range s.islands {
		guests[w] = newCandidate(s.n)
		guests[w].copy(i.best)
	}
	for w, i := range s.islands {
		if g := guests[(w+1)%len(guests)]; len(i.pop) == i.size {
			i.offer(g)
		}
	}
}

func (s *search) finished() bool {
	for _, i := range s.islands {
		if i.done() {
			return true
		}
	}
	return false
}

// best is the island with the best plan, the first of several.
func (s *search) best() *island {
	b := s.islands[0]
	for _, i := range s.islands[1:] {
		if i.best.better(b.best) {
			b = i
		}
	}
	return b
}

func (s *search) stats() Stats {
	sum := Stats{}
	for _, i := range s.islands {
		sum.Schedules += i.used
		sum.Improved += i.stats.Improved
		sum.Repeats += i.stats.Repeats
		sum.Restarts += i.stats.Restarts
	}
	return sum
}
