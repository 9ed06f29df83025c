package schedule

import (
	"cmp"
	"slices"
)

// Score is what plans are judged by. Less is better: the first measure that
// differs decides, unless Problem.Weights weigh them up against each other.
type Score struct {
	Late      Minute // minutes of the last finish after the goal
	Remedial  int64  // minutes of remedies done, of maximum lags missed without one, and of pins missed
	Moved     int    // published near starts that move to another day or to other people
	Price     int64  // of the overtime that is worked in
	Length    Minute // from now to the last finish
	Handovers int    // inside a group, from one pair of hands to others
}

// compare is below zero where a is better than b, measure by measure.
func (a Score) compare(b Score) int {
	return cmp.Or(
		cmp.Compare(a.Late, b.Late), cmp.Compare(a.Remedial, b.Remedial), cmp.Compare(a.Moved, b.Moved),
		cmp.Compare(a.Price, b.Price), cmp.Compare(a.Length, b.Length), cmp.Compare(a.Handovers, b.Handovers),
	)
}

// never says that some work does not fit before the calendars end, whatever
// else is missed for that or is not.
func (a Score) never() bool { return a.Length > Never-limit }

// cost weighs the measures up in one sum; without weights all cost the same.
// The conversions keep fused arithmetic from ranking otherwise elsewhere.
func (a Score) cost(w *Weights) float64 {
	if w == nil {
		return 0
	}
	sum := float64(w.Late * float64(a.Late))
	sum += float64(w.Remedial * float64(a.Remedial))
	sum += float64(w.Moved * float64(a.Moved))
	sum += float64(w.Overtime * float64(a.Price))
	return sum + float64(w.Length*float64(a.Length))
}

// judge measures the schedule that stands in a run.
type judge struct {
	n      *net
	near   []int   // open activities whose published start should stand
	groups [][]int // by group, activities that need people; groups of one left out
	row    []int   // scratch
}

func newJudge(n *net) *judge {
	g := &judge{n: n}
	members, names := map[string][]int{}, []string(nil)
	for j := range n.Activities {
		a := &n.Activities[j]
		if a.State == Open && n.Published != nil && n.Published[j].Start < n.Near {
			g.near = append(g.near, j)
		}
		if a.Group == "" || n.heads(j) == 0 || a.State == Done {
			continue
		}
		if members[a.Group] == nil {
			names = append(names, a.Group)
		}
		members[a.Group] = append(members[a.Group], j)
	}
	for _, name := range names {
		if m := members[name]; len(m) > 1 {
			g.groups = append(g.groups, m)
			g.row = slices.Grow(g.row, len(m))
		}
	}
	return g
}

// score measures; bought is by window of Problem.Overtime and loses what nobody works in.
func (g *judge) score(r *run, bought []bool) Score {
	n, last := g.n, r.makespan()
	s := Score{Length: last - n.Now, Remedial: g.remedial(r)}
	if n.Goal > 0 {
		s.Late = max(0, last-n.Goal)
	}
	for _, j := range g.near {
		if g.moved(r, j) {
			s.Moved++
		}
	}
	for w, yes := range bought {
		if bought[w] = yes && g.worked(r, &n.Overtime[w]); bought[w] {
			s.Price += n.Overtime[w].Price
		}
	}
	for _, members := range g.groups {
		s.Handovers += g.handovers(r, members)
	}
	return s
}

func (g *judge) remedial(r *run) int64 {
	sum := int64(0)
	for i := range g.n.Remedies {
		if j := g.n.Remedies[i].Activity; !r.skipped[j] {
			sum += int64(r.work[j])
		}
	}
	for _, l := range g.n.maxLags {
		if k := &g.n.Links[l]; !r.skipped[k.From] && !r.skipped[k.To] && !g.remedied(r, l) {
			sum += int64(g.n.over(l, r.start, r.finish))
		}
	}
	for _, j := range g.n.pinned {
		sum += int64(max(0, r.start[j]-max(g.n.Now, g.n.Activities[j].Release)))
	}
	return sum
}

// remedied says that a maximum lag was missed and its remedy is done.
func (g *judge) remedied(r *run, link int) bool {
	for i := range g.n.Remedies {
		if m := &g.n.Remedies[i]; m.Link == link && !r.skipped[m.Activity] {
			return true
		}
	}
	return false
}

// over is by how much a maximum lag is missed. A fact cannot miss it any more.
func (n *net) over(link int, start, finish []Minute) Minute {
	l := &n.Links[link]
	if n.Activities[l.To].State != Open {
		return 0
	}
	return max(0, start[l.To]-n.arrival(link, start[l.From], finish[l.From]))
}

// moved says that a published start is now on another day or, where people
// were told, with others.
func (g *judge) moved(r *run, j int) bool {
	was := &g.n.Published[j]
	if r.skipped[j] {
		return false
	}
	if r.start[j]/1440 != was.Start/1440 {
		return true
	}
	if len(was.People) == 0 {
		return false
	}
	now := r.chosen(j)
	for _, p := range now {
		if !slices.Contains(was.People, p) {
			return true
		}
	}
	return len(now) != len(was.People)
}

func (r *run) chosen(j int) []int { return r.heads[r.n.first[j]:r.n.first[j+1]] }

// worked says that its person works in a bought window.
func (g *judge) worked(r *run, o *Overtime) bool {
	for _, j := range g.n.users[o.Person] {
		if r.skipped[j] || r.resume[j] >= o.Window.To || r.finish[j] < o.Window.From {
			continue
		}
		at := r.resume[j] // what takes no time needs its person for the minute of its start
		if slices.Contains(r.chosen(j), o.Person) && max(at+1, r.until(o.Person, j, at)) > o.Window.From {
			return true
		}
	}
	return false
}

// handovers counts how often work inside a group passes, in order of starts,
// to people none of whom did what came before.
func (g *judge) handovers(r *run, members []int) int {
	row := g.row[:0]
	for _, j := range members {
		if r.skipped[j] {
			continue
		}
		row = append(row, j)
		for i := len(row) - 1; i > 0 && r.resume[row[i]] < r.resume[row[i-1]]; i-- {
			row[i], row[i-1] = row[i-1], row[i]
		}
	}
	sum := 0
	for i := 1; i < len(row); i++ {
		if !slices.ContainsFunc(r.chosen(row[i]), func(p int) bool { return slices.Contains(r.chosen(row[i-1]), p) }) {
			sum++
		}
	}
	return sum
}
