package coat

import (
	"fmt"

	"fettle/fault"
	"fettle/figure"
)

// Gun is a kind of gun with the part of the paint that it leaves on the panel.
type Gun struct {
	Name      string
	Low, High float64
}

// Guns returns what kinds of guns reach [SCAQMD-TE]. On small parts, wheels
// and tube take 0.4 to 0.7 of it (trade default).
func Guns() []Gun {
	return []Gun{
		{"conventional cup", 0.25, 0.40}, {"HVLP", 0.50, 0.60}, {"compliant low pressure", 0.55, 0.65},
		{"airless", 0.40, 0.50}, {"air-assisted airless", 0.60, 0.80},
	}
}

// Weighed is one spraying with the pot on the scale before and after.
type Weighed struct {
	Before, After float64 // g, pot and paint
	Density       float64 // kg/l, ready to spray
	Solids        float64 // % by volume, ready to spray
	Purge         float64 // l of the loss that never went at the panel: hose, cup, test card
	Area          float64 // m²
	Film          float64 // µm dry, mean of the readings of this layer
}

// Transfer returns the part of the paint that stayed on the panel: area × film
// ÷ (litres sprayed × solids), a micrometre on a square metre being a millilitre.
func (w Weighed) Transfer() (float64, error) {
	if err := solids("solids", w.Solids); err != nil {
		return 0, err
	}
	for _, err := range []error{
		within("density", w.Density, 0.3, 10, "kg/l", "weigh 100 ml: grams ÷ 100 are kg/l"),
		above("area", w.Area, mostArea, "m²", "give the area that was sprayed"),
		above("film", w.Film, mostFilm, "µm", "read the film before and after this layer"),
		within("after", w.After, 0, w.Before, "g", "a pot does not gain while spraying"),
		within("before", w.Before, 0, 1e6, "g", "read the scale"),
		within("purge", w.Purge, 0, mostLitres, "l", "cup and hose hold 0.05 to 0.15 l a fill"),
	} {
		if err != nil {
			return 0, err
		}
	}
	sprayed := 1000 * ((w.Before-w.After)/1000/w.Density - w.Purge) * w.Solids / 100 // ml of dry paint
	if sprayed <= 0 {
		return 0, fault.New(fault.Invalid, "nothing was sprayed").At("weights").WithHint("before less after, less the purge, must leave something")
	}
	part := w.Area * w.Film / sprayed
	if part > 1 {
		return 0, fault.New(fault.Invalid, "%.0f ml of dry paint on the panel, %.0f ml through the gun", w.Area*w.Film, sprayed).At("weights").WithHint("more cannot arrive than leaves: check area, film readings, solids and weights")
	}
	return part, nil
}

// shrink is how many records of its own a trade default counts as.
const shrink = 10

// Learnt is a value narrowed by records.
type Learnt struct {
	Value float64
	Own   float64 // mean of the records, 0 without
	N     int
	Input figure.Input
}

// LearnTransfer moves the default by the shop's own transfers, each a part:
// (10 × default + Σ own) ÷ (10 + n), so that n records count n ÷ (n + 10).
func LearnTransfer(standard float64, own []float64) (Learnt, error) {
	if err := transfer("default transfer", standard); err != nil {
		return Learnt{}, err
	}
	l, sum := Learnt{N: len(own)}, 0.0
	for i, v := range own {
		if err := transfer(fmt.Sprintf("record %d", i+1), v); err != nil {
			return Learnt{}, err
		}
		sum += v
	}
	l.Value = (shrink*standard + sum) / float64(shrink+l.N)
	l.Input = figure.Input{Name: "transfer", Value: fmt.Sprintf("%.2f", l.Value), Source: figure.TradeDefault, Note: "weigh the tin before and after to learn your own"}
	if l.N > 0 {
		l.Own = sum / float64(l.N)
		l.Input.Source, l.Input.Note = figure.OwnPast, fmt.Sprintf("n = %d, mean %.2f; default %.2f counts as %d", l.N, l.Own, standard, shrink)
	}
	return l, nil
}
