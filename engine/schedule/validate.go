package schedule

import (
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"fettle/fault"
)

// The rules of a problem. A fault names its rule by this number.
const (
	ruleCalendar  = 1 + iota // windows in order, apart, not empty, within 2^28 minutes of the origin
	ruleID                   // activities, people, places, factors and risks have an ID of their own
	ruleIndex                // every index points into its list
	ruleAmount               // work, lags, heads and units are not negative and not beyond 2^28
	ruleWho                  // labour and sessions name as many different people as they need heads
	ruleHours                // those people have hours together after now
	ruleSession              // a session fits into some open window
	ruleAlone                // passive activities and milestones take no people; milestones no time and no place
	rulePlace                // a call on a place is for at least one unit and at most all of them
	ruleFact                 // what has started or is done did so in order and before now
	ruleRange                // 0 <= low <= mode <= high, finite
	ruleLoop                 // no activity waits for itself
	ruleOrder                // a priority list names every activity once
	ruleAbsence              // the chance of absence is at least 0 and below 1
	ruleRemedy               // a remedy mends a maximum lag, with open work of its own
	ruleClash                // no activity is both dirty and clean in one clash, nor named twice, nor a milestone
	ruleOvertime             // overtime lies outside its person's calendar and apart; prices are not negative
	ruleRisk                 // chances are 0 to 1; what a risk calls for is open
	rulePublished            // published starts are one for every activity, or none
	ruleWeights              // weights are finite and not negative
	ruleCrew                 // a crew has one number of heads, and enough people who may do all of its work
	ruleSeen                 // ratios seen are finite and above 0
)

func broken(rule int, where, format string, args ...any) *fault.Fault {
	f := fault.New(fault.Invalid, format, args...)
	f.Msg = "schedule rule " + itoa(rule) + ": " + f.Msg
	return f.At(where)
}

// validate checks every rule once and stops at the first that fails.
func validate(p *Problem) error {
	if err := wellFormed(p); err != nil {
		return err
	}
	return allOf(p, checkHours, checkLoops, checkRemedies)
}

// wellFormed checks all but whether there can be a plan at all, which Conflict
// explains.
func wellFormed(p *Problem) error {
	return allOf(p, checkCalendars, checkIDs, checkPeople, checkActivities, checkLinks, checkFactors, checkCrews,
		checkOptional, checkClashes, checkOvertime, checkPublished, checkWeights)
}

func allOf(p *Problem, checks ...func(*Problem) error) error {
	for _, check := range checks {
		if err := check(p); err != nil {
			return err
		}
	}
	return nil
}

func checkCalendars(p *Problem) error {
	for i, c := range p.Calendars {
		last := -limit
		for _, w := range c {
			if w.From < last || w.To <= w.From || w.To > limit {
				return broken(ruleCalendar, "calendar "+itoa(i), "window %d to %d is empty, out of order or too far away", w.From, w.To)
			}
			last = w.To + 1
		}
	}
	return nil
}

func checkIDs(p *Problem) error {
	var err error
	see := func(kind string, count int, id func(int) string) {
		seen := make(map[string]bool, count)
		for i := range count {
			if name := id(i); err == nil && (name == "" || seen[name]) {
				err = broken(ruleID, kind+" "+itoa(i), "ID %q is empty or used twice", name)
			}
			seen[id(i)] = true
		}
	}
	see("activity", len(p.Activities), func(i int) string { return p.Activities[i].ID })
	see("person", len(p.People), func(i int) string { return p.People[i].ID })
	see("place", len(p.Places), func(i int) string { return p.Places[i].ID })
	see("factor", len(p.Factors), func(i int) string { return p.Factors[i].ID })
	see("risk", len(p.Risks), func(i int) string { return p.Risks[i].ID })
	return err
}

func checkPeople(p *Problem) error {
	for _, h := range p.People {
		if !inside(h.Calendar, len(p.Calendars)) {
			return broken(ruleIndex, "person "+h.ID, "calendar %d of %d", h.Calendar, len(p.Calendars))
		}
		if !h.Range.sound() || !h.Learned.sound() {
			return broken(ruleRange, "person "+h.ID, "%v, %v", h.Range, h.Learned)
		}
	}
	for _, q := range p.Places {
		if q.Units < 1 {
			return broken(rulePlace, "place "+q.ID, "it has %d units", q.Units)
		}
	}
	if !(p.Absence >= 0 && p.Absence < 1) {
		return broken(ruleAbsence, "absence", "%v is not a chance", p.Absence)
	}
	if amount(p.Now) && amount(p.Goal) && amount(p.Near) {
		return nil
	}
	return broken(ruleAmount, "now or goal", "%d, %d, near %d", p.Now, p.Goal, p.Near)
}

