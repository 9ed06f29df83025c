package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fettle/figure"
)

// Taken is what the work takes of a part on the list of Stores, such as metres
// of one cable out of a set.
type Taken struct {
	Name   string // of the part, and what of it
	Input  figure.Input
	amount float64
	unit   string
}

// Takes lists what the work takes of an order, where a stage reckons it.
func (o Order) Takes() []Taken {
	var list []Taken
	for _, in := range o.Figure.Inputs {
		t := Taken{Name: o.Name + ": " + in.Name, Input: in}
		if n, _ := fmt.Sscanf(in.Value, "%g", &t.amount); n == 1 && in.Source == figure.Worked {
			_, t.unit, _ = strings.Cut(in.Value, " ")
			list = append(list, t)
		}
	}
	return list
}

// parts compares what is taken of the parts on the list.
func (c *comparison) parts(before, after *Plan) {
	old, now := takes(before), takes(after)
	row := func(name string, x, y Taken) {
		d := y.amount - x.amount
		change := strings.TrimSpace(fmt.Sprintf("%+.4g %s", d, max(x.unit, y.unit)))
		c.add(0.1, d > 0, Row{Group: "parts", Name: name, Before: cmp.Or(x.Input.Value, "none"), After: cmp.Or(y.Input.Value, "none"), Change: strings.Replace(change, "-", "−", 1)})
	}
	at := func(list []Taken, name string) int {
		return slices.IndexFunc(list, func(t Taken) bool { return t.Name == name })
	}
	for _, y := range now {
		x := Taken{}
		if i := at(old, y.Name); i >= 0 {
			x = old[i]
		}
		row(y.Name, x, y)
	}
	for _, x := range old {
		if at(now, x.Name) < 0 {
			row(x.Name, x, Taken{})
		}
	}
}

func takes(p *Plan) []Taken {
	var list []Taken
	for _, o := range p.Orders {
		list = append(list, o.Takes()...)
	}
	return list
}
