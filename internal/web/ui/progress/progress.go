// Package progress draws long work: how it stands, how far it is, and the best
// result so far, never a wheel that only turns.
package progress

import (
	"fmt"
	"strconv"
	"time"
)

// State is how work stands.
type State string

// The states of work.
const (
	Working State = "" // under way
	Waiting State = "waiting"
	Done    State = "done"
	Stopped State = "stopped"
	Failed  State = "failed"
)

// Params describe work.
type Params struct {
	ID    string // unique on the page; empty stands still until the page is loaded anew
	What  string // what is being worked out
	State State
	Ahead int           // how many pieces of work come first, where it waits
	By    string        // who asked
	Asked string        // when, such as 14:03
	Spent time.Duration // on it so far
	Done  int           // steps done when the best so far was found
	Of    int           // steps in all; 0 when unknown
	Best  string        // the best so far, such as "83 % of the hide used"
	Fault string        // why it failed
	Stop  string        // where a form posts to stop it; empty when it cannot be stopped
	Again string        // where a form posts to ask for it again; empty when it cannot be
	Show  string        // the page of what is found; empty for none, or for the page itself
	All   string        // the page of all long work: this page may be left; empty where it is that page
}

// open tells whether more is to come.
func (p Params) open() bool { return p.State == Working || p.State == Waiting }

// unfinished tells whether it ended before its end.
func (p Params) unfinished() bool { return p.State == Stopped || p.State == Failed }

// share is what of the budget is done.
func (p Params) share() string {
	if p.Of <= 0 {
		return ""
	}
	return strconv.Itoa(100*p.Done/p.Of) + " %"
}

// says is the state in words.
func (p Params) says() string {
	switch p.State {
	case Waiting:
		switch p.Ahead {
		case 0:
			return "It is next."
		case 1:
			return "It waits: one piece of work comes first."
		}
		return fmt.Sprintf("It waits: %d pieces of work come first.", p.Ahead)
	case Done:
		return "It is worked out."
	case Stopped:
		return "It was stopped; the best so far stands."
	case Failed:
		return "It did not come to an end: " + p.Fault + "."
	}
	return "It is being worked out."
}

// facts are steps, time and who asked.
func (p Params) facts() []string {
	var list []string
	if p.Of > 0 {
		list = append(list, fmt.Sprintf("%s of %s steps", grouped(p.Done), grouped(p.Of)))
	}
	if p.Spent >= time.Second {
		list = append(list, Spent(p.Spent))
	}
	if p.By != "" {
		list = append(list, fmt.Sprintf("asked by %s at %s", p.By, p.Asked))
	}
	return list
}

// grouped writes a whole number with a comma between thousands.
func grouped(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// Spent writes a time as a person counts it: 8 s, 3 min 20 s, 2 h 5 min.
func Spent(d time.Duration) string {
	s := int(d.Seconds())
	switch {
	case s < 60:
		return fmt.Sprintf("%d s", s)
	case s < 3600:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	}
	return fmt.Sprintf("%d h %d min", s/3600, s/60%60)
}