func checkActivities(p *Problem) error {
	for i := range p.Activities {
		a := &p.Activities[i]
		for _, check := range []func(*Problem, *Activity) *fault.Fault{checkAmounts, checkFact, checkWho, checkUses, checkRanges} {
			if f := check(p, a); f != nil {
				return f.At("activity " + a.ID)
			}
		}
	}
	return nil
}

func checkAmounts(p *Problem, a *Activity) *fault.Fault {
	if a.Kind > Milestone || a.State > Done {
		return broken(ruleIndex, "kind or state", "%d, %d", a.Kind, a.State)
	}
	if !amount(a.Work) || !amount(a.Release) {
		return broken(ruleAmount, "work or release", "%d, %d", a.Work, a.Release)
	}
	if !amount(a.Begun.Planned) || !amount(a.Begun.Spent) {
		return broken(ruleAmount, "begun", "%d planned, %d spent", a.Begun.Planned, a.Begun.Spent)
	}
	if a.Kind == Passive && !inside(a.Calendar+1, len(p.Calendars)+1) {
		return broken(ruleIndex, "calendar", "%d of %d", a.Calendar, len(p.Calendars))
	}
	if a.Kind == Milestone && a.Work+Minute(len(a.Uses)) > 0 {
		return broken(ruleAlone, "milestone", "it takes %d minutes and %d places", a.Work, len(a.Uses))
	}
	return nil
}

func checkFact(p *Problem, a *Activity) *fault.Fault {
	late := a.State != Open && (a.Start > p.Now || a.Start < -limit)
	if late || a.State == Done && (a.Finish < a.Start || a.Finish > p.Now) {
		return broken(ruleFact, "fact", "start %d, finish %d, now %d", a.Start, a.Finish, p.Now)
	}
	return nil
}

func checkWho(p *Problem, a *Activity) *fault.Fault {
	for i, w := range a.Who {
		if !inside(w, len(p.People)) {
			return broken(ruleIndex, "who", "person %d of %d", w, len(p.People))
		}
		for _, v := range a.Who[:i] {
			if v == w {
				return broken(ruleWho, "who", "%s is named twice", p.People[w].ID)
			}
		}
	}
	if a.State == Done {
		return nil
	}
	heads := headsOf(a)
	if a.Heads < 0 || heads > len(a.Who) {
		return broken(ruleWho, "who", "%d heads of %d people", a.Heads, len(a.Who)).
			WithHint("name the people who may do it")
	}
	if heads == 0 && len(a.Who)+a.Heads > 0 {
		return broken(ruleAlone, "who", "a wait or a milestone has people")
	}
	return nil
}

func checkUses(p *Problem, a *Activity) *fault.Fault {
	for i, u := range a.Uses {
		if !inside(u.Place, len(p.Places)) {
			return broken(ruleIndex, "uses", "place %d of %d", u.Place, len(p.Places))
		}
		q := p.Places[u.Place]
		if u.Units < 1 || u.Units > q.Units {
			return broken(rulePlace, "uses", "%d of the %d units of %s", u.Units, q.Units, q.ID)
		}
		for _, v := range a.Uses[:i] {
			if v.Place == u.Place {
				return broken(rulePlace, "uses", "%s is named twice", q.ID)
			}
		}
	}
	return nil
}

func checkRanges(p *Problem, a *Activity) *fault.Fault {
	for _, s := range []Spread{a.Range, a.Extra, a.Late} {
		if !s.sound() {
			return broken(ruleRange, "range", "%v", s)
		}
	}
	if !a.Learned.sound() {
		return broken(ruleRange, "learned", "%v", a.Learned)
	}
	for _, f := range a.Factors {
		if !inside(f, len(p.Factors)) {
			return broken(ruleIndex, "factors", "factor %d of %d", f, len(p.Factors))
		}
	}
	return nil
}

