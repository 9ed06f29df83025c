package schedule

import (
	"context"
	"slices"

	"fettle/fault"
)

// FactKind is a kind of fact that a plan has to respect.
type FactKind uint8

// The kinds of fact.
const (
	FactGoal     FactKind = iota // everything is over by At
	FactPin                      // Activity starts exactly At
	FactMaxLag                   // Link: Activity starts no later than Length after; no remedy puts it right
	FactLink                     // Link: Activity waits, with a lag of Length
	FactRelease                  // Activity may not start before At
	FactStarted                  // Activity has begun and has Length to go
	FactPlace                    // Place holds no more than its units
	FactAway                     // Person is not there in Window, of three days or more
	FactHours                    // Person works only the hours of their calendar, and none after its end
	FactCalendar                 // lags and waits on Calendar count only its open time
)

// Fact is one fact, named by kind and ID. Indices are -1 where they do not
// apply; Activity of a link is its end.
type Fact struct {
	Kind                                    FactKind
	ID                                      string // of the person, place or activity; "" for goal and calendar
	Activity, Link, Person, Place, Calendar int
	At, Length                              Minute
	Window                                  Window
}

// ConflictOptions bound the work of Conflict.
type ConflictOptions struct {
	Calls int // trials for a smallest set, after an irreducible one was found; 0 means 500
}

// Contradiction is a set of facts that leave no plan.
type Contradiction struct {
	Found bool   // false: none was found, which does not promise a plan
	Facts []Fact // goal and pins first
	Least bool   // no smaller set is refuted; else only that none of these can be left out
	Calls int    // trials made
}

// Conflict answers "why is this impossible": it looks for a smallest set of
// facts that cannot all hold, whatever the plan. The goal counts as a wall, so
// Problem.Goal asks "why not by then". What is refuted is refuted by the
// narrowing of windows that also bounds plans, with maximum lags and pins held:
// longest paths through calendars, what surely runs, what must come first, and
// work against hours. What it cannot refute it does not explain. The work of
// open activities, who may do it, now and what is done are taken for granted;
// crews, clashes, and maximum lags with a remedy are not held against a plan.
//
// An irreducible set comes from QuickXplain [Junker2004], the smaller of one in
// the order of kinds and one in the opposite order; a smallest one from
// least hitting sets of the facts whose absence frees a plan [Ignatiev2015].
// Bad input is a fault of kind Invalid, but not what no plan can respect:
// loops, people without hours, sessions too long for any window. A context that
// ends is one of kind Interrupted.
func Conflict(ctx context.Context, p Problem, o ConflictOptions) (Contradiction, error) {
	if err := wellFormed(&p); err != nil {
		return Contradiction{}, err
	}
	x := newExplainer(ctx, netOf(p))
	out := Contradiction{}
	all := natural(len(x.facts))
	if x.refuted(all) {
		out.Found = true
		set := x.irreducible(all)
		back := slices.Clone(all)
		slices.Reverse(back)
		if other := x.irreducible(back); len(other) < len(set) {
			set = other
		}
		if o.Calls <= 0 {
			o.Calls = 500
		}
		set, out.Least = x.least(all, set, x.calls+o.Calls)
		for _, i := range set {
			out.Facts = append(out.Facts, x.facts[i])
		}
	}
	out.Calls = x.calls
	if err := ctx.Err(); err != nil {
		return Contradiction{}, fault.Wrap(fault.Interrupted, err, "looking for what makes it impossible")
	}
	return out, nil
}

// String says a fact in a few words.
func (f Fact) String() string {
	switch f.Kind {
	case FactGoal:
		return "over by " + dayTime(f.At)
	case FactPin:
		return f.ID + " fixed at " + dayTime(f.At)
	case FactMaxLag:
		return f.ID + " within " + lasting(f.Length)
	case FactLink:
		return f.ID + " waits " + lasting(f.Length)
	case FactRelease:
		return f.ID + " not before " + dayTime(f.At)
	case FactStarted:
		return f.ID + " has " + lasting(f.Length) + " to go"
	case FactPlace:
		return f.ID + " is full"
	case FactAway:
		return f.ID + " away from " + dayTime(f.Window.From) + " until " + dayTime(f.Window.To)
	case FactHours:
		return "the hours of " + f.ID
	}
	return "calendar " + itoa(f.Calendar)
}

// dayTime is a moment as its day from the origin and the time of day.
func dayTime(t Minute) string {
	text := "day " + itoa(int(t/1440))
	if m := t % 1440; m != 0 {
		text += " " + itoa(int(m/60)) + ":" + itoa(int(m%60/10)) + itoa(int(m%10))
	}
	return text
}
