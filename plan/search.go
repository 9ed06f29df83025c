package plan

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
)

// listShare is the part of the budget that is spent on lists of tasks: a list
// worked through and checked costs as much time as several schedules.
const listShare = 8

// islands share the engine's budget. The answer depends on their number, so it
// is the same on every machine.
const islands = 2

// search returns the lists that are better than the present one, the cheapest
// first, with as few tasks moved and as few Saturdays bought as they need.
func (h *hunt) search(ctx context.Context, schedules int) ([]trial, error) {
	stands, err := h.try(ctx, h.present, nil)
	if err != nil || h.stands.Status == schedule.ProvedBest && len(h.saturdays) == 0 {
		return nil, err
	}
	plan, err := schedule.Solve(ctx, h.problem, schedule.Options{
		Schedules: schedules, Seed: h.seed, Workers: islands, Foreman: true, Bound: h.stands.LowerBound})
	if err != nil {
		return nil, err
	}
	h.learn(plan.LowerBound)
	lists := [][]build.TaskID{h.present, h.byStart(plan), h.byOrder(plan)}
	sets := h.sets(plan)
	var better []trial
	for _, bought := range sets {
		t, err := h.climb(ctx, lists, bought, schedules/listShare/len(sets))
		if err != nil {
			return nil, err
		}
		if h.days(t, stands) < 0 {
			better = append(better, t)
		}
	}
	slices.SortStableFunc(better, func(a, b trial) int {
		return cmp.Or(cmp.Compare(a.result.Price, b.result.Price), h.compare(a, b))
	})
	return better, nil
}

// learn takes in a better bound on plans in the hours that are agreed.
func (h *hunt) learn(bound schedule.Minute) {
	h.stands.LowerBound = max(h.stands.LowerBound, bound)
	if h.stands.LowerBound == h.stands.Makespan {
		h.stands.Status = schedule.ProvedBest
	}
}

// sets are the Saturdays worth a try together: none, those that the search
// bought, and all that are offered.
func (h *hunt) sets(plan schedule.Result) [][]int {
	sets := [][]int{nil}
	if n := len(plan.Bought); n > 0 && n < len(h.saturdays) {
		sets = append(sets, plan.Bought)
	}
	if n := len(h.saturdays); n > 0 {
		all := make([]int, n)
		for i := range all {
			all[i] = i
		}
		sets = append(sets, all)
	}
	return sets
}

// byStart orders the tasks as the search's plan begins their hours.
func (h *hunt) byStart(plan schedule.Result) []build.TaskID {
	return h.sorted(func(j int) int { return int(plan.Times[j].Start) })
}

// byOrder orders the tasks as the search's own list does.
func (h *hunt) byOrder(plan schedule.Result) []build.TaskID {
	place := make([]int, len(plan.Order))
	for i, j := range plan.Order {
		place[j] = i
	}
	return h.sorted(func(j int) int { return place[j] })
}

// sorted orders the tasks by the least key of their hours; what needs nobody
// stays behind the task that stands before it.
func (h *hunt) sorted(key func(activity int) int) []build.TaskID {
	least := map[build.TaskID]int{}
	last := 0
	for _, id := range h.present {
		k, hours := 0, false
		for _, j := range h.tasks[id] {
			if h.problem.Activities[j].Kind == schedule.Labour && !h.onlyIf(j) && (!hours || key(j) < k) {
				k, hours = key(j), true
			}
		}
		if hours {
			last = k
		}
		least[id] = last
	}
	list := slices.Clone(h.present)
	slices.SortStableFunc(list, func(a, b build.TaskID) int { return cmp.Compare(least[a], least[b]) })
	return list
}

// climb takes the best of some lists and moves tasks in it as long as that
// helps and the tries last: first those that waited for a person or a bay on
// the way to the last finish, then any.
func (h *hunt) climb(ctx context.Context, lists [][]build.TaskID, bought []int, tries int) (trial, error) {
	var best trial
	rng := rand.New(rand.NewPCG(h.seed, uint64(len(bought))))
	var next [][]build.TaskID // lists to try before chance is asked
	for i := 0; i < tries || i < len(lists); i++ {
		var list []build.TaskID
		switch {
		case i < len(lists):
			list = lists[i]
		case len(next) > 0:
			list, next = next[0], next[1:]
		default:
			list = anyMove(best.order, rng)
		}
		t, err := h.try(ctx, list, bought)
		if err != nil {
			return best, err
		}
		if i > 0 && h.compare(t, best) > 0 {
			continue
		}
		if i == 0 || h.compare(t, best) < 0 {
			next = h.overtakes(t)
		}
		best = t
	}
	return h.trim(ctx, best)
}

// overtakes are the lists in which a task that waited for a person or a bay on
// the way to the last finish comes before the one it waited for.
func (h *hunt) overtakes(t trial) [][]build.TaskID {
	var lists [][]build.TaskID
	for _, s := range schedule.Chain(h.problem, t.result) {
		if s.Binding.Cause != schedule.ByPerson && s.Binding.Cause != schedule.ByPlace || s.Binding.Activity < 0 {
			continue
		}
		late, early := h.taskOf(s.Activity), h.taskOf(s.Binding.Activity)
		if late != early {
			lists = append(lists, before(t.order, late, early))
		}
	}
	return lists
}

func (h *hunt) taskOf(activity int) build.TaskID {
	return build.TaskID(h.problem.Activities[activity].Group)
}

// before puts one task right before another.
func before(order []build.TaskID, id, next build.TaskID) []build.TaskID {
	list := without(order, id)
	return slices.Insert(list, slices.Index(list, next), id)
}

func without(order []build.TaskID, id build.TaskID) []build.TaskID {
	return slices.DeleteFunc(slices.Clone(order), func(other build.TaskID) bool { return other == id })
}

// anyMove moves one or two tasks anywhere.
func anyMove(order []build.TaskID, rng *rand.Rand) []build.TaskID {
	list := order
	for range 1 + rng.IntN(2) {
		id := list[rng.IntN(len(list))]
		list = without(list, id)
		list = slices.Insert(list, rng.IntN(len(list)+1), id)
	}
	return list
}
