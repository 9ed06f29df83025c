package schedule

import "slices"

// Repeat adds to p what a fault that sends work back costs: when the risk
// strikes, its activities are done once more, behind themselves and before all
// that waits for them; then the risk may strike again, up to times in all, each
// with its own draw. A round is a copy of the activities with the links among
// them and those that leave them. It has no release, and its remedies are not
// copied. The new list is order (nil: that of Activities) with every round
// right behind the work that it repeats. Unknown or half-done activities, and a
// maximum lag that leaves them, are faults of kind Invalid.
func Repeat(p *Problem, order []int, r Risk, times int) ([]int, error) {
	if err := checkRepeat(p, r); err != nil {
		return nil, err
	}
	if order == nil {
		order = natural(len(p.Activities))
	}
	links, last := len(p.Links), r.Activities
	first, rounds := len(p.Activities), len(p.Risks)
	for k := range times {
		to := map[int]int{}
		for _, j := range r.Activities {
			to[j] = p.again(j, r.ID+" "+itoa(k+1))
		}
		p.relink(links, to)
		next := make([]int, len(r.Activities))
		for i, j := range r.Activities {
			next[i] = to[j]
		}
		p.behind(links, r.Activities, last, next)
		p.Risks = append(p.Risks, Risk{ID: r.ID + " " + itoa(k+1), Chance: r.Chance})
		for i := range p.Risks[rounds:] { // a round needs all the strikes before it
			p.Risks[rounds+i].Activities = append(p.Risks[rounds+i].Activities, next...)
		}
		last = next
	}
	at := 0
	for i, j := range order {
		if slices.Contains(r.Activities, j) {
			at = i + 1
		}
	}
	return slices.Insert(slices.Clone(order), at, natural(len(p.Activities))[first:]...), nil
}

func checkRepeat(p *Problem, r Risk) error {
	for i, j := range r.Activities {
		if !inside(j, len(p.Activities)) || slices.Contains(r.Activities[:i], j) {
			return broken(ruleIndex, "risk "+r.ID, "activity %d is unknown or named twice", j)
		}
		if p.Activities[j].State == Started {
			return broken(ruleFact, "risk "+r.ID, "%s is under way: what is left of it is not the whole of it", p.Activities[j].ID)
		}
	}
	for _, l := range p.Links {
		if l.Max && slices.Contains(r.Activities, l.From) && !slices.Contains(r.Activities, l.To) {
			return broken(ruleLoop, "risk "+r.ID, "a maximum lag leaves %s: a round would always break it", p.Activities[l.From].ID).
				WithHint("take what the lag leads to into the round")
		}
	}
	return nil
}

// again adds a copy of an activity wherever the original is named.
func (p *Problem) again(j int, prefix string) int {
	a, to := p.Activities[j], len(p.Activities)
	a.ID = prefix + ": " + a.ID
	a.State, a.Start, a.Finish = Open, 0, 0
	a.Release, a.Pinned, a.Late = 0, false, Spread{}
	p.Activities = append(p.Activities, a)
	for i := range p.Clashes {
		c := &p.Clashes[i]
		if slices.Contains(c.Dirty, j) {
			c.Dirty = append(c.Dirty, to)
		}
		if slices.Contains(c.Clean, j) {
			c.Clean = append(c.Clean, to)
		}
	}
	if p.Published != nil {
		p.Published = append(p.Published, Slot{Start: Never})
	}
	return to
}

// relink copies, of the first links, those that begin in a round.
func (p *Problem) relink(links int, to map[int]int) {
	for _, l := range p.Links[:links] {
		from, in := to[l.From]
		if !in {
			continue
		}
		l.From = from
		if inner, both := to[l.To]; both {
			l.To = inner
		}
		p.Links = append(p.Links, l)
	}
}

// behind makes what begins a round wait for all that ended the last one. Both
// are given in the order of body, whose own links say what begins and ends.
func (p *Problem) behind(links int, body, last, next []int) {
	begins, ends := slices.Repeat([]bool{true}, len(body)), slices.Repeat([]bool{true}, len(body))
	for _, l := range p.Links[:links] {
		from, to := slices.Index(body, l.From), slices.Index(body, l.To)
		if from >= 0 && to >= 0 && !l.Max {
			ends[from], begins[to] = false, false
		}
	}
	for i := range last {
		for k := range next {
			if ends[i] && begins[k] {
				p.Links = append(p.Links, Link{From: last[i], To: next[k], Calendar: -1})
			}
		}
	}
}
