// Package progress draws long work: how far it is and the best result so far,
// never a wheel that only turns.
package progress

import "strconv"

// Params describe work under way.
type Params struct {
	What string // what is being worked out
	Done int    // steps done
	Of   int    // steps in all; 0 when unknown
	Best string // the best so far, such as "83 % of the hide used"
	Stop string // where a form posts to stop it; empty when it cannot be stopped
}

func (p Params) share() string {
	if p.Of <= 0 {
		return ""
	}
	return strconv.Itoa(100*p.Done/p.Of) + " %"
}
