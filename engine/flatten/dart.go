package flatten

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"fettle/fault"
)

// Opening says what a proposed cut is.
type Opening uint8

// What a cut is: a Dart opens in the pattern and is sewn shut, its wedge cut
// away; the sides of a Slit lie over each other in the pattern, so it needs a
// gusset, or must go on to become a seam; a Parting is a seam that makes two
// pieces of one; a Joining is one from a hole to the rim or to another hole.
const (
	Dart Opening = iota
	Slit
	Parting
	Joining
)

// Ways is how paths of cuts are weighed.
type Ways struct {
	Lines  [][]int32                // style lines that are there already: cutting along them costs nothing
	Weight func(u, v int32) float64 // what an edge of the surface costs above its length, as a share; nil: nothing. Where a seam would be seen it is high
	Most   int                      // most cuts that are proposed; 0: 12
	Enough float64                  // share outside at which it is enough; 0: 1 %
}

// Proposal is a cut that would let the material come nearer its limits.
type Proposal struct {
	Opening Opening
	Path    []int32 // vertices of the surface, a dart's tip first
	Length  float64 // of the cut, in the surface's unit
	Angle   float64 // radians that it opens at the tip, negative where it closes
	Outside float64 // share of the area outside, once this cut and those before are made
	Excess  float64 // mean strain beyond the limits, by area, then
	Gain    float64 // fall of Excess per length of new seam, of which a slit's gusset has two
}

// Proposed is what cuts would do, one after the other.
type Proposed struct {
	Outside, Excess float64      // before any
	Rounds          [][]Proposal // by round the cuts that were tried, the best first; the best is what the next round builds on
	Length          float64      // of the best of all rounds together
	Result          Result       // with the best of all rounds made; parts of a Parting lie as they lay and may lie over each other
}

const (
	mostCuts    = 12
	enough      = 0.01
	tryAtOnce   = 2
	trySteps    = 12   // Newton steps a candidate is judged by
	leastGain   = 0.01 // share of the excess that a cut has to take to be worth proposing
	freeOfStyle = 1e-3 // what a style line costs of its length, so that the shorter of two wins
)

// Propose lays a surface flat and proposes cuts until the share outside the
// material's limits is small enough, one round after the other: tips where
// strain gathers, the cheapest paths from them to the rim, each tried by laying
// the cut pattern flat again from where it lay, ranked by what it gains per
// length of seam. Nothing is cut that was not asked for: the caller adds the
// paths to Problem.Cuts, or not.
func Propose(ctx context.Context, p Problem, w Ways, o Options) (Proposed, error) {
	if p.Material == nil {
		return Proposed{}, fault.New(fault.Invalid, "cuts are proposed for a material, none is given")
	}
	if w.Most == 0 {
		w.Most = mostCuts
	}
	if w.Enough == 0 {
		w.Enough = enough
	}
	first, err := Solve(ctx, p, o)
	if err != nil {
		return Proposed{}, err
	}
	now, err := newTrial(p, first)
	if err != nil {
		return Proposed{}, err
	}
	out := Proposed{Outside: now.outside, Excess: now.excess}
	for round := 0; round < w.Most && now.outside > w.Enough; round++ {
		o.tell("cuts", round, w.Most)
		ranked, best, err := now.round(ctx, w)
		if err != nil {
			return Proposed{}, err
		}
		if ctx.Err() != nil || len(ranked) == 0 {
			break
		}
		out.Rounds = append(out.Rounds, ranked)
		out.Length += ranked[0].Length
		now = best
	}
	out.Result = now.result(first)
	if ctx.Err() != nil {
		out.Result.Status = Interrupted
	}
	return out, nil
}

// round tries candidates and returns them ranked with the piece that the best
// leaves; none where nothing gains.
func (p *trial) round(ctx context.Context, w Ways) ([]Proposal, *trial, error) {
	type tried struct {
		Proposal
		laid *trial
		err  error
	}
	paths := p.candidates(w)
	list := make([]tried, len(paths))
	var all sync.WaitGroup
	for worker := range tryAtOnce {
		all.Go(func() {
			for i := worker; i < len(paths) && ctx.Err() == nil; i += tryAtOnce {
				t := &list[i]
				if t.laid, t.err = p.cut(ctx, paths[i], trySteps); t.err == nil {
					t.Proposal = p.proposal(paths[i], t.laid)
				}
			}
		})
	}
	all.Wait()
	if ctx.Err() != nil {
		return nil, nil, nil
	}
	for _, t := range list {
		if t.err != nil {
			return nil, nil, t.err
		}
	}
	list = slices.DeleteFunc(list, func(t tried) bool { return p.excess-t.Excess < leastGain*p.excess })
	slices.SortStableFunc(list, func(a, b tried) int { return cmp.Compare(b.Gain, a.Gain) })
	if len(list) == 0 {
		return nil, nil, nil
	}
	best := list[0].laid
	if err := best.settle(ctx, bearSteps); err != nil {
		return nil, nil, err
	}
	list[0].Proposal = p.proposal(best.last, best)
	out := make([]Proposal, len(list))
	for i, t := range list {
		out[i] = t.Proposal
	}
	return out, best, nil
}

// proposal describes a cut of p that leaves next.
func (p *trial) proposal(path []int32, next *trial) Proposal {
	q := Proposal{Path: through(path, p.source), Outside: next.outside, Excess: next.excess}
	for i := 1; i < len(path); i++ {
		q.Length += p.mesh.EdgeLength(path[i-1], path[i])
	}
	q.Gain = (p.excess - next.excess) / q.Length
	if p.rim[path[0]] {
		q.Opening = Joining
		_, before := p.near.Components()
		if _, after := next.near.Components(); after > before {
			q.Opening = Parting
		}
		return q
	}
	q.Angle = 2 * math.Pi
	for _, h := range next.near.Leaving(path[0]) {
		v := next.mesh.Faces[h/3]
		u, w := next.at[v[(h+1)%3]].Sub(next.at[path[0]]), next.at[v[(h+2)%3]].Sub(next.at[path[0]])
		q.Angle -= math.Atan2(u.Cross(w), float64(u.X*w.X)+float64(u.Y*w.Y))
	}
	if q.Angle < 0 {
		q.Opening = Slit
		q.Gain /= 2 // a gusset has two seams
	}
	return q
}
