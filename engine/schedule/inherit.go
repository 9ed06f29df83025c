package schedule

import "slices"

// blank sets the genes of a seed but for its list: about half of them hold back
// published starts, some wait for people, and where hours may help some buy them.
func (i *island) blank(c *candidate) {
	clear(c.hold)
	clear(c.bought)
	i.wish(c)
	if !i.o.Foreman && i.rng.IntN(2) == 0 {
		i.stand(c)
	}
	if !i.wanted() {
		return
	}
	part := i.rng.Float64()*2 - 0.5 // a quarter buys nothing, a quarter all
	for w := range c.bought {
		c.bought[w] = i.rng.Float64() < part
	}
}

// stand holds published near starts back to where they were.
func (i *island) stand(c *candidate) {
	for _, j := range i.judge.near {
		c.hold[j] = i.n.Published[j].Start
	}
}

// wanted says that bought hours may make a plan better.
func (i *island) wanted() bool {
	b := i.best
	return len(b.bought) > 0 && (i.n.Weights != nil || b.Late > 0 || b.Remedial > 0 || b.Moved > 0 || b.Price > 0)
}

// inherit gives a child the other genes of its parents, now and then changed:
// an activity is not held back any more, a window is bought or not.
func (i *island) inherit(mother, father, c *candidate) {
	c.serial = i.way(mother)
	clear(c.hold)
	if i.holds {
		i.mix(mother, father, c)
		i.shift(mother, c)
	}
	i.choose(mother, father, c)
	copy(c.bought, mother.bought)
	if len(c.bought) == 0 || !i.wanted() && !slices.Contains(mother.bought, true) {
		return
	}
	for w := range c.bought {
		if i.rng.IntN(2) == 0 {
			c.bought[w] = father.bought[w]
		}
		if i.rng.IntN(len(c.bought)) == 0 {
			c.bought[w] = !c.bought[w]
		}
	}
}

// mix takes each hold from one of the parents and lets one in ten go.
func (i *island) mix(mother, father, c *candidate) {
	for j, h := range mother.hold {
		if f := father.hold[j]; f != h && i.rng.IntN(2) == 0 {
			h = f
		}
		if h > 0 && i.rng.IntN(10) > 0 {
			c.hold[j] = h
		}
	}
}

// way is the generation of a child.
func (i *island) way(mother *candidate) bool {
	x := i.rng.Float64()
	switch {
	case i.o.Foreman:
		return false
	case mother.serial:
		return x >= toParallel
	}
	return x < toSerial
}

// lean leaves out what was bought, dearest first, as long as the plan is no
// worse for it; it is done once for a best plan.
func (i *island) lean() {
	c := i.fresh()
	for i.left() {
		c.copy(i.best)
		w := -1
		for v, yes := range c.bought {
			if yes && !i.kept[v] && (w < 0 || i.n.Overtime[v].Price > i.n.Overtime[w].Price) {
				w = v
			}
		}
		if w < 0 {
			break
		}
		i.kept[w], c.bought[w] = true, false
		if i.o.Foreman {
			clear(c.hold)
		}
		i.generate(c)
		i.repair(c)
		i.keep(c)
	}
	i.drop(c)
	clear(i.kept)
	i.lent = i.best.hash
}
