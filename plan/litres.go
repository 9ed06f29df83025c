package plan

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/takeoff"
)

// litresOf returns the ready-to-spray litres of every paint product.
func litresOf(b *build.Build, r rates.Rates) []figure.Figure {
	list := make([]figure.Figure, 0, len(b.Products))
	for _, p := range b.Products {
		_, f := takeoff.Litres(b, p, r)
		list = append(list, f)
	}
	return list
}

// paint gathers what differs in paint: ready to spray by product, and tins to
// buy by part. Products and parts that are new, or gone, count from nothing.
func (c *comparison) paint(before, after *Plan) {
	for _, f := range paired(before.Litres, after.Litres, func(f figure.Figure) string { return f.Name }) {
		x, y := readLitres(f.before.Text), readLitres(f.after.Text)
		c.add((y-x)/2, y > x, Row{Group: "paint", Name: f.name + ", ready to spray", Before: twoPlaces(x), After: twoPlaces(y), Change: signedLitres(y - x)})
	}
	for _, t := range paired(before.Tins, after.Tins, func(t takeoff.Tins) string { return t.Name }) {
		d := t.after.Count - t.before.Count
		c.add(float64(d)/2, d > 0, Row{Group: "paint", Name: "tins of " + t.name + " to buy", Before: strconv.Itoa(t.before.Count), After: strconv.Itoa(t.after.Count), Change: signed(d, "tin")})
	}
}

// pair is a thing of two plans that bears one name.
type pair[T any] struct {
	name          string
	before, after T
}

// paired brings together what bears one name in two lists, in the order of the
// second, then what is only in the first.
func paired[T any](before, after []T, name func(T) string) []pair[T] {
	var list []pair[T]
	at := map[string]int{}
	for _, x := range after {
		at[name(x)] = len(list)
		list = append(list, pair[T]{name: name(x), after: x})
	}
	for _, x := range before {
		i, known := at[name(x)]
		if !known {
			i = len(list)
			list = append(list, pair[T]{name: name(x)})
		}
		list[i].before = x
	}
	return list
}

// readLitres reads what unit.Volume writes; nothing is none.
func readLitres(text string) float64 {
	l, err := strconv.ParseFloat(strings.TrimSuffix(text, " l"), 64)
	if err != nil {
		return 0
	}
	return l
}

func twoPlaces(l float64) string { return fmt.Sprintf("%.2f l", l) }

func signedLitres(l float64) string {
	if l < 0 {
		return "−" + twoPlaces(-l)
	}
	return "+" + twoPlaces(l)
}
