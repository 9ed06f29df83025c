package pieces

import (
	"context"
	"fmt"

	"fettle/engine/flatten"
	"fettle/fault"
)

// Propose looks for cuts, piece by piece where a surface is parted. Paths are
// those of the surface, shares of what lies outside those of all of it.
func Propose(ctx context.Context, p flatten.Problem, o flatten.Options) ([][]flatten.Proposal, error) {
	opened, source, err := p.Surface.Cut(p.Cuts)
	if err != nil {
		return nil, err
	}
	parts := opened.Parts()
	if len(parts) < 2 {
		found, err := flatten.Propose(ctx, p, flatten.Ways{}, o)
		return found.Rounds, err
	}
	found, areas, vertices := make([]flatten.Proposed, len(parts)), make([]float64, len(parts)), make([][]int32, len(parts))
	var outside, area float64
	for n, part := range parts {
		one, of := opened.Only(part.Faces)
		for i, v := range of {
			of[i] = source[v]
		}
		areas[n], vertices[n] = one.Area(), of
		if found[n], err = flatten.Propose(ctx, flatten.Problem{Surface: one, Material: p.Material, Grain: grainIn(of, p.Grain)}, flatten.Ways{}, o); err != nil {
			return nil, fault.Within(err, fmt.Sprintf("piece %d", n+1))
		}
		outside, area = outside+found[n].Outside*areas[n], area+areas[n]
	}
	var rounds [][]flatten.Proposal
	for n := range parts {
		now := found[n].Outside
		for _, round := range found[n].Rounds {
			best := now
			for i, c := range round {
				if i == 0 {
					best = c.Outside
				}
				for k, v := range c.Path {
					round[i].Path[k] = vertices[n][v]
				}
				round[i].Outside = (outside + (c.Outside-now)*areas[n]) / area
			}
			outside += (best - now) * areas[n]
			now = best
			rounds = append(rounds, round)
		}
	}
	return rounds, nil
}
