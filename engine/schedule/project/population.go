package project

import "slices"

// population is the plans of one side; no two are the same schedule.
type population struct {
	plans  []*plan
	hashes []uint64
	scores []uint64
}

// add takes a plan without asking; the first generation may hold twins.
func (q *population) add(p *plan) {
	q.plans = append(q.plans, p)
	q.hashes = append(q.hashes, p.hash)
	q.scores = append(q.scores, p.score)
}

// offer puts p in the place of a plan of the same score, or else of the worst,
// unless p is worse still or there already, and returns the plan that is now
// out of use. A score keeps one place, so the plans stay unlike each other, and
// the newcomer has it, so they keep moving.
func (q *population) offer(p *plan) (out *plan, taken bool) {
	at := q.worst()
	if p.score > q.scores[at] || slices.Contains(q.hashes, p.hash) {
		return p, false
	}
	if i := slices.Index(q.scores, p.score); i >= 0 {
		at = i
	}
	out = q.plans[at]
	q.plans[at], q.hashes[at], q.scores[at] = p, p.hash, p.score
	return out, true
}

// limit is the longest makespan that could still be taken.
func (q *population) limit() int32 { return int32(q.scores[q.worst()] >> endBits) }

// best is the index of the best plan.
func (q *population) best() int {
	at := 0
	for i, s := range q.scores {
		if s < q.scores[at] {
			at = i
		}
	}
	return at
}

// worst is the index of the worst plan.
func (q *population) worst() int {
	at := 0
	for i, s := range q.scores {
		if s > q.scores[at] {
			at = i
		}
	}
	return at
}
