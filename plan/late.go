package plan

import (
	"math"
	"slices"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
	"fettle/takeoff"
	"fettle/unit"
)

// arrivals are when a task's parts are there: those it cannot begin without,
// and those it cannot end without.
type arrivals struct{ begin, end arrival }

// arrival is the moment at which all of some parts are there, as promised, and
// three moments of the range of it. Parts of one task share their luck: what
// each supplier's worst comes to counts, not the worst of many draws.
type arrival struct {
	there  schedule.Minute
	points [3]schedule.Minute
}

// lateness is by how many working days parts of a supplier come after the day
// promised: as judged, and after n parts of theirs.
type lateness struct {
	supplier string
	days     []int
	now      build.Span
}

// latenessOf returns what is known of a supplier.
func (n *net) latenessOf(supplier string) lateness {
	for _, l := range n.late {
		if l.supplier == supplier {
			return l
		}
	}
	l := lateness{supplier: supplier, now: n.build.Risk.Late.Range}
	for _, past := range append(slices.Clone(n.past), rates.Past{Parts: partsOf(n)}) {
		for _, p := range past.Parts {
			if p.Supplier == supplier && supplier != "" {
				l.days = append(l.days, p.Days)
			}
		}
	}
	l.now = drawn(l.now, spanOf(l.days), rates.Share(len(l.days)))
	n.late = append(n.late, l)
	return l
}

// partsOf lists by how many working days the parts of a build that are in came
// after the day last promised; without one, after their lead.
func partsOf(n *net) []rates.PartPast {
	var list []rates.PartPast
	for _, p := range n.build.Parts {
		if p.Arrived != 0 && p.Ordered != 0 {
			list = append(list, rates.PartPast{Supplier: p.Supplier, Days: n.daysBetween(n.arrival(p), p.Arrived)})
		}
	}
	return list
}

// spanOf is the least, the most, and the mode with which a triangle over both
// has the mean of the records, as far as one has.
func spanOf(days []int) build.Span {
	if len(days) == 0 {
		return build.Span{}
	}
	sum := 0
	for _, d := range days {
		sum += d
	}
	low, high := float64(slices.Min(days)), float64(slices.Max(days))
	return build.Span{Low: low, Mode: min(max(3*float64(sum)/float64(len(days))-low-high, low), high), High: high}
}

// want notes when a part is there: on the day promised, else a lead after its
// order, else a lead after today; and by how much it may be late.
func (n *net) want(w takeoff.Want) {
	p := n.build.Part(w.Part)
	if p.State == build.In || p.State == build.Given {
		return
	}
	a := n.parts[w.Task]
	if w.AtEnd {
		a.end.take(n.comes(*p))
	} else {
		a.begin.take(n.comes(*p))
	}
	n.parts[w.Task] = a
}

// comes is the arrival of a part. One that is late already comes today at the
// earliest; where it is later than the whole range, the range begins anew.
func (n *net) comes(p build.Part) arrival {
	today := n.now.Date()
	promised := n.arrival(p)
	a := arrival{there: n.inBy(max(promised, today), 0)}
	a.points = [3]schedule.Minute{a.there, a.there, a.there}
	if !n.build.Risk.Late.Given() {
		return a
	}
	late := n.latenessOf(p.Supplier).now
	if n.inBy(promised, late.High) <= a.there {
		promised = max(promised, today)
	}
	for i, days := range []float64{late.Low, late.Mode, late.High} {
		a.points[i] = max(a.there, n.inBy(promised, days))
	}
	return a
}

// inBy is the moment so many working days after the delivery of a day.
func (n *net) inBy(day unit.Date, days float64) schedule.Minute {
	whole := math.Floor(days)
	at := func(count int) float64 { return float64(n.endOf(n.addDays(day, count)-1) + dayFrom) }
	return schedule.Minute(math.Round(at(int(whole)) + (days-whole)*(at(int(whole)+1)-at(int(whole)))))
}

func (n *net) arrival(p build.Part) unit.Date {
	switch {
	case p.Promised != 0:
		return p.Promised
	case p.Ordered != 0:
		return n.addDays(p.Ordered, p.Lead)
	}
	return n.addDays(n.now.Date(), p.Lead)
}

// take takes in another part that is waited for.
func (a *arrival) take(b arrival) {
	a.there = max(a.there, b.there)
	for i := range a.points {
		a.points[i] = max(a.points[i], b.points[i])
	}
}

// spread is the range of an arrival, in minutes after the promised moment.
func (a arrival) spread() schedule.Spread {
	after := func(i int) float64 { return float64(max(a.points[i]-a.there, 0)) }
	return schedule.Spread{Low: after(0), Mode: after(1), High: after(2)}
}

// plain is the moment of an arrival that has no range; one with a range has a
// gate of its own.
func (a arrival) plain() schedule.Minute {
	if a.spread() != (schedule.Spread{}) {
		return 0
	}
	return a.there
}

// partsGate ends the ID of the milestone at which a task's parts are there.
const partsGate = "/parts"

// gates hold a task's hours, and its end, back until parts are there that may
// be late: all trades of a task wait for the same delivery.
func (n *net) gates(t build.Task, begin []int, join int) {
	gate := func(id string, a arrival, hold []int) {
		if a.spread() == (schedule.Spread{}) || len(hold) == 0 {
			return
		}
		g := n.add(schedule.Activity{ID: id + partsGate, Group: string(t.ID), Kind: schedule.Milestone, Release: a.there, Late: a.spread()})
		for _, i := range hold {
			n.link(g, i)
		}
	}
	if len(begin) == 0 && t.State == build.NotBegun {
		begin = []int{join}
	}
	gate(string(t.ID), n.parts[t.ID].begin, begin)
	gate(string(t.ID)+"/end", n.parts[t.ID].end, []int{join})
}
