package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/schedule"
	"fettle/figure"
)

// riskInputs tells where each distribution of the odds came from: what was
// stated, what finished work made of it and how much of that there is.
func riskInputs(n *net, odds schedule.Outlook) []figure.Input {
	var inputs []figure.Input
	for _, r := range n.build.Risk.Ranges {
		stated := figure.Input{Name: "hours or days of " + r.Kind, Source: figure.TradeDefault, Note: r.Source,
			Value: fmt.Sprintf("× %.2f to %.2f, mostly %.2f", r.Factor.Low, r.Factor.High, r.Factor.Mode)}
		if r.Common != (build.Span{}) {
			stated.Note += fmt.Sprintf("; and all of it on this vehicle together × %.2f to %.2f, mostly %.2f", r.Common.Low, r.Common.High, r.Common.Mode)
		}
		inputs = append(inputs, stated)
		for _, k := range n.kinds {
			if k.stated.Kind == r.Kind && k.used && len(k.here)+len(k.past) > 0 {
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
	for _, x := range n.events {
		inputs = append(inputs, n.eventInput(x, odds))
	}
	return append(append(inputs, n.lateInputs()...), n.handInputs()...)
}

// input says what finished work has made of a range.
func (k learned) input() figure.Input {
	both := func(own, common schedule.Lognormal) string {
		return eightOfTen(schedule.Lognormal{Mu: own.Mu + common.Mu, Sigma: math.Hypot(own.Sigma, common.Sigma)})
	}
	f := figure.Input{Name: k.stated.Kind + " still to do", Source: figure.OwnPast, Value: both(k.own, k.common)}
	if k.stage != "" {
		f.Name += " in " + k.stage
	}
	var notes []string
	if len(k.here) > 0 {
		notes = append(notes, fmt.Sprintf("n = %d finished here, on the mean × %.2f of the plan", len(k.here), mean(k.here)))
	}
	if len(k.past) > 0 {
		all := slices.Concat(k.past...)
		notes = append(notes, fmt.Sprintf("n = %d on %s, on the mean × %.2f", len(all), plural(len(k.past), "earlier build"), mean(all)))
	}
	f.Note = strings.Join(notes, "; ") + "; as stated it would be " + both(schedule.Spread(k.stated.Factor).Lognormal(), schedule.Spread(k.stated.Common).Lognormal())
	return f
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, x := range list {
		sum += x
	}
	return sum / float64(len(list))
}

// notJudged is said of what counts for nothing in the odds.
const notJudged = "not judged yet"

// judgedBy names the source of a guess.
func judgedBy(source string) string { return cmp.Or(source, "the shop's own guess") }

// eventInput says how likely something is, after how many records, and what it
// does to the date where it happens.
func (n *net) eventInput(x event, odds schedule.Outlook) figure.Input {
	f := figure.Input{Name: string(x.ID) + " " + x.What, Source: figure.Decided, Link: "people#may-happen",
		Value: notJudged, Note: "counts for nothing until somebody says how likely it is"}
	if x.chance == 0 {
		return f
	}
	f.Value, f.Note = inHundred(x.chance), judgedBy(x.Source)
	if x.n > 0 {
		f.Source = figure.OwnPast
		f.Note = fmt.Sprintf("%s: %s, counting for ten; happened %d times of n = %d on earlier builds", f.Note, inHundred(x.Chance), x.happened, x.n)
	}
	if s, ok := x.strike(odds); ok && n.problem.Goal > 0 {
		f.Note += fmt.Sprintf("; in the builds where it happens %.0f %% are ready in time, else %.0f %%; %s later on the mean", 100*s.With, 100*s.Without, daysLater(s.Later))
	}
	return f
}

// lateInputs say by how much parts on order may come late, by supplier.
func (n *net) lateInputs() []figure.Input {
	late := n.build.Risk.Late
	if !late.Given() {
		return []figure.Input{{Name: "parts late", Value: notJudged, Source: figure.Decided, Link: "people#may-happen", Note: "parts are taken to come on the day promised"}}
	}
	span := func(s build.Span) string {
		return fmt.Sprintf("%.1f to %.1f working days after the day promised, mostly %.1f", s.Low, s.High, s.Mode)
	}
	inputs := []figure.Input{{Name: "parts late", Value: span(late.Range), Source: figure.Decided, Note: judgedBy(late.Source), Link: "people#may-happen"}}
	for _, l := range n.late {
		if len(l.days) > 0 {
			inputs = append(inputs, figure.Input{Name: "parts from " + l.supplier, Value: span(l.now), Source: figure.OwnPast,
				Note: fmt.Sprintf("n = %d came in, on the mean %.1f working days late; what was judged counts for ten", len(l.days), meanDays(l.days))})
		}
	}
	return inputs
}

func meanDays(days []int) float64 {
	sum := 0
	for _, d := range days {
		sum += d
	}
	return float64(sum) / float64(len(days))
}

// handInputs say how people differ.
func (n *net) handInputs() []figure.Input {
	people := n.build.Risk.People
	if !people.Given() {
		return []figure.Input{{Name: "how people differ", Value: notJudged, Source: figure.Decided, Link: "people#may-happen", Note: "everybody is taken to need what the plan says"}}
	}
	inputs := []figure.Input{{Name: "how people differ", Source: figure.Decided, Link: "people#may-happen",
		Value: eightOfTen(n.differ()), Note: judgedBy(people.Source) + "; a part of what pieces of work differ by, not on top of it"}}
	for i, h := range n.hands {
		if len(h.records) > 0 {
			inputs = append(inputs, figure.Input{Name: "work of " + n.build.People[i].Name, Value: eightOfTen(h.now), Source: figure.OwnPast,
				Note: fmt.Sprintf("n = %d finished alone, on the mean × %.2f of what such work took whoever did it", len(h.records), mean(h.records))})
		}
	}
	return inputs
}

// eightOfTen writes a factor as the two between which eight of ten lie.
func eightOfTen(d schedule.Lognormal) string {
	return fmt.Sprintf("× %.2f to %.2f in 8 of 10", d.Quantile(0.1), d.Quantile(0.9))
}
