package takeoff

import (
	"fmt"

	"fettle/build"
	"fettle/figure"
)

// wantOf turns a part into a want. A part that a finding made necessary is
// needed for that finding only, so its task may begin without it.
func wantOf(b *build.Build, p build.Part) Want {
	w := Want{Part: p.ID, Task: p.Task, AtEnd: p.AtEnd || len(p.Because) > 0}
	w.Figure = figure.Figure{
		Name: p.Name, Text: b.Currency.Format(p.Cost()),
		Formula: "quantity × unit price",
		With:    fmt.Sprintf("%d × %s = %s", p.Quantity, b.Currency.Format(p.Price), b.Currency.Format(p.Cost())),
		Inputs: []figure.Input{
			{Name: "unit price", Value: b.Currency.Format(p.Price), Source: figure.Sheet, Note: "supplier's quote", Link: "part/" + string(p.ID)},
			{Name: "lead", Value: fmt.Sprintf("%d working days", p.Lead), Source: figure.Sheet, Note: "supplier's quote"},
		},
	}
	for _, id := range p.Because {
		w.Figure.Inputs = append(w.Figure.Inputs, figure.Input{Name: "because of", Value: string(id), Source: figure.Decided, Link: "finding/" + string(id)})
	}
	return w
}

// loadOf turns the turn-round of a task into a load.
func loadOf(b *build.Build, t build.Task) Load {
	o := b.Load(t.Outwork)
	l := Load{Load: o.ID, Task: t.ID, Days: b.WaitOf(t)}
	note := "quoted by the outside shop"
	if o.Likely > 0 {
		l.Days, note = o.Likely, "as last heard"
	}
	l.Figure = figure.Figure{
		Name: o.What, Text: fmt.Sprintf("%d working days", l.Days),
		Formula: "whole turn-round from sending to return",
		With:    fmt.Sprintf("%d working days likely; nine loads in ten within %d", l.Days, max(o.P90, l.Days)),
		Inputs: []figure.Input{
			{Name: "turn-round", Value: fmt.Sprintf("%d working days", l.Days), Source: figure.Sheet, Note: note, Link: "load/" + string(o.ID)},
			{Name: "pieces", Value: fmt.Sprint(o.Pieces), Source: figure.Measured},
			{Name: "cost", Value: b.Currency.Format(o.Cost), Source: figure.Sheet},
		},
	}
	return l
}
