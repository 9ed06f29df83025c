package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/figure"
)

// Wire is one wire as it is made. Ends with one key are joined; From and To are
// what people call them.
type Wire struct {
	ID       string
	Net      string // that it belongs to, may be empty
	From, To string
	Keys     [2]string // of its ends; a key among the joints of a plan is read nowhere
	Section  string
	MM2      float64
	Colour   string
	Cut      float64 // mm
	MilliOhm float64 // a metre, at 20 °C
	Outside  float64 // mm
	Text     string  // on its labels
}

// Ohms is its resistance at 20 °C.
func (w Wire) Ohms() float64 { return w.MilliOhm / 1000 * w.Cut / 1000 }

// InOrder compares wires by the order in which they are cut: by section, then
// colour, the longest first.
func InOrder(a, b Wire) int {
	return cmp.Or(cmp.Compare(a.MM2, b.MM2), strings.Compare(a.Colour, b.Colour), cmp.Compare(b.Cut, a.Cut))
}

// Reel is what is used of one kind of wire.
type Reel struct {
	Section string
	Colour  string
	Metres  float64 // with what is spare
	Working figure.Figure
}

// Spare is the share of wire bought beyond what is cut: a habit of the trade.
const Spare = 0.05

// Reels adds wires up by section and colour, the thinnest first.
func Reels(wires []Wire) []Reel {
	wires = slices.Clone(wires)
	slices.SortStableFunc(wires, func(a, b Wire) int {
		return cmp.Or(cmp.Compare(a.MM2, b.MM2), strings.Compare(a.Colour, b.Colour))
	})
	var list []Reel
	for i := 0; i < len(wires); {
		first, sum := wires[i], 0.0
		var terms []string
		for ; i < len(wires) && wires[i].MM2 == first.MM2 && wires[i].Section == first.Section && wires[i].Colour == first.Colour; i++ {
			sum += wires[i].Cut / 1000
			terms = append(terms, fmt.Sprintf("%s %.2f", wires[i].ID, wires[i].Cut/1000))
		}
		with := sum * (1 + Spare)
		list = append(list, Reel{Section: first.Section, Colour: first.Colour, Metres: with, Working: figure.Figure{
			Name: "cable " + first.Section + " mm² " + first.Colour, Text: fmt.Sprintf("%.1f m", with), Formula: "sum of the wires + 5 %",
			With:   fmt.Sprintf("(%s) × 1.05 = %.1f m × 1.05 = %.1f m", strings.Join(terms, " + "), sum, with),
			Inputs: []figure.Input{{Name: "margin", Value: fmt.Sprintf("%.0f %%", math.Round(100*Spare)), Source: figure.TradeDefault, Note: "ends and what goes wrong"}}}})
	}
	return list
}
