package trim

import (
	"cmp"
	"context"
	"slices"

	"fettle/engine/nest"
	"fettle/engine/nest/longlay"
	"fettle/fault"
)

// Try is one search of a layout that keeps what is seen to one dye lot.
type Try struct {
	Lot     string   `json:"lot,omitempty"`       // whose hides are laid on
	Rest    bool     `json:"rest,omitempty"`      // all hides, about what is seen as an earlier try has it
	Seen    bool     `json:"seen_only,omitempty"` // only what is seen
	Missing int      `json:"missing"`             // copies without a place, of those asked for
	Lacks   []string `json:"lacks,omitempty"`     // those of them that are seen, or lie beside what is
}

// hunt is the search of one order. Where hides are of several lots it lays
// everything on the hides of one lot, lot after lot; where that is too much,
// what is seen alone; and then the rest on all hides about the best of that.
type hunt struct {
	s     *Set
	seen  map[spot]bool // copies that are kept to one lot
	lots  []string      // to try, the largest first; none: there is nothing to keep apart
	tries []Try         // that are over
	spent int
	list  []nest.Placement // the best
	found int              // the try it was found in
}

// newHunt is a fault where what stays is seen and lies on several lots.
func newHunt(s *Set) (*hunt, error) {
	h := &hunt{s: s, seen: map[spot]bool{}}
	var lots []string
	area := map[string]float64{}
	for i, lot := range s.lots {
		area[lot] += s.problem.Containers[i].Outline.Area()
		if !slices.Contains(lots, lot) {
			lots = append(lots, lot)
		}
	}
	if s.Mixed || len(lots) < 2 {
		return h, nil
	}
	for i, c := range s.Cuts {
		for k := range c.Copies {
			if c.Piece.Face != "" {
				h.seen[spot{i, k}] = true
			}
		}
	}
	s.gather(h.seen)
	slices.SortStableFunc(lots, func(a, b string) int { return cmp.Compare(area[b], area[a]) })
	if len(h.seen) > 0 {
		h.lots = slices.DeleteFunc(lots, h.barred)
		if len(h.lots) == 0 {
			return h, fault.New(fault.Invalid, "what stays where it lies is seen, and of several dye lots").WithHint("let all pieces move, or say that the lots may differ")
		}
	}
	return h, nil
}

// barred tells whether a copy that is seen is locked on another lot.
func (h *hunt) barred(lot string) bool {
	for _, list := range h.s.lockedCopies() {
		for _, at := range list {
			if h.seen[spot{at.Piece, at.Copy}] && h.s.lots[at.Container] != lot {
				return true
			}
		}
	}
	return false
}

// next is the try that comes now.
func (h *hunt) next() (Try, bool) {
	for _, lot := range h.lots {
		all, whole := h.tried(lot, false)
		_, seen := h.tried(lot, true)
		switch {
		case whole && all.Missing == 0:
			return Try{}, false
		case !whole && h.roomy(lot):
			return Try{Lot: lot}, true
		case !seen && !h.held() && (!whole || len(all.Lacks) > 0):
			return Try{Lot: lot, Seen: true}, true
		}
	}
	over := slices.ContainsFunc(h.tries, func(t Try) bool { return t.Rest })
	_, missing := h.rank(h.list)
	return Try{Rest: true}, !over && (missing > 0 || len(h.lots) == 0)
}

// held tells whether a lot has taken all that is seen already.
func (h *hunt) held() bool {
	return slices.ContainsFunc(h.tries, func(t Try) bool { return !t.Rest && len(t.Lacks) == 0 })
}

func (h *hunt) tried(lot string, seen bool) (Try, bool) {
	i := slices.IndexFunc(h.tries, func(t Try) bool { return t.Lot == lot && t.Seen == seen && !t.Rest })
	if i < 0 {
		return Try{}, false
	}
	return h.tries[i], true
}

// roomy tells whether the hides of a lot are larger than all pieces together.
func (h *hunt) roomy(lot string) bool {
	room := 0.0
	for i, c := range h.s.problem.Containers {
		if h.s.lots[i] == lot {
			room += c.Outline.Area()
		}
	}
	for _, p := range h.s.problem.Pieces {
		room -= float64(max(p.Count, 1)) * p.Shape.Area()
	}
	return room > 0
}

// tryShare is the part of what is left of the budget that a try may spend; the
// last has all.
const tryShare = 2

// run does one try. It goes on from the best where that is its own.
func (h *hunt) run(ctx context.Context, t Try, o Order, told func()) error {
	p := h.part(t)
	w := longlay.Work{Problem: p.Problem, Seed: o.Seed, Steps: o.Steps, Done: h.spent}
	if !t.Rest {
		w.Steps = h.spent + max(o.Steps-h.spent, 0)/tryShare
	}
	if h.found == len(h.tries) || t.Rest {
		w.From = p.down(h.list)
	}
	r, err := longlay.Do(ctx, w, func(best []nest.Placement, steps int) {
		h.spent = steps
		h.consider(p.up(best))
		told()
	})
	if err != nil {
		return unkept(err, h.s.problem)
	}
	laid := p.up(r.Placements)
	h.spent = r.Steps
	h.consider(laid)
	if ctx.Err() == nil {
		h.tries = append(h.tries, h.came(t, laid))
	}
	return nil
}

// part is what a try lays on what.
func (h *hunt) part(t Try) part {
	every := func(spot) bool { return true }
	switch {
	case len(h.lots) == 0:
		return h.s.partOf(func(int) bool { return true }, every, nil)
	case !t.Rest:
		want := every
		if t.Seen {
			want = func(c spot) bool { return h.seen[c] }
		}
		return h.s.partOf(func(hide int) bool { return h.s.lots[hide] == t.Lot }, want, nil)
	}
	var fixed []nest.Placement
	has := map[spot]bool{}
	for _, at := range h.list {
		if c := (spot{at.Piece, at.Copy}); h.seen[c] {
			fixed, has[c] = append(fixed, at), true
		}
	}
	return h.s.partOf(func(int) bool { return true }, func(c spot) bool { return !h.seen[c] || has[c] }, fixed)
}

// consider keeps a layout where it is the best: what is seen counts first.
func (h *hunt) consider(list []nest.Placement) {
	seen, missing := h.rank(list)
	s, m := h.rank(h.list)
	own := h.found == len(h.tries)
	if d := cmp.Or(cmp.Compare(seen, s), cmp.Compare(missing, m)); h.list == nil || d < 0 || d == 0 && own {
		h.list, h.found = list, len(h.tries)
	}
}

// rank counts the copies without a place: those that are seen, and all.
func (h *hunt) rank(list []nest.Placement) (seen, missing int) {
	seen = len(h.seen)
	for _, p := range h.s.problem.Pieces {
		missing += max(p.Count, 1)
	}
	for _, at := range list {
		if h.seen[spot{at.Piece, at.Copy}] {
			seen--
		}
	}
	return seen, missing - len(list)
}

// came notes what a try came to.
func (h *hunt) came(t Try, list []nest.Placement) Try {
	laid := map[spot]bool{}
	for _, at := range list {
		laid[spot{at.Piece, at.Copy}] = true
	}
	for i := range h.s.Cuts {
		for k, copy := range h.s.copies[i] {
			switch c := (spot{i, k}); {
			case laid[c] || t.Seen && !h.seen[c]:
			case h.seen[c]:
				t.Lacks = append(t.Lacks, h.s.Cuts[i].Name(copy))
				fallthrough
			default:
				t.Missing++
			}
		}
	}
	return t
}
