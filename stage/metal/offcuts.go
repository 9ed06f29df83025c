package metal

import (
	"context"
	"slices"

	"fettle/engine/nest"
	"fettle/engine/nest/longlay"
)

// offcutsFirst cuts as much as can be from the offcuts and lays the rest about
// it; what that gives takes the place of the plan where it begins no more of
// whole sheets and loses no blank.
func (h *hunt) offcutsFirst(ctx context.Context, told func()) error {
	fill := nest.Problem{Kind: nest.Knapsack, Pieces: h.problem.Pieces, Clearance: h.problem.Clearance, Kerf: h.problem.Kerf}
	var on []int // by container of the filling
	for i, s := range h.rack.Sheets {
		if s.Offcut {
			on, fill.Containers = append(on, i), append(fill.Containers, h.problem.Containers[i])
		}
	}
	best := func(_ []nest.Placement, steps int) { // the plan that there is stays the best
		h.spent = steps
		told()
	}
	w := longlay.Work{Problem: fill, Seed: h.Seed, Steps: h.spent + max(h.Steps-h.spent, 0)/wholeShare, Done: h.spent}
	for _, at := range h.list {
		if k := slices.Index(on, at.Container); k >= 0 {
			at.Container = k
			w.From = append(w.From, at)
		}
	}
	filled, err := longlay.Do(ctx, w, best)
	if err != nil || ctx.Err() != nil {
		return err
	}
	h.spent = filled.Steps
	rest, back := h.about(filled.Placements, on)
	r, err := longlay.Do(ctx, longlay.Work{Problem: rest, Seed: h.Seed, Steps: h.Steps, Done: h.spent}, best)
	if err != nil || ctx.Err() != nil {
		return err
	}
	h.spent = r.Steps
	list := back(r.Placements)
	if len(list) < len(h.list) || h.cost(list) > h.cost(h.list) || h.onOffcuts(list) <= h.onOffcuts(h.list) {
		return nil
	}
	if _, err := nest.CheckPart(h.problem, list); err != nil {
		return nil // the plan that there is stands
	}
	h.list = list
	return nil
}

// about is the problem with copies locked on the offcuts, and the way back from
// its copies, of which the locked come first, to those of the order.
func (h *hunt) about(filled []nest.Placement, on []int) (nest.Problem, func([]nest.Placement) []nest.Placement) {
	p := h.problem
	p.Pieces = slices.Clone(p.Pieces)
	copies := make([][]int, len(p.Pieces))
	for _, at := range filled {
		copies[at.Piece] = append(copies[at.Piece], at.Copy)
		at.Container, at.Copy = on[at.Container], len(p.Pieces[at.Piece].Locked)
		p.Pieces[at.Piece].Locked = append(p.Pieces[at.Piece].Locked, at)
	}
	for i := range p.Pieces {
		for k := range p.Pieces[i].Count {
			if !slices.Contains(copies[i], k) {
				copies[i] = append(copies[i], k)
			}
		}
	}
	return p, func(list []nest.Placement) []nest.Placement {
		out := slices.Clone(list)
		for i := range out {
			out[i].Copy = copies[out[i].Piece][out[i].Copy]
		}
		return out
	}
}

// cost is what a layout begins of whole sheets, on the rack and to buy, in mm².
func (h *hunt) cost(list []nest.Placement) float64 {
	sum := 0.0
	var seen [][2]int
	for _, at := range list {
		if one := [2]int{at.Container, at.Sheet}; !slices.Contains(seen, one) && !h.offcut(at) {
			seen = append(seen, one)
			c := h.problem.Containers[at.Container]
			sum += max(c.Cost, c.Outline.Area())
		}
	}
	return sum
}

// onOffcuts is the area of what a layout cuts from offcuts, in mm².
func (h *hunt) onOffcuts(list []nest.Placement) float64 {
	sum := 0.0
	for _, at := range list {
		if h.offcut(at) {
			sum += h.problem.Pieces[at.Piece].Shape.Area()
		}
	}
	return sum
}

func (h *hunt) offcut(at nest.Placement) bool {
	return at.Container < len(h.rack.Sheets) && h.rack.Sheets[at.Container].Offcut
}
