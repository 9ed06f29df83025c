package schedule

// blank clears the genes of a seed but for its list: about half of them hold
// published starts, and where hours are wanted some of them have bought.
func (i *island) blank(c *candidate) {
	clear(c.hold)
	clear(c.bought)
	if i.o.Foreman {
		return
	}
	if i.rng.IntN(2) == 0 {
		for _, j := range i.judge.near {
			c.hold[j] = i.n.Published[j].Start
		}
	}
}

// inherit gives a child the other genes of its parents.
func (i *island) inherit(mother, father, c *candidate) {
	c.serial = i.way(mother)
	for j := range c.hold {
		c.hold[j] = mother.hold[j]
	}
	for w := range c.bought {
		c.bought[w] = mother.bought[w]
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
