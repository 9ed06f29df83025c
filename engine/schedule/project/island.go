package project

import (
	"context"
	"math"
	"math/rand/v2"
)

// island searches alone: two populations, one of each side. The children of
// one live in the other, so every child is also justified against its parents,
// for one schedule instead of three [DebelsVanhoucke2005].
type island struct {
	net   *net
	dec   *decoder
	rules *sampler
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

	used, limit int   // schedules
	lower       int32 // nothing is shorter
	last        int32 // makespan of the best schedule
	finish      []int32
	late        bool // the best was pushed to the end; forward is still to come
	stats       Stats
	cut         bool
}

func newIsland(n *net, seed uint64, number, limit int) *island {
	rng := rand.New(rand.NewPCG(seed, uint64(number)))
	return &island{
		net: n, dec: newDecoder(n), rules: newSampler(n.n), breed: newBreeder(n, rng), rng: rng,
		size: populationSize(limit), list: make([]int32, n.n), seen: make([]uint64, 1<<15),
		limit: limit, lower: n.path, last: math.MaxInt32, finish: make([]int32, n.n),
	}
}

// populationSize follows the budget: about 28 plans a side for 1,000 schedules,
// 75 for 5,000, 300 for 50,000.
func populationSize(limit int) int {
	return max(8, int(28*math.Pow(float64(limit)/1000, 0.6)))
}

func (i *island) done() bool { return i.cut || i.last <= i.lower }

// run searches until so many schedules have been generated.
func (i *island) run(ctx context.Context, until int) {
	for i.used < until && !i.done() {
		if i.used > 0 && i.used&63 == 0 && ctx.Err() != nil {
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
	i.rules.list(&i.net.sides[k], i.net.rule[k], rng, i.list)
	p := i.generate(k, i.list, parallel)
	if i.used < i.limit && !i.done() {
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

// generation makes one child; it joins the other side.
func (i *island) generation() {
	k := i.side
	mother, father := i.tournament(k), i.tournament(k)
	for mother == father {
		father = i.rng.IntN(i.size)
	}
	a, b := i.pop[k].plans[mother], i.pop[k].plans[father]
	i.breed.child(k, a, b, i.list)
	parallel := i.breed.gene(a)
	if i.known(k, parallel) {
		i.tired++
		return
	}
	p := i.generate(1-k, i.list, parallel)
	out, taken := i.pop[1-k].offer(p)
	i.out, i.side = out, 1-k
	if i.tired++; taken {
		i.tired = 0
	}
}

// tournament is the better of two plans drawn.
func (i *island) tournament(k int) int {
	a, b := i.rng.IntN(i.size), i.rng.IntN(i.size)
	if i.pop[k].scores[b] < i.pop[k].scores[a] {
		return b
	}
	return a
}

// known says whether the list was generated before, as far as is remembered.
func (i *island) known(k int, parallel bool) bool {
	way := uint64(k)
	if parallel {
		way += 2
	}
	h := hash(i.list, way)
	slot := &i.seen[h>>32&uint64(len(i.seen)-1)]
	if *slot == h {
		i.stats.Repeats++
		return true
	}
	*slot = h
	return false
}

// generate makes one schedule and keeps it if it is the best.
func (i *island) generate(k int, order []int32, parallel bool) *plan {
	p := i.out
	if i.out = nil; p == nil {
		p = newPlan(i.net.n)
	}
	s := &i.net.sides[k]
	if p.parallel = parallel; parallel {
		p.last = i.dec.parallel(s, order, p.finish)
	} else {
		p.last = i.dec.serial(s, order, p.finish)
	}
	i.used++
	p.settle(s, i.dec)
	if p.last < i.last {
		i.keep(k, p)
	}
	return p
}

// keep copies the best schedule, as finishes of side 0.
func (i *island) keep(k int, p *plan) {
	i.last = p.last
	i.stats.Improved++
	if i.late = k == 1; !i.late {
		copy(i.finish, p.finish)
		return
	}
	n := len(p.finish)
	for j, f := range p.finish {
		i.finish[n-1-j] = p.last - f + i.net.sides[1].dur[j]
	}
}

// forward starts everything in the best schedule as early as can be.
func (i *island) forward() {
	if !i.late {
		return
	}
	s, p := &i.net.sides[0], newPlan(i.net.n)
	for j, f := range i.finish {
		i.dec.key[j] = f - s.dur[j]
	}
	i.dec.sort(i.list, i.last)
	i.last, i.late = i.dec.serial(s, i.list, p.finish), false
	i.finish = p.finish
	i.used++
}
