package nest

import (
	"math"
	"slices"
)

// Which deals are tried.
const (
	dealDraws = 60    // deals drawn, of which the most promising is tried
	dealIn    = 3     // units laid at once, at most
	dealOut   = 8     // units that give way at once, at most
	dealWidth = 0.03  // of fill, over which a sheet goes from taking to refusing
	dealDoubt = 0.5   // what a refusal of the same pieces leaves of the hope
	dealStep  = 0.005 // of fill, by which a refusal lowers what a sheet may take
	dealNerve = 1.05  // slacks added to a gain: what loses a little has hope too
)

// deal is to lay units on a sheet and take others off it.
type deal struct {
	attempt
	units []int   // laid
	gain  float64 // of worth
	fill  float64 // of the sheet
	hope  float64
}

func (d *deal) sheet() int { return d.sheets[0] }

// draw chooses deals to be tried side by side: no two share a unit or a sheet.
func (t *trade) draw() []deal {
	var list []deal
	pool, now := t.pool(), t.laid()
	for range max(t.options.Workers, 1) {
		var best deal
		for range dealDraws {
			d := t.chance(pool)
			if !slices.ContainsFunc(list, d.bars) && t.weigh(&d, now) && d.hope > best.hope {
				best = d
			}
		}
		if best.hope > 0 {
			list = append(list, best)
		}
	}
	return list
}

// bars says whether two deals share a unit or a sheet.
func (d *deal) bars(o deal) bool {
	return d.sheet() == o.sheet() || slices.ContainsFunc(d.units, func(n int) bool { return slices.Contains(o.units, n) })
}

// pool lists the units that do not lie, or not all of them.
func (b *packing) pool() []int {
	var list []int
	for n := range b.units {
		if !b.laid(&b.units[n]) {
			list = append(list, n)
		}
	}
	return list
}

// chance draws a deal.
func (t *trade) chance(pool []int) deal {
	d := deal{attempt: attempt{sheets: []int{t.among[t.rand.IntN(len(t.among))]}}}
	for range dealIn {
		if n := pool[t.rand.IntN(len(pool))]; !slices.Contains(d.units, n) {
			d.units = append(d.units, n)
			d.loose = append(d.loose, t.loose(&t.units[n])...)
		}
		if t.rand.IntN(2) == 0 {
			break
		}
	}
	on := t.yielding(d.sheet(), d.units)
	for range t.rand.IntN(min(dealOut, len(on)) + 1) {
		k := t.rand.IntN(len(on))
		for _, i := range t.units[on[k]].items {
			if t.now.on[i] == d.sheet() {
				d.without = append(d.without, i)
			}
		}
		on = slices.Delete(on, k, k+1)
	}
	return d
}

// yielding lists the units on a sheet that may give way to others.
func (t *trade) yielding(s int, to []int) []int {
	var on []int
	for n, u := range t.units {
		if t.home(&u) == s && !t.locked(u) && !slices.Contains(to, n) {
			on = append(on, n)
		}
	}
	return on
}

// weigh says whether a deal may be made, and what hope there is in it: what it
// gains, times how likely the sheet is to take it.
func (t *trade) weigh(d *deal, now float64) bool {
	s := d.sheet()
	for _, n := range d.units {
		u := &t.units[n]
		if home := t.home(u); home != unlaid && home != s || !t.mayTake(u, t.sheets[s]) {
			return false
		}
	}
	d.gain = t.sum(d.loose) - t.sum(d.without)
	d.fill = t.fill(s) + (t.areaOf(d.loose)-t.areaOf(d.without))/t.sheets[s].free
	if d.fill > 1 || now+d.gain < t.most-t.slack {
		return false
	}
	over := (d.fill - max(t.level[s], t.fill(s))) / dealWidth
	d.hope = (d.gain + dealNerve*t.slack) / (1 + math.Exp(over)) * math.Pow(dealDoubt, float64(t.refused[t.key(d)]))
	return true
}

// areaOf is the area of some copies.
func (b *packing) areaOf(copies []int) float64 {
	sum := 0.0
	for _, i := range copies {
		sum += b.forms[b.items[i].piece].area
	}
	return sum
}
