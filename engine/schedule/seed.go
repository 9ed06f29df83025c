package schedule

// seed adds a plan to the first generation: the priority rules first, serial
// and parallel, then lists drawn around the list the search began with, if its
// plan is any good, and around the latest finish.
func (i *island) seed() {
	k := i.number + i.seeds*i.of
	i.seeds++
	c := i.fresh()
	i.blank(c)
	if k < 2*len(i.rules.all) && i.has(ruleLists) {
		c.serial = k%2 == 0 && !i.o.Foreman
		i.draw(&i.rules.all[k/2], false, c)
	} else {
		c.serial = i.rng.IntN(4) > 0 && !i.o.Foreman
		i.around(k, c)
	}
	i.join(c)
}

// around draws a list near the first one or near a rule by latest finish.
func (i *island) around(k int, c *candidate) {
	if k%2 == 0 && i.trusted() {
		i.breed.sample.List(i.breed.graph, i.rules.previous, i.rng, c.order)
		return
	}
	i.draw(&i.rules.all[k/2%2], true, c)
}

// trusted says that the list the search began with is worth drawing around: the
// caller's, or one whose plan holds its own against half of the rules.
func (i *island) trusted() bool {
	if i.o.Order != nil {
		return true
	}
	worse := 0
	for _, c := range i.pop {
		if !c.better(i.start) {
			worse++
		}
	}
	return 2*worse > len(i.pop)
}

// draw writes the list of a rule. A backward rule is generated on the mirrored
// problem, and the list is the order of starts that comes out.
func (i *island) draw(r *rule, random bool, c *candidate) {
	rng := i.rng
	if !random {
		rng = nil
	}
	if !r.backward {
		i.breed.sample.List(i.breed.graph, r.value, rng, c.order)
		return
	}
	i.breed.sample.List(i.back, r.value, rng, c.order)
	if i.left() && i.best.Length+i.n.Now < Never {
		i.backward(c.order, i.best.Length+i.n.Now, &c.genes)
	}
}
