package outside

import (
	"context"
	"maps"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"fettle/engine/schedule"
)

// takeIn lays the engine's plan out on the slow method's own grid and says what
// is wrong with it there.
func takeIn(p *schedule.Problem, res schedule.Result) (*slow, string) {
	s := newSlow(p, res.Bought)
	for j, t := range res.Times {
		a := &p.Activities[j]
		switch {
		case t.Skipped:
			s.at[j] = slot{skipped: true}
		case a.State == schedule.Done:
			s.at[j] = slot{start: int(a.Start / hour), from: int(a.Start / hour), to: int(a.Finish / hour)}
		default:
			if t.Resume%hour != 0 {
				return s, a.ID + " does not start on the hour"
			}
			people := slices.Sorted(slices.Values(t.People))
			if !slices.ContainsFunc(teams(a), func(team []int) bool { return slices.Equal(team, people) }) {
				return s, a.ID + " has a team that may not do it"
			}
			x, ok := s.lay(j, int(t.Resume/hour), people)
			if s.at[j] = x; !ok || x.to*hour != int(t.Finish) || x.start*hour != int(t.Start) {
				return s, a.ID + " cannot be worked so"
			}
		}
		if !s.agrees(j) {
			return s, a.ID + " does not go with what is laid before it"
		}
	}
	return s, ""
}

// tally counts the problems of a kind, and those whose plan is as good as any.
type tally struct{ cases, equal int }

// kindOf sorts problems by what makes them hard for a search.
func kindOf(p *schedule.Problem) string {
	switch {
	case len(p.Overtime) > 0:
		return "overtime on offer"
	case len(p.Remedies) > 0:
		return "a window with a remedy"
	case slices.ContainsFunc(p.Links, func(l schedule.Link) bool { return l.Max }), slices.ContainsFunc(p.Activities, func(a schedule.Activity) bool { return a.Pinned }):
		return "windows and pins"
	}
	return "people, places and lags"
}

// floors are the shares of plans as good as any, a little below what is measured.
var floors = map[string]float64{
	"people, places and lags": 0.98, "windows and pins": 0.94, "a window with a remedy": 0.96, "overtime on offer": 0.95,
}

// TestSmall_AgainstEveryPlan holds the engine to the best of all plans, found
// by trying them, on five hundred problems.
func TestSmall_AgainstEveryPlan(t *testing.T) {
	want, cases, proved, long := 500, 0, 0, 0
	if testing.Short() {
		want = 100
	}
	tallies := map[string]tally{}
	for seed := uint64(0); cases < want; seed++ {
		p := small(rand.New(rand.NewPCG(seed, 11)), everything)
		res, err := schedule.Solve(context.Background(), p, schedule.Options{Seed: seed, Schedules: 1000})
		if err != nil || res.Status == schedule.OutOfHours {
			if seed > uint64(2*want) {
				t.Fatalf("%d of %d problems have a plan; the last: %v", cases, seed, err)
			}
			continue
		}
		cases++
		again, err := schedule.Solve(context.Background(), p, schedule.Options{Order: res.Order, Serial: res.Serial, Bought: res.Bought, Holds: res.Holds, Prefer: res.Prefer})
		if err != nil || !reflect.DeepEqual(again.Times, res.Times) {
			t.Errorf("seed %d: the plan does not come again: %v\n%+v\n%+v", seed, err, res.Times, again.Times)
		}
		s, wrong := takeIn(&p, res)
		if wrong != "" {
			t.Errorf("seed %d: %s\n%+v\n%+v", seed, wrong, p, res.Times)
			continue
		}
		got := s.value(len(s.at))
		best, most := optimum(&p, got)
		if most > mostNodes {
			long++
			continue
		}
		kind := kindOf(&p)
		one := tallies[kind]
		one.cases++
		if best == got {
			one.equal++
		}
		tallies[kind] = one
		if res.Status == schedule.ProvedBest {
			if proved++; best != got {
				t.Errorf("seed %d: %+v is said to be proved, but there is %+v", seed, got, best)
			}
		}
		if len(p.Overtime) == 0 && int(res.LowerBound) > best.last*hour {
			t.Errorf("seed %d: the lower bound %d is above a plan that ends at %d", seed, res.LowerBound, best.last*hour)
		}
	}
	t.Logf("%d problems: %d said to be proved best, %d too long to try every plan", cases, proved, long)
	if long > want/20 {
		t.Errorf("%d problems are too long to try every plan", long)
	}
	for _, kind := range slices.Sorted(maps.Keys(floors)) {
		one, floor := tallies[kind], floors[kind]
		t.Logf("%s: %d of %d as good as any", kind, one.equal, one.cases)
		if !testing.Short() && float64(one.equal) < floor*float64(one.cases) {
			t.Errorf("%s: %d of %d as good as any, want at least %.0f %%", kind, one.equal, one.cases, 100*floor)
		}
	}
}

// optimum is the best value of any plan with any overtime, and the nodes of the
// longest search.
func optimum(p *schedule.Problem, best value) (value, int) {
	most := 0
	for bought := range 1 << len(p.Overtime) {
		var list []int
		for w := range p.Overtime {
			if bought>>w&1 == 1 {
				list = append(list, w)
			}
		}
		s := newSlow(p, list)
		s.best = best
		s.search(0)
		best, most = s.best, max(most, s.nodes)
	}
	return best, most
}
