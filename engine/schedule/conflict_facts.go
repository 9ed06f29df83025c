package schedule

import (
	"cmp"
	"context"
	"slices"
)

// longGap is longer than a weekend: a closed time of its own, named as such.
const longGap = 3 * 1440

// explainer tries sets of facts. A fact that is not in the set holds nothing:
// its link, lag or date is left out, its person works day and night.
type explainer struct {
	ctx   context.Context
	n     *net
	f     *frame
	wall  *clock
	facts []Fact
	on    []bool
	hours [][]int             // by person: its hours, then its times away
	own   []map[string]*clock // by person: clocks made so far
	calls int
}

// trialSteps bounds one trial: so many walks along the links, and one weighing
// of all against all. Windows that creep on for longer are not refuted.
func trialSteps(n *net) int {
	c := len(n.Activities)
	return 1000*(c+len(n.Links)) + min(c*c*c, 5_000_000)
}

func newExplainer(ctx context.Context, n *net) *explainer {
	x := &explainer{ctx: ctx, n: n, f: newFrame(n), wall: n.clock(-1)}
	if n.Goal > 0 {
		x.add(Fact{Kind: FactGoal, At: n.Goal})
	}
	for j := range n.Activities {
		x.activity(j)
	}
	x.links()
	for q := range n.Places {
		x.add(Fact{Kind: FactPlace, ID: n.Places[q].ID, Place: q})
	}
	for p := range n.People {
		x.person(p)
	}
	used := make([]bool, len(n.Calendars))
	for i := range n.Activities {
		if a := &n.Activities[i]; a.Kind == Passive && a.Calendar >= 0 {
			used[a.Calendar] = true
		}
	}
	for _, l := range n.Links[:n.raw] {
		if !l.Max && l.Calendar >= 0 && l.Lag > 0 {
			used[l.Calendar] = true
		}
	}
	for c, yes := range used {
		if yes {
			x.add(Fact{Kind: FactCalendar, Calendar: c})
		}
	}
	slices.SortStableFunc(x.facts, func(a, b Fact) int { return cmp.Compare(a.Kind, b.Kind) })
	x.on = make([]bool, len(x.facts))
	x.own, x.hours = make([]map[string]*clock, len(n.People)), make([][]int, len(n.People))
	for i, f := range x.facts {
		if f.Kind == FactHours || f.Kind == FactAway {
			x.hours[f.Person] = append(x.hours[f.Person], i)
		}
	}
	return x
}

// add takes a fact with the indices of its own kind set, and clears the others.
func (x *explainer) add(f Fact) {
	k := f.Kind
	if k != FactPin && k != FactRelease && k != FactStarted && k != FactLink && k != FactMaxLag {
		f.Activity = -1
	}
	if k != FactLink && k != FactMaxLag {
		f.Link = -1
	}
	if k != FactHours && k != FactAway {
		f.Person = -1
	}
	if k != FactPlace {
		f.Place = -1
	}
	if k != FactCalendar {
		f.Calendar = -1
	}
	x.facts = append(x.facts, f)
}

func (x *explainer) activity(j int) {
	a := &x.n.Activities[j]
	switch {
	case !x.f.counts(j) || a.State == Done:
	case a.State == Started && a.Work > 0:
		x.add(Fact{Kind: FactStarted, ID: a.ID, Activity: j, Length: a.Work})
	case a.State == Open && a.Pinned:
		x.add(Fact{Kind: FactPin, ID: a.ID, Activity: j, At: max(x.n.Now, a.Release)})
	case a.State == Open && a.Release > x.n.Now:
		x.add(Fact{Kind: FactRelease, ID: a.ID, Activity: j, At: a.Release})
	}
}

// links are the least lags, and the maximum lags that no remedy puts right.
func (x *explainer) links() {
	n := x.n
	for i, l := range n.Links[:n.raw] {
		if x.f.off[i] || n.Activities[l.To].State != Open {
			continue
		}
		f := Fact{Kind: FactLink, ID: n.Activities[l.To].ID, Activity: l.To, Link: i, Length: l.Lag}
		if l.Max {
			f.Kind = FactMaxLag
		}
		if !l.Max || !slices.ContainsFunc(n.Remedies, func(r Remedy) bool { return r.Link == i }) {
			x.add(f)
		}
	}
}

