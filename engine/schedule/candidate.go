package schedule

// genes are what a plan is generated from.
type genes struct {
	order  []int    // the list, most urgent first
	serial bool     // the generation
	hold   []Minute // earliest starts that keep a window or a published start; 0 is free
	bought []bool   // windows of Problem.Overtime
	prefer []int    // by spot, one more than the person who is waited for; 0 is whoever can first
}

// candidate is a generated plan, copied out of a run.
type candidate struct {
	genes
	Score
	cost  float64
	crowd int64  // how much ends near the end: of two equal plans the one with less is nearer to a shorter one
	hash  uint64 // of starts and people
	heir  []int  // the list its children inherit from: pushed to the end

	start, resume, finish []Minute
	heads                 []int
	skipped               []bool
}

func newCandidate(n *net) *candidate {
	c := len(n.Activities)
	return &candidate{
		genes: genes{order: make([]int, c), hold: make([]Minute, c), bought: make([]bool, len(n.Overtime)), prefer: make([]int, n.spots)},
		heir:  make([]int, c), heads: make([]int, n.spots), skipped: make([]bool, c),
		start: make([]Minute, c), resume: make([]Minute, c), finish: make([]Minute, c),
	}
}

// copy takes over the genes.
func (g *genes) copy(from *genes) {
	copy(g.order, from.order)
	g.serial = from.serial
	copy(g.hold, from.hold)
	copy(g.bought, from.bought)
	copy(g.prefer, from.prefer)
}

// copy takes over everything.
func (c *candidate) copy(from *candidate) {
	own := *c
	*c = *from
	c.order, c.hold, c.bought, c.prefer, c.heir = own.order, own.hold, own.bought, own.prefer, own.heir
	c.start, c.resume, c.finish, c.heads, c.skipped = own.start, own.resume, own.finish, own.heads, own.skipped
	c.genes.copy(&from.genes)
	copy(c.heir, from.heir)
	copy(c.start, from.start)
	copy(c.resume, from.resume)
	copy(c.finish, from.finish)
	copy(c.heads, from.heads)
	copy(c.skipped, from.skipped)
}

// take copies the schedule out of a run.
func (c *candidate) take(r *run) {
	copy(c.start, r.start)
	copy(c.resume, r.resume)
	copy(c.finish, r.finish)
	copy(c.heads, r.heads)
	copy(c.skipped, r.skipped)
	c.hash, c.crowd = r.hash(), r.crowd()
}

// put puts it back, to be explained.
func (c *candidate) put(r *run) {
	copy(r.start, c.start)
	copy(r.resume, c.resume)
	copy(r.finish, c.finish)
	copy(r.heads, c.heads)
	copy(r.skipped, c.skipped)
}

// better says that a is a better plan than b.
func (c *candidate) better(b *candidate) bool {
	if c.never() != b.never() {
		return b.never()
	}
	if c.cost != b.cost {
		return c.cost < b.cost
	}
	return c.compare(b.Score) < 0
}

// fitter is better, but of plans of one length the one with the emptier end
// wins: hand-overs would draw the search away from shorter plans.
func (c *candidate) fitter(b *candidate) bool {
	if c.never() != b.never() {
		return b.never()
	}
	if c.cost != b.cost {
		return c.cost < b.cost
	}
	x, y := c.Score, b.Score
	x.Handovers, y.Handovers = 0, 0
	if d := x.compare(y); d != 0 {
		return d < 0
	}
	if c.crowd != b.crowd {
		return c.crowd < b.crowd
	}
	return c.Handovers < b.Handovers
}

// hash is FNV-1a over starts and people, a number at a time.
func (r *run) hash() uint64 {
	h := uint64(14695981039346656037)
	for _, t := range r.start {
		h = (h ^ uint64(t)) * 1099511628211
	}
	for _, p := range r.heads {
		h = (h ^ uint64(p)) * 1099511628211
	}
	return h
}

// crowd measures how much work ends within the last twentieth of the plan, by
// the square of its nearness to the end.
func (r *run) crowd() int64 {
	sum, last := int64(0), r.makespan()
	near := int64(last-r.now)/20 + 1
	for j, f := range r.finish {
		if d := near - int64(last-f); d > 0 && !r.skipped[j] {
			d = d * 64 / near
			sum += d * d * (int64(f-r.resume[j]) * 64 / near)
		}
	}
	return sum
}
