package cli

import (
	"context"
	"fmt"
	"io"
	"math"

	"fettle/engine/flatten"
)

// flattenEstimate is what a surface asks of a material, known before anything
// is laid flat.
type flattenEstimate struct {
	Domed   finite `json:"domed_rad"` // curvature by sign
	Saddled finite `json:"saddled_rad"`
	Needed  finite `json:"range_needed"`  // of stretch, most over least, less one
	Allowed finite `json:"range_allowed"` // by the material
	Verdict string `json:"verdict"`
}

// flattenProposal is a cut that would bring the material nearer its limits.
type flattenProposal struct {
	Kind    string  `json:"kind"`
	Path    []int32 `json:"path"` // vertices of the file, a dart's tip first
	Length  float64 `json:"length"`
	Angle   float64 `json:"angle_deg"` // that it opens at the tip
	Outside float64 `json:"share_outside_limits"`
	Gain    float64 `json:"gain"` // mean strain beyond the limits that is taken away, for each length of seam
}

// estimate asks what the surface asks of its material.
func (in flattenInput) estimate() (*flattenEstimate, error) {
	e, err := flatten.EstimateOf(in.problem)
	if err != nil {
		return nil, err
	}
	says := [...]string{flatten.Bears: "it bears that", flatten.Close: "close", flatten.Fails: "it does not bear that"}[e.Verdict]
	return &flattenEstimate{finite(e.Domed), finite(e.Saddled), finite(e.Needed), finite(e.Allowed), says}, nil
}

// propose looks for cuts; the first of each round is what the next builds on.
func (in flattenInput) propose(ctx context.Context, o flatten.Options) ([][]flattenProposal, error) {
	p, err := flatten.Propose(ctx, in.problem, flatten.Ways{}, o)
	if err != nil {
		return nil, err
	}
	rounds := [][]flattenProposal{}
	for _, ranked := range p.Rounds {
		var round []flattenProposal
		for _, c := range ranked {
			kind := [...]string{flatten.Dart: "dart", flatten.Slit: "slit", flatten.Parting: "parting", flatten.Joining: "joining"}[c.Opening]
			round = append(round, flattenProposal{kind, in.named(c.Path), c.Length / in.unit, c.Angle * 180 / math.Pi, c.Outside, c.Gain * in.unit})
		}
		rounds = append(rounds, round)
	}
	return rounds, nil
}

func (one flattenSolved) printProposals(w io.Writer) {
	if e := one.Estimate; e != nil {
		fmt.Fprintf(w, "\testimate\tthe surface needs a range of stretch of %.1f %%, %s allows %.1f: %s\n", 100*e.Needed, one.Material, 100*e.Allowed, e.Verdict)
	}
	for i, round := range one.Proposals {
		c := round[0]
		fmt.Fprintf(w, "\tproposed %d\t%s from vertex %d to %d\t%.1f long\topens %.1f°\tleaves %.2f %% of the area outside, with those before\n",
			i+1, c.Kind, c.Path[0], c.Path[len(c.Path)-1], c.Length, c.Angle, 100*c.Outside)
	}
}
