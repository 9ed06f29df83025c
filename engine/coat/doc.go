// Package coat is the arithmetic of a painter's day: how many litres, what to
// pour on the scale, may it be sprayed now, when is the next coat, when does
// the window close, and a spray-day sheet minute by minute.
//
// Method. Litres follow from area, dry film, solids by volume and the part of
// the paint that stays on the panel. A mix is poured by running totals on one
// scale. Times of a data sheet hold at 20 °C and are moved to the metal's
// temperature by doubling for so many degrees. The dew point is Magnus' formula
// [WMO8] [AlduchovEskridge1996]; steel must be 3 °C above it, reckoned as in
// [ISO8502-4]. A day is laid out forwards in the order the painter gives, no
// step before its flash, turn or window allows, and CheckDay recomputes it.
//
// Units are plain float64 and stand in every name or comment: °C, % relative
// humidity, µm, m², litres, ml, grams, minutes. Moments are unit.Moment.
//
// Limits. What is called a trade default is habit without a published source
// and gives way to the maker's sheet. Scaling of drying holds from 16 to 30 °C
// and is refused elsewhere; two-pack paint is refused on metal under 16 °C. No
// rule of law is in the code: limits of solvent are a table that is handed in.
// Input that cannot be right is a fault of kind Invalid with place and hint.
// The package advises; the maker's sheet, local codes and licensed people rule.
//
// Keys in brackets stand in docs/references.md; docs/engine/coat.md has the
// formulas with worked values.
package coat
