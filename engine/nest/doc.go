// Package nest lays pieces on a roll so that as little of it as can be is
// used.
//
// A Problem is pieces with their shapes, copies and allowed turns, and what to
// cut them from. Solve lays them out; what it returns holds on the shapes as
// they were given, to the last point.
//
// Method. Overlap minimisation with guided weights [Gardeyn2025]: the length
// is fixed a little shorter than what is known to do, and pieces that overlap
// are moved one by one to where the weighted overlap is least, pairs that stay
// in each other's way weighing more and more, until none overlaps. Whether two
// pieces collide is asked of their edges; how much they overlap is judged by
// circles inside them. No no-fit polygons, so holes and any angle come free.
//
// Limits. Only Strip so far: a problem of another kind is refused, and so are
// clearance, kerf, zones, axes, mirroring, groups and locked copies. Touching
// pieces count as free of each other only in the exact check; the search keeps
// a hair between them.
//
// Keys in brackets stand in docs/references.md; docs/engine/nest.md has the
// method and the measured figures.
package nest
