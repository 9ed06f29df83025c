package schedule

import "slices"

// checkOptional looks at what is done only when something calls for it.
func checkOptional(p *Problem) error {
	for _, r := range p.Risks {
		where := "risk " + r.ID
		if !(r.Chance >= 0 && r.Chance <= 1) {
			return broken(ruleRisk, where, "%v is not a chance", r.Chance)
		}
		for i, j := range r.Activities {
			if !inside(j, len(p.Activities)) {
				return broken(ruleIndex, where, "activity %d of %d", j, len(p.Activities))
			}
			if p.Activities[j].State != Open || slices.Contains(r.Activities[:i], j) {
				return broken(ruleRisk, where, "%s is not open, or named twice", p.Activities[j].ID)
			}
		}
	}
	for i, m := range p.Remedies {
		where := "remedy " + itoa(i)
		if !inside(m.Link, len(p.Links)) || !inside(m.Activity, len(p.Activities)) {
			return broken(ruleIndex, where, "link %d of %d, activity %d of %d", m.Link, len(p.Links), m.Activity, len(p.Activities))
		}
		if !p.Links[m.Link].Max {
			return broken(ruleRemedy, where, "link %d is not a maximum lag", m.Link)
		}
		if p.Activities[m.Activity].State != Open {
			return broken(ruleRemedy, where, "%s is not open", p.Activities[m.Activity].ID)
		}
	}
	return nil
}

// checkRemedies looks at how remedial work is tied in. It runs after the loops.
func checkRemedies(p *Problem) error {
	optional, mends := make([]bool, len(p.Activities)), make([]int, len(p.Activities))
	for j := range mends {
		mends[j] = -1
	}
	for _, r := range p.Risks {
		for _, j := range r.Activities {
			optional[j] = true
		}
	}
	for i, m := range p.Remedies {
		if optional[m.Activity] {
			return broken(ruleRemedy, "remedy "+itoa(i), "%s is a remedy or a risk already", p.Activities[m.Activity].ID)
		}
		optional[m.Activity], mends[m.Activity] = true, m.Link
	}
	for i, m := range p.Remedies {
		l := p.Links[m.Link]
		if mends[l.To] >= 0 {
			return broken(ruleRemedy, "remedy "+itoa(i), "the window ends in a remedy, %s", p.Activities[l.To].ID)
		}
		if !reaches(p, l.From, l.To, optional) {
			return broken(ruleRemedy, "remedy "+itoa(i), "%s does not wait for %s", p.Activities[l.To].ID, p.Activities[l.From].ID).
				WithHint("link the two ends of the window, or a chain of work between them")
		}
	}
	for i, l := range p.Links {
		if m := mends[l.From]; m >= 0 && l.To != p.Links[m].To && mends[l.To] != m {
			return broken(ruleRemedy, "link "+itoa(i), "%s waits for a remedy of another window, %s", p.Activities[l.To].ID, p.Activities[l.From].ID).
				WithHint("remedial work leads to the end of its window only")
		}
	}
	return nil
}

func checkClashes(p *Problem) error {
	for i, c := range p.Clashes {
		where := "clash " + itoa(i)
		seen := map[int]bool{}
		for _, j := range slices.Concat(c.Dirty, c.Clean) {
			if !inside(j, len(p.Activities)) {
				return broken(ruleIndex, where, "activity %d of %d", j, len(p.Activities))
			}
			if seen[j] || p.Activities[j].Kind == Milestone {
				return broken(ruleClash, where, "%s is named twice, or a milestone", p.Activities[j].ID)
			}
			seen[j] = true
		}
		if !inside(c.Calendar+1, len(p.Calendars)+1) {
			return broken(ruleIndex, where, "calendar %d of %d", c.Calendar, len(p.Calendars))
		}
		if !amount(c.Settle) {
			return broken(ruleAmount, where, "settle %d", c.Settle)
		}
	}
	return nil
}

func checkOvertime(p *Problem) error {
	for i, o := range p.Overtime {
		where := "overtime " + itoa(i)
		if !inside(o.Person, len(p.People)) {
			return broken(ruleIndex, where, "person %d of %d", o.Person, len(p.People))
		}
		w := o.Window
		if w.To <= w.From || w.From < -limit || w.To > limit {
			return broken(ruleCalendar, where, "window %d to %d is empty or too far away", w.From, w.To)
		}
		if o.Price < 0 {
			return broken(ruleOvertime, where, "price %d", o.Price)
		}
		taken := slices.Clone(p.Calendars[p.People[o.Person].Calendar])
		for _, b := range p.Overtime[:i] {
			if b.Person == o.Person {
				taken = append(taken, b.Window)
			}
		}
		for _, t := range taken {
			if t.From < w.To && w.From < t.To {
				return broken(ruleOvertime, where, "%d to %d: %s is at work from %d to %d already", w.From, w.To, p.People[o.Person].ID, t.From, t.To)
			}
		}
	}
	return nil
}

func checkPublished(p *Problem) error {
	if p.Published != nil && len(p.Published) != len(p.Activities) {
		return broken(rulePublished, "published", "%d starts for %d activities", len(p.Published), len(p.Activities))
	}
	for j, s := range p.Published {
		where := "published " + p.Activities[j].ID
		if s.Start != Never && (s.Start < -limit || s.Start > limit) {
			return broken(ruleAmount, where, "start %d", s.Start)
		}
		for _, h := range s.People {
			if !inside(h, len(p.People)) {
				return broken(ruleIndex, where, "person %d of %d", h, len(p.People))
			}
		}
	}
	return nil
}

func checkWeights(p *Problem) error {
	if p.Weights == nil {
		return nil
	}
	w := *p.Weights
	for _, x := range []float64{w.Late, w.Remedial, w.Moved, w.Overtime, w.Length} {
		if !(x >= 0 && x <= 1e12) {
			return broken(ruleWeights, "weights", "%v is not a weight", x)
		}
	}
	return nil
}
