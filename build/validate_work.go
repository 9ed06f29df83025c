package build

import (
	"fmt"
	"strings"
)

func (b *Build) checkNetwork() error {
	for _, t := range b.Tasks {
		if err := b.checkTask(t); err != nil {
			return err
		}
	}
	for i, m := range b.Moves {
		if b.Task(m.Task) == nil || b.Trade(m.From) == nil || b.Trade(m.To) == nil {
			return rule(ruleExists, "a task or trade is unknown").At(fmt.Sprintf("move %d", i+1))
		}
	}
	for _, r := range b.Risk.Ranges {
		for _, f := range []Span{r.Factor, r.Common} {
			if f != (Span{}) && (f.Low <= 0 || f.Mode < f.Low || f.High < f.Mode || f.High > 20) {
				return rule(ruleRange, "low, mode and high must rise from above zero").At("risk range " + r.Kind)
			}
		}
	}
	for _, r := range b.Risk.Reserve {
		if b.Task(r.Task) == nil || b.Trade(r.Trade) == nil {
			return rule(ruleExists, "a task or trade is unknown").At("reserve")
		}
	}
	if b.Risk.Absence < 0 || b.Risk.Absence >= 1 {
		return rule(ruleRange, "the chance is not between 0 and 1").At("risk, absence_per_day")
	}
	return b.checkLoops()
}

func (b *Build) checkTask(t Task) error {
	where := "task " + string(t.ID)
	for _, a := range t.After {
		if b.Task(a) == nil {
			return at(missing("task", a), where+", after")
		}
	}
	if t.Guess != "" && b.Task(t.Guess) == nil {
		return at(missing("task", t.Guess), where+", guess_until")
	}
	if t.Bay != "" && find(b.Bays, t.Bay, func(y *Bay) string { return y.ID }) == nil {
		return at(missing("bay", t.Bay), where+", bay")
	}
	if t.Outwork != "" && b.Load(t.Outwork) == nil {
		return at(missing("load", t.Outwork), where+", outwork")
	}
	if t.Ended != 0 && t.Ended < t.Began {
		return rule(ruleDates, "it ended before it began").At(where)
	}
	for _, l := range t.Legs {
		if l.Hours > 0 && b.Trade(l.Trade) != nil && !b.somebodyDoes(l.Trade) {
			return rule(ruleHours, "nobody does the trade %s", l.Trade).At(where + ", legs")
		}
	}
	return first(needText(t.Name, where+", name"), needText(t.Stage, where+", stage"),
		b.checkLegs(t.Legs, where+", legs"), b.checkLegs(t.Left, where+", left"),
		inRange(t.Wait, 0, mostDays, "wait", where+", wait_days"),
		oneOf(t.State, []TaskState{NotBegun, Begun, Finished}, where+", state"))
}

func (b *Build) somebodyDoes(t TradeID) bool {
	for _, p := range b.People {
		if p.Does(t) && !p.Helps {
			return true
		}
	}
	return false
}

// checkLoops applies rule 6 and names the whole loop.
func (b *Build) checkLoops() error {
	const open, busy, clear = 0, 1, 2
	state := make(map[TaskID]int, len(b.Tasks))
	var trail []string
	var visit func(id TaskID) error
	visit = func(id TaskID) error {
		trail = append(trail, string(id))
		defer func() { trail = trail[:len(trail)-1] }()
		switch state[id] {
		case clear:
			return nil
		case busy:
			start := 0
			for trail[start] != string(id) {
				start++
			}
			return rule(ruleLoop, "tasks wait for each other: %s", strings.Join(trail[start:], " after ")).At("task " + string(id))
		}
		state[id] = busy
		for _, a := range b.Task(id).After {
			if err := visit(a); err != nil {
				return err
			}
		}
		state[id] = clear
		return nil
	}
	for _, t := range b.Tasks {
		if state[t.ID] == open {
			if err := visit(t.ID); err != nil {
				return err
			}
		}
	}
	return nil
}

func (b *Build) checkBody() error {
	for _, p := range b.Panels {
		if err := b.checkPanel(p); err != nil {
			return err
		}
		for _, o := range p.Outlines {
			if find(b.Views, o.View, func(v *View) string { return v.ID }) == nil {
				return at(missing("view", o.View), "panel "+string(p.ID)+", outlines")
			}
		}
	}
	for _, f := range b.Findings {
		if err := b.checkFinding(f, "finding "+string(f.ID)); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkStores() error {
	for _, p := range b.Parts {
		place := "part " + string(p.ID)
		if b.Task(p.Task) == nil {
			return at(missing("task", p.Task), place+", needed_for")
		}
		if err := checkPart(p, place); err != nil {
			return err
		}
	}
	for _, o := range b.Outwork {
		where := "load " + string(o.ID)
		if b.Task(o.Task) == nil {
			return at(missing("task", o.Task), where+", task")
		}
		if err := first(inRange(o.Pieces, 0, mostCount, "pieces", where), inRange(o.Quoted, 0, mostDays, "days", where),
			inRange(o.P90, 0, mostDays, "days", where), inRange(o.Cost, 0, mostMoney, "cost", where),
			inRange(o.Donated, 0, mostMoney, "the given part", where)); err != nil {
			return err
		}
	}
	for _, x := range b.Bags {
		if find(b.Groups, x.Group, func(g *Group) string { return g.ID }) == nil {
			return at(missing("bag group", x.Group), "bag "+string(x.ID))
		}
		if err := inRange(x.Pieces, 0, mostCount, "pieces", "bag "+string(x.ID)); err != nil {
			return err
		}
	}
	return nil
}

func (b *Build) checkInside() error {
	for _, p := range b.Products {
		where := "paint product " + p.ID
		if p.Solids <= 0 || p.Solids > 100 || p.Transfer <= 0 || p.Transfer > 1 || p.Film <= 0 {
			return rule(ruleRange, "solids, transfer or film is out of range").At(where)
		}
		for _, z := range p.Zones {
			if find(b.Zones, z, func(o *Zone) ZoneID { return o.ID }) == nil {
				return at(missing("paint zone", z), where+", zones")
			}
		}
	}
	for _, c := range b.Circuits {
		where := "circuit " + c.ID
		if c.Load < 0 || c.Load > 2000 || c.DropLimit <= 0 || c.DropLimit > 100 {
			return rule(ruleRange, "load or drop limit is out of range").At(where)
		}
		if err := inRange(c.Length, 1, mostLength, "length", where+", length_mm"); err != nil {
			return err
		}
	}
	for _, p := range b.Pieces {
		where := "trim piece " + p.ID
		if err := first(inRange(p.Width, 1, mostLength, "width", where), inRange(p.Height, 1, mostLength, "height", where),
			inRange(p.Quantity, 1, mostCount, "quantity", where)); err != nil {
			return err
		}
	}
	return nil
}
