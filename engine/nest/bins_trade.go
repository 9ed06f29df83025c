package nest

import (
	"slices"
	"sync"
)

// How long sheets are traded with.
const (
	tradeSlack = 0.03 // of a sheet's share of all worth: by how much the best so far may be missed
	tradeIdle  = 100  // draws in a row that led to no evaluation
	tradeQuiet = 20   // draws in a row without a gain, before all wander together
	tradeOver  = 2    // units laid over the others then
)

// trade is a search for the most to lay on some sheets. Again and again units
// that lie nowhere are laid on one of them, and others give way; what is laid
// may fall below the best so far by a little, and that is what is left.
type trade struct {
	*packing
	among   []int // sheets
	worth   func(item) float64
	slack   float64
	level   []float64      // by sheet: how full it may get, as far as is known
	refused map[string]int // how often a sheet refused some pieces
	best    cutting
	most    float64 // worth of the best
}

// newTrade begins with what lies on some sheets; nothing lies elsewhere.
func (b *packing) newTrade(among []int, worth func(item) float64) *trade {
	t := &trade{packing: b, among: among, worth: worth, refused: map[string]int{}, best: b.now.clone(), level: make([]float64, len(b.sheets))}
	full := 0.0
	for _, s := range among {
		full = max(full, b.fill(s))
	}
	for _, s := range among {
		t.level[s] = full
	}
	t.most = t.sum(b.now.lying(among...))
	for _, it := range b.items {
		t.slack += tradeSlack * worth(it) / float64(len(among))
	}
	return t
}

// sum is the worth of some copies.
func (t *trade) sum(copies []int) float64 {
	sum := 0.0
	for _, i := range copies {
		sum += t.worth(t.items[i])
	}
	return sum
}

// laid is the worth of what lies now.
func (t *trade) laid() float64 { return t.sum(t.now.lying(t.among...)) }

// fill is the share of a sheet that is covered.
func (b *packing) fill(s int) float64 { return 1 - b.room(s)/b.sheets[s].free }

// run trades until all is laid or the budget is spent, and leaves the best.
// Where trading gains nothing any more, as much again is spent on a wander of
// all that lies on the sheets, with some of what does not.
func (t *trade) run(until int) {
	from, quiet := t.judged, 0
	for idle := 0; idle < tradeIdle && t.missing() > 0 && !t.over(until); idle++ {
		most, judged := t.most, t.judged
		t.try(t.draw(), until)
		if t.judged > judged {
			idle = 0
		}
		if quiet++; t.most > most {
			from, quiet = t.judged, 0
		}
		if quiet == tradeQuiet {
			t.together(min(t.judged-from, until-t.judged))
			from, quiet = t.judged, 0
		}
	}
	t.now = t.best.clone()
}

// together lays units that lie nowhere over the best so far, and lets all
// wander from sheet to sheet.
func (t *trade) together(most int) {
	t.now = t.best.clone()
	a := attempt{sheets: t.among, seed: t.rand.Uint64(), most: most}
	pool := t.pool()
	t.rand.Shuffle(len(pool), func(i, j int) { pool[i], pool[j] = pool[j], pool[i] })
	for _, n := range pool[:min(len(pool), tradeOver)] {
		a.loose = append(a.loose, t.loose(&t.units[n])...)
	}
	if t.wander(a) {
		t.keep()
	}
}

// keep notes what lies now as the best.
func (t *trade) keep() {
	t.most, t.best = t.laid(), t.now.clone()
	t.gained()
}

// try tries deals side by side, and makes those that work out.
func (t *trade) try(deals []deal, until int) {
	made := make([]outcome, len(deals))
	var wait sync.WaitGroup
	for i := range deals {
		a := &deals[i].attempt
		a.seed, a.most = t.rand.Uint64(), min(insertSteps*StepEvaluations, (until-t.judged)/len(deals))
		wait.Go(func() { made[i] = t.insert(*a, max(t.options.Workers/len(deals), 1)) })
	}
	wait.Wait()
	for i, o := range made {
		t.count(o.stats, o.spent)
		t.settle(&deals[i], o)
	}
}

// settle learns from a deal that was tried, and makes it.
func (t *trade) settle(d *deal, o outcome) {
	level := &t.level[d.sheet()]
	if !o.ok {
		*level -= dealStep
		t.refused[t.key(d)]++
		return
	}
	*level = max(*level, d.fill)
	now := t.laid() + d.gain
	if now < t.most-t.slack {
		return
	}
	copies := t.desked(d.attempt)
	for _, i := range d.without {
		t.now.on[i] = unlaid
	}
	t.write(copies, o.cutting)
	if now > t.most {
		t.keep()
	}
}

// key names a sheet and the pieces that a deal leaves on it.
func (t *trade) key(d *deal) string {
	var pieces []int
	for _, i := range t.desked(d.attempt) {
		pieces = append(pieces, t.items[i].piece)
	}
	slices.Sort(pieces)
	var key []byte
	for _, n := range append(pieces, d.sheet()) {
		key = append(key, byte(n), byte(n>>8), byte(n>>16))
	}
	return string(key)
}
