package schedule

// plain makes the foreman's plan of the starting list, or the plan that
// Options.Serial, Bought, Holds and Prefer describe.
func (i *island) plain() {
	c := newCandidate(i.n)
	copy(c.order, i.o.Order)
	if i.o.Order == nil {
		copy(c.order, natural(len(c.order)))
	}
	c.serial = i.o.Serial
	for _, w := range i.o.Bought {
		c.bought[w] = true
	}
	for _, h := range i.o.Holds {
		c.hold[h.Activity] = h.Until
	}
	copy(c.prefer, i.n.wanted(i.o.Prefer))
	i.best = newCandidate(i.n)
	i.generate(c)
	i.best.copy(c)
	i.widen(c, false)
	i.keep(c)
}

// repair keeps the recoat windows of a plan that would be the best if it did.
func (i *island) repair(c *candidate) {
	if c.Remedial == 0 {
		return
	}
	hope := *c
	hope.Remedial = 0
	hope.cost = hope.Score.cost(i.n.Weights)
	if hope.better(i.best) {
		i.widen(c, !i.o.Foreman)
	}
}

// widen tries to keep recoat windows: what comes before a missed one is begun
// later, as long as that makes the plan better: by what it is missed by, or by
// just what is needed. What has begun waits in the second case only.
func (i *island) widen(c *candidate, exact bool) {
	for range 20 { // as many as a shop would shuffle by hand
		if c.Remedial == 0 || len(i.n.maxLags) == 0 {
			return
		}
		d := i.fresh()
		d.genes.copy(&c.genes)
		for _, l := range i.n.maxLags {
			from, to := i.n.Links[l].From, i.n.Links[l].To
			by := i.n.over(l, c.start, c.finish)
			if by == 0 || by >= Never || c.skipped[from] || c.skipped[to] || i.n.Activities[from].State != Open && !(exact && i.n.waits(from)) {
				continue
			}
			until := c.start[from] + by
			if exact {
				until = i.aim(l, c.start[to], c)
			}
			d.hold[from] = max(d.hold[from], until)
		}
		if i.generate(d) && d.better(c) {
			c.copy(d)
			i.drop(d)
			continue
		}
		i.drop(d)
		return
	}
}
