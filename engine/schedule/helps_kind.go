package schedule

import (
	"slices"
	"strings"
)

// Loosening is a kind of relaxation.
type Loosening uint8

// The kinds of relaxation.
const (
	OneMoreLike  Loosening = iota // one more person who may do what Person may, in the same hours
	LongerDays                    // Person works By longer every day
	ExtraDay                      // Person works in Window too
	MoreRoom                      // Place has one more unit
	EarlierPart                   // Activity is released By earlier: a part comes sooner
	PinLetGo                      // Activity may start at any time: its date was promised, not an arrival
	OvertimeTake                  // Overtime is worked, by Person in Window
)

// Relaxation is one thing that might be otherwise. ID is of the person, place
// or activity; indices are -1 where they do not apply.
type Relaxation struct {
	Kind                              Loosening
	ID                                string
	Person, Place, Activity, Overtime int
	By                                Minute
	Window                            Window
	Price                             int64
}

// String says it in a few words.
func (r Relaxation) String() string {
	switch r.Kind {
	case OneMoreLike:
		return "one more like " + r.ID
	case LongerDays:
		return r.ID + " " + lasting(r.By) + " longer a day"
	case ExtraDay:
		return r.ID + " an extra day on day " + itoa(int(r.Window.From/1440))
	case MoreRoom:
		return "one more " + r.ID
	case EarlierPart:
		return r.ID + " released " + lasting(r.By) + " earlier"
	case PinLetGo:
		return r.ID + " not held to its date"
	}
	return "overtime of " + r.ID + " on day " + itoa(int(r.Window.From/1440))
}

// String says what is loosened and what it wins.
func (h Help) String() string {
	var of []string
	for _, r := range h.Of {
		of = append(of, r.String())
	}
	text := strings.Join(of, " and ") + ": " + lasting(h.Sooner) + " sooner"
	if h.Late > 0 {
		text += ", " + lasting(h.Late) + " less late"
	}
	if h.StdErr > 0 || h.Chance != 0 {
		text += ", chance " + itoa(int(100*h.Chance)) + " points more"
	}
	return text
}

// lasting is a span in days, hours and minutes.
func lasting(m Minute) string {
	var parts []string
	for _, u := range []struct {
		size Minute
		name string
	}{{1440, " d"}, {60, " h"}, {1, " min"}} {
		if m >= u.size {
			parts = append(parts, itoa(int(m/u.size))+u.name)
			m %= u.size
		}
	}
	if parts == nil {
		return "0 min"
	}
	return strings.Join(parts, " ")
}

// loosened is a copy of a problem in which something is otherwise, with the windows
// of overtime bought so far.
type loosened struct {
	Problem
	bought []int
}

func loosenedOf(p *Problem, bought []int) loosened {
	t := loosened{Problem: *p, bought: slices.Clone(bought)}
	t.Calendars, t.People, t.Places = slices.Clone(p.Calendars), slices.Clone(p.People), slices.Clone(p.Places)
	t.Activities, t.Overtime = slices.Clone(p.Activities), slices.Clone(p.Overtime)
	return t
}

func (t *loosened) loosen(r Relaxation) {
	switch r.Kind {
	case OneMoreLike:
		t.double(r.Person)
	case LongerDays:
		var more Calendar
		for _, w := range t.Calendars[t.People[r.Person].Calendar] {
			if w.To > t.Now {
				more = append(more, Window{w.To, min(limit, w.To+r.By)})
			}
		}
		t.open(r.Person, more)
	case ExtraDay, OvertimeTake:
		t.open(r.Person, Calendar{r.Window})
	case MoreRoom:
		t.Places[r.Place].Units++
	case EarlierPart:
		t.Activities[r.Activity].Release = max(0, t.Activities[r.Activity].Release-r.By)
	case PinLetGo:
		t.Activities[r.Activity].Pinned, t.Activities[r.Activity].Release = false, 0
	}
}

// double adds a person with the calendar of another, who may do the same.
func (t *loosened) double(person int) {
	like := t.People[person]
	like.ID += " 2"
	for slices.ContainsFunc(t.People, func(p Person) bool { return p.ID == like.ID }) {
		like.ID += "'"
	}
	t.People = append(t.People, like)
	for j := range t.Activities {
		if a := &t.Activities[j]; slices.Contains(a.Who, person) {
			a.Who = append(slices.Clone(a.Who), len(t.People)-1)
		}
	}
}

// open gives a person more hours. Overtime in them need not be bought any more;
// a window that only touches them is cut.
func (t *loosened) open(person int, more Calendar) {
	own := joined(slices.Concat(t.Calendars[t.People[person].Calendar], more))
	t.Calendars = append(t.Calendars, own)
	t.People[person].Calendar = len(t.Calendars) - 1
	var kept []Overtime
	moved := make([]int, len(t.Overtime))
	for i, o := range t.Overtime {
		if o.Person == person {
			o.Window = cutOff(own, o.Window)
		}
		if moved[i] = -1; o.Window.From < o.Window.To {
			moved[i] = len(kept)
			kept = append(kept, o)
		}
	}
	t.Overtime = kept
	var bought []int
	for _, i := range t.bought {
		if moved[i] >= 0 {
			bought = append(bought, moved[i])
		}
	}
	t.bought = bought
}

// cutOff is the first part of a window outside a calendar.
func cutOff(c Calendar, w Window) Window {
	for _, o := range c {
		if o.From <= w.From && w.From < o.To {
			w.From = o.To
		}
		if w.From < o.From && o.From < w.To {
			w.To = o.From
		}
	}
	return w
}
