package nest

import "slices"

// check holds copies at new places to the exact check, sheet by sheet.
func (b *packing) check(copies []int, c cutting) error {
	done := []int{}
	for _, s := range c.on {
		if slices.Contains(done, s) {
			continue
		}
		done = append(done, s)
		p, at := b.alone(s, copies, c)
		if _, err := CheckPart(p, at); err != nil {
			return err
		}
	}
	return nil
}

// alone makes a problem of one sheet and what lies on it: each copy is a piece
// of its own.
func (b *packing) alone(s int, copies []int, c cutting) (Problem, []Placement) {
	p := Problem{Kind: Bins, Clearance: b.problem.Clearance, Kerf: b.problem.Kerf}
	p.Containers = []Container{b.problem.Containers[b.sheets[s].container]}
	p.Containers[0].Count = 1
	var list []Placement
	for i, n := range copies {
		if c.on[i] != s {
			continue
		}
		it := b.items[n]
		piece := b.problem.Pieces[it.piece]
		at := placement(it, c.spots[i])
		at.Piece, at.Copy = len(p.Pieces), 0
		piece.Count, piece.Pair, piece.Group = 1, "", ""
		if it.copy < len(piece.Locked) {
			piece.Locked = []Placement{at}
		} else {
			piece.Locked = nil
		}
		p.Pieces, list = append(p.Pieces, piece), append(list, at)
	}
	return p, list
}

func placement(it item, s spot) Placement {
	rotation, mirrored := s.lies()
	return Placement{Piece: it.piece, Copy: it.copy, X: s.x, Y: s.y, Rotation: rotation, Mirrored: mirrored}
}

// result returns the present state.
func (b *packing) result() Result {
	r := Result{Used: make([]int, len(b.problem.Containers)), Stats: b.stats}
	r.Stats.Evaluations, r.Stats.Steps = b.judged, b.judged/StepEvaluations
	laid, taken := 0.0, 0.0
	for i, on := range b.now.on {
		if on == unlaid {
			continue
		}
		one := &b.sheets[on]
		at := placement(b.items[i], b.now.spots[i])
		at.Container, at.Sheet = one.container, one.number
		r.Placements = append(r.Placements, at)
		laid += b.forms[b.items[i].piece].area
	}
	for _, s := range b.used() {
		r.Used[b.sheets[s].container]++
		taken += b.sheets[s].area
	}
	if taken > 0 {
		r.Density = laid / taken
	}
	if r.Bound = b.leastCost(); b.problem.Kind == Knapsack {
		r.Bound = b.mostValue()
	}
	switch {
	case b.ctx.Err() != nil:
		r.Status = Interrupted
	case b.missing() > 0 && b.problem.Kind != Knapsack:
		r.Status, r.Reason = Incomplete, b.reason()
	}
	return r
}
