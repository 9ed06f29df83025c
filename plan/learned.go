package plan

import (
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/takeoff"
)

// learned is what is known of one kind of work: the ranges that were stated,
// narrowed by finished work.
//
// Finished tasks of this vehicle say where the common factor of their kind
// lies: worse under the paint than it looked, or better. They speak for work of
// the same kind in the same stage only; a strip that went to plan says nothing
// of how the glass goes in. That is the whole shift of the mean, and it is
// counted once: hours left that the take-off has scaled by the pace so far are
// taken back to the plan before the factor is applied, and what somebody judged
// who knows how it goes is not shifted at all. The own range of each piece of
// work is narrowed by how alike the finished ones were, what was stated counting
// for ten records.
type learned struct {
	stated build.RiskRange
	stage  string             // whose finished work it has taken in; empty is none
	own    schedule.Lognormal // of each piece of work
	common schedule.Lognormal // of all of them on this vehicle; zero is none
	shift  float64            // logarithm: what finished work moved the common factor by
	factor int                // index into Problem.Factors; -1 is none
	here   []float64          // booked ÷ planned of finished work on this vehicle
	past   [][]float64        // and on each earlier build
	used   bool               // by work that is left
}

// known returns what is known of a kind of work in a stage.
func (n *net) known(kind, stage string) (learned, bool) {
	here := n.ratios(kind, stage)
	if len(here) == 0 {
		stage = ""
	}
	for _, k := range n.kinds {
		if k.stated.Kind == kind && k.stage == stage {
			return k, true
		}
	}
	r, ok := n.stated(kind)
	if !ok {
		return learned{}, false
	}
	k := learned{stated: r, stage: stage, factor: -1, here: here, past: n.earlierWork(kind, stage)}
	n.learn(&k)
	n.kinds = append(n.kinds, k)
	return k, true
}

// stated is the range of a kind of work as somebody put it.
func (n *net) stated(kind string) (build.RiskRange, bool) {
	for _, r := range n.build.Risk.Ranges {
		if r.Kind == kind {
			return r, true
		}
	}
	return build.RiskRange{}, false
}

// earlierWork is what finished work of a kind came to on each earlier build: in
// a stage, or in all of them together.
func (n *net) earlierWork(kind, stage string) [][]float64 {
	var builds [][]float64
	for _, p := range n.past {
		var ratios []float64
		for _, w := range p.Work {
			if w.Kind == kind && (stage == "" || w.Stage == stage) {
				ratios = append(ratios, w.Ratios...)
			}
		}
		if len(ratios) > 0 {
			builds = append(builds, ratios)
		}
	}
	return builds
}

// use marks that work which is left goes by a kind.
func (n *net) use(k learned) {
	for i := range n.kinds {
		if n.kinds[i].stated.Kind == k.stated.Kind && n.kinds[i].stage == k.stage {
			n.kinds[i].used = true
		}
	}
}

// learn narrows the stated ranges: earlier builds say what jobs differ by and
// what builds differ by, finished work of this one where this build lies.
func (n *net) learn(k *learned) {
	k.own = schedule.Spread(k.stated.Factor).Lognormal()
	all := append(slices.Clone(k.past), k.here)
	if k.stated.Common == (build.Span{}) {
		k.own = k.own.Learn(slices.Concat(all...))
		return
	}
	prior := schedule.Spread(k.stated.Common).Lognormal()
	stated := prior
	if len(k.past) > 0 {
		_, prior = schedule.LearnBuilds(k.own, prior, k.past)
	}
	k.own, _ = schedule.LearnBuilds(k.own, prior, all)
	k.common = prior.Update(k.here, k.own)
	k.shift = k.common.Mu - stated.Mu
	k.factor = len(n.problem.Factors)
	id := k.stated.Kind
	if k.stage != "" {
		id += ", " + k.stage
	}
	n.problem.Factors = append(n.problem.Factors, schedule.Factor{ID: id, Range: schedule.Spread(k.stated.Common), Learned: k.common})
}

// outwork is the kind of work that outside shops do.
const outwork = "outwork"

// ratios are booked ÷ planned of the finished tasks of a kind in a stage, and
// of tasks under way on whose findings enough is signed off; of outwork the days
// that loads took ÷ those that were planned.
func (n *net) ratios(kind, stage string) []float64 {
	var list []float64
	if kind == outwork {
		for _, t := range n.build.Tasks {
			o := n.build.Load(t.Outwork)
			if o == nil || t.Stage != stage || o.Sent == 0 || o.Returned <= o.Sent || t.Wait == 0 {
				continue
			}
			list = append(list, float64(n.daysBetween(leaves(t, o), o.Returned))/float64(t.Wait))
		}
		return list
	}
	for _, r := range takeoff.Records(n.build) {
		if r.Kind == kind && n.build.Task(r.Task).Stage == stage {
			list = append(list, r.Booked.H()/r.Planned.H())
		}
	}
	if takeoff.PaceOf(n.build, stage).Factor == 1 {
		return list
	}
	for _, p := range takeoff.Paces(n.build, stage) {
		if t := n.build.Task(p.Task); p.Signed > 0 && t.Risk == kind && t.State != build.Finished {
			list = append(list, p.Booked.H()/p.Signed.H())
		}
	}
	return list
}

// spread gives an activity the ranges of a kind of work in a stage. Pace is what
// the take-off has scaled its hours by; said tells that they are somebody's own
// judgement.
func (n *net) spread(a *schedule.Activity, kind, stage string, pace float64, said bool) {
	k, ok := n.known(kind, stage)
	if !ok {
		return
	}
	n.use(k)
	a.Range, a.Learned = schedule.Spread(k.stated.Factor), k.own
	if n.build.Risk.People.Given() && a.Kind == schedule.Labour {
		a.Learned = n.without(k.own)
	}
	if k.factor < 0 {
		return
	}
	a.Factors = []int{k.factor}
	switch {
	case said:
		a.Learned.Mu -= k.shift
	case pace > 0:
		a.Learned.Mu -= schedule.Spread{Low: pace, Mode: pace, High: pace}.Lognormal().Mu
	}
}