func checkFactors(p *Problem) error {
	for _, f := range p.Factors {
		if !f.Range.sound() || !f.Learned.sound() {
			return broken(ruleRange, "factor "+f.ID, "%v, %v", f.Range, f.Learned)
		}
		for _, x := range f.Seen {
			if !(x > 0 && x <= float64(limit)) {
				return broken(ruleSeen, "factor "+f.ID, "%v is not a ratio of actual to planned", x)
			}
		}
	}
	return nil
}

func (s Spread) sound() bool {
	return s.Low >= 0 && s.Low <= s.Mode && s.Mode <= s.High && s.High <= float64(limit) && !math.IsNaN(s.High)
}

// sound wants a factor that is no further from 1 than e to the tenth.
func (d Lognormal) sound() bool {
	return d.Mu >= -10 && d.Mu <= 10 && d.Sigma >= 0 && d.Sigma <= 10
}

func checkLinks(p *Problem) error {
	for i, l := range p.Links {
		where := "link " + itoa(i)
		if !inside(l.From, len(p.Activities)) || !inside(l.To, len(p.Activities)) {
			return broken(ruleIndex, where, "activities %d and %d of %d", l.From, l.To, len(p.Activities))
		}
		where += " from " + p.Activities[l.From].ID + " to " + p.Activities[l.To].ID
		if !inside(l.Calendar+1, len(p.Calendars)+1) {
			return broken(ruleIndex, where, "calendar %d of %d", l.Calendar, len(p.Calendars))
		}
		if !amount(l.Lag) {
			return broken(ruleAmount, where, "lag %d", l.Lag)
		}
	}
	return nil
}

// checkHours looks for a moment after now when enough of Who are at work.
func checkHours(p *Problem) error {
	for i := range p.Activities {
		a := &p.Activities[i]
		heads := headsOf(a)
		if a.State == Done || heads == 0 {
			continue
		}
		who := crewOf(p, i)
		longest := together(p, who, heads)
		if longest == 0 {
			return broken(ruleHours, "activity "+a.ID, "%s: no hours left in the calendar, or none together for %d heads", names(p, who), heads).
				WithHint("give them working hours after now, or name other people")
		}
		if a.Kind == Session && longest < a.Work {
			return broken(ruleSession, "activity "+a.ID, "a session of %d minutes; the longest open time is %d", a.Work, longest)
		}
	}
	return nil
}

func names(p *Problem, who []int) string {
	var list []string
	for _, w := range who {
		list = append(list, p.People[w].ID)
	}
	return strings.Join(list, ", ")
}

// together is the longest stretch after now in which heads of who are at work,
// judged at the openings of each: a common stretch begins at one of them.
func together(p *Problem, who []int, heads int) Minute {
	longest := Minute(0)
	for _, w := range who {
		for _, v := range p.Calendars[p.People[w].Calendar] {
			from := max(v.From, p.Now)
			if v.To-from <= longest {
				continue
			}
			stretch := v.To - from
			if heads > 1 {
				stretch = common(p, who, heads, from)
			}
			longest = max(longest, stretch)
		}
	}
	return longest
}

// common is how long heads of who stay at work from a moment on.
func common(p *Problem, who []int, heads int, from Minute) Minute {
	var stays []Minute
	for _, w := range who {
		c := p.Calendars[p.People[w].Calendar]
		i := sort.Search(len(c), func(i int) bool { return c[i].To > from })
		if i < len(c) && c[i].From <= from {
			stays = append(stays, c[i].To-from)
		}
	}
	if len(stays) < heads {
		return 0
	}
	slices.Sort(stays)
	return stays[len(stays)-heads]
}

// checkOrder accepts nil: the order of Activities.
func checkOrder(p *Problem, order []int) error {
	seen := make([]bool, len(p.Activities))
	for _, j := range order {
		if !inside(j, len(seen)) || seen[j] {
			return broken(ruleOrder, "order", "activity %d is unknown or named twice", j)
		}
		seen[j] = true
	}
	if order != nil && len(order) != len(seen) {
		return broken(ruleOrder, "order", "%d of %d activities", len(order), len(seen))
	}
	return nil
}

func inside(i, n int) bool { return i >= 0 && i < n }
func amount(m Minute) bool { return m >= 0 && m <= limit }
func itoa(i int) string    { return strconv.Itoa(i) }
