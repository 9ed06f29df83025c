// Package unit gives every quantity that fettle stores, sums or bills a type
// of its own, so that millimetres cannot be added to pounds.
//
// Stored quantities are whole numbers of a small step, so sums are exact and
// the same on every machine:
//
//	Length  micrometres        JSON: millimetres, keys end in _mm
//	Area    square millimetres JSON: square metres, keys end in _m2
//	Volume  microlitres        JSON: litres, keys end in _l
//	Mass    milligrams         JSON: kilograms, keys end in _kg
//	Money   hundredths         JSON: whole currency with two decimals
//	Effort  minutes            JSON: hours, keys end in _h
//	Date    days               JSON: "2026-10-06"
//
// Adding an Area to a Length does not compile. Multiplying two Lengths does,
// and would be wrong, so products go through [Rect] and [Money.PerHour].
// Physics that is worked out rather than kept is float64 in SI units.
package unit
