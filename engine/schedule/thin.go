package schedule

// thin takes out of the best plan, one by one, what is kept back and who is
// waited for where the plan is no worse without, so that it asks little of the
// shop beside its list. It gets the last schedules of a budget, a twentieth at most.
func (i *island) thin() {
	c := i.fresh()
	c.copy(i.best)
	for j := range c.hold {
		if c.hold[j] > 0 {
			c.hold[j] = 0
			i.settleFor(c)
		}
	}
	for k := range c.prefer {
		if c.prefer[k] > 0 {
			c.prefer[k] = 0
			i.settleFor(c)
		}
	}
	i.drop(c)
	i.thinned = i.best.hash
}

// settleFor takes c as the best plan if it is no worse, or makes c the best again.
func (i *island) settleFor(c *candidate) {
	if i.generate(c) && !i.best.better(c) {
		i.best.copy(c)
		return
	}
	c.copy(i.best)
}

// extras counts what thin would try.
func (i *island) extras() int {
	sum := 0
	for _, h := range i.best.hold {
		if h > 0 {
			sum++
		}
	}
	for _, p := range i.best.prefer {
		if p > 0 {
			sum++
		}
	}
	return sum
}
