package build

func (b *Build) checkStores() error {
	for _, p := range b.Parts {
		place := "part " + string(p.ID)
		if b.Task(p.Task) == nil {
			return at(missing("task", p.Task), place+", needed_for")
		}
		for _, id := range p.Because {
			if b.Finding(id) == nil {
				return at(missing("finding", id), place+", because")
			}
		}
		if err := checkPart(p, place); err != nil {
			return err
		}
	}
	for _, o := range b.Outwork {
		if err := b.checkLoad(o); err != nil {
			return err
		}
	}
	return b.checkBags()
}

func (b *Build) checkLoad(o Outwork) error {
	where := "load " + string(o.ID)
	t := b.Task(o.Task)
	if t == nil {
		return at(missing("task", o.Task), where+", task")
	}
	if t.Outwork != o.ID {
		return rule(ruleExists, "the outwork of task %s is not this load", o.Task).At(where + ", task")
	}
	return first(oneOf(o.State, awayStates(), where+", state"),
		inRange(o.Pieces, 0, mostCount, "pieces", where), inRange(o.Quoted, 0, mostDays, "days", where),
		inRange(o.P90, 0, mostDays, "days", where), inRange(o.Likely, 0, mostDays, "days", where),
		inRange(o.Cost, 0, mostMoney, "cost", where), inRange(o.Donated, 0, mostMoney, "the given part", where))
}

func (b *Build) checkBags() error {
	for _, x := range b.Bags {
		where := "bag " + string(x.ID)
		if find(b.Groups, x.Group, func(g *Group) string { return g.ID }) == nil {
			return at(missing("bag group", x.Group), where)
		}
		if err := first(oneOf(x.State, bagStates(), where+", state"), inRange(x.Pieces, 0, mostCount, "pieces", where)); err != nil {
			return err
		}
	}
	for _, m := range b.Missing {
		if m.Bag != "" && b.Bag(m.Bag) == nil {
			return at(missing("bag", m.Bag), "missing "+m.What)
		}
		if m.Part != "" && b.Part(m.Part) == nil {
			return at(missing("part", m.Part), "missing "+m.What)
		}
	}
	return nil
}

func (b *Build) checkInside() error {
	for _, p := range b.Products {
		if err := b.checkProduct(p); err != nil {
			return err
		}
	}
	return first(b.checkLoom(), b.checkCircuits(), b.checkTrim(), b.checkSheets(), b.checkFolds())
}
