// Package demo holds two invented builds. The Larkmere Pedlar is the demo: a
// panel van with all that a build can have, from the day it came in to the day
// the account was given. The Tarnvik Bjelke is small and different in every
// way that a program could take for granted: another kind of vehicle, other
// trades, another currency, another working week.
package demo

import (
	"bytes"
	_ "embed"

	"fettle/internal/scenario"
)

//go:embed pedlar.json
var pedlar []byte

//go:embed bjelke.json
var bjelke []byte

//go:embed blast-sheet.json
var blastSheet []byte

//go:embed blast-sheet.csv
var blastList []byte

// Pedlar returns the demo build.
func Pedlar() (scenario.File, error) { return read(pedlar) }

// Second returns the small build.
func Second() (scenario.File, error) { return read(bjelke) }

// BlastSheet returns the fourteen findings of the morning after the blast as a
// list of changes in JSON, as fettle try reads it.
func BlastSheet() []byte { return bytes.Clone(blastSheet) }

// BlastList returns the same fourteen as the list a shop keeps, in CSV.
func BlastList() []byte { return bytes.Clone(blastList) }

func read(data []byte) (scenario.File, error) {
	return scenario.Read(bytes.NewReader(data), int64(len(data)))
}