// person names the hours of those who have something to do, and the long gaps.
func (x *explainer) person(p int) {
	n := x.n
	if !slices.ContainsFunc(natural(len(n.Activities)), func(j int) bool {
		return x.f.counts(j) && n.Activities[j].State != Done && slices.Contains(n.Activities[j].Who, p)
	}) {
		return
	}
	x.add(Fact{Kind: FactHours, ID: n.People[p].ID, Person: p})
	for _, w := range gaps(n.longest(p).win, n.Now) {
		if isAway(w) {
			x.add(Fact{Kind: FactAway, ID: n.People[p].ID, Person: p, Window: w})
		}
	}
}

// gaps are the closed times from now on; the last one never ends.
func gaps(open []Window, now Minute) []Window {
	var list []Window
	for _, w := range open {
		if w.From > now {
			list = append(list, Window{now, w.From})
		}
		now = max(now, w.To)
	}
	return append(list, Window{now, Never})
}

// isAway says that a gap is a time away; the others, and the end of the
// calendar, belong to the hours.
func isAway(gap Window) bool { return gap.To-gap.From >= longGap && gap.To < Never }

// clock is the clock of a person when only some of their facts hold.
func (x *explainer) clock(p int) *clock {
	if len(x.hours[p]) == 0 {
		return x.f.clocks[p]
	}
	key := make([]byte, 0, len(x.hours[p]))
	for _, i := range x.hours[p] {
		if x.on[i] {
			key = append(key, byte('1'))
		} else {
			key = append(key, byte('0'))
		}
	}
	if k := x.own[p][string(key)]; k != nil {
		return k
	}
	list := Calendar{}
	base := x.n.longest(p).win
	for _, w := range base {
		if w.To > x.n.Now {
			list = append(list, Window{max(x.n.Now, w.From), w.To})
		}
	}
	for _, g := range gaps(base, x.n.Now) {
		held := false
		for _, i := range x.hours[p] {
			if f := &x.facts[i]; f.Kind == FactAway && f.Window == g || f.Kind == FactHours && !isAway(g) {
				held = held || x.on[i]
			}
		}
		if !held {
			list = append(list, g)
		}
	}
	k := newClock(joined(list))
	if x.own[p] == nil {
		x.own[p] = map[string]*clock{}
	}
	x.own[p][string(key)] = &k
	return &k
}

// refuted says that no plan respects a set of facts.
func (x *explainer) refuted(sets ...[]int) bool {
	x.calls++
	if x.ctx.Err() != nil {
		return false
	}
	clear(x.on)
	for _, set := range sets {
		for _, i := range set {
			x.on[i] = true
		}
	}
	trial := x.hold()
	f := x.f
	f.steps = trialSteps(x.n)
	f.sort()
	f.reset()
	return f.failed || f.circles() || f.try(trial, true)
}

// hold sets the frame to the facts that are on, and gives the trial finish.
func (x *explainer) hold() Minute {
	f, n, trial := x.f, x.n, Never-1
	for p := range n.People {
		f.clocks[p] = x.clock(p)
	}
	f.wishes = f.wishes[:0]
	counted := make([]bool, len(n.Calendars)+1)
	for i, fact := range x.facts {
		on, j := x.on[i], fact.Activity
		switch fact.Kind {
		case FactGoal:
			if on {
				trial = fact.At
			}
		case FactPin:
			f.pin[j], f.release[j] = on, 0
			if on {
				f.release[j] = fact.At
			}
		case FactRelease:
			if f.release[j] = 0; on {
				f.release[j] = fact.At
			}
		case FactStarted:
			if f.work[j] = 0; on {
				f.work[j] = fact.Length
			}
		case FactLink:
			f.off[fact.Link] = !on
		case FactMaxLag:
			if on {
				f.wishes = append(f.wishes, fact.Link)
			}
		case FactPlace:
			if f.units[fact.Place] = 0; on {
				f.units[fact.Place] = n.Places[fact.Place].Units
			}
		case FactCalendar:
			counted[fact.Calendar] = on
		}
	}
	x.calendars(counted)
	return trial
}

// calendars lets lags and waits on calendars that are not held count day and
// night. A maximum lag keeps its own: it would only be harder.
func (x *explainer) calendars(counted []bool) {
	pick := func(c int) *clock {
		if c >= 0 && !counted[c] {
			return x.wall
		}
		return x.n.clock(c)
	}
	for i, l := range x.n.Links {
		if !l.Max {
			x.f.lags[i] = pick(l.Calendar)
		}
	}
	for j := range x.n.Activities {
		if a := &x.n.Activities[j]; a.Kind == Passive {
			x.f.waits[j] = pick(a.Calendar)
		}
	}
}
