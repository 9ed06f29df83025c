package schedule

import "slices"

// crewOf is who may do an activity: of its Who, in that order, those that the
// whole crew has in common.
func crewOf(p *Problem, j int) []int {
	a := &p.Activities[j]
	if a.Crew == "" {
		return a.Who
	}
	who := slices.DeleteFunc(slices.Clone(a.Who), func(w int) bool { return !ableIn(p, a.Crew, w) })
	for i := range p.Activities {
		b := &p.Activities[i]
		if b.Crew != a.Crew || b.State == Done && !fixes(b) {
			continue
		}
		who = slices.DeleteFunc(who, func(w int) bool { return !slices.Contains(b.Who, w) })
	}
	return who
}

// ableIn says that a person has hours after now that hold each session of a crew.
func ableIn(p *Problem, crew string, w int) bool {
	longest := together(p, []int{w}, 1)
	for i := range p.Activities {
		b := &p.Activities[i]
		if b.Crew == crew && b.State != Done && b.Kind == Session && b.Work > longest {
			return false
		}
	}
	return longest > 0
}

// fixes says that a fact names the people of its crew: as many as it took.
func fixes(a *Activity) bool { return a.State != Open && len(a.Who) == max(1, a.Heads) }

// checkCrews looks for people who may do all the work of their crew.
func checkCrews(p *Problem) error {
	first := map[string]int{}
	for j := range p.Activities {
		a := &p.Activities[j]
		if a.Crew == "" || a.State == Done && !fixes(a) {
			continue
		}
		if a.State != Done && headsOf(a) == 0 {
			return broken(ruleCrew, "activity "+a.ID, "a wait or a milestone has a crew, %s", a.Crew)
		}
		i, known := first[a.Crew]
		if !known {
			first[a.Crew], i = j, j
		}
		if b := &p.Activities[i]; max(1, a.Heads) != max(1, b.Heads) {
			return broken(ruleCrew, "activity "+a.ID, "%d heads; %s of crew %s has %d", max(1, a.Heads), b.ID, a.Crew, max(1, b.Heads))
		}
		if who := crewOf(p, j); len(who) < max(1, a.Heads) {
			return broken(ruleCrew, "activity "+a.ID, "crew %s has %d people in common for %d heads", a.Crew, len(who), max(1, a.Heads)).
				WithHint("name the same people for all of its work")
		}
	}
	return nil
}

// match writes down who may do what, the crews, and what continuity looks at.
func (n *net) match() {
	n.who = make([][]int, len(n.Activities))
	n.scarce = make([]int, len(n.People))
	number, groups := map[string]int{}, map[string]int{}
	alike := false
	n.crew, n.groups = make([]int, len(n.Activities)), make([]int, len(n.Activities))
	for j := range n.Activities {
		a := &n.Activities[j]
		n.who[j], n.crew[j] = crewOf(&n.Problem, j), -1
		if a.State != Done && len(n.who[j]) == n.heads(j) {
			for _, p := range n.who[j] {
				n.scarce[p]++
			}
		}
		if a.Crew != "" {
			if _, known := number[a.Crew]; !known {
				number[a.Crew] = len(number)
			}
			n.crew[j] = number[a.Crew]
		}
		if _, known := groups[a.Group]; !known {
			groups[a.Group] = len(groups)
		}
		n.groups[j], alike = groups[a.Group], alike || a.Alike
	}
	if n.crews = len(number); n.crews == 0 {
		n.crew = nil
	}
	if !alike {
		n.groups = nil
	}
}

// gather begins with nobody in any crew and no work done on any group.
func (r *run) gather() {
	for c := range r.first {
		r.first[c] = -1
	}
	clear(r.worked)
}

// choices are the people who may do j, best first: those of its crew, once the
// crew has begun. Any heads of them will do, so taking the first who are free
// cannot fail where another choice would not.
//
// Who is best first, and nothing softer changes that order. Where those in Who
// are alike, whoever has the least work that nobody else can do goes first,
// then who has worked on the group before, then the order of Who.
//
// The first so many of them, the preferred ones, are waited for.
func (r *run) choices(j int) (who []int, waited int) {
	if r.n.crew != nil {
		if c := r.n.crew[j]; c >= 0 && r.first[c] >= 0 {
			i := r.first[c]
			return r.heads[r.n.first[i]:r.n.first[i+1]], 0
		}
	}
	row := r.preferred(j)
	waited = len(row)
	alike := r.n.groups != nil && r.n.Activities[j].Alike
	if waited == 0 && !alike {
		return r.n.who[j], 0
	}
	for _, p := range r.n.who[j] {
		if has(row[:waited], p) {
			continue
		}
		row = append(row, p)
		for i := len(row) - 1; alike && i > waited && r.sooner(j, row[i], row[i-1]); i-- {
			row[i], row[i-1] = row[i-1], row[i]
		}
	}
	return row, waited
}

// preferred writes down whom j waits for.
func (r *run) preferred(j int) []int {
	row := r.row[:0]
	if r.prefer == nil {
		return row
	}
	for _, p := range r.prefer[r.n.first[j]:r.n.first[j+1]] {
		if p > 0 {
			row = append(row, p-1)
		}
	}
	return row
}

// sooner says that continuity puts p before q.
func (r *run) sooner(j, p, q int) bool {
	if r.n.scarce[p] != r.n.scarce[q] {
		return r.n.scarce[p] < r.n.scarce[q]
	}
	g := r.n.groups[j] * len(r.n.People)
	return r.worked[g+p] && !r.worked[g+q]
}

// began remembers who did j: its crew is settled, its group known to them.
func (r *run) began(j int) {
	r.settleCrew(j)
	if r.n.groups != nil {
		for _, p := range r.heads[r.n.first[j]:r.n.first[j+1]] {
			r.worked[r.n.groups[j]*len(r.n.People)+p] = true
		}
	}
}

// settleCrew makes the people written down for j those of its crew, if nobody
// is yet.
func (r *run) settleCrew(j int) {
	if r.n.crew == nil {
		return
	}
	if c := r.n.crew[j]; c >= 0 && r.first[c] < 0 {
		r.first[c] = j
	}
}

// unsettleCrew takes that back for j, which has not begun: the crew is whoever
// has begun meanwhile, or nobody.
func (r *run) unsettleCrew(j int) {
	if r.n.crew == nil || r.n.crew[j] < 0 || r.first[r.n.crew[j]] != j {
		return
	}
	c := r.n.crew[j]
	r.first[c] = -1
	for i, k := range r.n.crew {
		if k == c && r.start[i] < Never && !r.skipped[i] && r.n.Activities[i].State != Done {
			r.first[c] = i
		}
	}
}
