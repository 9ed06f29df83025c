package project

import (
	"context"
	"math"
	"math/rand/v2"

	"fettle/engine/schedule/activitylist"
)

// island searches alone: two populations, one of each side. The children of
// one live in the other, so every child is also justified against its parents,
// for one schedule instead of three [DebelsVanhoucke2005].
type island struct {
	net   *net
	dec   *decoder
	rules *activitylist.Sampler[int32]
	breed *breeder
	rng   *rand.Rand

	pop   [2]population
	side  int      // whose turn it is to be parents
	size  int      // plans a side
	seeds int      // lists drawn since the last restart
	list  []int32  // scratch
	out   *plan    // a plan out of use
	seen  []uint64 // hashes of lists, the latest of each slot
	tired int      // children in a row that were not taken

	used, limit int   // activities given a start
	lower       int32 // nothing is shorter
	last        int32 // makespan of the best schedule
	finish      []int32
	late        bool // the best was pushed to the end; forward is still to come
	stats       Stats
	cut         bool
}

// newIsland has a budget of whole schedules.
func newIsland(n *net, seed uint64, number, schedules int) *island {
	rng := rand.New(rand.NewPCG(seed, uint64(number)))
	return &island{
		net: n, dec: newDecoder(n), rules: activitylist.NewSampler[int32](n.n, bias), breed: newBreeder(n, rng), rng: rng,
		size: populationSize(schedules, n.n), list: make([]int32, n.n), seen: make([]uint64, 1<<15),
		limit: schedules * n.n, lower: n.path, last: math.MaxInt32, finish: make([]int32, n.n),
	}
}

// populationSize follows the budget and is larger for small projects, of which
// more schedules are tried in the same time: about 28 plans a side for 1,000
// schedules of 120 activities, 75 for 5,000, 300 for 50,000; twice that for 30.
func populationSize(schedules, n int) int {
	size := 28 * math.Pow(float64(schedules)/1000, 0.6) * math.Sqrt(120/float64(max(1, n)))
	return max(8, int(size))
}

func (i *island) done() bool { return i.cut || i.last <= i.lower }

// room says whether a whole schedule is left of so many starts.
func (i *island) room(until int) bool { return i.used+i.net.n <= until && !i.done() }

// run searches until so many starts have been given.
func (i *island) run(ctx context.Context, until int) {
	for i.room(until) {
		if i.stats.Passes > 0 && i.stats.Passes&63 == 0 && ctx.Err() != nil {
			i.cut = true
			return
		}
		switch {
		case len(i.pop[0].plans) < i.size || len(i.pop[1].plans) < i.size:
			i.seed()
		case i.tired > 8*i.size+100:
			i.restart()
		default:
			i.generation()
		}
	}
}

// seed adds a plan to the first generation: a list by the priority rule, from
// either side, serial or parallel, justified once. The first four are the rule
// itself, the others are drawn around it; three in four of these are serial.
func (i *island) seed() {
	k, rng, parallel := i.seeds&1, i.rng, i.seeds&2 == 2
	if i.seeds < 4 {
		rng = nil
	} else {
		parallel = i.rng.IntN(4) == 0
	}
	i.seeds++
	i.rules.List(i.net.sides[k].graph, i.net.rule[k], rng, i.list)
	p := i.generate(k, i.list, parallel)
	if i.room(i.limit) {
		q := i.generate(1-k, p.order, false)
		q.parallel = parallel
		i.out = p
		p, k = q, 1-k
	}
	i.pop[k].add(p)
}

// restart keeps the best plan of each side and draws the others anew.
func (i *island) restart() {
	for k := range i.pop {
		p := i.pop[k].plans[i.pop[k].best()]
		i.pop[k] = population{}
		i.pop[k].add(p)
	}
	i.tired, i.stats.Restarts = 0, i.stats.Restarts+1
}
