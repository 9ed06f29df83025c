// Package nest lays pieces on a roll so that as little of it as can be is
// used, on hides and sheets so that as few as can be are, or so that given
// material yields most.
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
// On hides and sheets the same search works on what a piece lies on as well:
// outline, holes, keep-outs, zones too poor for it, and the direction of the
// material, with clearance, kerf and margins; locked copies stay. Pieces are
// inserted one by one, then sheets are emptied by trading: a few pieces are laid
// on one of the others where a few give way, again and again. What keeps to a
// pattern of the material goes to its lattice only.
//
// On a strip, what lies free of overlaps is drawn in; anywhere, what the search
// could not part is parted where it can be, by moving all pieces at once: a
// linear program on their convex parts [LiMilenkovic1995]. Pieces whose edges
// balance may fill the strip without a gap; that is tried first.
//
// Limits. A roll has a height and flaws, no outline. Touching pieces collide in
// the search, so an exact fit is closed only by compaction, which turns nothing.
// All pairs of boxes are compared, eight at once. Shapes with many corners are
// searched by simpler ones that hold them, which may cost a thousandth of their
// area. What fits nowhere is told in Result.Reason, with a proof where there is
// one; none is no proof that it fits. A context is looked at between rounds;
// cancelled before the first layout stands, Solve finishes that.
//
// Keys in brackets stand in docs/references.md; docs/engine/nest.md has the
// method and the measured figures.
package nest
