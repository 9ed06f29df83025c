package schedule

import (
	"context"
	"math"
	"math/rand/v2"

	"fettle/engine/schedule/activitylist"
)

// island searches alone, in a memory of its own.
type island struct {
	n      *net
	o      *Options
	run    *run
	mirror *run
	judge  *judge
	rules  *rules
	breed  *breeder
	redraw *activitylist.Sampler[int]
	back   activitylist.Graph[int] // of the mirror
	rng    *rand.Rand
	keys   []int64 // scratch of sorting

	number, of  int // which island, of how many
	used, limit int // schedules
	bound       Minute
	without     idea // left out, to measure what it gives

	best    *candidate
	start   *candidate // what the search began with
	pop     []*candidate
	size    int // plans in the population
	seeds   int // plans drawn
	tired   int // children in a row that were not taken
	spare   []*candidate
	holds   bool   // plans may hold activities back
	waits   waits  // what plans may keep back
	picks   []int  // activities with a choice of people, which plans may make
	kept    []bool // overtime that lean has tried to leave out
	lent    uint64 // the best plan that lean was done for
	thinned uint64 // the best plan that thin was done for
	stats   Stats
	cut     bool // the context ended
}

func newIsland(n *net, o *Options, number, of int) *island {
	rng := rand.New(rand.NewPCG(o.Seed, uint64(number)))
	i := &island{
		n: n, o: o, run: newRun(n), judge: newJudge(n), rng: rng, kept: make([]bool, len(n.Overtime)),
		number: number, of: of, keys: make([]int64, len(n.Activities)),
	}
	if !o.Foreman {
		i.picks, i.waits = n.choosers(), n.holdable()
	}
	i.holds = !o.Foreman && len(i.waits.before)+len(n.maxLags)+len(i.judge.near) > 0
	return i
}

// ready makes what only a search needs.
func (i *island) ready(limit int, rules *rules, best *candidate) {
	i.limit, i.rules, i.size = limit, rules, populationSize(limit, len(i.n.Activities))
	i.mirror, i.breed = newRun(i.n.mirrored()), newBreeder(i.n, i.rng)
	i.back = i.mirror.n.graph()
	i.redraw = activitylist.NewSampler[int](len(i.n.Activities), windowBias)
	i.start = newCandidate(i.n)
	i.start.copy(best)
	if i.best == nil {
		i.best = newCandidate(i.n)
		i.best.copy(best)
	}
}

// populationSize follows the budget, 40 plans of 60 activities for 1,000
// schedules, about 100 for 5,000, 400 for 50,000, and the size of the problem:
// large ones take more children to get anywhere.
func populationSize(limit, activities int) int {
	return max(8, int(40*math.Pow(float64(limit)/1000, 0.6)*math.Sqrt(60/float64(max(30, activities)))))
}

func (i *island) left() bool { return i.used < i.limit && !i.cut }
func (i *island) done() bool { return i.cut || i.proved() }

// proved says that no plan can be better: nothing is amiss, and the last finish
// is at the bound, which counts hours that can be bought as open.
func (i *island) proved() bool {
	b := i.best
	amiss := b.Remedial > 0 || b.Moved > 0 || b.Price > 0
	return !amiss && i.bound < Never && b.Length == i.bound-i.n.Now
}

// search goes on until so many schedules have been generated.
func (i *island) search(ctx context.Context, until int) {
	for i.used < until && !i.done() {
		if i.cut = ctx.Err() != nil; i.cut {
			return
		}
		switch {
		case i.best.Price > 0 && i.lent != i.best.hash && (i.tired > i.size || i.limit-i.used <= 2*len(i.kept)):
			i.lean()
		case i.thinned != i.best.hash && i.limit-i.used <= min(i.limit/20, i.extras()):
			i.thin()
		case len(i.pop) == 0:
			i.enter()
		case len(i.pop) < i.size:
			i.seed()
		case i.tired > 8*i.size+100:
			i.restart()
		default:
			i.generation()
		}
	}
}

