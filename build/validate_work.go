package build

import "strings"

func (b *Build) checkNetwork() error {
	for _, t := range b.Tasks {
		if err := b.checkTask(t); err != nil {
			return err
		}
	}
	for _, s := range b.Sublets {
		if err := b.checkSublet(s, "sublet"); err != nil {
			return err
		}
	}
	for _, s := range b.Offers {
		if err := b.checkSublet(s, "offer"); err != nil {
			return err
		}
	}
	return first(b.checkMoves(b.Moves), b.checkRisk(), b.checkEvents(), b.checkLoops())
}

func (b *Build) checkRisk() error {
	for _, r := range b.Risk.Ranges {
		for _, f := range []Span{r.Factor, r.Common} {
			if f != (Span{}) && (f.Low <= 0 || f.Mode < f.Low || f.High < f.Mode || f.High > 20) {
				return rule(ruleRange, "low, mode and high must rise from above zero").At("risk range " + r.Kind)
			}
		}
	}
	for _, r := range b.Risk.Reserve {
		where, h := "reserve of task "+string(r.Task), r.Hours
		switch {
		case b.Task(r.Task) == nil:
			return at(missing("task", r.Task), where)
		case b.Trade(r.Trade) == nil:
			return at(missing("trade", r.Trade), where)
		case !b.somebodyDoes(r.Trade):
			return rule(ruleHours, "nobody does the trade %s", r.Trade).At(where)
		case h.Low < 0 || h.Mode < h.Low || h.High < h.Mode || h.High > mostEffort.H():
			return rule(ruleRange, "low, mode and high must rise from zero").At(where)
		}
	}
	if b.Risk.Absence < 0 || b.Risk.Absence >= 1 {
		return rule(ruleRange, "the chance is not between 0 and 1").At("risk, absence_per_day")
	}
	return nil
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
	return first(needText(t.Name, where+", name"), oneOf(t.Stage, Stages(), where+", stage"),
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
	for _, z := range b.Zones {
		if z.Colour != "" && b.Colour(z.Colour) == nil {
			return at(missing("colour", z.Colour), "paint zone "+string(z.ID))
		}
		if z.Extra < 0 {
			return rule(ruleRange, "the extra surface is negative").At("paint zone " + string(z.ID))
		}
	}
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
