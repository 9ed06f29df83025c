package schedule

import "slices"

// checkPrefer checks who is to be waited for.
func checkPrefer(p *Problem, list []Preference) error {
	asked := map[int][]int{}
	for _, v := range list {
		if !inside(v.Activity, len(p.Activities)) || !inside(v.Person, len(p.People)) {
			return broken(ruleIndex, "options", "a preference for person %d of %d in activity %d of %d", v.Person, len(p.People), v.Activity, len(p.Activities))
		}
		a, known := &p.Activities[v.Activity], asked[v.Activity]
		if a.State == Done {
			continue
		}
		if !slices.Contains(crewOf(p, v.Activity), v.Person) || slices.Contains(known, v.Person) || len(known) == headsOf(a) {
			return broken(ruleWho, "activity "+a.ID, "it cannot wait for %s, or not for so many", p.People[v.Person].ID)
		}
		asked[v.Activity] = append(known, v.Person)
	}
	return nil
}

// wanted is the gene of a list of preferences; nil for none.
func (n *net) wanted(list []Preference) []int {
	if len(list) == 0 {
		return nil
	}
	prefer := make([]int, n.spots)
	for _, v := range list {
		n.ask(prefer, v)
	}
	return prefer
}

// ask writes a preference down in a gene. What is done waits for nobody.
func (n *net) ask(prefer []int, v Preference) {
	spots := prefer[n.first[v.Activity]:n.first[v.Activity+1]]
	if k := slices.Index(spots, 0); k >= 0 {
		spots[k] = v.Person + 1
	}
}

// preferences are those of a plan; what is skipped waits for nobody.
func (n *net) preferences(c *candidate) []Preference {
	var list []Preference
	for j := range n.Activities {
		for _, p := range c.prefer[n.first[j]:n.first[j+1]] {
			if p > 0 && !c.skipped[j] {
				list = append(list, Preference{Activity: j, Person: p - 1})
			}
		}
	}
	return list
}

// choosers are the activities that leave a choice of people.
func (n *net) choosers() []int {
	var list []int
	for j, who := range n.who {
		if n.Activities[j].State != Done && n.heads(j) > 0 && len(who) > n.heads(j) {
			list = append(list, j)
		}
	}
	return list
}

// wish gives half of the drawn plans some preferences.
func (i *island) wish(c *candidate) {
	clear(c.prefer)
	if len(i.picks) == 0 || i.rng.IntN(2) == 0 {
		return
	}
	part := i.rng.Float64()
	for _, j := range i.picks {
		if i.rng.Float64() < part {
			i.turn(j, c)
		}
	}
}

// choose gives a child the preferences of its parents, about one of them changed.
func (i *island) choose(mother, father, c *candidate) {
	clear(c.prefer)
	for _, j := range i.picks {
		from, to, parent := i.n.first[j], i.n.first[j+1], mother
		if i.rng.IntN(2) == 0 {
			parent = father
		}
		copy(c.prefer[from:to], parent.prefer[from:to])
		if i.rng.IntN(len(i.picks)) == 0 {
			i.turn(j, c)
		}
	}
}

// turn lets j wait for somebody else in one of its spots, or for nobody.
func (i *island) turn(j int, c *candidate) {
	spots, who := c.prefer[i.n.first[j]:i.n.first[j+1]], i.n.who[j]
	p := who[i.rng.IntN(len(who))] + 1
	if has(spots, p) {
		p = 0
	}
	spots[i.rng.IntN(len(spots))] = p
}
