package metal

import (
	"cmp"
	"math"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// way is one way to put a finding right, with what it takes.
type way struct {
	Remedy build.PanelState
	Legs   []build.Leg
	Hours  figure.Figure
	Cost   figure.Figure
	Days   figure.Figure
}

// remedies are the ways to choose from.
func remedies() []build.PanelState {
	return []build.PanelState{build.Repair, build.Replace, build.Make}
}

// waysOf guesses what each remedy takes of each trade. part is the price of
// what would be bought; 0 is not known.
func waysOf(b *build.Build, r rates.Rates, task build.TaskID, s build.Size, part unit.Money) []way {
	var out []way
	for _, remedy := range remedies() {
		total, fig := r.Hours(remedy, s)
		w := way{Remedy: remedy, Legs: split(b, task, total), Hours: fig}
		price := unit.Money(0)
		if remedy == build.Replace {
			price = part
		}
		w.Cost, w.Days = costOf(b, w.Legs, price), daysOf(b, w.Legs)
		out = append(out, w)
	}
	return out
}

// halfHour is the step in which hours are shared out.
const halfHour = 30 * unit.Minute

// split shares hours out among the trades that usually do a task, in the
// proportion of the task's own hours, to the half hour; the first of them has
// what is over. Trades with less than an eighth are left out.
func split(b *build.Build, task build.TaskID, total unit.Effort) []build.Leg {
	t := b.Task(task)
	if t == nil || len(t.Legs) == 0 {
		return nil
	}
	usual := slices.Clone(t.Legs)
	slices.SortStableFunc(usual, func(a, b build.Leg) int { return cmp.Compare(b.Hours, a.Hours) })
	all := build.Total(usual)
	rest := total
	var out []build.Leg
	for i, l := range usual {
		share := unit.Effort(math.Round(float64(total)*float64(l.Hours)/float64(all)/float64(halfHour))) * halfHour
		if i > 0 && (l.Hours*8 < all || share == 0) {
			continue
		}
		out = append(out, build.Leg{Trade: l.Trade, Hours: share})
		rest -= share
	}
	out[0].Hours += rest
	return out
}

// handOf returns the person whose own trade it is, or one who can help.
func handOf(b *build.Build, trade build.TradeID) *build.Person {
	for i := range b.People {
		if p := &b.People[i]; len(p.Trades) > 0 && p.Trades[0] == trade {
			return p
		}
	}
	for i := range b.People {
		if b.People[i].Does(trade) {
			return &b.People[i]
		}
	}
	return nil
}
