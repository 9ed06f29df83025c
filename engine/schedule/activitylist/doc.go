// Package activitylist makes and crosses activity lists: every activity once,
// none before one that it has to wait for. It serves both searches, of plain
// projects and of a shop's work.
//
// Method. Lists are drawn by regret-biased random sampling about a priority
// rule [Drexl1991] and crossed at two points [Hartmann1998] or at a peak of use
// [Valls2008]. Every draw comes from the caller's generator, in a fixed order,
// so the same seed gives the same lists; products of floats are converted, so
// it does on every machine.
//
// Keys in brackets stand in docs/references.md.
package activitylist

// Index is the number of an activity, from 0.
type Index interface{ ~int | ~int32 }

// Graph says, by activity, what has to come before it and what after. What is
// named twice in one has to be named twice in the other.
type Graph[T Index] struct{ Pred, Succ [][]T }

// Follows says whether j comes directly after i.
func (g Graph[T]) Follows(i, j T) bool {
	for _, p := range g.Pred[j] {
		if p == i {
			return true
		}
	}
	return false
}
