package schedule

import (
	"math/bits"
	"slices"
)

// run is the working memory of one generation. It is filled again and again
// without allocation, by Solve over one net and by every worker of Odds.
type run struct {
	n        *net
	now      Minute
	clocks   []clock  // by person, with the days away of this run cut out
	work     []Minute // realised work
	release  []Minute
	hold     []Minute  // earliest starts that keep a recoat window; nil is none
	prefer   []int     // by spot, one more than the person who is waited for; nil is none
	skipped  []bool    // activities that are not needed in this run
	pace     []float64 // by person: factor on their work in this run; nil is as planned
	bought   []bool    // the windows of Problem.Overtime that are in clocks
	longer   []clock   // by n.extra: hours with what is bought
	called   []bool    // windows that were missed
	first    []int     // by crew, the activity that began first, or -1
	worked   []bool    // by group and person; nil where nobody is alike
	row      []int     // scratch: people in order of preference
	state    []byte    // by block
	from     []Minute  // scratch: when the members of a block would begin
	to       []Minute  // and end
	wake     Minute    // when a block that does not fit may be tried again
	held     bool      // it is something else that keeps a block back, not its hours
	left     int       // people of a crew that are passed over
	moment   Minute    // parallel: now
	planning bool      // serial

	at  []int // activity by position in the list
	pos []int // and back

	start, resume, finish []Minute
	heads                 []int // chosen people, from n.first[j] on

	ready   []Minute // earliest start by links and release, once pend is 0
	pend    []int    // links still to settle
	waiting bits64   // positions of activities whose links are settled
	stirred bool     // an activity became ready while others were being started

	avail   []Minute  // parallel: first open minute a person is free
	used    []int     // parallel: units in use by place
	holding []int     // parallel: running activities that use places
	air     []air     // parallel: by clash
	busy    [][]span  // serial: by person, in order of time
	booked  []profile // serial: by place
}

// span is a stretch of a person or of some units of a place.
type span struct {
	from, to Minute
	units    int
}

func newRun(n *net) *run {
	c := len(n.Activities)
	moments := make([]Minute, 6*c)
	cut := func() []Minute {
		part := moments[:c:c]
		moments = moments[c:]
		return part
	}
	r := &run{
		n: n, now: n.Now, work: cut(), release: cut(), start: cut(), resume: cut(), finish: cut(), ready: cut(),
		skipped: slices.Clone(n.optional), clocks: make([]clock, len(n.People)), at: make([]int, c), pos: make([]int, c), heads: make([]int, n.spots),
		pend: make([]int, c), waiting: newBits(c), avail: make([]Minute, len(n.People)), used: make([]int, len(n.Places)),
		holding: make([]int, 0, c), busy: make([][]span, len(n.People)), booked: make([]profile, len(n.Places)),
		bought: make([]bool, len(n.Overtime)), longer: make([]clock, len(n.extra)), called: make([]bool, len(n.windows)),
		first: make([]int, n.crews), row: make([]int, len(n.People)), air: make([]air, len(n.Clashes)),
	}
	if n.blocks != nil {
		r.state, r.from, r.to = make([]byte, len(n.blocks)), make([]Minute, c), make([]Minute, c)
	}
	if n.groups != nil {
		r.worked = make([]bool, len(n.People)*len(n.Activities))
	}
	for p := range n.People {
		r.clocks[p] = n.clocks[n.People[p].Calendar]
	}
	for j := range n.Activities {
		r.work[j], r.release[j] = n.Activities[j].Work, n.Activities[j].Release
	}
	return r
}

// list sets the priority list. What has started comes first, then what is
// pinned, then the rest as given.
func (r *run) list(order []int) {
	i := 0
	take := func(rank int) {
		for _, j := range order {
			if r.rank(j) == rank {
				r.at[i], r.pos[j] = j, i
				i++
			}
		}
	}
	take(0)
	take(1)
	take(2)
}

func (r *run) rank(j int) int {
	switch a := &r.n.Activities[j]; {
	case a.State != Open:
		return 0
	case a.Pinned:
		return 1
	}
	return 2
}

// begin clears the memory and settles the facts and all that needs nobody.
func (r *run) begin() {
	r.waiting.clear()
	for j := range r.n.Activities {
		r.start[j], r.resume[j], r.finish[j] = Never, Never, Never
		r.pend[j] = len(r.n.in[j])
		r.ready[j] = max(r.now, r.release[j])
		if r.hold != nil {
			r.ready[j] = max(r.ready[j], r.hold[j])
		}
		if r.n.Activities[j].State != Open {
			r.ready[j] = r.now
			if r.hold != nil && r.n.waits(j) {
				r.ready[j] = max(r.now, r.hold[j])
			}
		}
	}
	r.knot()
	r.forget()
	r.gather()
	for j, skip := range r.skipped {
		if skip {
			r.skip(j)
		}
	}
	for _, j := range r.n.sources {
		r.enter(j)
	}
	for j, skip := range r.skipped {
		if skip {
			r.follow(j)
		}
	}
}

