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
// spread is counted once. The same holds for the mean: records first move what
// all work of a kind shares, and only what a person's own work differs from
// that moves the person.
type hand struct {
	now     schedule.Lognormal
	records []float64 // what their finished work came to beside all of its kind
	noise   float64   // sum of the variances of the kinds that the records are of
}

// people is the range by which people differ, as judged.
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
	for _, r := range handsOf(n) {
		if k, ok := n.known(r.Kind, r.stage); ok {
			mean := k.own.Mu + k.common.Mu
			n.hands[n.personAt(r.Person)].take(r.Ratio/math.Exp(mean), n.without(k.own).Sigma)
		}
	}
	for _, p := range n.past {
		n.earlier(p)
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

// earlier takes in an earlier build: what a person's work came to beside the
// mean of all work of its kind there. Where one person did it all, that says
// nothing of the person.
func (n *net) earlier(p rates.Past) {
	sum, count := map[string]float64{}, map[string]float64{}
	for _, r := range p.Hands {
		sum[r.Kind], count[r.Kind] = sum[r.Kind]+math.Log(r.Ratio), count[r.Kind]+1
	}
	for _, r := range p.Hands {
		k, ok := n.known(r.Kind, "")
		at := n.personAt(r.Person)
		if ok && at >= 0 && n.build.People[at].Name == r.Name {
			n.hands[at].take(r.Ratio/math.Exp(sum[r.Kind]/count[r.Kind]), n.without(k.own).Sigma)
		}
	}
}

func (n *net) personAt(id build.PersonID) int {
	for i, p := range n.build.People {
		if p.ID == id {
			return i
		}
	}
	return -1
}

// handRecord is finished work of one person, with its stage.
type handRecord struct {
	rates.HandPast
	stage string
}

// handsOf lists the finished work of a build that one person did alone: hours
// booked ÷ planned of their own trade in a task.
func handsOf(n *net) []handRecord {
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
	var list []handRecord
	for _, t := range n.build.Tasks {
		for _, w := range n.work[t.ID] {
			k := key{t.ID, w.Trade}
			if t.State != build.Finished || w.Planned <= 0 || !(booked[k] > 0) || math.IsInf(booked[k], 1) {
				continue
			}
			list = append(list, handRecord{rates.HandPast{Person: who[k], Name: n.build.Person(who[k]).Name, Kind: t.Risk, Ratio: booked[k] / w.Planned.H()}, t.Stage})
		}
	}
	return list
}
