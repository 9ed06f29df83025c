package schedule

import "slices"

const (
	fullSize  = 12      // activities, taking people or places, that are searched in full
	fullShare = 4       // one part in so many of the budget may go into it
	fullMost  = 200_000 // activities laid in all: some tenths of a second
	fullWho   = 8       // people to choose several heads from
)

// full is the search of a small problem for a plan that is over by a moment:
// every active schedule once, with every choice of people. People, places,
// hours with all that may be bought, releases, least lags, crews and clashes are
// held; maximum lags, pins, remedies and published starts are not, and work
// under way may wait. So what it refutes is refuted for every plan.
type full struct {
	n     *net
	r     *run  // hours, and what is booked in them
	back  *run  // the mirrored problem
	part  []int // what has to be done, in topological order
	teams [][][]int

	needs    []bool     // by activity: takes people, places or air for some time
	laid     []bool     // by activity: it has its times and its people
	from, to []Minute   // by activity: when it runs, or could at best
	sure     []bool     // by activity: all it waits for is laid
	late     []Minute   // by activity: the latest start
	tail     []Window   // by activity: its latest times, mirrored
	open     int        // activities with needs that are not laid
	steps    int        // activities that may still be laid
	choices  [][]option // by depth
	saved    [][]profile
}

// option is an activity laid with a team at its first moment.
type option struct {
	j        int
	from, to Minute
	team     []int
}

// newFull is nil where the problem is too large.
func newFull(n *net, back *run) *full {
	c := len(n.Activities)
	f := &full{
		n: n, r: newRun(n), back: back, teams: make([][][]int, c), needs: make([]bool, c), laid: make([]bool, c),
		from: make([]Minute, c), to: make([]Minute, c), sure: make([]bool, c), late: make([]Minute, c), tail: make([]Window, c),
	}
	for _, j := range n.topological() {
		a := &n.Activities[j]
		f.r.resume[j], f.r.finish[j] = Never, Never
		if a.State == Done {
			f.laid[j], f.from[j], f.to[j] = true, a.Start, a.Finish
			f.r.resume[j], f.r.finish[j] = a.Start, a.Finish
		}
		if a.State == Done || n.optional[j] {
			continue
		}
		f.part = append(f.part, j)
		if f.needs[j] = a.Work > 0 && (n.heads(j) > 0 || len(a.Uses) > 0 || n.aired(j)); f.needs[j] {
			f.open++
		}
		if f.open > fullSize || n.heads(j) > 1 && len(n.who[j]) > fullWho {
			return nil
		}
		f.teams[j] = teamsOf(slices.Sorted(slices.Values(n.who[j])), n.heads(j), nil, nil)
	}
	f.choices, f.saved = make([][]option, f.open), make([][]profile, f.open)
	return f
}

// teamsOf are the ways to take so many more of who.
func teamsOf(who []int, heads int, taken []int, all [][]int) [][]int {
	if heads == 0 {
		return append(all, slices.Clone(taken))
	}
	for i := 0; i+heads <= len(who); i++ {
		all = teamsOf(who[i+1:], heads-1, append(taken, who[i]), all)
	}
	return all
}

// enumerate searches a small problem in full, for a shorter plan each time one
// is found, until there is none: then the bound is known. An activity laid
// counts as one part in as many as there are of a schedule.
func (i *island) enumerate() {
	f, last := newFull(i.n, i.mirror), i.n.Now+i.best.Length-1
	if f == nil || last >= Never-1 || !i.has(inFull) {
		return
	}
	all := make([]bool, len(i.n.Overtime))
	for w := range all {
		all[w] = true
	}
	most := min((i.limit-i.used)/fullShare*len(i.n.Activities), fullMost)
	for f.steps = most; last >= i.bound && f.steps > 0; {
		f.r.buy(all)
		i.mirror.buy(all)
		f.by(last)
		if !f.search() {
			if f.steps > 0 {
				i.bound = last + 1
			}
			break
		}
		last = f.over() - 1
		i.adopt(f)
		last = min(last, i.n.Now+i.best.Length-1)
	}
	i.used += (most - f.steps) / len(i.n.Activities)
}

// adopt generates a plan by the order of the starts that were found, with the
// people that were.
func (i *island) adopt(f *full) {
	c := i.fresh()
	c.genes.copy(&i.best.genes)
	c.serial = !i.o.Foreman
	i.sort(c.order, func(j int) Minute { return f.from[j] })
	for _, j := range i.picks {
		for k, p := range f.r.chosen(j) {
			if f.needs[j] {
				c.prefer[i.n.first[j]+k] = p + 1
			}
		}
	}
	if i.generate(c) {
		i.repair(c)
		i.keep(c)
	}
	i.drop(c)
}
