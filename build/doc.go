// Package build is the live model of one vehicle's rebuild: plain facts, and
// the typed changes that are the only way to alter them.
//
// A [Build] holds no derived number: litres, dates, odds and net are worked
// out from it by the packages above. A [Change] either applies as a whole or
// returns a fault that names the rule and the place and leaves the build as it
// was. Slices inside an element are replaced, never altered in place, so that
// [Build.Clone] can copy one level deep.
//
// The JSON form of a Build is the form of a scenario file and of an export;
// docs/scenario.md describes it. Lengths are in millimetres, areas in square
// metres, volumes in litres, money in whole units of the build's currency and
// hours in hours; keys say so.
package build
