package nest

import (
	"cmp"
	"slices"
)

// plan is a set of sheets to cut everything from, cheaper than the present one.
type plan struct {
	sheets []int
	fill   float64 // share of their area that all copies take
	trade  *trade  // what came of it so far; nil before it is tried
}

const (
	mostPlans = 4   // tried in turn, the emptiest first
	leastPlan = 100 // steps for one at a time
)

// empty looks for cheaper sets of sheets: one sheet less, a cheaper one for
// another, or one for two. Each plan gets half of what is left, and goes on
// where it stood when its turn comes again.
func (b *packing) empty(until int) {
	for plans, i := b.plans(), 0; len(plans) > 0 && !b.over(until); {
		i %= len(plans)
		judged := b.judged
		left := until - judged
		switch {
		case b.follow(&plans[i], min(max(left/2, leastPlan*StepEvaluations), left)):
			plans, i = b.plans(), 0
		case b.judged == judged:
			plans = slices.Delete(plans, i, i+1) // nothing can be traded
		default:
			i++
		}
	}
}

// follow trades what lies elsewhere into the sheets of a plan, and says whether
// all found room there. If not, all stays as it was.
func (b *packing) follow(p *plan, most int) bool {
	before := b.now.clone()
	if p.trade == nil {
		for i, on := range b.now.on {
			if !slices.Contains(p.sheets, on) {
				b.now.on[i] = unlaid
			}
		}
		p.trade = b.newTrade(p.sheets, b.area)
	} else {
		b.now = p.trade.best.clone()
	}
	p.trade.run(b.judged + most)
	if b.missing() == 0 {
		b.report()
		return true
	}
	b.now = before
	return false
}

// plans lists cheaper sets of sheets that hold everything by area.
func (b *packing) plans() []plan {
	used := b.used()
	cost, area, least := 0.0, 0.0, b.leastCost()
	for _, s := range used {
		cost += b.sheets[s].cost
	}
	for _, it := range b.items {
		area += b.forms[it.piece].area
	}
	var list []plan
	add := func(sheets []int) {
		sum, room := 0.0, 0.0
		for _, s := range sheets {
			sum += b.sheets[s].cost
			room += b.sheets[s].free
		}
		if sum < cost && sum >= least && b.enough(sheets) {
			list = append(list, plan{sheets: sheets, fill: area / room})
		}
	}
	spare := b.spare()
	for i := range used {
		if b.pinned(used[i]) {
			continue
		}
		rest := slices.Delete(slices.Clone(used), i, i+1)
		add(rest)
		for _, v := range spare {
			add(append(slices.Clone(rest), v))
			for j := i; j < len(rest); j++ {
				if b.pinned(rest[j]) {
					continue
				}
				add(append(slices.Delete(slices.Clone(rest), j, j+1), v))
			}
		}
	}
	slices.SortStableFunc(list, func(p, q plan) int { return cmp.Compare(p.fill, q.fill) })
	return list[:min(len(list), mostPlans)]
}

// spare lists the first unused sheet of each container.
func (b *packing) spare() []int {
	var list []int
	seen := map[int]bool{}
	for s := range b.sheets {
		if c := b.sheets[s].container; !seen[c] && !b.now.holds(s) {
			seen[c] = true
			list = append(list, s)
		}
	}
	return list
}
