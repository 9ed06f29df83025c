package nest

import (
	"cmp"
	"slices"
	"sync"
)

// What an insertion may take.
const (
	insertSteps    = 60 // steps of one
	insertRefusals = 2  // in a row, by one sheet, before it is left alone in this pass
	insertSeeks    = 4  // looks for the first place of a copy
)

var inserting = patience{40, 2}

// attempt is to lay copies on some sheets: those that lie there, and loose
// ones.
type attempt struct {
	sheets  []int
	loose   []int
	without []int // lie there, and are left out
	seed    uint64
	most    int             // evaluations
	told    func(steps int) // nil where it is worked out beside others
}

// outcome is what became of an attempt.
type outcome struct {
	cutting
	ok    bool // without collisions
	stats Stats
	spent int
}

// desk is a layout of several sheets with what lies on them.
type desk struct {
	explorer
	b      *packing
	sheets []int
	copies []int  // by copy of the layout: that of the packing
	before memory // what a compaction began with
	isles  *isles
}

// desk puts sheets side by side, with what lies on them, and loose copies that
// have no place yet.
func (b *packing) desk(a attempt, workers int) *desk {
	d := &desk{b: b, sheets: a.sheets, copies: b.desked(a)}
	laid := len(d.copies) - len(a.loose)
	items, list := make([]item, len(d.copies)), make([]sheet, len(a.sheets))
	for i, c := range d.copies {
		items[i] = b.items[c]
	}
	for i, s := range a.sheets {
		list[i] = b.sheets[s]
	}
	isles, bounds := newIsles(b.shop, list, len(items))
	d.isles = isles
	d.explorer = newExplorer(newSeparator(b.ctx, newLayout(b.shop, items, bounds, isles), Options{Seed: a.seed, Workers: workers, Stepped: a.told}, 1))
	if b.convex != nil {
		d.mends = d.mend
	}
	for i, c := range d.copies {
		if i >= laid {
			d.now.spots[i].turn = &b.forms[items[i].piece].turns[0]
			d.now.away(i)
			continue
		}
		on := slices.Index(a.sheets, b.now.on[c])
		s := b.now.spots[c]
		s.x += isles.shift[on]
		d.now.put(i, s)
		d.keep(i, on)
	}
	return d
}

// keep holds a copy that has mates to the isle they are on.
func (d *desk) keep(i, isle int) {
	if len(d.b.units[d.b.unitOf[d.copies[i]]].items) > 1 {
		d.isles.home[i] = isle
	}
}

// drop gives loose copies, from the given one on, a first place: the best of
// some looks, wherever the others lie. It is false where one fits unlaid.
func (d *desk) drop(from int) bool {
	k := d.lead
	k.all()
	homes := map[int]int{}
	for i := range from {
		if home := d.isles.home[i]; home != unlaid {
			homes[d.b.unitOf[d.copies[i]]] = home
		}
	}
	for i := from; i < len(d.copies); i++ {
		u := d.b.unitOf[d.copies[i]]
		if home, ok := homes[u]; ok {
			d.keep(i, home)
		}
		if !d.dropOne(i) {
			return false
		}
		homes[u] = d.isles.of(d.now.spots[i])
		d.keep(i, homes[u])
	}
	return true
}

func (d *desk) dropOne(i int) bool {
	k := d.lead
	for range 64 {
		s, ok := k.sample(i, k.anywhere(i))
		if !ok {
			continue
		}
		k.move(i, s)
		for range insertSeeks {
			k.seek(i)
		}
		return true
	}
	return false
}

// read returns where all copies lie now.
func (d *desk) read() cutting {
	c := cutting{make([]int, len(d.copies)), make([]spot, len(d.copies))}
	for i, s := range d.now.spots {
		if d.now.fixed[i] {
			c.on[i], c.spots[i] = d.b.now.on[d.copies[i]], d.b.now.spots[d.copies[i]]
			continue
		}
		on := d.isles.of(s)
		s.x -= d.isles.shift[on]
		c.on[i], c.spots[i] = d.sheets[on], s
	}
	return c
}

// write puts what a desk came to into the packing.
func (b *packing) write(copies []int, c cutting) {
	for i, n := range copies {
		b.now.on[n], b.now.spots[n] = c.on[i], c.spots[i]
	}
}

// insert tries to lay a unit on a sheet, and undoes it on failure. It changes
// nothing itself.
func (b *packing) insert(a attempt, workers int) outcome {
	d := b.desk(a, workers)
	d.until = a.most
	o := outcome{ok: d.drop(len(d.copies)-len(a.loose)) && d.separate(inserting)}
	o.cutting, o.stats, o.spent = d.read(), d.stats, d.spent()
	if o.ok && b.check(d.copies, o.cutting) != nil {
		o.ok = false
		o.stats.Refused++
	}
	return o
}

// insertAll lays the units that lie nowhere, in their order, each on the first
// sheet that takes it. As many sheets are tried side by side as there are
// workers; the first in order counts.
func (b *packing) insertAll(until int) {
	refused := make([]int, len(b.sheets))
	for n := range b.units {
		u := &b.units[n]
		if b.laid(u) {
			continue
		}
		open := b.offers(u, refused)
		for len(open) > 0 && b.ctx.Err() == nil {
			batch := open[:min(max(b.options.Workers, 1), len(open))]
			open = open[len(batch):]
			if b.insertBatch(u, batch, until, refused) {
				break
			}
		}
	}
}

// offers lists the sheets a unit may be tried on: those with something on them
// and room by area, and of each container the next empty one.
func (b *packing) offers(u *unit, refused []int) []int {
	var open []int
	seen := map[int]bool{}
	for s := range b.sheets {
		one, empty := &b.sheets[s], !b.now.holds(s)
		if home := b.home(u); home != unlaid && home != s || b.looseArea(u) > b.room(s) || refused[s] >= insertRefusals || empty && seen[one.container] {
			continue
		}
		seen[one.container] = seen[one.container] || empty
		open = append(open, s)
	}
	slices.SortStableFunc(open, func(p, q int) int {
		return cmp.Compare(count(!b.now.holds(p)), count(!b.now.holds(q)))
	})
	return open
}

func count(v bool) int {
	if v {
		return 1
	}
	return 0
}

func (b *packing) insertBatch(u *unit, batch []int, until int, refused []int) bool {
	made, tries := make([]outcome, len(batch)), make([]attempt, len(batch))
	var wait sync.WaitGroup
	for i, s := range batch {
		tries[i] = attempt{sheets: []int{s}, loose: b.loose(u), seed: b.rand.Uint64(), most: min(insertSteps*StepEvaluations, max(until-b.judged, 0))}
		wait.Go(func() { made[i] = b.insert(tries[i], max(b.options.Workers/len(batch), 1)) })
	}
	wait.Wait()
	found := false
	for i, o := range made {
		b.count(o.stats, o.spent)
		switch {
		case found:
		case o.ok:
			found = true
			b.write(b.desked(tries[i]), o.cutting)
			refused[batch[i]] = 0
			b.gained()
		default:
			refused[batch[i]]++
		}
	}
	return found
}

// desked lists the copies of an attempt in the order of its desk.
func (b *packing) desked(a attempt) []int {
	list := slices.DeleteFunc(b.now.lying(a.sheets...), func(i int) bool { return slices.Contains(a.loose, i) || slices.Contains(a.without, i) })
	return append(list, a.loose...)
}

func (b *packing) count(s Stats, spent int) {
	b.judged += spent
	b.stats.Separations += s.Separations
	b.stats.Refused += s.Refused
	b.stepped(0)
}
