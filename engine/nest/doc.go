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
// circles inside them. No no-fit polygons, so holes, mirroring and many angles
// come free. Check judges the outcome exactly, and Solve returns nothing that
// has not passed it.
//
// Limits. Solve lays out Strip problems only: another kind is refused, and so
// are clearance, kerf, zones, keep-outs, grain, axes, qualities, pairs, groups
// and locked copies; Check knows them all. Any angle means every fifth degree.
// Touching pieces collide in the search, so an exact jigsaw is never closed; a
// hair of height to spare helps. Shapes are not simplified and all pairs of
// boxes are compared: from some hundred copies, or some hundred corners each,
// it slows down. A context is looked at between rounds; cancelled before the
// first layout stands, Solve finishes that.
//
// Keys in brackets stand in docs/references.md; docs/engine/nest.md has the
// method and the measured figures.
package nest
