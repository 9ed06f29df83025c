package plan

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
)

// riskInputs tells where each distribution of the odds came from: what was
// stated, what finished work made of it and how much of that there is.
func riskInputs(n *net) []figure.Input {
	var inputs []figure.Input
	for _, r := range n.build.Risk.Ranges {
		stated := figure.Input{Name: "hours or days of " + r.Kind, Source: figure.TradeDefault, Note: r.Source,
			Value: fmt.Sprintf("× %.2f to %.2f, mostly %.2f", r.Factor.Low, r.Factor.High, r.Factor.Mode)}
		if r.Common != (build.Span{}) {
			stated.Note += fmt.Sprintf("; and all of it on this vehicle together × %.2f to %.2f, mostly %.2f", r.Common.Low, r.Common.High, r.Common.Mode)
		}
		inputs = append(inputs, stated)
		for _, k := range n.kinds {
			if k.stated.Kind == r.Kind && len(k.here) > 0 {
				inputs = append(inputs, k.input())
			}
		}
	}
	inputs = append(inputs, figure.Input{Name: "away on a day", Value: fmt.Sprintf("%.0f %%", 100*n.build.Risk.Absence), Source: figure.TradeDefault})
	for _, t := range n.build.Tasks {
		if r, ok := n.reserve(t.ID); ok && t.State != build.Finished {
			inputs = append(inputs, figure.Input{Name: "kept for rot nobody has seen", Source: figure.TradeDefault, Link: "task/" + string(t.ID),
				Value: fmt.Sprintf("%.0f to %.0f h, mostly %.0f h", r.Hours.Low, r.Hours.High, r.Hours.Mode)})
		}
	}
	return inputs
}

// input says what finished work has made of a range.
func (k learned) input() figure.Input {
	sum := 0.0
	for _, x := range k.here {
		sum += x
	}
	eight := func(own, common schedule.Lognormal) string {
		both := schedule.Lognormal{Mu: own.Mu + common.Mu, Sigma: math.Hypot(own.Sigma, common.Sigma)}
		return eightOfTen(both)
	}
	f := figure.Input{Name: k.stated.Kind + " still to do in " + k.stage, Source: figure.OwnPast, Value: eight(k.own, k.common)}
	f.Note = fmt.Sprintf("n = %d finished here, on the mean × %.2f of the plan; as stated it would be %s", len(k.here), sum/float64(len(k.here)),
		eight(schedule.Spread(k.stated.Factor).Lognormal(), schedule.Spread(k.stated.Common).Lognormal()))
	return f
}

// eightOfTen writes a factor as the two between which eight of ten lie.
func eightOfTen(d schedule.Lognormal) string {
	return fmt.Sprintf("× %.2f to %.2f in 8 of 10", d.Quantile(0.1), d.Quantile(0.9))
}
