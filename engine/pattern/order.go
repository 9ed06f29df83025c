package pattern

import (
	"fmt"
	"slices"

	"fettle/fault"
)

// Act is what is done in a step.
type Act string

// The acts, in the order in which one seam meets them.
const (
	SewPleats  Act = "sew the pleats"
	SewMotif   Act = "stitch the motif"
	MakePiping Act = "cover the cord"
	TakePiping Act = "sew the piping on" // to side A
	SewSeam    Act = "sew"
	SewTop     Act = "sew on top"
)

// Because names a step that comes first, and why.
type Because struct {
	Step int    `json:"step"` // index into the steps
	Why  string `json:"why"`
}

// Step is one act at the machine.
type Step struct {
	Act   Act       `json:"act"`
	Of    string    `json:"of"` // piece, seam or piping
	Name  string    `json:"name"`
	After []Because `json:"after,omitempty"`
}

// Order is the steps of a set, each after those it needs.
type Order struct {
	Steps    []Step   `json:"steps"`
	Troubles []string `json:"troubles,omitempty"` // contradictions, and crossings of seams that nothing joins
}

// order is an Order being made: steps in the order they were entered.
type order struct {
	set      Set
	steps    []Step
	first    map[string]int // by seam
	last     map[string]int
	piece    map[string]int // the last step on a piece alone
	troubles []string
}

// Order sorts what is sewn: pleats and motifs while a piece lies flat, piping
// before the seam that takes it in, a seam's rows on top before anything runs
// across it, a crossed seam before the one that crosses it, and what lies inside
// before the seam that closes a tube. Where nothing decides, the order of the
// list stands. A contradiction is named with all its reasons, and one of them
// set aside.
func (s Set) Order() (Order, error) {
	o := order{set: s, first: map[string]int{}, last: map[string]int{}, piece: map[string]int{}}
	for _, p := range s.Pieces {
		if err := p.Check(); err != nil {
			return Order{}, err
		}
		o.alone(p)
	}
	seen := map[string]bool{}
	for _, m := range s.Seams {
		if m.ID == "" || seen[m.ID] {
			return Order{}, fault.New(fault.Invalid, "two seams, or none, of the ID %q", m.ID).At("seams")
		}
		seen[m.ID] = true
		if _, _, err := s.sides(m); err != nil {
			return Order{}, err
		}
		o.seam(m)
	}
	for _, m := range s.Seams {
		o.crossed(m)
		if err := o.said(m); err != nil {
			return Order{}, err
		}
	}
	for _, m := range s.Seams {
		if m.Closes {
			o.closing(m)
		}
	}
	return o.sorted(), nil
}

func (o *order) add(act Act, of, name string) int {
	o.steps = append(o.steps, Step{Act: act, Of: of, Name: name})
	return len(o.steps) - 1
}

// after puts step a behind step b, once.
func (o *order) after(a, b int, why string, args ...any) {
	if a == b || slices.ContainsFunc(o.steps[a].After, func(x Because) bool { return x.Step == b }) {
		return
	}
	o.steps[a].After = append(o.steps[a].After, Because{b, fmt.Sprintf(why, args...)})
}
