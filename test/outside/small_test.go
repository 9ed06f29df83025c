// Package outside holds the scheduling engine's answers against methods that
// share no code with it: a slow search written from the definition of a plan,
// and a constraint solver from outside.
package outside

import (
	"fmt"
	"math/rand/v2"

	"fettle/engine/schedule"
)

// All amounts of a small problem are whole hours, so that a plan on the grid of
// hours is as good as any: whatever is set by another moment is set by a sum of
// whole hours.
const (
	hour    = 60
	days    = 9
	horizon = days * 24 // hours
)

// parts says what a small problem may hold.
type parts struct {
	facts, pins, remedies, overtime, crews, clashes bool
}

var everything = parts{facts: true, pins: true, remedies: true, overtime: true, crews: true, clashes: true}

// small makes a problem of three to six activities in an order that links follow.
func small(r *rand.Rand, with parts) schedule.Problem {
	p := schedule.Problem{Now: schedule.Minute(r.IntN(2) * 9 * hour)}
	for range 2 {
		p.Calendars = append(p.Calendars, shifts(r))
	}
	people := 1 + r.IntN(3)
	for i := range people {
		p.People = append(p.People, schedule.Person{ID: fmt.Sprint("hand ", i), Calendar: r.IntN(2)})
	}
	p.Places = []schedule.Place{{ID: "booth", Units: 1 + r.IntN(2)}}
	n := 3 + r.IntN(4)
	for j := range n {
		p.Activities = append(p.Activities, work(r, &p, j, with))
	}
	for j := 1; j < n; j++ {
		for range r.IntN(3) {
			p.Links = append(p.Links, link(r, r.IntN(j), j))
		}
	}
	if with.remedies && r.IntN(3) == 0 {
		remedy(r, &p)
	}
	if with.clashes && r.IntN(3) == 0 {
		clash(r, &p)
	}
	if with.overtime && r.IntN(3) == 0 {
		h := r.IntN(people)
		p.Overtime = []schedule.Overtime{{Person: h, Window: schedule.Window{From: 18 * hour, To: 21 * hour}, Price: int64(1 + r.IntN(9))}}
	}
	if r.IntN(2) == 0 {
		p.Goal = schedule.Minute(24+r.IntN(48)) * hour
	}
	return p
}

// shifts are days of three to five hours, some with a break, some off.
func shifts(r *rand.Rand) schedule.Calendar {
	var c schedule.Calendar
	from, long, gap := 8+r.IntN(3), 3+r.IntN(2), r.IntN(2)
	for d := range schedule.Minute(days) {
		if r.IntN(5) == 0 && d < days-3 {
			continue
		}
		at := (24*d + schedule.Minute(from)) * hour
		c = append(c, schedule.Window{From: at, To: at + schedule.Minute(long)*hour})
		if gap == 1 {
			c = append(c, schedule.Window{From: at + schedule.Minute(long+1)*hour, To: at + schedule.Minute(long+2)*hour})
		}
	}
	return c
}

func work(r *rand.Rand, p *schedule.Problem, j int, with parts) schedule.Activity {
	a := schedule.Activity{ID: fmt.Sprint("job ", j), Work: schedule.Minute(1+r.IntN(5)) * hour}
	switch r.IntN(8) {
	case 0:
		a.Kind, a.Work = schedule.Milestone, 0
	case 1:
		a.Kind, a.Calendar = schedule.Passive, r.IntN(3)-1
	case 2, 3:
		a.Kind, a.Work = schedule.Session, schedule.Minute(1+r.IntN(3))*hour
	}
	if a.Kind == schedule.Labour || a.Kind == schedule.Session {
		a.Who = r.Perm(len(p.People))[:1+r.IntN(len(p.People))]
		if a.Heads = 1 + r.IntN(2); a.Heads > len(a.Who) || p.People[a.Who[0]].Calendar != p.People[a.Who[len(a.Who)-1]].Calendar {
			a.Heads = 1
		}
		if with.crews && r.IntN(4) == 0 && a.Heads == 1 && len(a.Who) == len(p.People) {
			a.Crew = "pair"
		}
	}
	if a.Kind != schedule.Milestone && r.IntN(3) == 0 {
		a.Uses = []schedule.Use{{Units: 1 + r.IntN(p.Places[0].Units)}}
	}
	if r.IntN(5) == 0 {
		a.Release = schedule.Minute(r.IntN(40)) * hour
		a.Pinned = with.pins && r.IntN(2) == 0 && a.Kind == schedule.Session
	}
	if with.facts && p.Now > 0 && j == 0 && !a.Pinned {
		switch r.IntN(3) {
		case 0:
			a.State, a.Start, a.Finish = schedule.Done, hour, 5*hour
		case 1:
			if a.Kind == schedule.Labour {
				a.State, a.Start = schedule.Started, 2*hour
			}
		}
	}
	return a
}

// link makes j wait for i, or sets a window between them.
func link(r *rand.Rand, i, j int) schedule.Link {
	l := schedule.Link{From: i, To: j, Calendar: r.IntN(3) - 1, FromStart: r.IntN(5) == 0}
	l.Lag = schedule.Minute(max(0, r.IntN(8)-3)) * hour
	if r.IntN(4) == 0 {
		l.Max, l.Lag = true, l.Lag+schedule.Minute(r.IntN(6))*hour
	}
	return l
}

// remedy gives a window its remedial work, between two open activities.
func remedy(r *rand.Rand, p *schedule.Problem) {
	n := len(p.Activities)
	i := r.IntN(n - 2)
	j := i + 2
	for _, k := range []int{i, i + 1, j} {
		if p.Activities[k].State != schedule.Open {
			return
		}
	}
	var kept []schedule.Link
	for _, l := range p.Links { // remedial work leads to the end of its window only
		if l.From != i+1 && l.To != i+1 {
			kept = append(kept, l)
		}
	}
	lag := schedule.Minute(1+r.IntN(10)) * hour
	p.Links = append(kept, schedule.Link{From: i, To: j, Calendar: -1}, schedule.Link{From: i, To: j, Lag: lag, Calendar: -1, Max: true})
	p.Remedies = []schedule.Remedy{{Link: len(p.Links) - 1, Activity: i + 1}}
	p.Activities[i+1].Pinned = false
	if p.Activities[i+1].Kind == schedule.Milestone {
		p.Activities[i+1].Kind, p.Activities[i+1].Calendar, p.Activities[i+1].Work = schedule.Passive, -1, 2*hour
	}
}

// clash keeps one activity's dust from the air of another.
func clash(r *rand.Rand, p *schedule.Problem) {
	two := r.Perm(len(p.Activities))[:2]
	for _, j := range two {
		if p.Activities[j].Kind == schedule.Milestone {
			return
		}
	}
	p.Clashes = []schedule.Clash{{Dirty: two[:1], Clean: two[1:], Settle: schedule.Minute(r.IntN(4)) * hour, Calendar: r.IntN(3) - 1}}
}
