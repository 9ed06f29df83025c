package coat

import (
	"math"

	"fettle/fault"
)

// FeetPerGallon turns m² a litre into ft² a US gallon: 3.785411784 l ÷ 0.09290304 m².
const FeetPerGallon = 3.785411784 / 0.09290304

// SpreadingRate returns the m² that a litre covers without loss, at a dry film
// in µm and solids in % by volume: 10 × solids ÷ film, for a litre of solids
// spread 1 µm thin covers 1000 m².
func SpreadingRate(solidsPercent, filmUm float64) (float64, error) {
	if err := solids("solids", solidsPercent); err != nil {
		return 0, err
	}
	if err := above("film", filmUm, mostFilm, "µm", "give the dry film of all coats"); err != nil {
		return 0, err
	}
	return 10 * solidsPercent / filmUm, nil
}

// WetFilm returns the wet film in µm that dries to a film in µm: 100 × film ÷
// solids. Thinned is what was added after, as a part of the unthinned volume:
// 0.15 for 15 %; the solids are those before it was added.
func WetFilm(filmUm, solidsPercent, thinned float64) (float64, error) {
	if err := solids("solids", solidsPercent); err != nil {
		return 0, err
	}
	if err := within("film", filmUm, 0, mostFilm, "µm", "give the dry film"); err != nil {
		return 0, err
	}
	if err := within("thinned", thinned, 0, 10, "as a part", "15 % of thinner on top is written 0.15"); err != nil {
		return 0, err
	}
	return 100 * filmUm * (1 + thinned) / solidsPercent, nil
}

// Need is a surface to be covered with one product.
type Need struct {
	Area     float64 // m²
	Film     float64 // µm dry, all coats together
	Solids   float64 // % by volume, ready to spray
	Transfer float64 // the part that stays on the panel, 0.60 for 60 %
	Waste    float64 // on top of what goes through the gun, as a part: left in pots, strained, spilt
	Purge    float64 // litres that stay in cup and hose, of all fills
}

// Litres is what a Need comes to, in litres ready to spray.
type Litres struct {
	Rate   float64 // m² a litre covers without loss
	Theory float64 // on the panel
	AtGun  float64 // through the gun
	Bought float64 // with waste and purge
}

// Litres returns area × film ÷ (10 × solids × transfer) × (1 + waste) + purge,
// with what it is made of.
func (n Need) Litres() (Litres, error) {
	rate, err := SpreadingRate(n.Solids, n.Film)
	if err != nil {
		return Litres{}, err
	}
	if err := transfer("transfer", n.Transfer); err != nil {
		return Litres{}, err
	}
	if err := within("area", n.Area, 0, mostArea, "m²", "areas are in m²: 1 ft² is 0.0929 m²"); err != nil {
		return Litres{}, err
	}
	if err := within("waste", n.Waste, 0, 1, "as a part", "10 % is written 0.10"); err != nil {
		return Litres{}, err
	}
	if err := within("purge", n.Purge, 0, mostLitres, "l", "cup and hose hold 0.05 to 0.15 l a fill"); err != nil {
		return Litres{}, err
	}
	l := Litres{Rate: rate, Theory: n.Area / rate}
	l.AtGun = l.Theory / n.Transfer
	l.Bought = l.AtGun*(1+n.Waste) + n.Purge
	return l, nil
}

// LossFactor returns by how much more is mixed than stays on the panel where
// waste is a part of what is mixed: 1 ÷ (transfer × (1 − waste)). Need counts
// waste on top of what goes through the gun instead: 10 % of one is not 10 % of
// the other.
func LossFactor(transferPart, waste float64) (float64, error) {
	if err := transfer("transfer", transferPart); err != nil {
		return 0, err
	}
	if err := within("waste", waste, 0, 0.9, "as a part", "10 % is written 0.10"); err != nil {
		return 0, err
	}
	return 1 / (transferPart * (1 - waste)), nil
}

// Coats returns how many coats of a dry film in µm reach a film in µm.
func Coats(filmUm, perCoatUm float64) (int, error) {
	if err := above("film", filmUm, mostFilm, "µm", "give the dry film of all coats"); err != nil {
		return 0, err
	}
	if err := above("film of a coat", perCoatUm, mostFilm, "µm", "give the dry film of one coat"); err != nil {
		return 0, err
	}
	n := math.Ceil(filmUm/perCoatUm - 1e-9)
	if n > 100 {
		return 0, fault.New(fault.Invalid, "%g coats of %g µm for %g µm", n, perCoatUm, filmUm).At("film of a coat").WithHint("films are in µm: 1 mil is 25.4 µm")
	}
	return int(n), nil
}

// Passes returns how many passes of the gun cover a height in mm with a fan in
// mm, each laid over the part of the one before, and the step between two in
// mm. The trade laps 0.50, metallic 0.75 (trade default).
func Passes(heightMm, fanMm, overlap float64) (n int, stepMm float64, err error) {
	if err := above("height", heightMm, 1e5, "mm", "give the height of the panel"); err != nil {
		return 0, 0, err
	}
	if err := within("fan", fanMm, 1, 2000, "mm", "measure the fan on a paper at spraying distance"); err != nil {
		return 0, 0, err
	}
	if err := within("overlap", overlap, 0, 0.95, "as a part", "half is written 0.50"); err != nil {
		return 0, 0, err
	}
	stepMm = fanMm * (1 - overlap)
	return 1 + int(math.Ceil(max(0, heightMm-fanMm)/stepMm-1e-9)), stepMm, nil
}
