package rates

import "fettle/build"

// Past is what a finished build of the shop teaches the next one.
type Past struct {
	Work   []WorkPast
	Hands  []HandPast
	Parts  []PartPast
	Events []EventPast
}

// WorkPast is what the finished work of a kind in a stage came to.
type WorkPast struct {
	Kind, Stage string
	Ratios      []float64 // actual ÷ planned
}

// HandPast is what finished work that one person did came to.
type HandPast struct {
	Person build.PersonID
	Name   string // a short name may be another person's on another build
	Kind   string
	Stage  string
	Ratio  float64 // actual ÷ planned
}

// PartPast is by how many working days a part came after the day promised.
type PartPast struct {
	Supplier string
	Days     int // 0 is on the day or before
}

// EventPast is whether something that might happen did.
type EventPast struct {
	What     string
	Happened bool
}

// Share is how far n records of the shop's own outweigh what was stated before
// there were any: 0 is not at all, 1 wholly.
func Share(n int) float64 { return float64(n) / float64(n+prior) }

// Chance is the chance of an event that was put at guess before it was known to
// have happened so many times out of n.
func Chance(guess float64, happened, n int) float64 {
	return (guess*prior + float64(happened)) / float64(n+prior)
}
