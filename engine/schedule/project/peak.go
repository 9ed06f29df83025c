package project

// peak takes a stretch of the father in which the resources are well used, as
// one block [Valls2008], at the place in the mother's list where it stood in
// the father's; predecessors that come too late are pulled before it.
func (b *breeder) peak(k int, mother, father *plan, list []int32) {
	from, to := b.dense(k, father)
	clear(b.block)
	for _, j := range father.order[from:to] {
		b.block[j] = true
	}
	s, at, i := &b.net.sides[1-k], 0, 0
	for head := 0; i < len(list) && head < from; i++ {
		if j := mother.order[i]; !b.block[j] {
			at = b.pull(s, j, list, at)
			head++
		}
	}
	for _, j := range father.order[from:to] {
		at = b.pull(s, j, list, at)
	}
	for ; i < len(list); i++ {
		at = b.pull(s, mother.order[i], list, at)
	}
}

// pull appends j to the list, after those of its predecessors that are missing.
func (b *breeder) pull(s *side, j int32, list []int32, at int) int {
	if b.taken[j] {
		return at
	}
	b.taken[j] = true
	for _, p := range s.pred.of(j) {
		at = b.pull(s, p, list, at)
	}
	list[at] = j
	return at + 1
}

// dense draws windows of the father's list and returns the one with the most
// work for the time it spans.
func (b *breeder) dense(k int, father *plan) (from, to int) {
	n := len(father.order)
	length := int(float64(n) * (peakShort + float64((peakLong-peakShort)*b.rng.Float64())))
	length = min(n, max(2, length))
	most := -1.0
	for range peakTries {
		x := b.rng.IntN(n - length + 1)
		if d := b.density(k, father, x, x+length); d > most {
			most, from = d, x
		}
	}
	return from, from + length
}

func (b *breeder) density(k int, p *plan, from, to int) float64 {
	s, last := &b.net.sides[k], int32(len(p.order)-1)
	sum, first, end := 0.0, int32(longest), int32(0)
	for _, j := range p.order[from:to] {
		own := last - j
		first, end = min(first, p.finish[own]-s.dur[own]), max(end, p.finish[own])
		if k == 1 {
			own = j
		}
		sum += b.energy[own]
	}
	return sum / float64(max(1, end-first))
}
