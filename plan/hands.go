package plan

import (
	"math"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/rates"
)

// hand is how what work takes differs with who does it.
//
// What people differ by is a part of what pieces of work differ by: it is taken
// out of the own range of a kind before it is put in by person, so that the
// spread is counted once. So is the mean: what all work of a kind in a stage
// came to on a build moves the kind, and only what a person's work differs from
// that moves the person. Where one person did it all, it says nothing of the
// person.
type hand struct {
	now     schedule.Lognormal
	records []float64 // what their finished work came to ÷ the mean of all of its kind and stage there
	noise   float64   // sum of the variances of the kinds that the records are of
}

// differ is the range by which people differ, as judged.
func (n *net) differ() schedule.Lognormal {
	return schedule.Spread(n.build.Risk.People.Range).Lognormal()
}

// without takes what people differ by out of the own range of a kind of work.
func (n *net) without(own schedule.Lognormal) schedule.Lognormal {
	d := n.differ()
	return schedule.Lognormal{Mu: own.Mu - d.Mu, Sigma: math.Sqrt(max(0, own.Sigma*own.Sigma-d.Sigma*d.Sigma))}
}

// paces gives everybody their own range.
func (n *net) paces() {
	if !n.build.Risk.People.Given() {
		return
	}
	n.hands = make([]hand, len(n.build.People))
	n.compare(handsOf(n))
	for _, p := range n.past {
		n.compare(p.Hands)
	}
	for i := range n.hands {
		h := &n.hands[i]
		h.now = n.differ()
		if len(h.records) > 0 {
			h.now = h.now.Update(h.records, schedule.Lognormal{Mu: -h.now.Mu, Sigma: math.Sqrt(h.noise / float64(len(h.records)))})
		}
		n.problem.People[i].Learned = h.now
	}
}

func (h *hand) take(ratio, sigma float64) {
	h.records, h.noise = append(h.records, ratio), h.noise+sigma*sigma
}

// compare takes in one build: what a person's work came to beside the geometric
// mean of all work of its kind and stage there, where several people did it.
func (n *net) compare(list []rates.HandPast) {
	type group struct{ kind, stage string }
	sum, count := map[group]float64{}, map[group]float64{}
	several, first := map[group]bool{}, map[group]build.PersonID{}
	for _, r := range list {
		g := group{r.Kind, r.Stage}
		if count[g] == 0 {
			first[g] = r.Person
		}
		several[g] = several[g] || first[g] != r.Person
		sum[g], count[g] = sum[g]+math.Log(r.Ratio), count[g]+1
	}
	for _, r := range list {
		g, at := group{r.Kind, r.Stage}, personAt(n.build, r.Person)
		if !several[g] || at < 0 || n.build.People[at].Name != r.Name {
			continue
		}
		if own, ok := n.statedOwn(r.Kind); ok {
			n.hands[at].take(r.Ratio/math.Exp(sum[g]/count[g]), n.without(own).Sigma)
		}
	}
}

// statedOwn is the own range of a kind of work as stated.
func (n *net) statedOwn(kind string) (schedule.Lognormal, bool) {
	r, ok := n.stated(kind)
	return schedule.Spread(r.Factor).Lognormal(), ok
}

// handsOf lists the finished work of a build that one person did alone: hours
// booked ÷ planned of their own trade in a task.
func handsOf(n *net) []rates.HandPast {
	type key struct {
		task  build.TaskID
		trade build.TradeID
	}
	booked, who := map[key]float64{}, map[key]build.PersonID{}
	for _, h := range n.build.Hours {
		p := n.build.Person(h.Person)
		if len(p.Trades) == 0 {
			continue
		}
		k := key{h.Task, p.Trades[0]}
		if other, known := who[k]; known && other != p.ID {
			booked[k] = math.Inf(1) // two people did it
		}
		who[k], booked[k] = p.ID, booked[k]+h.Worked.H()
	}
	var list []rates.HandPast
	for _, t := range n.build.Tasks {
		for _, w := range n.work[t.ID] {
			k := key{t.ID, w.Trade}
			if t.State != build.Finished || w.Planned <= 0 || !(booked[k] > 0) || math.IsInf(booked[k], 1) {
				continue
			}
			list = append(list, rates.HandPast{Person: who[k], Name: n.build.Person(who[k]).Name,
				Kind: t.Risk, Stage: t.Stage, Ratio: booked[k] / w.Planned.H()})
		}
	}
	return list
}