// generate makes the schedule of a candidate's genes and measures it. Without
// budget it does nothing and says so.
func (i *island) generate(c *candidate) bool {
	if !i.left() {
		return false
	}
	r := i.run
	c.serial = c.serial || !i.has(wayGene)
	i.decode(c.order, &c.genes)
	i.used++
	c.Score = i.judge.score(r, c.bought)
	c.cost = c.Score.cost(i.n.Weights)
	if c.take(r); !i.has(emptyEnd) {
		c.crowd = 0
	}
	return true
}

// decode makes the schedule of a list and the other genes.
func (i *island) decode(list []int, g *genes) {
	r := i.run
	r.hold, r.prefer = g.hold, g.prefer
	r.buy(g.bought)
	r.list(list)
	if g.serial {
		r.serial()
	} else {
		r.parallel()
	}
}

// keep remembers the best.
func (i *island) keep(c *candidate) {
	if c.better(i.best) {
		i.best.copy(c)
		i.stats.Improved++
	}
}

// fresh is a candidate out of use, or a new one.
func (i *island) fresh() *candidate {
	if k := len(i.spare) - 1; k >= 0 {
		c := i.spare[k]
		i.spare = i.spare[:k]
		return c
	}
	return newCandidate(i.n)
}

func (i *island) drop(c *candidate) { i.spare = append(i.spare, c) }

// restart keeps the best plan and draws the others anew.
func (i *island) restart() {
	for _, c := range i.pop {
		i.drop(c)
	}
	i.pop, i.tired = i.pop[:0], 0
	i.stats.Restarts++
}

// enter puts the best plan into an empty population, and the list the search
// began with, generated so that published starts stand.
func (i *island) enter() {
	c := i.fresh()
	c.copy(i.best)
	i.justify(c)
	i.pop = append(i.pop, c)
	if len(i.judge.near) == 0 || i.o.Foreman {
		return
	}
	for _, serial := range [2]bool{false, true} {
		c := i.fresh()
		c.genes.copy(&i.start.genes)
		c.serial = serial
		i.stand(c)
		i.join(c)
	}
}

// join generates a plan and adds it to the first generation.
func (i *island) join(c *candidate) {
	if !i.generate(c) {
		i.drop(c)
		return
	}
	i.repair(c)
	i.justify(c)
	i.keep(c)
	i.pop = append(i.pop, c)
}

// generation makes one child of two plans.
func (i *island) generation() {
	mother, father := i.tournament(), i.tournament()
	for father == mother {
		father = i.rng.IntN(len(i.pop))
	}
	c := i.fresh()
	i.child(i.pop[mother], i.pop[father], c)
	i.inherit(i.pop[mother], i.pop[father], c)
	if !i.generate(c) {
		i.drop(c)
		return
	}
	i.repair(c)
	i.tired++
	i.offer(c)
}

// child writes the list of c.
func (i *island) child(mother, father, c *candidate) {
	switch {
	case i.rng.Float64() < windowShare && i.has(windows):
		i.window(mother, c)
	case i.has(peaks):
		i.breed.child(mother, father, c)
	default:
		i.breed.cross.TwoPoint(mother.heir, father.heir, c.order)
		i.breed.cross.Swap(i.breed.graph, swapRate, c.order)
	}
}

// tournament is the better of two plans drawn.
func (i *island) tournament() int {
	a, b := i.rng.IntN(len(i.pop)), i.rng.IntN(len(i.pop))
	if i.pop[b].fitter(i.pop[a]) {
		return b
	}
	return a
}

// offer puts c in the place of the worst plan, unless it is worse still or one
// like it is there already.
func (i *island) offer(c *candidate) {
	i.keep(c)
	worst := 0
	for k, q := range i.pop {
		if q.hash == c.hash {
			i.stats.Repeats++
			i.drop(c)
			return
		}
		if i.pop[worst].fitter(q) {
			worst = k
		}
	}
	if !c.fitter(i.pop[worst]) {
		i.drop(c)
		return
	}
	i.justify(c)
	i.drop(i.pop[worst])
	i.pop[worst] = c
	i.tired = 0
}