// skip leaves an activity out: what follows does not wait for it.
func (r *run) skip(j int) {
	r.start[j], r.resume[j], r.finish[j] = r.now, r.now, r.now
	for _, l := range r.n.out[j] {
		r.pend[r.n.Links[l].To]--
		if h := r.n.waitsToo(l); h >= 0 && r.tied(h) >= 0 {
			r.pend[h]--
		}
	}
}

// follow takes in what waited for skipped activities only.
func (r *run) follow(j int) {
	for _, l := range r.n.out[j] {
		r.enter(r.n.Links[l].To)
		if h := r.n.waitsToo(l); h >= 0 {
			r.enter(h)
		}
	}
}

// enter takes in an activity that waits for nothing and is not in yet.
func (r *run) enter(j int) {
	if r.pend[j] == 0 && !r.skipped[j] && r.start[j] >= Never {
		r.arrive(j)
	}
}

// met settles one link.
func (r *run) met(l int) {
	to := r.n.Links[l].To
	if r.pend[to]--; r.pend[to] == 0 && !r.skipped[to] {
		r.arrive(to)
	}
	if r.n.gate != nil {
		r.ungate(l)
	}
}

// arrive takes in an activity whose links are settled: at once where it needs
// neither people nor places, else into the waiting list. One that is known to
// miss its window waits for the remedy.
func (r *run) arrive(j int) {
	a := &r.n.Activities[j]
	switch {
	case r.planning && r.tied(j) >= 0 && r.state[r.tied(j)] == running: // it is being placed
	case a.State == Done:
		r.start[j], r.resume[j], r.finish[j] = a.Start, a.Start, a.Finish
		r.settle(j)
	case r.n.windows != nil && r.late(j):
	case a.Kind == Milestone:
		r.set(j, r.ready[j], r.ready[j])
	case a.Kind == Passive && len(a.Uses) == 0 && !r.n.aired(j):
		r.set(j, r.ready[j], r.n.clock(a.Calendar).after(r.ready[j], r.work[j]))
	default:
		r.waiting.set(r.pos[j])
		r.stirred = true
	}
}

// set gives an activity its times and settles what follows.
func (r *run) set(j int, from, to Minute) {
	r.start[j], r.resume[j], r.finish[j] = from, from, to
	if a := &r.n.Activities[j]; a.State == Started {
		r.start[j] = a.Start
	}
	r.settle(j)
}

func (r *run) settle(j int) {
	for _, l := range r.n.out[j] {
		to := r.n.Links[l].To
		r.ready[to] = max(r.ready[to], r.n.arrival(l, r.start[j], r.finish[j]))
		r.met(l)
	}
}

// fit is the first moment at or after t when a person can begin activity j.
// A session is measured by its planned length: nobody knows the real one yet.
func (r *run) fit(p, j int, t Minute) Minute {
	if r.n.Activities[j].Kind == Session {
		return r.clocks[p].fit(t, r.n.Activities[j].Work)
	}
	return r.clocks[p].open(t)
}

// until is when a person who begins j at t is done with it. A session that
// takes longer than planned runs on past the closing hour.
func (r *run) until(p, j int, t Minute) Minute {
	work := r.work[j]
	if r.pace != nil {
		work = rounded(float64(work) * r.pace[p])
	}
	if t >= Never || r.n.Activities[j].Kind == Session {
		return min(Never, t+work)
	}
	return r.clocks[p].after(t, work)
}

// makespan is the last finish.
func (r *run) makespan() Minute {
	last := r.now
	for _, f := range r.finish {
		last = max(last, f)
	}
	return last
}

// bits64 is a set of small numbers that is walked in order.
type bits64 []uint64

func newBits(n int) bits64  { return make(bits64, (n+63)/64) }
func (b bits64) set(i int)  { b[i/64] |= 1 << (i % 64) }
func (b bits64) drop(i int) { b[i/64] &^= 1 << (i % 64) }
func (b bits64) clear()     { clear(b) }
func (b bits64) next(i int) int { // the first member at or after i, or -1
	for w := i / 64; w < len(b); w++ {
		m := b[w]
		if w == i/64 {
			m &= ^uint64(0) << (i % 64)
		}
		if m != 0 {
			return w*64 + bits.TrailingZeros64(m)
		}
	}
	return -1
}
